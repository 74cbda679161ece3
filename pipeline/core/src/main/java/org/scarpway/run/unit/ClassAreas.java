package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.geodata.table.Column;
import org.scarpway.geodata.table.CsvTable;
import org.scarpway.grid.GridSpec;
import org.scarpway.vehicle.ClassCells;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.SlowCause;
import org.scarpway.vehicle.SlowGround;
import org.scarpway.vehicle.Unresolved;

/**
 * Areas of a vehicle's ground: by class, by the limit that closes or the cause that slows it, and
 * without a verdict by the missing data. Shares refer to the ground with a verdict; those of ground
 * without a verdict refer to all cells.
 */
final class ClassAreas {
  /** Ground of a kind as a share of all that it is part of. */
  private record Area(String kind, String name, long cells, long of) {}

  private final GridSpec spec;
  private final long[] halfUsed = new long[32];

  /** Thresholds of the probability of no-go; the table states the ground above each. */
  private static final double[] LIKELY = {0.01, 0.05, 0.1, 0.5};

  private final long[] byNoGo = new long[LIKELY.length];
  private boolean noGoKnown;
  private Unresolved unresolved;
  private SlowGround slow;
  private ClassCells cells;

  ClassAreas(GridSpec spec) {
    this.spec = spec;
  }

  /** Counts rows of a strip, whose first {@code skipRows} rows are halo and are skipped. */
  void add(Mobility m, int skipRows, int rows) {
    byte[] cls = m.cls().values();
    byte[] limit = m.limit().values();
    for (int i = skipRows * spec.cols(); i < (skipRows + rows) * spec.cols(); i++) {
      boolean open = cls[i] == Mobility.GO || cls[i] == Mobility.SLOW;
      if (open && m.margin01().values()[i] < 0.5) {
        halfUsed[limit[i]]++;
      }
    }
    m.noGo01().ifPresent(p -> addNoGo(p.values(), skipRows, rows));
  }

  private void addNoGo(float[] noGo01, int skipRows, int rows) {
    noGoKnown = true;
    for (int i = skipRows * spec.cols(); i < (skipRows + rows) * spec.cols(); i++) {
      for (int k = 0; k < LIKELY.length; k++) {
        byNoGo[k] += noGo01[i] > LIKELY[k] ? 1 : 0;
      }
    }
  }

  /**
   * Sets the results for all rows together.
   *
   * @param unresolved limits that the cells do not resolve, null if they resolve every limit
   */
  void of(Unresolved unresolved, SlowGround slow, ClassCells cells) {
    this.unresolved = unresolved;
    this.slow = slow;
    this.cells = cells;
  }

  /**
   * Number of cells that no limit closes. Cells closed by the rule on unresolved limits, which has
   * a code of its own, are included.
   */
  private long open() {
    return cells.count(Mobility.GO)
        + cells.count(Mobility.SLOW)
        + cells.count(Mobility.NO_GO, Limit.UNRESOLVED.code());
  }

  void write(Path file) {
    long known = cells.judged();
    List<Area> rows = new ArrayList<>();
    rows.add(new Area("class", "go", cells.count(Mobility.GO), known));
    rows.add(new Area("class", "slow", cells.count(Mobility.SLOW), known));
    rows.add(new Area("class", "no-go", cells.count(Mobility.NO_GO), known));
    for (Limit l : Limit.values()) {
      long n = cells.count(Mobility.NO_GO, l.code());
      if (n > 0) {
        rows.add(new Area("no-go by limit", l.label(), n, known));
      }
    }
    for (SlowCause c : SlowCause.values()) {
      if (slow.cells(c) > 0) {
        rows.add(new Area("slow by cause", c.label(), slow.cells(c), known));
      }
    }
    for (int k = 0; noGoKnown && k < LIKELY.length; k++) {
      rows.add(new Area("p(no-go)", "above " + LIKELY[k], byNoGo[k], known));
    }
    if (unresolved != null) {
      for (Limit l : unresolved.limits()) {
        rows.add(new Area("not resolved", l.label(), open(), known));
        rows.add(
            new Area("not resolved and more than half used", l.label(), halfUsed[l.code()], known));
      }
    }
    for (Limit l : Limit.values()) {
      long n = cells.count(0, l.code());
      if (n > 0) {
        rows.add(new Area("no verdict", l.label(), n, cells.all()));
      }
    }
    CsvTable.write(
        file,
        List.of(
            Column.text("kind", Area::kind),
            Column.text("name", Area::name),
            Column.whole("cells", Area::cells),
            Column.number("area_km2", 6, a -> a.cells() * spec.cellAreaM2() / 1e6),
            Column.number("share_pct", 3, a -> 100.0 * a.cells() / a.of())),
        rows);
  }
}

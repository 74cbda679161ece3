package org.scarpway.vehicle;

import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Ints;
import org.scarpway.stage.Memory;
import org.scarpway.stage.ScratchFile;

/**
 * Assembles a field larger than memory from the fields of strips of whole rows, north first, and
 * stores it in a scratch file. The result equals the field computed on the whole grid at once.
 */
public final class FieldRows {
  private final GridSpec spec;
  private final Floats gradEast;
  private final Floats gradNorth;
  private final Memory memory;
  private final ScratchFile file;
  private final Ints allowed;
  private final TackedHeadings.Finds tacked = new TackedHeadings.Finds();
  private Floats speedCapMs;
  private Floats detour;
  private Bytes soil;
  private GradeTable[] tables;
  private int done;

  /**
   * @param gradEast gradient of the whole grid, as gradNorth; shared by the fields of several
   *     movers
   */
  public FieldRows(Memory memory, GridSpec spec, Floats gradEast, Floats gradNorth) {
    this.memory = memory;
    this.file = memory.scratch();
    this.spec = spec;
    this.gradEast = gradEast;
    this.gradNorth = gradNorth;
    this.allowed = Ints.of(spec.cells(), file);
  }

  /**
   * Appends the next rows.
   *
   * @param skipRows halo rows at the start of the strip, which are skipped
   * @param rows number of rows to append
   */
  public void add(TraversalCost strip, int skipRows, int rows) {
    int skip = skipRows * spec.cols();
    int n = rows * spec.cols();
    tables = strip.tables();
    speedCapMs = strip.capped() && speedCapMs == null ? all(Float.POSITIVE_INFINITY) : speedCapMs;
    detour = strip.detoured() && detour == null ? all(1) : detour;
    for (int i = 0; i < n; i++) {
      allowed.set(done + i, strip.allowed(skip + i));
    }
    if (strip.capped()) {
      for (int i = 0; i < n; i++) {
        speedCapMs.set(done + i, strip.speedCapMs(skip + i));
      }
    }
    if (strip.detoured()) {
      for (int i = 0; i < n; i++) {
        detour.set(done + i, (float) strip.detour(skip + i));
      }
    }
    if (strip.soils() > 1) {
      // Every strip has the tables of all soils, in the same order.
      soil = soil == null ? Bytes.of(spec.cells(), file) : soil;
      for (int i = 0; i < n; i++) {
        soil.set(done + i, (byte) strip.soil(skip + i));
      }
    }
    if (strip.tacks() != null) {
      strip.tacks().addTo(tacked, skip, skip + n, done - skip);
    }
    done += n;
  }

  /** True if all rows have been added. */
  public boolean isWhole() {
    return done == spec.cells();
  }

  private Floats all(float value) {
    Floats layer = Floats.of(spec.cells(), file);
    layer.fill(value);
    return layer;
  }

  /** Returns the field; all rows must have been added. */
  public TraversalCost field() {
    if (!isWhole()) {
      throw new IllegalStateException(done + " of " + spec.cells() + " cells have come");
    }
    return new TraversalCost(
        memory,
        spec,
        allowed,
        gradEast,
        gradNorth,
        speedCapMs,
        detour,
        TackedHeadings.of(List.of(tacked)),
        soil,
        tables);
  }
}

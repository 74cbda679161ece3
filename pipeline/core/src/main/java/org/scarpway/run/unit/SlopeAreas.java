package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.scarpway.geodata.table.Column;
import org.scarpway.geodata.table.CsvTable;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.terrain.SlopeClass;

/** The area of ground in each slope class. */
final class SlopeAreas {
  private final GridSpec spec;
  private final long[] cells = new long[SlopeClass.values().length];

  SlopeAreas(GridSpec spec) {
    this.spec = spec;
  }

  /** Counts rows of a strip, whose first {@code skipRows} rows are halo and are skipped. */
  void add(FloatGrid slopeDeg, int skipRows, int rows) {
    int from = skipRows * spec.cols();
    SlopeClass.count(slopeDeg.values(), from, from + rows * spec.cols(), cells);
  }

  void write(Path file) {
    long known = Arrays.stream(cells).sum();
    CsvTable.write(
        file,
        List.of(
            Column.text("slope_class", SlopeClass::label),
            Column.number("from_pct", 0, SlopeClass::fromPct),
            Column.number("to_pct", 0, SlopeClass::toPct),
            Column.text("terrain_class", SlopeClass::terrain),
            Column.whole("cells", c -> cells[c.ordinal()]),
            Column.number("area_km2", 6, c -> cells[c.ordinal()] * spec.cellAreaM2() / 1e6),
            Column.number("share_pct", 3, c -> 100.0 * cells[c.ordinal()] / known)),
        List.of(SlopeClass.values()));
  }
}

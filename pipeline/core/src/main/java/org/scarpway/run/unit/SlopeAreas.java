package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
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
    List<List<Object>> rows = new ArrayList<>();
    for (SlopeClass c : SlopeClass.values()) {
      long n = cells[c.ordinal()];
      rows.add(
          List.of(
              c.label(),
              c.fromPct(),
              c.toPct(),
              c.terrain(),
              n,
              n * spec.cellAreaM2() / 1e6,
              known == 0 ? Double.NaN : 100.0 * n / known));
    }
    CsvTable.write(
        file,
        List.of(
            CsvTable.Column.text("slope_class"),
            CsvTable.Column.number("from_pct", 0),
            CsvTable.Column.number("to_pct", 0),
            CsvTable.Column.text("terrain_class"),
            CsvTable.Column.text("cells"),
            CsvTable.Column.number("area_km2", 6),
            CsvTable.Column.number("share_pct", 3)),
        rows);
  }
}

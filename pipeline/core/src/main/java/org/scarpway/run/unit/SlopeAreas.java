package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
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
  private final boolean reconnaissance;
  private final long[] cells = new long[SlopeClass.values().length];

  /**
   * @param reconnaissance true if the table names terrain classes for vehicles
   */
  SlopeAreas(GridSpec spec, boolean reconnaissance) {
    this.spec = spec;
    this.reconnaissance = reconnaissance;
  }

  /** Counts rows of a strip, whose first {@code skipRows} rows are halo and are skipped. */
  void add(FloatGrid slopeDeg, int skipRows, int rows) {
    int from = skipRows * spec.cols();
    SlopeClass.count(slopeDeg.values(), from, from + rows * spec.cols(), cells);
  }

  void write(Path file) {
    long known = Arrays.stream(cells).sum();
    List<Column<SlopeClass>> columns = new ArrayList<>();
    columns.add(Column.text("slope_class", SlopeClass::label));
    columns.add(Column.number("from_pct", 0, SlopeClass::fromPct));
    columns.add(Column.number("to_pct", 0, SlopeClass::toPct));
    if (reconnaissance) {
      columns.add(Column.text("terrain_class", SlopeClass::terrain));
    }
    columns.add(Column.whole("cells", c -> cells[c.ordinal()]));
    columns.add(Column.number("area_km2", 6, c -> cells[c.ordinal()] * spec.cellAreaM2() / 1e6));
    columns.add(Column.number("share_pct", 3, c -> 100.0 * cells[c.ordinal()] / known));
    CsvTable.write(file, columns, List.of(SlopeClass.values()));
  }
}

package org.scarpway.run.product;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.table.CsvTable;
import org.scarpway.geodata.table.CsvTable.Column;

/**
 * Tables with places: each pair of columns {@code x_m, y_m} (metres on the map of the products) is
 * followed by the same place as {@code x, y} in the elevation model's own reference system and
 * unit, which is how a job's places are written.
 */
public final class PlaceTable {
  private static final String X = "x_m";
  private static final String Y = "y_m";

  private PlaceTable() {}

  /**
   * @param frame of the elevation model; null if places are known in no other system
   */
  public static void write(
      Path file, List<Column> columns, List<List<Object>> rows, PlaceFrame frame) {
    if (frame == null) {
      CsvTable.write(file, columns, rows);
      return;
    }
    int digits = frame.raster().isGeographic() ? 8 : 3;
    List<Column> all = new ArrayList<>();
    List<List<Object>> filled = new ArrayList<>();
    rows.forEach(row -> filled.add(new ArrayList<>()));
    for (int i = 0; i < columns.size(); i++) {
      String name = columns.get(i).header();
      all.add(columns.get(i));
      for (int r = 0; r < rows.size(); r++) {
        filled.get(r).add(rows.get(r).get(i));
      }
      if (!name.endsWith(Y) || i == 0 || !columns.get(i - 1).header().endsWith(X)) {
        continue;
      }
      String before = name.substring(0, name.length() - Y.length());
      all.add(Column.number(before + "x", digits));
      all.add(Column.number(before + "y", digits));
      for (int r = 0; r < rows.size(); r++) {
        double xM = (Double) rows.get(r).get(i - 1);
        double yM = (Double) rows.get(r).get(i);
        double[] own =
            Double.isFinite(xM + yM)
                ? frame.toRaster(xM, yM)
                : new double[] {Double.NaN, Double.NaN};
        filled.get(r).add(own[0]);
        filled.get(r).add(own[1]);
      }
    }
    CsvTable.write(file, all, filled);
  }
}

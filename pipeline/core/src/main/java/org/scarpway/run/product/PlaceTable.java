package org.scarpway.run.product;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.table.Column;
import org.scarpway.geodata.table.CsvTable;

/**
 * Tables with places: each pair of columns {@code x_m, y_m} (metres on the map of the products) is
 * followed by the same place as {@code x, y} in the elevation model's own reference system and
 * unit, which is how a job's places are written, and as {@code lon_deg, lat_deg} where longitude
 * and latitude are known: WGS 84 on Earth, the body's own elsewhere.
 */
public final class PlaceTable {
  private static final String X = "x_m";
  private static final String Y = "y_m";

  private PlaceTable() {}

  /**
   * @param frame of the elevation model; null if places are known in no other system
   * @throws IllegalArgumentException if a y stands without its x
   */
  public static <R> void write(Path file, List<Column<R>> columns, List<R> rows, PlaceFrame frame) {
    CsvTable.write(file, frame == null ? columns : withOwnPlaces(columns, frame), rows);
  }

  private static <R> List<Column<R>> withOwnPlaces(List<Column<R>> columns, PlaceFrame frame) {
    int digits = frame.raster().isGeographic() ? 8 : 3;
    List<Column<R>> all = new ArrayList<>();
    for (Column<R> y : columns) {
      all.add(y);
      String heading = y.heading();
      if (heading.equals(Y) || heading.endsWith("_" + Y)) {
        String before = heading.substring(0, heading.length() - Y.length());
        Column<R> x = named(before + X, columns);
        all.add(Column.number(before + "x", digits, row -> own(x, y, row, frame)[0]));
        all.add(Column.number(before + "y", digits, row -> own(x, y, row, frame)[1]));
        if (frame.world().known()) {
          all.add(Column.number(before + "lon_deg", 8, row -> lonLat(x, y, row, frame)[0]));
          all.add(Column.number(before + "lat_deg", 8, row -> lonLat(x, y, row, frame)[1]));
        }
      }
    }
    return all;
  }

  private static <R> Column<R> named(String heading, List<Column<R>> columns) {
    return columns.stream()
        .filter(c -> c.heading().equals(heading))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no column " + heading));
  }

  private static <R> double[] lonLat(Column<R> x, Column<R> y, R row, PlaceFrame frame) {
    double xM = x.value(row);
    double yM = y.value(row);
    return Double.isFinite(xM + yM)
        ? frame.world().toLonLat(xM, yM)
        : new double[] {Double.NaN, Double.NaN};
  }

  private static <R> double[] own(Column<R> x, Column<R> y, R row, PlaceFrame frame) {
    double xM = x.value(row);
    double yM = y.value(row);
    return Double.isFinite(xM + yM)
        ? frame.toRaster(xM, yM)
        : new double[] {Double.NaN, Double.NaN};
  }
}

package org.scarpway.geodata.raster;

import java.nio.file.Path;
import java.util.List;
import org.gdal.osr.SpatialReference;
import org.scarpway.geodata.crs.WktTree;
import org.scarpway.stage.UserError;

/**
 * Conversion of a coordinate reference system between GDAL and WKT 1.
 *
 * @param wkt horizontal part, OGC 01-009 names, without AXIS: axis order is always east, north or
 *     longitude, latitude here; empty if there is none
 * @param verticalUnit unit of a vertical part, else empty
 */
record GdalCrs(String wkt, String verticalUnit) {

  static GdalCrs of(Path file, SpatialReference crs) {
    if (crs == null) {
      return new GdalCrs("", "");
    }
    try {
      WktTree all = WktTree.parse(text(crs));
      if (!all.keyword().equals("COMPD_CS")) {
        return new GdalCrs(all.without("AXIS").toString(), "");
      }
      WktTree vertical = all.first("VERT_CS");
      WktTree unit = vertical == null ? null : vertical.first("UNIT");
      WktTree horizontal = all.children().get(0);
      return new GdalCrs(horizontal.without("AXIS").toString(), unit == null ? "" : unit.text(0));
    } catch (IllegalArgumentException e) {
      throw UserError.of(
          file.toString(),
          "its coordinate reference system has no WKT 1 form (" + e.getMessage() + ")",
          "a projected or geographic system",
          "reproject it, for example with gdalwarp -t_srs");
    }
  }

  /** Parses WKT 1 text. */
  static SpatialReference parse(String wkt) {
    SpatialReference crs = new SpatialReference();
    int rc;
    try {
      rc = crs.ImportFromWkt(WktTree.parse(wkt).without("AXIS").toString());
    } catch (RuntimeException e) {
      throw unusable(wkt, e.getMessage());
    }
    if (rc != 0) {
      throw unusable(wkt, GdalRuntime.message());
    }
    return crs;
  }

  /**
   * True if ellipsoid, projection and parameters agree; names of axes and authorities are ignored.
   */
  static boolean same(SpatialReference a, SpatialReference b) {
    SpatialReference plainA = parse(text(a));
    SpatialReference plainB = parse(text(b));
    return plainA.IsSame(plainB, GdalRuntime.words(List.of("CRITERION=EQUIVALENT"))) == 1;
  }

  private static String text(SpatialReference crs) {
    String[] out = new String[1];
    int rc;
    try {
      rc = crs.ExportToWkt(out, GdalRuntime.words(List.of("FORMAT=WKT1_GDAL")));
    } catch (RuntimeException e) {
      throw new IllegalArgumentException(GdalRuntime.message(), e);
    }
    if (rc != 0 || out[0] == null || out[0].isBlank()) {
      throw new IllegalArgumentException(GdalRuntime.message());
    }
    return out[0];
  }

  private static UserError unusable(String wkt, String why) {
    return UserError.of(
        "coordinate reference system",
        "cannot be used (" + why + "): " + (wkt.length() > 80 ? wkt.substring(0, 80) + "..." : wkt),
        "OGC WKT 1 text",
        "reproject the elevation model to a projected system in metres");
  }
}

package org.scarpway.geodata.vector;

import java.nio.file.Path;
import java.util.List;
import org.locationtech.jts.geom.Geometry;

/**
 * Polygons read from a user's file, valid by OGC Simple Features.
 *
 * @param file the file that was read
 * @param polygons Polygon or MultiPolygon, one per feature
 * @param words what the file says of each
 * @param placement how the coordinates are to be interpreted
 * @param crsWkt OGC WKT 1 text of the file's own CRS; empty if the file names none
 * @param warnings repairs and omissions, one line each
 */
public record PolygonFile(
    Path file,
    List<Geometry> polygons,
    List<AreaWords> words,
    Placement placement,
    String crsWkt,
    List<String> warnings) {

  /** Interpretation of the coordinates in the file. */
  public enum Placement {
    /** Longitude and latitude in degrees, in this order. */
    LON_LAT,
    /** Metres in the CRS that {@link PolygonFile#crsWkt()} names. */
    FILE_CRS,
    /** Metres in the CRS of the elevation model; the file names no CRS of its own. */
    DEM_CRS
  }

  /** Largest number of vertices in one file. */
  public static final int MAX_VERTICES = 2_000_000;

  /** Copies the lists. */
  public PolygonFile {
    polygons = List.copyOf(polygons);
    words = List.copyOf(words);
    warnings = List.copyOf(warnings);
  }
}

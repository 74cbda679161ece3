package org.scarpway.geodata;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.locationtech.jts.geom.Geometry;

/**
 * Polygons read from a user's file, valid by OGC Simple Features.
 *
 * @param polygons Polygon or MultiPolygon, one per feature
 * @param placement what the coordinates are
 * @param crsWkt OGC WKT 1 text of the file's own CRS, empty where the file names none
 * @param warnings what was mended or left out, one line each
 */
public record PolygonFile(
    Path file, List<Geometry> polygons, Placement placement, String crsWkt, List<String> warnings) {

  /** How coordinates in the file are meant. */
  public enum Placement {
    /** Longitude and latitude in degrees, in this order. */
    LON_LAT,
    /** Metres in the CRS that {@link PolygonFile#crsWkt()} names. */
    FILE_CRS,
    /** Metres in the CRS of the elevation model; the file names no CRS of its own. */
    DEM_CRS
  }

  /** Limit on the vertices of one file. */
  public static final int MAX_VERTICES = 2_000_000;

  private static final byte[] SQLITE = "SQLite format 3\0".getBytes(StandardCharsets.US_ASCII);

  public PolygonFile {
    polygons = List.copyOf(polygons);
    warnings = List.copyOf(warnings);
  }

  /** Reads a GeoPackage or GeoJSON file, told apart by content and not by name. */
  public static PolygonFile read(Path file) {
    InputFile.require(file, GeoPackage.MAX_BYTES, "a GeoPackage or GeoJSON file");
    try (InputStream in = Files.newInputStream(file)) {
      return Arrays.equals(in.readNBytes(SQLITE.length), SQLITE)
          ? GeoPackage.readPolygons(file)
          : GeoJson.readPolygons(file);
    } catch (IOException e) {
      throw InputFile.unreadable(file, "a GeoPackage or GeoJSON file", e);
    }
  }
}

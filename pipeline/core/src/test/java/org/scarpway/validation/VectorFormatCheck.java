package org.scarpway.validation;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.algorithm.Orientation;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.io.WKTReader;
import org.scarpway.geodata.vector.Feature;
import org.scarpway.geodata.vector.GeoJson;
import org.scarpway.geodata.vector.GeoPackage;
import org.scarpway.geodata.vector.LayerData;

/** What the open vector standards ask of a file and a program can tell. */
class VectorFormatCheck {
  private static final String RFC7946 = "RFC 7946 (2016)";
  private static final String GPKG = "OGC 12-128 GeoPackage 1.3";

  @TempDir Path dir;

  /** Wound the wrong way round on purpose, with a hole. */
  private static Geometry area() throws Exception {
    return new WKTReader()
        .read("POLYGON ((10 1, 10 5, 14 5, 14 1, 10 1), (11 2, 12 2, 12 3.123456789, 11 2))");
  }

  @Test
  void geoJson() throws Exception {
    Path file = dir.resolve("a.geojson");
    GeoJson.write(file, List.of(new Feature(area(), Map.of("name", "a"))), "earth", 0);
    JsonNode top = new ObjectMapper().readTree(Files.readString(file));
    JsonNode rings = top.at("/features/0/geometry/coordinates");
    Coordinate[] shell = ring(rings.get(0));
    Validation.holds(
        "9-G1-geojson-closed",
        "first and last position of a ring are equal",
        RFC7946 + " 3.1.6",
        "V",
        shell.length == 5 && shell[0].equals2D(shell[4]));
    Validation.holds(
        "9-G2-geojson-winding",
        "exterior counter-clockwise, hole clockwise",
        RFC7946 + " 3.1.6",
        "V",
        Orientation.isCCW(shell) && !Orientation.isCCW(ring(rings.get(1))));
    Validation.holds("9-G3-geojson-crs", "no crs member", RFC7946 + " 4", "V", !top.has("crs"));
    Validation.near(
        "9-G4-geojson-precision",
        "latitude kept to 7 decimals (deg)",
        RFC7946 + " 11.2",
        "V",
        3.1234568,
        rings.get(1).get(1).get(1).asDouble(),
        0);
    GeoJson.write(
        file,
        List.of(
            new Feature(
                new WKTReader().read("POLYGON ((177 -20, -178 -20, -178 -16, 177 -16, 177 -20))"),
                Map.of())),
        "earth",
        0);
    JsonNode cut = new ObjectMapper().readTree(Files.readString(file)).at("/features/0/geometry");
    Validation.holds(
        "9-G5-geojson-antimeridian",
        "an area across 180 degrees (bounding box example of 5.2) is cut in two",
        RFC7946 + " 3.1.9",
        "V",
        cut.get("type").asText().equals("MultiPolygon") && cut.get("coordinates").size() == 2);
  }

  private static Coordinate[] ring(JsonNode positions) {
    Coordinate[] c = new Coordinate[positions.size()];
    for (int i = 0; i < c.length; i++) {
      c[i] = new Coordinate(positions.get(i).get(0).asDouble(), positions.get(i).get(1).asDouble());
    }
    return c;
  }

  @Test
  void geoPackage() throws Exception {
    Path file = dir.resolve("a.gpkg");
    GeoPackage.write(
        file,
        "LOCAL_CS[\"m\",UNIT[\"metre\",1]]",
        "local",
        List.of(new LayerData("a", "POLYGON", List.of(new Feature(area(), Map.of())))));
    try (Connection db = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement s = db.createStatement()) {
      Validation.near(
          "9-P1-gpkg-application-id",
          "application_id is GPKG in ASCII",
          GPKG,
          "M",
          0x47504B47,
          number(s, "PRAGMA application_id"),
          0);
      Validation.near(
          "9-P2-gpkg-version",
          "user_version",
          GPKG,
          "M",
          10300,
          number(s, "PRAGMA user_version"),
          0);
      Validation.near(
          "9-P3-gpkg-srs",
          "required rows -1, 0 and 4326 of gpkg_spatial_ref_sys",
          GPKG,
          "M",
          3,
          number(s, "SELECT count(*) FROM gpkg_spatial_ref_sys WHERE srs_id IN (-1,0,4326)"),
          0);
      Validation.holds(
          "9-P4-gpkg-integrity",
          "integrity_check ok, foreign_key_check empty",
          GPKG,
          "M",
          text(s, "PRAGMA integrity_check").equals("ok")
              && !s.executeQuery("PRAGMA foreign_key_check").next());
    }
  }

  private static double number(Statement s, String sql) throws Exception {
    return Double.parseDouble(text(s, sql));
  }

  private static String text(Statement s, String sql) throws Exception {
    try (ResultSet r = s.executeQuery(sql)) {
      r.next();
      return r.getString(1);
    }
  }
}

package org.scarpway.geodata.vector;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.locationtech.jts.algorithm.Orientation;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.io.WKTReader;
import org.scarpway.geodata.vector.PolygonFile.Placement;
import org.scarpway.stage.UserError;

class GeoJsonTest {
  private static final String SQUARE = "[[[0,0],[4,0],[4,4],[0,4],[0,0]]]";

  @TempDir Path dir;

  private static Geometry wkt(String text) throws Exception {
    return new WKTReader().read(text);
  }

  private Path write(String body, Geometry g) {
    Path file = dir.resolve("w.geojson");
    GeoJson.write(file, List.of(new Feature(g, Map.of("name", "a"))), body, 0);
    return file;
  }

  private Path text(String json) throws Exception {
    return Files.writeString(dir.resolve("r.geojson"), json);
  }

  @Test
  void windsAndRoundsAsRfc7946Asks() throws Exception {
    Geometry clockwise =
        wkt("POLYGON ((0 0, 0 4, 4 4, 4 0, 0 0), (1 1, 2 1, 2 2.123456789, 1 2, 1 1))");
    Path file = write("earth", clockwise);
    JsonNode top = new ObjectMapper().readTree(Files.readString(file));
    assertFalse(top.has("crs"));
    assertFalse(top.has(GeoJson.BODY));
    JsonNode rings = top.at("/features/0/geometry/coordinates");
    assertTrue(Orientation.isCCW(ring(rings.get(0))));
    assertFalse(Orientation.isCCW(ring(rings.get(1))));
    assertEquals(rings.get(0).get(0), rings.get(0).get(4));
    assertTrue(Files.readString(file).contains("2.1234568"));
    PolygonFile back = GeoJsonPolygons.read(file);
    assertEquals(Placement.LON_LAT, back.placement());
    assertTrue(
        back.polygons().get(0).equalsExact(clockwise.norm(), 1e-7)
            || back.polygons().get(0).norm().equalsExact(clockwise.norm(), 1e-7));
  }

  private static Coordinate[] ring(JsonNode positions) {
    Coordinate[] c = new Coordinate[positions.size()];
    for (int i = 0; i < c.length; i++) {
      c[i] = new Coordinate(positions.get(i).get(0).asDouble(), positions.get(i).get(1).asDouble());
    }
    return c;
  }

  @Test
  void namesOtherBodiesAndKeepsAttributeOrder() throws Exception {
    Map<String, Object> a = new LinkedHashMap<>();
    a.put("zeta", 0.1f + 0.0);
    a.put("alpha", 3);
    a.put("gap", Double.NaN);
    Path file = dir.resolve("w.geojson");
    GeoJson.write(file, List.of(new Feature(wkt("POINT (10 -86.5)"), a)), "moon", 0);
    String json = Files.readString(file);
    assertTrue(json.contains("\"scarpway:body\":\"moon\""), json);
    assertTrue(json.contains("{\"zeta\":0.100000001,\"alpha\":3,\"gap\":null}"), json);
    byte[] first = Files.readAllBytes(file);
    GeoJson.write(file, List.of(new Feature(wkt("POINT (10 -86.5)"), a)), "moon", 0);
    assertArrayEquals(first, Files.readAllBytes(file));
  }

  @Test
  void cutsAtTheAntimeridian() throws Exception {
    Path file = write("earth", wkt("POLYGON ((177 -20, -178 -20, -178 -16, 177 -16, 177 -20))"));
    PolygonFile back = GeoJsonPolygons.read(file);
    assertEquals(2, back.polygons().get(0).getNumGeometries());
    assertEquals(5 * 4, back.polygons().get(0).getArea(), 1e-9);
    Path line = write("earth", wkt("LINESTRING (179 10, -179 12)"));
    assertTrue(Files.readString(line).contains("[[179,10],[180,11]],[[-180,11],[-179,12]]"));
  }

  /** Outlines of cells whose borders lie on the meridian of 180 degrees, touch it or cross it. */
  @Test
  void outlinesAlongTheAntimeridianKeepTheirArea() throws Exception {
    Random random = new Random(180);
    for (int n = 0; n < 200; n++) {
      Geometry cells = wkt("POLYGON EMPTY");
      for (int i = 0; i < 1 + random.nextInt(12); i++) {
        int x = 177 + random.nextInt(6);
        int y = random.nextInt(5);
        Envelope cell = new Envelope(x, x + 1, y, y + 1);
        cells = cells.union(cells.getFactory().toGeometry(cell));
      }
      double area = cells.getArea();
      boolean west = random.nextBoolean();
      for (Coordinate c : cells.getCoordinates()) {
        c.x -= c.x > 180 || (west && c.x == 180) ? 360 : 0;
      }
      double got = 0;
      for (Geometry back : GeoJsonPolygons.read(write("earth", cells)).polygons()) {
        got += back.getArea();
        assertTrue(back.isValid(), back.toText());
      }
      assertEquals(area, got, 1e-9, cells.toText());
    }
  }

  @Test
  void aRingRoundThePoleReachesIt() throws Exception {
    Geometry ring = wkt("POLYGON ((-135 -86, -45 -86, 45 -86, 135 -86, -135 -86))");
    PolygonFile back = GeoJsonPolygons.read(write("moon", ring));
    assertEquals(360 * 4, back.polygons().get(0).getArea(), 1e-6);
    Geometry annulus =
        wkt(
            "POLYGON ((-135 -86, -45 -86, 45 -86, 135 -86, -135 -86),"
                + "(-135 -88, -45 -88, 45 -88, 135 -88, -135 -88))");
    back = GeoJsonPolygons.read(write("moon", annulus));
    assertEquals(360 * 2, back.polygons().get(0).getArea(), 1e-6);
  }

  @Test
  void metresAreRefusedAsDegrees() throws Exception {
    Geometry metres = wkt("POINT (71000 99000)");
    assertThrows(IllegalArgumentException.class, () -> write("moon", metres));
  }

  @Test
  void readsMembersInAnyOrderAndNestedCollections() throws Exception {
    PolygonFile f =
        GeoJsonPolygons.read(
            text(
                "{\"features\":[{\"geometry\":{\"coordinates\":"
                    + SQUARE
                    + ",\"type\":\"Polygon\"},\"properties\":{\"deep\":[{\"x\":1}]},\"type\":\"Feature\"},"
                    + "{\"type\":\"Feature\",\"geometry\":null,\"properties\":null},"
                    + "{\"type\":\"Feature\",\"geometry\":{\"type\":\"GeometryCollection\",\"geometries\":["
                    + "{\"type\":\"MultiPolygon\",\"coordinates\":["
                    + SQUARE
                    + "]}]}}],\"type\":\"FeatureCollection\",\"scarpway:coordinates\":\"projected\"}"));
    assertEquals(2, f.polygons().size());
    assertEquals(Placement.DEM_CRS, f.placement());
    assertEquals(1, f.warnings().size());
    assertTrue(f.warnings().get(0).contains("feature 2"), f.warnings().get(0));
  }

  @Test
  void mendsCrossingRingsAndSaysSo() throws Exception {
    PolygonFile f =
        PolygonReader.read(
            text("{\"type\":\"Polygon\",\"coordinates\":[[[0,0],[4,4],[4,0],[0,4],[0,0]]]}"));
    assertTrue(f.polygons().get(0).isValid());
    assertEquals(8, f.polygons().get(0).getArea(), 1e-9);
    assertTrue(f.warnings().get(0).contains("mended"), f.warnings().get(0));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "not json                              | not JSON",
        "{\"type\":\"Polygon\"                 | not JSON",
        "[1,2]                                 | expected an object",
        "{}                                    | has no type",
        "{\"type\":\"Polygon\"}                | missing or not nested deep enough",
        "{\"type\":\"Point\",\"coordinates\":[1,2]} | is a Point",
        "{\"type\":\"Polygon\",\"type\":\"Point\"} | Duplicate",
        "{\"type\":\"Polygon\",\"coordinates\":[[[0,0],[4,0],[4,4],[0,4]]]} | not closed",
        "{\"type\":\"Polygon\",\"coordinates\":[[[0,0],[4,0],[0,0]]]} | 3 positions",
        "{\"type\":\"Polygon\",\"coordinates\":[[0,0],[4,0],[4,4],[0,0]]} | not nested deep enough",
        "{\"type\":\"Polygon\",\"coordinates\":[[[[0,0],[4,0],[4,4],[0,0]]]]} | positions",
        "{\"type\":\"Polygon\",\"coordinates\":[[[0,0],[4,0],[4,NaN],[0,0]]]} | not JSON",
        "{\"type\":\"Polygon\",\"coordinates\":[[[0,0],[4,0],[4,1e999],[0,0]]]} | position 4.0",
        "{\"type\":\"Polygon\",\"coordinates\":[[[0],[4,0],[4,4],[0]]]} | two or three numbers",
        "{\"type\":\"Polygon\",\"coordinates\":[[[0,\"1\"],[4,0],[4,4],[0,0]]]} | two or three numbers",
        "{\"type\":\"Polygon\",\"coordinates\":[[[0,0],[500000,0],[4,4],[0,0]]]} | position 500000.0",
        "{\"type\":\"Polygon\",\"coordinates\":[[[0,95],[1,0],[4,4],[0,95]]]} | position 0.0, 95.0",
        "{\"type\":\"Polygon\",\"coordinates\":7} | expected an array",
        "{\"type\":\"Polygon\",\"coordinates\":[[[0,0],[0,0],[0,0],[0,0]]]} | rings that do not cross",
        "{\"type\":\"FeatureCollection\",\"features\":{}} | expected an array",
        "{\"type\":\"FeatureCollection\",\"features\":[7]} | expected an object",
        "{\"crs\":{\"type\":\"name\",\"properties\":{\"name\":\"EPSG:32633\"}}} | EPSG:32633",
        "{\"scarpway:coordinates\":\"metres\"} | \"projected\" or \"lon-lat\"",
        "{\"type\":\"FeatureCollection\",\"features\":[]} {} | goes on",
      })
  void oneClearLineForBadText(String json, String expected) throws Exception {
    Path file = text(json);
    UserError e = assertThrows(UserError.class, () -> PolygonReader.read(file));
    assertTrue(e.getMessage().contains(expected), e.getMessage());
    assertTrue(e.getMessage().startsWith(file.toString()), e.getMessage());
    assertEquals(1, e.getMessage().lines().count(), e.getMessage());
    assertWords(e);
  }

  /** No names of classes, methods, settings or tokens of the parser. */
  private static void assertWords(UserError e) {
    String m = e.getMessage().substring(e.getMessage().indexOf(".geojson"));
    assertFalse(m.matches("(?s).*(`|[A-Z]+_[A-Z]|\\w\\.\\w+\\(|[a-z][A-Z]\\w+\\.).*"), m);
  }

  @Test
  void boundsDepthAndVertices() throws Exception {
    Path deep = text("{\"type\":\"Polygon\",\"coordinates\":" + "[".repeat(100_000));
    assertWords(assertThrows(UserError.class, () -> PolygonReader.read(deep)));
    Path deepProperty =
        text("{\"type\":\"Feature\",\"properties\":" + "{\"a\":".repeat(100_000) + "1");
    assertWords(assertThrows(UserError.class, () -> PolygonReader.read(deepProperty)));
    Path many =
        text(
            "{\"type\":\"Polygon\",\"coordinates\":[["
                + "[0,0],".repeat(PolygonFile.MAX_VERTICES)
                + "[0,0]]]}");
    UserError e = assertThrows(UserError.class, () -> PolygonReader.read(many));
    assertTrue(e.getMessage().contains("vertices"), e.getMessage());
  }
}

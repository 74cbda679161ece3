package org.scarpway.geodata.vector;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.Statement;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.stage.UserError;

/** Things within things within things: read or refused in one line, on however short a stack. */
class NestedInputTest {
  private static final long SMALL_STACK = 256 << 10;

  @TempDir Path dir;

  private static void readsOrRefuses(Runnable reader) throws InterruptedException {
    AtomicReference<Throwable> ended = new AtomicReference<>();
    Thread t =
        new Thread(
            null,
            () -> {
              try {
                reader.run();
              } catch (UserError e) {
                assertEquals(1, e.getMessage().lines().count(), e.getMessage());
                assertTrue(e.getMessage().length() < 1000, e.getMessage());
              }
            },
            "small stack",
            SMALL_STACK);
    t.setUncaughtExceptionHandler((thread, e) -> ended.set(e));
    t.start();
    t.join();
    assertNull(ended.get(), () -> String.valueOf(ended.get()));
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 10, 63, 64, 65, 1000, 5000, 200_000})
  void collectionsOfAGeoPackage(int depth) throws Exception {
    for (int kind : new int[] {4, 5, 6, 7, 3, 15}) {
      ByteArrayOutputStream wkb = new ByteArrayOutputStream();
      for (int i = 0; i < depth; i++) {
        ByteBuffer b = ByteBuffer.allocate(9).order(ByteOrder.LITTLE_ENDIAN);
        wkb.write(b.put((byte) 1).putInt(kind).putInt(1).array());
      }
      Path file = withBlob(wkb.toByteArray());
      readsOrRefuses(() -> GeoPackagePolygons.read(file));
      Files.delete(file);
    }
  }

  private Path withBlob(byte[] wkb) throws Exception {
    Path file = dir.resolve("areas.gpkg");
    GeoPackage.write(file, "", "", List.of(new LayerData("t", "GEOMETRY", List.of())));
    try (Connection db = GeoPackage.open(file, "rw");
        PreparedStatement s = db.prepareStatement("INSERT INTO t(geom) VALUES(?)")) {
      byte[] head = {'G', 'P', 0, 1, -1, -1, -1, -1};
      s.setBytes(1, ByteBuffer.allocate(8 + wkb.length).put(head).put(wkb).array());
      s.executeUpdate();
    }
    return file;
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 10, 20, 60, 70, 1000, 200_000})
  void geoJson(int depth) throws Exception {
    String collection = "{\"type\":\"GeometryCollection\",\"geometries\":[";
    String features = "{\"type\":\"FeatureCollection\",\"features\":[";
    for (String text :
        List.of(
            collection.repeat(depth) + "]}".repeat(depth),
            features.repeat(depth) + "]}".repeat(depth),
            collection.repeat(depth),
            "{\"type\":\"Polygon\",\"coordinates\":" + "[".repeat(depth) + "]".repeat(depth) + "}",
            "{\"crs\":" + "{\"a\":".repeat(depth) + "1" + "}".repeat(depth) + "}",
            "{\"x\":" + "[".repeat(depth) + "]".repeat(depth) + "}",
            "[".repeat(depth))) {
      Path file = dir.resolve("areas.geojson");
      Files.writeString(file, text);
      readsOrRefuses(() -> GeoJsonPolygons.read(file));
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 10, 31, 32, 33, 1000, 10_000, 200_000})
  void textOfCoordinateSystems(int depth) throws Exception {
    String close = "]".repeat(depth);
    for (String word : List.of("COMPD_CS[\"a\",", "BOUNDCRS[SOURCECRS[", "PROJCS[\"a\",", "A[")) {
      String text = word.repeat(depth) + "\"x\"" + close;
      readsOrRefuses(() -> CrsText.read(text));
      readsOrRefuses(() -> CrsText.read(word.repeat(depth)));
      Path grid = dir.resolve("g.asc");
      Files.writeString(grid, "ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2\n3 4\n");
      Files.writeString(dir.resolve("g.prj"), text);
      for (RasterIo io : List.of(RasterIos.gdal(), RasterIos.pureJava())) {
        readsOrRefuses(() -> io.header(grid));
      }
    }
  }

  /** Labels of planetary archives are read by GDAL, in its own stack. */
  @ParameterizedTest
  @ValueSource(ints = {1, 10, 90, 110, 1000, 20_000, 60_000})
  void labels(int depth) throws Exception {
    String isis = "Object = IsisCube\n" + "  Group = A\n".repeat(depth);
    String pds = "PDS_VERSION_ID = PDS3\n" + "OBJECT = IMAGE\n".repeat(depth);
    String list = "PDS_VERSION_ID = PDS3\nA = " + "(".repeat(depth) + "1" + ")".repeat(depth);
    String set = "Object = IsisCube\n A = " + "{".repeat(depth) + "1" + "}".repeat(depth);
    String xml =
        "<?xml version=\"1.0\"?>\n<Product_Observational xmlns=\"http://pds.nasa.gov/pds4/pds/v1\">"
            + "<a>".repeat(depth)
            + "</a>".repeat(depth)
            + "</Product_Observational>";
    int n = 0;
    for (String text : List.of(isis, pds, list, set, xml)) {
      Path file = dir.resolve("label" + n++ + (text.startsWith("<") ? ".xml" : ".lbl"));
      Files.write(file, text.getBytes(StandardCharsets.ISO_8859_1));
      readsOrRefuses(() -> RasterIos.gdal().header(file));
    }
  }

  /** What calls itself a plain table and is none would run the code behind it. */
  @Test
  void tablesThatRunCodeAreNotAsked() throws Exception {
    String[] spellings = {
      "CREATE VIRTUAL TABLE t USING fts3(geom)",
      "CREATE/**/VIRTUAL TABLE t USING fts3(geom)",
      "CREATE  VIRTUAL  TABLE t USING fts3(geom)",
      "create\tvirtual table t using fts3(geom)",
      "/* CREATE TABLE */ CREATE VIRTUAL TABLE t USING fts3(geom)",
      "CREATE --\nVIRTUAL TABLE t USING fts3(geom)",
      "CREATE/*CREATE TABLE */VIRTUAL/**/TABLE t USING fts3(geom)",
      "CREATE VIEW t AS SELECT x'4750' AS geom",
      "CREATE TABLE t(fid INTEGER PRIMARY KEY, geom AS (zeroblob(60000000)))",
      "CREATE TABLE t(fid INTEGER PRIMARY KEY, geom AS (zeroblob(60000000)) STORED)",
      "CREATE TABLE u(fid INTEGER PRIMARY KEY, geom)",
    };
    for (String sql : spellings) {
      Path file = withBlob(new byte[0]);
      try (Connection db = GeoPackage.open(file, "rw");
          Statement s = db.createStatement()) {
        s.execute("PRAGMA writable_schema=ON");
        s.executeUpdate(
            "UPDATE sqlite_master SET sql='" + sql.replace("'", "''") + "' WHERE name='t'");
      }
      UserError e = assertThrows(UserError.class, () -> GeoPackagePolygons.read(file), sql);
      assertTrue(
          e.getMessage().matches(".*(has no table t|has no column geom|malformed).*"),
          sql + ": " + e.getMessage());
      Files.delete(file);
    }
  }

  /** The chain of images of a TIFF file: every place from which it can lead back. */
  @Test
  void imagesThatFollowOneAnotherInACircle() throws Exception {
    byte[] image = image();
    for (int images = 1; images <= 5; images++) {
      for (int back = 0; back < images; back++) {
        Path file = dir.resolve("loop" + images + back + ".tif");
        Files.write(file, chain(image, images, back));
        for (RasterIo io : List.of(RasterIos.gdal(), RasterIos.pureJava())) {
          UserError e = assertThrows(UserError.class, () -> io.header(file));
          assertTrue(e.getMessage().contains("circle"), e.getMessage());
        }
      }
    }
    Path many = dir.resolve("many.tif");
    Files.write(many, chain(image, 5000, -1));
    for (RasterIo io : List.of(RasterIos.gdal(), RasterIos.pureJava())) {
      assertThrows(UserError.class, () -> io.header(many));
    }
    Path few = dir.resolve("few.tif");
    Files.write(few, chain(image, 5, -1));
    assertEquals(2, RasterIos.gdal().header(few).rows());
    assertEquals(2, RasterIos.pureJava().header(few).rows());
  }

  /** An image of 2 x 2 bytes on a plane, its cells at byte 8: entries of 12 bytes each. */
  private static byte[] image() {
    int[][] tags = {
      {256, 3, 1, 2},
      {257, 3, 1, 2},
      {258, 3, 1, 8},
      {259, 3, 1, 1},
      {262, 3, 1, 1},
      {273, 4, 1, 8},
      {277, 3, 1, 1},
      {278, 3, 1, 2},
      {279, 4, 1, 4},
      {33550, 12, 3, 12},
      {33922, 12, 6, 36}
    };
    ByteBuffer b = ByteBuffer.allocate(2 + 12 * tags.length).order(ByteOrder.LITTLE_ENDIAN);
    b.putShort((short) tags.length);
    for (int[] t : tags) {
      b.putShort((short) t[0]).putShort((short) t[1]).putInt(t[2]).putInt(t[3]);
    }
    return b.array();
  }

  /** So many images; the last one leads to image {@code back}, or to none. */
  private static byte[] chain(byte[] image, int images, int back) {
    int first = 84;
    int step = image.length + 4;
    ByteBuffer b = ByteBuffer.allocate(first + images * step).order(ByteOrder.LITTLE_ENDIAN);
    b.put((byte) 'I').put((byte) 'I').putShort((short) 42).putInt(first);
    b.put(new byte[] {1, 2, 3, 4});
    b.putDouble(2).putDouble(2).putDouble(0);
    for (double v : new double[] {0, 0, 0, 1000, 2000, 0}) {
      b.putDouble(v);
    }
    for (int i = 0; i < images; i++) {
      b.put(image);
      boolean last = i == images - 1;
      b.putInt(!last ? first + (i + 1) * step : back < 0 ? 0 : first + back * step);
    }
    return b.array();
  }
}

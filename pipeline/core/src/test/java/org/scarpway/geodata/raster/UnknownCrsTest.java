package org.scarpway.geodata.raster;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import org.gdal.gdalconst.gdalconstConstants;
import org.gdal.osr.SpatialReference;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.stage.UserError;

/** Keys that mean a system are never read as a plane without one, on either path. */
class UnknownCrsTest {
  private static final int PROJECTED = 3072;
  private static final int GEOGRAPHIC = 2048;
  private static final int KNOWN = 32612;

  @TempDir Path dir;

  @Test
  void aCodeIsReadAsItsSystemOrRefused() throws IOException {
    byte[] utm = tiff("EPSG:" + KNOWN);
    byte[] degrees = tiff("EPSG:4326");
    SplittableRandom random = new SplittableRandom(29_999);
    int refused = 0;
    for (int i = 0; i < 30; i++) {
      int code = i == 0 ? 29_999 : 1024 + random.nextInt(31_000);
      refused += requireMeant(patched(utm, PROJECTED, KNOWN, PROJECTED, code), code, true);
      refused += requireMeant(patched(degrees, GEOGRAPHIC, 4326, GEOGRAPHIC, code), code, false);
    }
    assertTrue(refused > 10, "many numbers name no system: " + refused);
  }

  @Test
  void aSystemThatIsMeantButNotToldIsRefused() throws IOException {
    byte[] utm = tiff("EPSG:" + KNOWN);
    for (int code : new int[] {0, 32_767}) {
      Path file = patched(utm, PROJECTED, KNOWN, PROJECTED, code);
      for (RasterIo io : RasterIoTest.both()) {
        RasterIoTest.assertRefused(() -> io.header(file), file.getFileName().toString());
      }
    }
    Path noModel = patched(patched(utm, PROJECTED, KNOWN, PROJECTED, 29_999), 1024, 1, 1024, 0);
    for (RasterIo io : RasterIoTest.both()) {
      RasterIoTest.assertRefused(() -> io.header(noModel), "EPSG:29999");
    }
  }

  /** 1 if both paths refuse; PROJ's own register says which codes there are. */
  private static int requireMeant(Path file, int code, boolean projected) {
    SpatialReference s = new SpatialReference();
    GdalRuntime.quiet();
    boolean known;
    try {
      known = s.ImportFromEPSG(code) == 0;
    } catch (RuntimeException e) {
      known = false;
    }
    known = known && (projected ? s.IsProjected() : s.IsGeographic()) == 1;
    int refusals = 0;
    for (RasterIo io : RasterIoTest.both()) {
      String wkt;
      try {
        wkt = io.header(file).crsWkt();
      } catch (UserError e) {
        assertTrue(e.getMessage().contains("coordinate reference system"), e.getMessage());
        refusals++;
        continue;
      }
      String kind = wkt.substring(0, Math.max(0, wkt.indexOf('[')));
      assertNotEquals("", wkt, io.name() + " EPSG:" + code);
      assertNotEquals("LOCAL_CS", kind, io.name() + " EPSG:" + code);
      if (known && projected) {
        SpatialReference got = GdalCrs.parse(wkt);
        assertEquals(s.GetSemiMajor(), got.GetSemiMajor(), 1e-3, io.name() + " EPSG:" + code);
      }
    }
    return refusals == 2 ? 1 : 0;
  }

  private byte[] tiff(String crs) throws IOException {
    Path file = dir.resolve("known.tif");
    GdalFixture.create(
        file,
        gdalconstConstants.GDT_Float32,
        2,
        new double[] {1, 2, 3, 4},
        List.of(),
        d -> d.SetSpatialRef(GdalFixture.srs(crs)));
    return Files.readAllBytes(file);
  }

  private Path patched(Path file, int key, int value, int newKey, int newValue) throws IOException {
    return patched(Files.readAllBytes(file), key, value, newKey, newValue);
  }

  /** The file with another number in one entry of its key directory. */
  private Path patched(byte[] tiff, int key, int value, int newKey, int newValue)
      throws IOException {
    byte[] was = entry(key, value);
    byte[] copy = tiff.clone();
    int found = 0;
    for (int i = 0; i + was.length <= copy.length; i += 2) {
      if (java.util.Arrays.equals(was, 0, 8, copy, i, i + 8)) {
        System.arraycopy(entry(newKey, newValue), 0, copy, i, 8);
        found++;
      }
    }
    assertEquals(1, found);
    return Files.write(dir.resolve("patched-" + newKey + "-" + newValue + ".tif"), copy);
  }

  private static byte[] entry(int key, int value) {
    ByteBuffer b = ByteBuffer.allocate(8).order(ByteOrder.LITTLE_ENDIAN);
    return b.putShort((short) key)
        .putShort((short) 0)
        .putShort((short) 1)
        .putShort((short) value)
        .array();
  }
}

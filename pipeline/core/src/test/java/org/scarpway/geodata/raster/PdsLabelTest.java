package org.scarpway.geodata.raster;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.crs.CrsText;

/**
 * PDS3 maps lie where the bounds in their labels say, whichever way the archive counts its
 * projection offsets. The labels follow the PDS Data Dictionary; that of the whole planet holds the
 * figures of the quarter-degree Mars topography, from memory.
 */
class PdsLabelTest {
  private static final double RADIUS_KM = 3396;

  @TempDir Path dir;
  private int files;

  /** A map of {@code rows} x {@code cols} cells with its bounds and its offsets. */
  private record Map(
      double perDegree,
      int rows,
      int cols,
      double north,
      double west,
      double centreLon,
      double lineOffset,
      double sampleOffset,
      double rim) {}

  @Test
  void aWholePlanetCountedFromMiddlesOfCells() throws IOException {
    for (double origin : new double[] {0.5, 0, -0.5}) {
      RasterHeader h =
          header(new Map(4, 720, 1440, 90, 0, 180, 360 + origin, 720 + origin, 0), "EAST");
      assertBounds(h, 90, -90, 0, 360);
      assertEquals(origin != -0.5, !h.placeNote().isEmpty(), h.placeNote());
      if (origin == 0.5) {
        assertTrue(h.placeNote().contains("1.00 cells north and 1.00 cells west"), h.placeNote());
      }
    }
  }

  @Test
  void anyTileByAnyOfTheConventions() throws IOException {
    SplittableRandom random = new SplittableRandom(44);
    for (int i = 0; i < 60; i++) {
      double perDegree = 1 + random.nextInt(16);
      int rows = 4 + random.nextInt(20);
      int cols = 4 + random.nextInt(20);
      double north = random.nextInt(60) - 30;
      double west = random.nextInt(300);
      double centre = random.nextBoolean() ? 0 : 180;
      double rim = random.nextBoolean() ? 0 : 0.5;
      double origin = new double[] {0.5, 0, -0.5}[random.nextInt(3)];
      double line = north * perDegree + origin;
      double sample = (centre - west) * perDegree + origin;
      RasterHeader h =
          header(new Map(perDegree, rows, cols, north, west, centre, line, sample, rim), "EAST");
      assertBounds(h, north, north - rows / perDegree, west, west + cols / perDegree);
      assertEquals(origin == -0.5, h.placeNote().isEmpty(), h.placeNote());
    }
  }

  @Test
  void offsetsThatNoConventionExplainsAreRefused() throws IOException {
    for (double[] off : new double[][] {{2, 0}, {-3, 0}, {0, 2.5}, {0, -40}, {5, 5}}) {
      Map m = new Map(4, 40, 80, 10, 30, 0, 40 - 0.5 + off[0], -120 - 0.5 + off[1], 0);
      Path file = write(m, "EAST");
      RasterIoTest.assertRefused(() -> RasterIos.gdal().header(file), "of its own bounds");
    }
    // Counted to the west, a place off the centre is mirrored: the bounds show it.
    Path west = write(new Map(4, 40, 80, 10, 30, 0, 39.5, -120.5, 0), "WEST");
    RasterIoTest.assertRefused(() -> RasterIos.gdal().header(west), "of its own bounds");
    Path loose = write(new Map(4, 40, 80, 10, 30, 0, 39.5, -120.5, 3), "WEST");
    RasterIoTest.assertRefused(() -> RasterIos.gdal().header(loose), "to the west");
  }

  @Test
  void boundsOfOtherGroundThanTheCellsSayNothing() throws IOException {
    Map m = new Map(4, 40, 80, 10, 30, 0, 39.5, -120.5, 3);
    RasterHeader h = header(m, "EAST");
    assertEquals("", h.placeNote());
    assertBounds(h, 10, 0, 30, 50);
  }

  /** Outer edges (degrees) on the sphere of the label, by hand: x = R (lon - centre), y = R lat. */
  private static void assertBounds(
      RasterHeader h, double north, double south, double west, double east) {
    double perDegreeM = Math.toRadians(RADIUS_KM * 1000);
    RasterHeader.Affine t = h.transform();
    double lon0 = CrsText.read(h.crsWkt()).toLonLat(0, 0)[0];
    double left = lon0 + t.x0() / perDegreeM;
    assertEquals(north, t.y0() / perDegreeM, 1e-6);
    assertEquals(south, (t.y0() + h.rows() * t.yRow()) / perDegreeM, 1e-6);
    assertEquals(0, Math.IEEEremainder(left - west, 360), 1e-6, "west edge " + left);
    assertEquals(east - west, h.cols() * t.xCol() / perDegreeM, 1e-6);
    assertFalse(h.crsWkt().isEmpty());
  }

  private RasterHeader header(Map m, String direction) throws IOException {
    return RasterIos.gdal().header(write(m, direction));
  }

  private Path write(Map m, String direction) throws IOException {
    String name = "map" + ++files;
    double inDeg = m.rim / m.perDegree;
    String label =
        String.format(
            Locale.ROOT,
            """
            PDS_VERSION_ID = PDS3
            RECORD_TYPE = FIXED_LENGTH
            RECORD_BYTES = %d
            FILE_RECORDS = %d
            ^IMAGE = "%s.IMG"
            OBJECT = IMAGE
              LINES = %d
              LINE_SAMPLES = %d
              SAMPLE_TYPE = MSB_INTEGER
              SAMPLE_BITS = 16
            END_OBJECT = IMAGE
            OBJECT = IMAGE_MAP_PROJECTION
              MAP_PROJECTION_TYPE = "SIMPLE CYLINDRICAL"
              A_AXIS_RADIUS = %s <KM>
              B_AXIS_RADIUS = %s <KM>
              C_AXIS_RADIUS = %s <KM>
              POSITIVE_LONGITUDE_DIRECTION = "%s"
              CENTER_LATITUDE = 0.0 <DEGREE>
              CENTER_LONGITUDE = %s <DEGREE>
              MAP_RESOLUTION = %s <PIXEL/DEGREE>
              MAP_SCALE = %.12f <KM/PIXEL>
              MAXIMUM_LATITUDE = %.10f <DEGREE>
              MINIMUM_LATITUDE = %.10f <DEGREE>
              WESTERNMOST_LONGITUDE = %.10f <DEGREE>
              EASTERNMOST_LONGITUDE = %.10f <DEGREE>
              LINE_PROJECTION_OFFSET = %s
              SAMPLE_PROJECTION_OFFSET = %s
            END_OBJECT = IMAGE_MAP_PROJECTION
            END
            """,
            2 * m.cols,
            m.rows,
            name,
            m.rows,
            m.cols,
            RADIUS_KM,
            RADIUS_KM,
            RADIUS_KM,
            direction,
            m.centreLon,
            m.perDegree,
            Math.toRadians(RADIUS_KM) / m.perDegree,
            m.north - inDeg,
            m.north - m.rows / m.perDegree + inDeg,
            direction.equals("EAST") ? m.west + inDeg : m.west + m.cols / m.perDegree - inDeg,
            direction.equals("EAST") ? m.west + m.cols / m.perDegree - inDeg : m.west + inDeg,
            m.lineOffset,
            m.sampleOffset);
    Files.write(dir.resolve(name + ".IMG"), new byte[2 * m.rows * m.cols]);
    return Files.writeString(
        dir.resolve(name + ".LBL"), label.replace("\n", "\r\n"), StandardCharsets.US_ASCII);
  }
}

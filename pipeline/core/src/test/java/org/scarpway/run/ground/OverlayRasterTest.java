package org.scarpway.run.ground;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.config.Job.SoilSettings;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.product.OverlayRaster;
import org.scarpway.vehicle.Soil;
import org.scarpway.vehicle.SoilMap;
import org.scarpway.vehicle.VehicleParts;

/** Layers on cells of another size, against a search of all pixels for every cell. */
class OverlayRasterTest {
  private static final RasterIo IO = RasterIos.best();
  private static final GridSpec GROUND = new GridSpec(9, 7, 3, 2, 100, 500, "");
  private static final Soil FIRM = soil("firm", 1e6);
  private static final Soil SOFT = soil("soft", 1e5);

  @TempDir Path dir;

  private static Soil soil(String name, double kphi) {
    return VehicleParts.soil(
        name, new Soil.Bekker(1, 100, kphi), new Soil.Shear(900, 40, 0.01), null);
  }

  /** Does pixel i of an axis, counted from its start, have its centre in that stretch. */
  private static boolean in(int i, double pixelM, double from, double to) {
    double at = (i + 0.5) * pixelM;
    return at >= from && at < to;
  }

  /** Pixels along an axis that a stretch of it covers, or the one under its middle. */
  private static int[] covered(double pixelM, double from, double to) {
    int[] some = new int[1000];
    int n = 0;
    for (int i = -500; i < 500; i++) {
      if (in(i, pixelM, from, to)) {
        some[n++] = i;
      }
    }
    return n > 0 ? Arrays.copyOf(some, n) : new int[] {(int) Math.floor((from + to) / 2 / pixelM)};
  }

  /** The largest of the pixels of a cell, by looking at each; NaN where one is missing. */
  private static float largest(FloatGrid layer, int row, int col) {
    GridSpec s = layer.spec();
    double south = s.northM() - GROUND.northM() + row * GROUND.cellYM();
    double east = GROUND.westM() - s.westM() + col * GROUND.cellXM();
    float most = Float.NEGATIVE_INFINITY;
    for (int r : covered(s.cellYM(), south, south + GROUND.cellYM())) {
      for (int c : covered(s.cellXM(), east, east + GROUND.cellXM())) {
        float here = s.holds(r, c) ? layer.values()[r * s.cols() + c] : Float.NaN;
        most = Float.isNaN(here) || Float.isNaN(most) ? Float.NaN : Math.max(most, here);
      }
    }
    return most;
  }

  @Test
  void coverageIsTheLargestOfAllPixelsInTheCell() {
    Random random = new Random(5);
    int known = 0;
    int missing = 0;
    for (int trial = 0; trial < 60; trial++) {
      double x = 0.2 + (trial % 3 == 0 ? 5 : 1.5) * random.nextDouble();
      double y = 0.2 + (trial % 3 == 0 ? 5 : 1.5) * random.nextDouble();
      GridSpec fine =
          new GridSpec(
              (int) (20 / y) + 1,
              (int) (23 / x) + 1,
              x,
              y,
              101 - 2 * random.nextDouble(),
              499 + 2 * random.nextDouble(),
              "");
      FloatGrid layer = FloatGrid.empty(fine);
      for (int i = 0; i < fine.cells(); i++) {
        layer.values()[i] = random.nextInt(60) == 0 ? Float.NaN : 0.4F * random.nextFloat();
      }
      Path file = dir.resolve("layer" + trial + ".tif");
      IO.write(file, layer, BandInfo.of("coverage", "1"));
      OverlayRaster overlay = OverlayRaster.open(GROUND, null, file, IO, MostRocks.RULE);
      float[] all = overlay.rows(0, GROUND.rows()).values();
      for (int cell = 0; cell < GROUND.cells(); cell++) {
        float expected = largest(layer, cell / GROUND.cols(), cell % GROUND.cols());
        assertEquals(expected, all[cell], "trial " + trial + " cell " + cell);
        known += Float.isNaN(expected) ? 0 : 1;
        missing += Float.isNaN(expected) ? 1 : 0;
      }
      int row = random.nextInt(GROUND.rows());
      int col = random.nextInt(GROUND.cols());
      float[] part = overlay.window(row, col, GROUND.rows() - row, GROUND.cols() - col).values();
      for (int i = 0; i < part.length; i++) {
        int across = GROUND.cols() - col;
        float whole = all[(row + i / across) * GROUND.cols() + col + i % across];
        assertEquals(whole, part[i], "a window is a part of the whole");
      }
    }
    assertTrue(known > 500 && missing > 500, known + " " + missing);
  }

  /** 10 x 10 pixels in each cell of 5 m, all alike but the middle four of some. */
  private Path rings(String name, float around, float middle) {
    GridSpec fine = new GridSpec(20, 20, 0.5, 0.5, 0, 10, "");
    FloatGrid layer = FloatGrid.empty(fine);
    for (int i = 0; i < fine.cells(); i++) {
      int r = i / 20 % 10;
      int c = i % 10;
      boolean mid = (r == 4 || r == 5) && (c == 4 || c == 5);
      layer.values()[i] = mid ? middle : around;
    }
    Path file = dir.resolve(name);
    IO.write(file, layer, BandInfo.of("layer", "1"));
    return file;
  }

  private float[] rocks(String name, float around, float middle) {
    GridSpec ground = new GridSpec(2, 2, 5, 5, 0, 10, "");
    Path file = rings(name, around, middle);
    return OverlayRaster.open(ground, null, file, IO, MostRocks.RULE).rows(0, 2).values();
  }

  @Test
  void middleOfACellDoesNotHideWhatIsAroundIt() {
    float[] all = new float[4];
    Arrays.fill(all, 0.39F);
    assertArrayEquals(all, rocks("ring.tif", 0.39F, 0.01F));
    assertArrayEquals(all, rocks("core.tif", 0.01F, 0.39F));
    Arrays.fill(all, Float.NaN);
    assertArrayEquals(all, rocks("bare.tif", Float.NaN, 0.01F));
    Arrays.fill(all, -1);
    assertArrayEquals(all, rocks("wrong.tif", -1, 0.3F), "what is no coverage stays in sight");
  }

  private byte[] soils(String name, float around, float middle) {
    GridSpec ground = new GridSpec(2, 2, 5, 5, 0, 10, "");
    List<SoilSettings.SoilClass> classes =
        List.of(
            new SoilSettings.SoilClass(1, FIRM),
            new SoilSettings.SoilClass(2, SOFT),
            new SoilSettings.SoilClass(3, SOFT));
    SoilSettings settings =
        new SoilSettings(
            rings(name, around, middle), classes, List.of(), SoilMap.Unknown.NO_VERDICT);
    return SoilLayer.open(ground, null, settings, IO, List.of()).rows(0, 2).soilAt().values();
  }

  @Test
  void soilIsOneOnlyWhereAllPixelsOfTheCellAreOfIt() {
    byte unknown = SoilMap.unknownIndex(2);
    byte several = SoilMap.severalIndex(2);
    assertArrayEquals(new byte[] {1, 1, 1, 1}, soils("firm.tif", 1, 1));
    assertArrayEquals(
        new byte[] {several, several, several, several}, soils("ring-soil.tif", 2, 1));
    assertArrayEquals(new byte[] {2, 2, 2, 2}, soils("two-classes.tif", 2, 3), "of one soil");
    byte[] none = {unknown, unknown, unknown, unknown};
    assertArrayEquals(none, soils("unnamed.tif", 9, 1));
    assertArrayEquals(none, soils("missing.tif", Float.NaN, 1));
    assertArrayEquals(none, soils("missing-core.tif", 1, Float.NaN));
  }
}

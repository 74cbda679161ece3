package org.scarpway.validation;

import static org.scarpway.terrain.TerrainParams.SlopeMethod.HORN;
import static org.scarpway.terrain.TerrainParams.SlopeMethod.ZEVENBERGEN_THORNE;

import java.util.List;
import java.util.Random;
import java.util.Vector;
import org.gdal.gdal.DEMProcessingOptions;
import org.gdal.gdal.Dataset;
import org.gdal.gdal.gdal;
import org.gdal.gdalconst.gdalconst;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.Dem;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.RileyRuggedness;
import org.scarpway.terrain.TerrainLayers;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.terrain.TerrainStage;
import org.scarpway.terrain.WilsonRuggedness;

/** Known traps, each by name, and a cell-by-cell comparison with an independent program (GDAL). */
class TerrainTrapCheck {
  private static final int ROWS = 160;
  private static final int COLS = 210;
  private static final String GDAL = "GDAL DEM processing, run beside this test";

  @BeforeAll
  static void drivers() {
    gdal.AllRegister();
  }

  @Test
  void levelGroundHasNoAspect() {
    Ground level = Ground.of(3, 3, 5, 0, 0, (x, y) -> 0);
    Validation.holds(
        "11-1-level-aspect",
        "aspect of level ground is undefined, not 0 (north)",
        "common practice, no source",
        "P",
        Double.isNaN(level.aspectDeg(HORN)) && level.slopeDeg(HORN) == 0);
    Ground north = Ground.of(3, 3, 5, 0, 0, (x, y) -> -y);
    Validation.near(
        "11-1-north-aspect",
        "ground falling north has aspect 0, deg",
        "Burrough and McDonnell 1998",
        "M",
        0,
        north.aspectDeg(HORN),
        1e-6);
  }

  @Test
  void northIsTowardsRowZero() {
    Ground g = Ground.of(5, 5, 2, 0, 0, (x, y) -> 0.5 * y);
    Validation.near(
        "11-2-row-order",
        "ground rising north: dz/dy",
        "closed form",
        "C",
        0.5,
        g.gradient(HORN)[1][12],
        1e-7);
    Validation.near(
        "11-2-row-order-aspect",
        "its aspect, deg",
        "closed form",
        "C",
        180,
        g.aspectDeg(HORN),
        1e-5);
  }

  @Test
  void rangeIncludesTheCentre() {
    float[][] out = new float[3][9];
    WilsonRuggedness.fill(SlopeCheck.W3.heightM, 3, 3, 0, 3, out[0], out[1], out[2]);
    Validation.near(
        "11-4-centre",
        "range of a lone spike of 10 m, m",
        "Wilson et al. 2007",
        "R",
        10,
        out[2][4],
        0);
  }

  @Test
  void heightsFromTheBodyCentreNeedADatum() {
    // A plane of 5 deg at 1737400 m: float32 steps are 0.125 m there. With the datum taken off in
    // double precision the slope is right; without it, it is not.
    double t = Math.tan(Math.toRadians(5));
    Ground kept = Ground.of(3, 3, 1, 0, 0, (x, y) -> 1_737_400 + t * x);
    float[] bare = new float[9];
    for (int i = 0; i < 9; i++) {
      bare[i] = (float) (1_737_400 + t * (i % 3 - 1));
    }
    Validation.near(
        "11-5-datum",
        "slope on heights less a datum, deg",
        "closed form",
        "C",
        5,
        kept.slopeDeg(HORN),
        1e-4);
    Validation.holds(
        "11-5-no-datum",
        "the same without a datum is wrong by more than 0.5 deg",
        "float32 spacing",
        "C",
        Math.abs(new Ground(3, 3, 1, 1, bare).slopeDeg(HORN) - 5) > 0.5);
  }

  @Test
  void coarsePostingIsReported() {
    GridSpec spec = new GridSpec(40, 40, 5, 5, 0, 200, "");
    float[] z = new float[1600];
    for (int i = 0; i < z.length; i++) {
      z[i] = (float) (Math.sin(i * 0.7) + 0.0025 * i);
    }
    try (Workers workers = new Workers(1)) {
      TerrainLayers t =
          TerrainStage.layers(
              new Dem(new FloatGrid(spec, z), 0, Body.MOON, List.of()),
              new TerrainParams(HORN, 4, 1.7, 3),
              workers,
              Progress.NONE);
      Validation.holds(
          "11-6-baseline",
          "the baseline of the slope is stated (10 m for cells of 5 m)",
          "common practice, no source",
          "P",
          t.notes().stream().anyMatch(n -> n.contains("over 10 m")));
    }
  }

  @Test
  void percentIsNotDegrees() {
    Ground g = Ground.of(3, 3, 1, 0, 0, (x, y) -> 0.3 * x);
    Validation.near(
        "11-7-percent",
        "30 % is 16.699244 deg",
        "closed form",
        "C",
        16.699244,
        g.slopeDeg(HORN),
        3e-6);
    Ground one = Ground.of(3, 3, 1, 0, 0, (x, y) -> x);
    Validation.near(
        "11-7-hundred", "100 % is 45 deg", "closed form", "C", 45, one.slopeDeg(HORN), 5e-6);
  }

  @Test
  void cellByCellAgainstGdal() {
    Ground g = fractal(30, 30);
    compare("slope-horn", "slope, deg", g, g.slopeAspect(HORN)[0], "slope", 2e-3);
    compare(
        "slope-zt",
        "slope by four neighbours, deg",
        g,
        g.slopeAspect(ZEVENBERGEN_THORNE)[0],
        "slope",
        2e-3,
        "-alg",
        "ZevenbergenThorne");
    compare("aspect-horn", "aspect, deg", g, g.slopeAspect(HORN)[1], "aspect", 0.05);
    float[] riley = new float[g.heightM.length];
    RileyRuggedness.fill(g.heightM, ROWS, COLS, 0, ROWS, riley);
    compare("riley", "ruggedness index, m", g, riley, "TRI", 1e-4, "-alg", "Riley");
    float[][] wilson = new float[3][g.heightM.length];
    WilsonRuggedness.fill(g.heightM, ROWS, COLS, 0, ROWS, wilson[0], wilson[1], wilson[2]);
    compare("wilson", "mean difference, m", g, wilson[0], "TRI", 1e-4, "-alg", "Wilson");
    compare("position", "position index, m", g, wilson[1], "TPI", 1e-4);
    compare("range", "range, m", g, wilson[2], "roughness", 1e-4);
    Ground oblong = fractal(30, 45);
    compare(
        "slope-oblong",
        "slope on cells of 30 x 45 m, deg",
        oblong,
        oblong.slopeAspect(HORN)[0],
        "slope",
        2e-3);
  }

  /** Hills on every scale with random phases, from a fixed seed. */
  private static Ground fractal(double cellXM, double cellYM) {
    Random random = new Random(77);
    float[] z = new float[ROWS * COLS];
    for (double wave = 120; wave > 2; wave /= 1.7) {
      double direction = random.nextDouble() * Math.PI;
      double phase = random.nextDouble() * 6;
      double kx = 2 * Math.PI / wave * Math.cos(direction);
      double ky = 2 * Math.PI / wave * Math.sin(direction);
      for (int i = 0; i < z.length; i++) {
        int row = i / COLS;
        int col = i % COLS;
        z[i] += (float) (1.5 * Math.pow(wave, 0.8) * Math.sin(kx * col + ky * row + phase));
      }
    }
    return new Ground(ROWS, COLS, cellXM, cellYM, z);
  }

  @SuppressWarnings("JdkObsolete") // The binding takes a Vector.
  private static void compare(
      String id,
      String what,
      Ground g,
      float[] mine,
      String processing,
      double tolerance,
      String... options) {
    Dataset source =
        gdal.GetDriverByName("MEM").Create("", g.cols, g.rows, 1, gdalconst.GDT_Float32);
    source.SetGeoTransform(new double[] {0, g.cellXM, 0, g.rows * g.cellYM, 0, -g.cellYM});
    source.GetRasterBand(1).WriteRaster(0, 0, g.cols, g.rows, g.heightM);
    Vector<String> arguments = new Vector<>(List.of("-of", "MEM"));
    arguments.addAll(List.of(options));
    Dataset done =
        gdal.DEMProcessing("", source, processing, null, new DEMProcessingOptions(arguments));
    float[] theirs = new float[g.heightM.length];
    done.GetRasterBand(1).ReadRaster(0, 0, g.cols, g.rows, theirs);
    double worst = 0;
    int compared = 0;
    for (int row = 1; row < g.rows - 1; row++) {
      for (int col = 1; col < g.cols - 1; col++) {
        int i = row * g.cols + col;
        double d = Math.abs(mine[i] - theirs[i]);
        if (processing.equals("aspect")) {
          d = Math.min(d, 360 - d);
        }
        worst = Math.max(worst, d);
        compared++;
      }
    }
    done.delete();
    source.delete();
    Validation.near(
        "1.4-gdal-" + id,
        "largest difference over " + compared + " cells: " + what,
        GDAL,
        "R",
        0,
        worst,
        tolerance);
  }

  @Test
  void referenceAspectIgnoresCellShape() {
    Ground w = Ground.window(10, 20, 100, 102, 106, 98, 101, 104, 95, 97, 103);
    double mine = w.aspectDeg(SlopeMethod.HORN);
    Validation.near(
        "11-0-oblong-aspect",
        "aspect where a reference program returns 235.3048 for any cell shape, deg",
        "Horn 1981",
        "C",
        250.9065,
        mine,
        1e-4);
  }
}

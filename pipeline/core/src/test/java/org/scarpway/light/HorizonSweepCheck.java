package org.scarpway.light;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.validation.Validation;

/** Horizons against closed forms and against rays that look at every quarter of a cell. */
class HorizonSweepCheck {
  private static final double MOON_M = 1_737_400;

  private static FloatGrid level(int rows, int cols, double cellM) {
    GridSpec spec = new GridSpec(rows, cols, cellM, cellM, 0, rows * cellM, "");
    return new FloatGrid(spec, new float[rows * cols]);
  }

  private static Horizons horizons(
      FloatGrid z, FarGround far, double radiusM, double eyeM, int azimuths) {
    SweepGround ground = SweepGround.of(HeightRows.of(z), far, null);
    try (Workers workers = new Workers(2)) {
      return new HorizonSweep(
              ground, far, radiusM, ProductCells.of(z.spec(), 1), new double[] {eyeM}, azimuths)
          .horizons(null, workers, Progress.NONE)
          .get(0);
    }
  }

  /** One step of the stored elevations, and a half. */
  private static final double STEP_DEG = 1.5 / 364 / 2 + 1e-6;

  @Test
  void onePeakOnTheSphere() {
    double[][] rows = {
      {500, 10_000, 0, 2.697097}, {500, 40_000, 0, 0.056468}, {500, 20_000, 2, 1.096370}
    };
    for (double[] row : rows) {
      double cellM = 100;
      int away = (int) Math.round(row[1] / cellM);
      FloatGrid z = level(away + 21, 5, cellM);
      z.values()[10 * 5 + 2] = (float) row[0];
      Horizons h = horizons(z, null, MOON_M, row[2], 4);
      String what =
          "elevation of a peak of "
              + row[0]
              + " m at "
              + row[1]
              + " m on the Moon, eye "
              + row[2]
              + " m (deg)";
      Validation.near(
          "14.6-A13-" + row[1],
          what,
          "atan2((R+h) cos t - R, (R+h) sin t)",
          "C",
          row[3],
          h.elevationDeg(0, (10 + away) * 5 + 2),
          STEP_DEG);
      // A plateau that begins there, in far ground around near ground of 40 rows.
      for (int i = 0; i < 11 * 5; i++) {
        z.values()[i] = (float) row[0];
      }
      double northM = 40 * cellM + (away - 10) * cellM;
      GridSpec wide = new GridSpec(z.spec().rows(), 5, cellM, cellM, 0, northM, "");
      FarGround far = new FarGround(new FloatGrid(wide, z.values()), 0);
      Horizons viaFar = horizons(level(40, 5, cellM), far, MOON_M, row[2], 4);
      Validation.near(
          "14.6-A13-far-" + row[1],
          what + ", in the far ground",
          "atan2((R+h) cos t - R, (R+h) sin t)",
          "C",
          row[3],
          viaFar.elevationDeg(0, 20 * 5 + 2),
          0.03);
    }
  }

  @Test
  void dipOfTheSmoothSphere() {
    FloatGrid z = level(700, 3, 20);
    double[][] rows = {{10, -0.194396}, {2, -0.086937}};
    for (double[] row : rows) {
      Horizons h = horizons(z, null, MOON_M, row[0], 4);
      Validation.near(
          "14.6-A6-" + row[0],
          "dip of the level horizon on the Moon, eye " + row[0] + " m (deg)",
          "acos(R/(R+h))",
          "C",
          row[1],
          h.elevationDeg(0, 690 * 3 + 1),
          STEP_DEG);
      assertEquals(
          0, h.edgeShare(690 * 3 + 1) * 4 - 3, 1e-6, "sees its own horizon to the north only");
    }
  }

  @Test
  void tiltedPlane() {
    double[][] rows = {{0, 10}, {60, 5.038369}, {90, 0}, {120, -5.038369}};
    FloatGrid z = level(301, 301, 10);
    for (int i = 0; i < z.values().length; i++) {
      z.values()[i] = (float) (-(i / 301) * 10 * Math.tan(Math.toRadians(10)));
    }
    // A pit in a corner that no ray meets: the body lies deep below, and the plane is as endless.
    z.values()[0] = -0x1p35f;
    Horizons h = horizons(z, null, 1e12, 0, 12);
    for (double[] row : rows) {
      Validation.near(
          "14.6-B1-" + row[0],
          "horizon on a plane of 10 degrees, " + row[0] + " degrees from uphill (deg)",
          "atan(tan s cos a)",
          "C",
          row[1],
          h.elevationDeg((int) (row[0] / 30), 150 * 301 + 150),
          row[0] % 90 == 0 ? STEP_DEG : 0.06);
    }
  }

  @Test
  void straightWall() {
    double[][] rows = {{0, 5.710593}, {60, 2.862405}};
    FloatGrid z = level(140, 400, 10);
    for (int i = 0; i < 10 * 400; i++) {
      z.values()[i] = 100;
    }
    Horizons h = horizons(z, null, 1e12, 0, 12);
    for (double[] row : rows) {
      // The foot is a cell wide, so that its crest is 1 km from the eye.
      Validation.near(
          "14.6-B2-" + row[0],
          "horizon of a wall of 100 m at 1 km, " + row[0] + " degrees off (deg)",
          "atan(h cos a / d)",
          "C",
          row[1],
          h.elevationDeg((int) (row[0] / 30), 109 * 400 + 100),
          row[0] == 0 ? STEP_DEG : row[1] * 0.01);
    }
  }

  /** A bowl that is part of a sphere, its rim level with the plane around. */
  private static FloatGrid bowl(int n, double share) {
    FloatGrid z = level(2 * n + 41, 2 * n + 41, 10);
    double a = n * 10;
    double depth = share * 2 * a;
    double r = (a * a + depth * depth) / (2 * depth);
    int side = 2 * n + 41;
    for (int i = 0; i < z.values().length; i++) {
      double x = (i % side - n - 20) * 10.0;
      double y = (i / side - n - 20) * 10.0;
      double d2 = x * x + y * y;
      z.values()[i] = d2 < a * a ? (float) (r - depth - Math.sqrt(r * r - d2)) : 0;
    }
    return z;
  }

  @Test
  void sphericalBowls() {
    double[][] rims = {{0.05, 5.710593}, {0.1, 11.309932}, {0.2, 21.801409}};
    for (double[] row : rims) {
      int n = 100;
      int side = 2 * n + 41;
      Horizons h = horizons(bowl(n, row[0]), null, 1e12, 0, 8);
      for (int a = 0; a < 8; a += 2) {
        Validation.near(
            "14.6-B3-" + row[0] + "-" + a,
            "rim of a bowl of depth " + row[0] + " D from its centre, azimuth " + 45 * a + " (deg)",
            "atan(2d/D)",
            "C",
            row[1],
            h.elevationDeg(a, (n + 20) * side + n + 20),
            0.01);
      }
      double wall = h.elevationDeg(0, (20 + 2 * n - 1) * side + n + 20);
      assertTrue(wall > -1, "the far rim sees no wall above it");
    }
  }

  @Test
  void shadowsInABowl() {
    // Depth share, sun, shadow's edge on the middle line in rim radii, shaded share of the plan.
    double[][] rows = {
      {0.2, 5, 0.802477, 0.876492},
      {0.2, 10, 0.580571, 0.742536},
      {0.1, 5, Double.NaN, 0.729052},
      {0.05, 1.5, 0.739567, 0.834853},
      {0.1, 1.5, Double.NaN, 0.919404}
    };
    int n = 200;
    int side = 2 * n + 41;
    for (double[] row : rows) {
      Horizons h = horizons(bowl(n, row[0]), null, 1e12, 0, 4);
      int in = 0;
      int dark = 0;
      for (int r = 0; r < side; r++) {
        for (int c = 0; c < side; c++) {
          double d = Math.hypot(r - n - 20, c - n - 20);
          if (d < n) {
            in++;
            dark += h.elevationDeg(0, r * side + c) > row[1] ? 1 : 0;
          }
        }
      }
      String source = "Ingersoll, Svitek and Murray 1992 geometry: cos 2e - b sin e cos e";
      Validation.near(
          "14.6-B8-" + row[0] + "-" + row[1],
          "shaded share of a bowl of depth " + row[0] + " D, sun at " + row[1] + " degrees",
          source,
          "C",
          row[3],
          (double) dark / in,
          0.006);
      if (!Double.isNaN(row[2])) {
        int edge = n + 20;
        while (h.elevationDeg(0, edge * side + n + 20) > row[1]) {
          edge++;
        }
        Validation.near(
            "14.6-B5-" + row[0] + "-" + row[1],
            "edge of the shadow on the middle line (rim radii)",
            source,
            "C",
            row[2],
            (edge - 0.5 - n - 20) / n,
            0.006);
      }
    }
  }

  @Test
  void lengthsOfShadows() {
    // Height of a ridge, sun, length on the plane and on the Moon's sphere, by the horizon behind.
    double[][] rows = {
      {10, 1e12, 381.885, 0.3},
      {100, 1e12, 3818.846, 3},
      {10, MOON_M, 383.50, 0.3},
      {100, MOON_M, 3994.18, 3}
    };
    for (double[] row : rows) {
      double cellM = row[0] / 10;
      FloatGrid z = level(4200, 3, cellM);
      for (int c = 0; c < 3; c++) {
        z.values()[10 * 3 + c] = (float) row[0];
      }
      Horizons h = horizons(z, null, row[1], 0, 4);
      int r = 11;
      // The sun stands lower by the arc from the ridge.
      while (h.elevationDeg(0, r * 3 + 1) > 1.5 - Math.toDegrees((r - 10) * cellM / row[1])) {
        r++;
      }
      double length = (r - 10.5) * cellM;
      Validation.near(
          "14.6-B11-" + row[0] + "-" + row[1],
          "length of the shadow of a ridge of "
              + row[0]
              + " m, sun at 1.5 degrees, radius "
              + row[1]
              + " m (m)",
          "h / tan e; on the sphere ray against circle",
          "C",
          row[2],
          length,
          0.0025 * row[2]);
    }
  }

  @Test
  void shadowThatNeverLands() {
    double[][] rows = {{100, 0.614720, 250}, {1000, 1.943496, 700}};
    for (double[] row : rows) {
      // The shadow of a top leaves the ground where the top sees nothing but the dip of the ground.
      int away = (int) row[2];
      FloatGrid z = level(away, 3, 100);
      double dip = -horizons(z, null, MOON_M, row[0], 4).elevationDeg(0, (away - 1) * 3 + 1);
      Validation.near(
          "14.6-B13-" + row[0],
          "sun under which the shadow of " + row[0] + " m leaves the Moon (deg)",
          "acos(R/(R+h))",
          "C",
          row[1],
          dip,
          STEP_DEG);
    }
    double[][] noise = {{1000, 0.0573}, {5000, 0.0115}, {20_000, 0.0029}};
    for (double[] row : noise) {
      FloatGrid z = level(260, 3, 100);
      int at = (int) (row[0] / 100);
      z.values()[5 * 3 + 1] = 1001;
      float high = horizons(z, null, 1e12, 1000, 4).elevationDeg(0, (5 + at) * 3 + 1);
      Validation.near(
          "14.6-B15-" + row[0],
          "horizon raised by 1 m of height at " + row[0] + " m (deg)",
          "1/d",
          "C",
          row[1],
          high,
          STEP_DEG + 1e-4);
    }
  }

  private static FloatGrid fractal(int n, double cellM, double amplitudeM, long seed) {
    FloatGrid z = level(n, n, cellM);
    Random random = new Random(seed);
    for (int s = n / 2; s >= 2; s /= 2) {
      int m = n / s + 2;
      double[] g = new double[m * m];
      double a = amplitudeM * Math.pow(s / (n / 2.0), 0.9);
      for (int i = 0; i < g.length; i++) {
        g[i] = random.nextGaussian() * a;
      }
      for (int r = 0; r < n; r++) {
        for (int c = 0; c < n; c++) {
          int i = r / s;
          int j = c / s;
          double fy = smooth((r - i * s) / (double) s);
          double fx = smooth((c - j * s) / (double) s);
          z.values()[r * n + c] +=
              (float)
                  ((g[i * m + j] * (1 - fx) + g[i * m + j + 1] * fx) * (1 - fy)
                      + (g[(i + 1) * m + j] * (1 - fx) + g[(i + 1) * m + j + 1] * fx) * fy);
        }
      }
    }
    return z;
  }

  private static double smooth(double f) {
    return f * f * (3 - 2 * f);
  }

  private static double ray(FloatGrid z, int col, int row, double azimuthDeg, double eyeM) {
    GridSpec s = z.spec();
    double dx = Math.sin(Math.toRadians(azimuthDeg));
    double dy = -Math.cos(Math.toRadians(azimuthDeg));
    double eye = MOON_M + z.values()[row * s.cols() + col] + eyeM;
    double best = Double.NEGATIVE_INFINITY;
    for (double d = 1; ; d += 0.25) {
      double x = col + dx * d;
      double y = row + dy * d;
      int c = (int) Math.floor(x);
      int r = (int) Math.floor(y);
      if (c < 0 || r < 0 || c >= s.cols() - 1 || r >= s.rows() - 1) {
        return Math.toDegrees(Math.atan(best));
      }
      double f = x - c;
      double g = y - r;
      int i = r * s.cols() + c;
      float[] v = z.values();
      double h =
          (v[i] * (1 - f) + v[i + 1] * f) * (1 - g)
              + (v[i + s.cols()] * (1 - f) + v[i + s.cols() + 1] * f) * g;
      double t = d * s.cellXM() / MOON_M;
      best = Math.max(best, ((MOON_M + h) * Math.cos(t) - eye) / ((MOON_M + h) * Math.sin(t)));
    }
  }

  /** Dip of the level horizon over the lowest height, below which no edge of data is one. */
  private static double dipDeg(FloatGrid z, int col, int row, double eyeM) {
    double low = HeightRows.of(z).lowestM();
    double eye = z.values()[row * z.spec().cols() + col] + eyeM;
    return -Math.toDegrees(Math.acos((MOON_M + low) / (MOON_M + eye)));
  }

  @Test
  void raysOverRandomGround() {
    int n = 300;
    List<Double> errors = new ArrayList<>();
    for (int seed = 0; seed < 2; seed++) {
      FloatGrid z = fractal(n, 5, 60, 7 + seed);
      Horizons h = horizons(z, null, MOON_M, 2, 18);
      Random random = new Random(seed);
      for (int a = 0; a < 18; a++) {
        for (int i = 0; i < 80; i++) {
          int c = 40 + random.nextInt(n - 80);
          int r = 40 + random.nextInt(n - 80);
          errors.add(
              Math.abs(
                  h.elevationDeg(a, r * n + c)
                      - Math.max(dipDeg(z, c, r, 2), ray(z, c, r, 20 * a, 2))));
        }
      }
    }
    Collections.sort(errors);
    int m = errors.size();
    String source = "rays at every quarter of a cell, heights straight between four cells";
    Validation.near(
        "14.6-rays-median",
        "horizon on random ground of 5 m cells, median error (deg)",
        source,
        "R",
        0,
        errors.get(m / 2),
        0.02);
    Validation.near(
        "14.6-rays-95",
        "the same, 95 % of the errors below (deg)",
        source,
        "R",
        0,
        errors.get(m * 95 / 100),
        0.2);
    Validation.near(
        "14.6-rays-worst",
        "the same, worst of " + m + " (deg)",
        source,
        "R",
        0,
        errors.get(m - 1),
        3);
  }

  /** Where the sun's disk is cut: behind a ridge between its upper and its lower limb. */
  @Test
  void penumbra() {
    FloatGrid z = level(700, 3, 1);
    for (int c = 0; c < 3; c++) {
      z.values()[10 * 3 + c] = 10;
    }
    Horizons h = horizons(z, null, 1e12, 0, 4);
    int cut = 0;
    for (int r = 11; r < 700; r++) {
      double share = DiskShare.of((1.5 - h.elevationDeg(0, r * 3 + 1)) / 0.2665);
      cut += share > 0 && share < 1 ? 1 : 0;
    }
    Validation.near(
        "14.6-B14",
        "width of the penumbra of a ridge of 10 m, sun at 1.5 degrees (m)",
        "h/tan(e-r) - h/tan(e+r)",
        "C",
        140.18,
        cut,
        1.5);
  }

  @Test
  void bowlsThatNeverSeeTheSun() {
    double[][] rows = {{0.2, 70.01}, {0.1, 80.50}, {0.05, 86.10}};
    for (double[] row : rows) {
      int n = 100;
      float rim =
          horizons(bowl(n, row[0]), null, 1e12, 0, 4)
              .elevationDeg(0, (n + 20) * (2 * n + 41) + n + 20);
      Validation.near(
          "14.6-B10-" + row[0],
          "latitude poleward of which the centre of a bowl of depth "
              + row[0]
              + " D sees no sun (deg)",
          "90 - atan(2d/D) + 1.543 + 0.2665",
          "C",
          row[1],
          90 - rim + 1.543 + 0.2665,
          0.05);
    }
  }

  /** A ground turned by quarters has the horizons turned by quarters. */
  @Test
  void quarterTurns() {
    int n = 60;
    FloatGrid z = fractal(n, 10, 40, 3);
    FloatGrid turned = level(n, n, 10);
    for (int r = 0; r < n; r++) {
      for (int c = 0; c < n; c++) {
        turned.values()[c * n + (n - 1 - r)] = z.values()[r * n + c];
      }
    }
    Horizons a = horizons(z, null, MOON_M, 2, 24);
    Horizons b = horizons(turned, null, MOON_M, 2, 24);
    for (int k = 0; k < 24; k++) {
      for (int r = 0; r < n; r++) {
        for (int c = 0; c < n; c++) {
          assertEquals(
              a.elevationDeg(k, r * n + c),
              b.elevationDeg((k + 6) % 24, c * n + n - 1 - r),
              1.1f / 364);
        }
      }
    }
  }

  /** A cut of the ground with the rest as far ground has the horizons of the whole. */
  @Test
  void farGroundJoinsWithoutSeam() {
    int n = 200;
    FloatGrid whole = fractal(n, 10, 60, 5);
    FloatGrid cut = new FloatGrid(whole.spec().part(50, 60, 100, 100), new float[10_000]);
    for (int r = 0; r < 100; r++) {
      System.arraycopy(whole.values(), (50 + r) * n + 60, cut.values(), r * 100, 100);
    }
    Horizons all = horizons(whole, null, MOON_M, 2, 24);
    Horizons some = horizons(cut, new FarGround(whole, 0), MOON_M, 2, 24);
    List<Double> errors = new ArrayList<>();
    for (int k = 0; k < 24; k++) {
      for (int r = 35; r < 65; r++) {
        for (int c = 35; c < 65; c++) {
          errors.add(
              (double)
                  Math.abs(
                      all.elevationDeg(k, (50 + r) * n + 60 + c)
                          - some.elevationDeg(k, r * 100 + c)));
        }
      }
    }
    Collections.sort(errors);
    assertTrue(
        errors.get(errors.size() * 95 / 100) < 0.2,
        "95 %: " + errors.get(errors.size() * 95 / 100));
    assertTrue(errors.get(errors.size() / 2) < 0.01, "median: " + errors.get(errors.size() / 2));
  }

  @Test
  void threadsAndBlocksChangeNothing() {
    FloatGrid z = fractal(90, 5, 30, 9);
    SweepGround ground = SweepGround.of(HeightRows.of(z), null);
    HorizonSweep whole =
        new HorizonSweep(ground, null, MOON_M, ProductCells.of(z.spec(), 1), new double[] {2}, 12);
    HorizonSweep blocks =
        new HorizonSweep(
            ground, null, MOON_M, ProductCells.of(z.spec(), 4), new double[] {5, 2}, 12);
    try (Workers one = new Workers(1);
        Workers three = new Workers(3)) {
      Horizons a = whole.horizons(null, one, Progress.NONE).get(0);
      Horizons b = whole.horizons(one.memory().scratch(), three, Progress.NONE).get(0);
      Horizons c = blocks.horizons(null, three, Progress.NONE).get(1);
      short[] x = new short[a.spec().cells()];
      short[] y = new short[x.length];
      for (int k = 0; k < 12; k++) {
        a.read(k, 0, x);
        b.read(k, 0, y);
        assertArrayEquals(x, y);
        for (int r = 0; r < c.spec().rows(); r++) {
          for (int col = 0; col < c.spec().cols(); col++) {
            int fine = Math.min(89, 4 * r + 2) * 90 + Math.min(89, 4 * col + 2);
            assertEquals(a.elevationDeg(k, fine), c.elevationDeg(k, r * c.spec().cols() + col));
          }
        }
      }
    }
  }

  @Test
  void unknownGroundIsNoWall() {
    FloatGrid z = level(80, 40, 10);
    for (int i = 30 * 40; i < 34 * 40; i++) {
      z.values()[i] = Float.NaN;
    }
    Horizons h = horizons(z, null, MOON_M, 2, 4);
    assertEquals(0, h.elevationDeg(0, 60 * 40 + 20), 0.5, "no data is no ground at height 0 below");
    assertEquals(1, h.edgeShare(31 * 40 + 20), 0, "a cell without height knows no horizon");
  }

  /** Walls before the eye, low or as steep as they may be, have their horizon without a cut. */
  @Test
  void wallsOfAnySteepness() {
    Random random = new Random(19);
    for (int k = 0; k < 60; k++) {
      double expected = 89.9 * random.nextDouble();
      int away = 1 + random.nextInt(40);
      FloatGrid z = level(60, 3, 5);
      float h = (float) (5 * away * StrictMath.tan(StrictMath.toRadians(expected)));
      for (int c = 0; c < 3; c++) {
        z.values()[10 * 3 + c] = h;
      }
      float got = horizons(z, null, 1e12, 0, 4).elevationDeg(0, (10 + away) * 3 + 1);
      assertEquals(expected, got, STEP_DEG, "wall " + away + " cells away");
    }
  }
}

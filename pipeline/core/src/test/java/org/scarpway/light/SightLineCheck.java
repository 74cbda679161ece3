package org.scarpway.light;

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

/**
 * Sight of masts over smooth bodies in closed form, and both ways to a horizon against each other.
 */
class SightLineCheck {
  private static final double MOON_M = 1_737_400;
  private static final double MARS_M = 3_389_500;
  private static final double EARTH_M = 6_371_000;

  private static FloatGrid level(int rows, int cols, double cellM) {
    GridSpec spec = new GridSpec(rows, cols, cellM, cellM, 0, rows * cellM, "");
    return new FloatGrid(spec, new float[rows * cols]);
  }

  private static Sight sight(FloatGrid z, double radiusM) {
    return new Sight(SweepGround.of(HeightRows.of(z), null), null, radiusM);
  }

  /** How far a mast is seen over a smooth sphere by an antenna. */
  private static double reachM(double radiusM, double mastM, double antennaM, double cellM) {
    Sight sight = sight(level(3000, 3, cellM), radiusM);
    Sight.Mast mast = new Sight.Mast(0, 1, mastM);
    int low = 1;
    int high = 2999;
    while (high - low > 1) {
      int middle = (low + high) / 2;
      if (sight.neededM(mast, null, middle, 1) <= antennaM) {
        low = middle;
      } else {
        high = middle;
      }
    }
    double a = sight.neededM(mast, null, low, 1);
    double b = sight.neededM(mast, null, high, 1);
    return (low + Math.max(0, (antennaM - a) / (b - a))) * cellM;
  }

  @Test
  void horizonsOfSmoothBodies() {
    Object[][] rows = {
      {"A1", "Moon, eye 2 m", MOON_M, 2.0, 0.0, 2636.208},
      {"A2", "Moon, eye 10 m", MOON_M, 10.0, 0.0, 5894.729},
      {"A3-2", "Mars, eye 2 m", MARS_M, 2.0, 0.0, 3682.118},
      {"A3-10", "Mars, eye 10 m", MARS_M, 10.0, 0.0, 8233.458},
      {"A4-2", "Earth without refraction, eye 2 m", EARTH_M, 2.0, 0.0, 5048.167},
      {"A4-10", "Earth without refraction, eye 10 m", EARTH_M, 10.0, 0.0, 11_288.039},
      {"A5-2", "Earth, radio rays (4/3), 2 m", EARTH_M * 4 / 3, 2.0, 0.0, 5829.12},
      {"A5-10", "Earth, radio rays (4/3), 10 m", EARTH_M * 4 / 3, 10.0, 0.0, 13_034.31},
      {"A20", "Moon, mast 10 m, antenna 2.5 m", MOON_M, 10.0, 2.5, 8842.10},
      {
        "A21",
        "Earth, radio rays (4/3), mast 10 m, antenna 2.5 m",
        EARTH_M * 4 / 3,
        10.0,
        2.5,
        19_551.47
      }
    };
    for (Object[] row : rows) {
      double expected = (double) row[5];
      // Needs grow with the square of the way beyond the horizon: a micrometre is met at once.
      double got = reachM((double) row[2], (double) row[3], (double) row[4] + 1e-6, 10);
      Validation.near(
          "14.7-" + row[0],
          "way to the horizon (m): " + row[1],
          "R acos(R/(R+h))",
          "C",
          expected,
          got,
          12);
    }
  }

  @Test
  void peaksOverTheLevelPlane() {
    double[][] rows = {{1000, 58_933.3}, {5000, 131_652.7}};
    for (double[] row : rows) {
      double tan = -row[1] / MOON_M;
      FloatGrid z = level(1400, 3, 100);
      int at = (int) Math.round(row[1] / 100);
      for (int c = 0; c < 3; c++) {
        z.values()[(1390 - at) * 3 + c] = (float) row[0];
      }
      float e = sight(z, MOON_M).horizon(1390, 1, 0, 4).elevationDeg().get(0);
      // At that way the peak stands on the eye's level plane; a cell more or less is 0.003 degrees.
      Validation.near(
          "14.7-A19-" + row[0],
          "elevation of a peak of " + row[0] + " m where it meets the level plane (deg)",
          "R acos(R/(R+h))",
          "C",
          0,
          e,
          0.004);
      assertTrue(tan < 0);
    }
  }

  @Test
  void bulges() {
    Object[][] rows = {
      {"A8", "Moon, 10 km", MOON_M, 10_000.0, 28.7790, 1e-3},
      {"A9", "Moon, 50 km", MOON_M, 50_000.0, 719.714, 1e-2},
      {"A10", "Moon, 200 km", MOON_M, 200_000.0, 11_575.36, 0.05},
      {"A11", "Earth, 10 km", EARTH_M, 10_000.0, 7.8481, 1e-3},
      {"A11k", "Earth, radio rays (4/3), 10 km", EARTH_M * 4 / 3, 10_000.0, 5.8860, 1e-3},
      {"A12", "Mars, 10 km", MARS_M, 10_000.0, 14.7514, 1e-3}
    };
    for (Object[] row : rows) {
      double cellM = (double) row[3] / 100;
      FloatGrid z = level(102, 3, cellM);
      // From the ground, a level line of sight asks for an antenna as high as the bulge.
      z.values()[0 * 3 + 1] = 0;
      double got = levelNeedM(z, (double) row[2], 100);
      Validation.near(
          "14.7-" + row[0],
          "bulge below the level line (m): " + row[1],
          "R (1/cos(d/R) - 1)",
          "C",
          (double) row[4],
          got,
          (double) row[5]);
    }
    Object[][] middles = {
      {"A22-10", "Moon, way 10 km", MOON_M, 10_000.0, 7.1947},
      {"A22-20", "Moon, way 20 km", MOON_M, 20_000.0, 28.7786},
      {"A23", "Earth, radio rays (4/3), way 20 km", EARTH_M * 4 / 3, 20_000.0, 5.8860}
    };
    for (Object[] row : middles) {
      FloatGrid z = level(101, 3, (double) row[3] / 100);
      Sight.Link link = sight(z, (double) row[2]).link(new Sight.Mast(0, 1, 50), 100, 1, 50);
      Validation.near(
          "14.7-" + row[0],
          "bulge in the middle of a link (m): " + row[1],
          "d1 d2 / 2R",
          "C",
          (double) row[4],
          50 - link.clearM(),
          2e-3);
      assertEquals((double) row[3] / 2, link.atM(), 1e-6);
    }
    Validation.near(
        "14.7-A24-radio",
        "effective radius for radio (km)",
        "kR",
        "C",
        8494.67,
        EARTH_M / 1000 / (1 - 0.25),
        0.01);
    Validation.near(
        "14.7-A24-light",
        "effective radius for light, coefficient 0.13 (km)",
        "R/(1-0.13)",
        "C",
        7322.99,
        EARTH_M / 1000 / (1 - 0.13),
        0.01);
  }

  /** Antenna height at row n from which a line level at row 0, over a cell beside it, is met. */
  private static double levelNeedM(FloatGrid z, double radiusM, int n) {
    double cellM = z.spec().cellYM();
    // The cell beside the mast stands on the level line, so that it is what has to be passed.
    double t = cellM / radiusM;
    float lift = (float) (radiusM * (1 / Math.cos(t) - 1));
    z.values()[3 + 1] = lift;
    double above = sight(z, radiusM).neededM(new Sight.Mast(0, 1, 0), null, n, 1);
    // What rounding the lift to a float tilts the line by is taken back.
    double tilt = (((radiusM + lift) * Math.cos(t) - radiusM) / ((radiusM + lift) * Math.sin(t)));
    double angle = n * cellM / radiusM;
    return above - radiusM * (1 / (Math.cos(angle) - tilt * Math.sin(angle)) - 1 / Math.cos(angle));
  }

  @Test
  void radio() {
    String zone = "sqrt(wavelength d1 d2 / d)";
    double[][] rows = {{2400, 10_000, 17.6716}, {437, 10_000, 41.4133}, {2400, 1000, 5.5882}};
    for (double[] row : rows) {
      double r = RadioPath.fresnelM(row[0], row[1] / 2, row[1] / 2);
      Validation.near(
          "14.8-E1-" + row[0] + "-" + row[1],
          "first Fresnel radius at " + row[0] + " MHz in the middle of " + row[1] + " m (m)",
          zone,
          "C",
          row[2],
          r,
          1e-3);
    }
    Validation.near(
        "14.8-E1-60",
        "60 % of it at 2400 MHz in the middle of 10 km (m)",
        zone,
        "C",
        10.6029,
        0.6 * RadioPath.fresnelM(2400, 5000, 5000),
        1e-3);
    double[][] edges = {{-0.7, 0.536}, {0, 6.033}, {1, 13.926}, {2.4, 20.539}};
    for (double[] row : edges) {
      Validation.near(
          "14.8-E4-" + row[0],
          "loss behind a sharp edge at v = " + row[0] + " (dB)",
          "ITU-R P.526, approximation",
          "M",
          row[1],
          RadioPath.edgeLossDb(row[0]),
          1e-3);
    }
  }

  /** Two ways to one horizon: rays from a place, and the sweep. */
  @Test
  void raysAndSweepAgree() {
    Random random = new Random(4);
    FloatGrid z = level(120, 120, 5);
    for (int k = 0; k < 60; k++) {
      double x = random.nextInt(120);
      double y = random.nextInt(120);
      double w = 4 + random.nextInt(20);
      double h = random.nextGaussian() * w;
      for (int i = 0; i < z.values().length; i++) {
        double d2 = (Math.pow(i % 120 - x, 2) + Math.pow(Math.floorDiv(i, 120) - y, 2)) / (w * w);
        z.values()[i] += (float) (h * Math.exp(-d2));
      }
    }
    SweepGround ground = SweepGround.of(HeightRows.of(z), null);
    Horizons h;
    try (Workers workers = new Workers(2)) {
      h =
          new HorizonSweep(ground, null, MOON_M, ProductCells.of(z.spec(), 1), new double[] {2}, 24)
              .horizons(null, workers, Progress.NONE)
              .get(0);
    }
    Sight sight = new Sight(ground, null, MOON_M);
    int edges = 0;
    // Rays look at every crossing, the sweep at every row alone where it is far: its sampling
    // error.
    List<Double> errors = new ArrayList<>();
    for (int n = 0; n < 60; n++) {
      int row = 10 + random.nextInt(100);
      int col = 10 + random.nextInt(100);
      Sight.Around around = sight.horizon(row, col, 2, 24);
      for (int a = 0; a < 24; a++) {
        double error = Math.abs(around.elevationDeg().get(a) - h.elevationDeg(a, row * 120 + col));
        assertTrue(a % 6 != 0 || error < 0.01, "along rows and columns: " + error);
        errors.add(error);
        edges += around.atEdge().get(a) ? 1 : 0;
      }
    }
    Collections.sort(errors);
    assertTrue(errors.get(errors.size() * 95 / 100) < 0.1, "95 %");
    assertTrue(errors.get(errors.size() - 1) < 1, "worst " + errors.get(errors.size() - 1));
    assertTrue(edges > 0, "some horizons lie at the edge of the data");
  }

  /** The antenna that is needed is the one whose line just touches the ground. */
  @Test
  void neededAntennasGraze() {
    Random random = new Random(6);
    FloatGrid z = level(80, 80, 10);
    for (int i = 0; i < z.values().length; i++) {
      z.values()[i] =
          (float)
              (15 * Math.sin(i % 80 / 7.0) * Math.cos(Math.floorDiv(i, 80) / 9.0)
                  + random.nextGaussian());
    }
    Sight sight = sight(z, MOON_M);
    for (int n = 0; n < 200; n++) {
      Sight.Mast mast = new Sight.Mast(random.nextInt(80), random.nextInt(80), 3);
      int row = random.nextInt(80);
      int col = random.nextInt(80);
      if (Math.abs(row - mast.row()) + Math.abs(col - mast.col()) < 2) {
        continue;
      }
      double needed = sight.neededM(mast, null, row, col);
      Sight.Link link = sight.link(mast, row, col, needed);
      assertTrue(link.clearM() > -1e-6, "sees over everything");
      if (needed > 0) {
        assertEquals(0, link.clearM(), 1e-6, "and no higher than it must");
      }
      double more = sight.neededM(mast, new Sight.Clear(437, 0.6), row, col);
      assertTrue(more >= needed, "room around the line asks for no less");
    }
  }

  /** A wall one cell wide stands in the way with its full height, however rays cross it. */
  @Test
  void thinWallsAreNotSteppedOver() {
    Random random = new Random(11);
    int n = 60;
    double cellM = 20;
    double flatM = 1e12;
    for (int k = 0; k < 300; k++) {
      boolean acrossEast = random.nextBoolean();
      int wall = 25 + random.nextInt(10);
      double h = 5 + 40 * random.nextDouble();
      FloatGrid z = level(n, n, cellM);
      for (int i = 0; i < n; i++) {
        z.values()[acrossEast ? i * n + wall : wall * n + i] = (float) h;
      }
      Sight sight = sight(z, flatM);
      int near = wall - 1 - random.nextInt(8);
      int beside = 25 + random.nextInt(10);
      Sight.Around around =
          sight.horizon(acrossEast ? beside : near, acrossEast ? near : beside, 0, 72);
      for (int a = 0; a < 72; a++) {
        double across = StrictMath.toRadians(5 * a - (acrossEast ? 90 : 180));
        double away = (wall - near) * cellM / StrictMath.cos(across);
        if (StrictMath.cos(across) > 0.01 && Math.abs(away * StrictMath.sin(across)) < 24 * cellM) {
          double expected = StrictMath.toDegrees(StrictMath.atan(h / away));
          assertEquals(expected, around.elevationDeg().get(a), 1e-3, k + " " + a);
        }
      }
      int far = wall + 1 + random.nextInt(20);
      int aside = random.nextInt(n);
      double mastM = 3 * random.nextDouble();
      Sight.Mast mast =
          new Sight.Mast(acrossEast ? beside : near, acrossEast ? near : beside, mastM);
      int row = acrossEast ? aside : far;
      int col = acrossEast ? far : aside;
      // The line over the crest, by similar triangles.
      double share = (double) (wall - near) / (far - near);
      double needed = mastM + (h - mastM) / share;
      assertEquals(needed, sight.neededM(mast, null, row, col), 1e-2, "antenna " + k);
      assertEquals(0, sight.link(mast, row, col, needed).clearM(), 1e-2, "clearance " + k);
    }
  }
}

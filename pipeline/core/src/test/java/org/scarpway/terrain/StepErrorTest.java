package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * What the error of the heights makes of a step, against weights on a window of heights written
 * down one by one, their covariance summed pair by pair, and closed forms of normal values.
 */
class StepErrorTest {
  /** Heights of 11 x 11 cells about the middle one, rows southward. */
  private static final int SIDE = 11;

  private static final int MIDDLE = 5;

  private static StepError of(
      double baselineM, double wheelM, double sigmaM, double lengthM, double x, double y) {
    GridSpec spec = new GridSpec(80, 80, x, y, 0, 80 * y, "");
    TerrainParams params =
        new TerrainParams(
            SlopeMethod.HORN, baselineM, wheelM, 3, sigmaM, lengthM == 0 ? null : lengthM, null);
    Footprint footprint = FootprintFit.footprint(params, spec);
    return StepError.of(params, footprint, new HeightError(sigmaM, lengthM), spec);
  }

  /** One sigma of a weighted sum. */
  private static double sigma(double[][] w, double sigmaM, double lengthM, double x, double y) {
    double variance = 0;
    for (int a = 0; a < SIDE * SIDE; a++) {
      for (int b = 0; b < SIDE * SIDE; b++) {
        double eastM = x * (a % SIDE - b % SIDE);
        int rows = a / SIDE - b / SIDE;
        double apartM = Math.hypot(eastM, y * rows);
        double same = a == b ? 1 : lengthM == 0 ? 0 : Math.exp(-apartM / lengthM);
        variance += w[a / SIDE][a % SIDE] * w[b / SIDE][b % SIDE] * same;
      }
    }
    return sigmaM * Math.sqrt(variance);
  }

  /** Heights in a line from a cell on, towards the next by rows and columns. */
  private static double[][] line(int firstStep, int down, int right, double... weights) {
    double[][] w = new double[SIDE][SIDE];
    for (int i = 0; i < weights.length; i++) {
      w[MIDDLE + (firstStep + i) * down][MIDDLE + (firstStep + i) * right] += weights[i];
    }
    return w;
  }

  /** A neighbour less the middle cell less the plane by all nine cells, sum(x z) / sum(x2). */
  private static double[][] offPlane(int right, int down) {
    double[][] w = line(0, down, right, -1, 1);
    for (int r = -1; r <= 1; r++) {
      for (int c = -1; c <= 1; c++) {
        w[MIDDLE + r][MIDDLE + c] -= (right * c + down * r) / 6.0;
      }
    }
    return w;
  }

  @Test
  void overNineCellsEverySumIsThatOfItsWeights() {
    Random random = new Random(31);
    int[][] axes = {{0, 1}, {1, 0}, {1, 1}, {1, -1}};
    for (int n = 0; n < 12; n++) {
      double x = 1 + random.nextDouble();
      double y = 1 + random.nextDouble();
      double sigmaM = 0.1 + random.nextDouble();
      double lengthM = n % 3 == 0 ? 0 : 0.2 + 9 * random.nextDouble();
      StepError e = of(1.5, 0.7, sigmaM, lengthM, x, y);
      double plane = 0;
      for (int right = -1; right <= 1; right++) {
        for (int down = -1; down <= 1; down++) {
          if (right != 0 || down != 0) {
            plane = Math.max(plane, sigma(offPlane(right, down), sigmaM, lengthM, x, y));
          }
        }
      }
      double pair = 0;
      double two = 0;
      for (int[] a : axes) {
        // A rise less the one before: z2 - 2 z1 + z0; over two cells less twice the one before.
        pair = Math.max(pair, sigma(line(-1, a[0], a[1], 1, -2, 1), sigmaM, lengthM, x, y));
        two = Math.max(two, sigma(line(-1, a[0], a[1], 2, -3, 0, 1), sigmaM, lengthM, x, y));
      }
      assertEquals(8, e.planes());
      assertEquals(plane, e.planeSigmaM(), 1e-9, "draw " + n);
      assertEquals(pair, e.pairSigmaM(), 1e-9, "draw " + n);
      assertEquals(two, e.twoSigmaM(), 1e-9, "draw " + n);
      if (lengthM == 0) {
        assertEquals(Math.sqrt(6) * sigmaM, e.pairSigmaM(), 1e-9);
        assertEquals(Math.sqrt(14) * sigmaM, e.twoSigmaM(), 1e-9);
      }
    }
  }

  /**
   * A disc of 5 m on cells of 1 m has rows of 3, 5, 5, 5, 3 cells: sum of x2 = 2 x 2 + 3 x 10 = 34.
   * Within 2.5 m lie 20 neighbours; of these (2, 1) is the furthest along both axes.
   */
  @Test
  void overAWiderDiscAtMostThatOfTheHeightsAndThatOfThePlane() {
    StepError e = of(5, 2.5, 0.3, 0, 1, 1);
    assertEquals(20, e.planes());
    assertEquals(0.3 * (Math.sqrt(2) + 3 / Math.sqrt(34)), e.planeSigmaM(), 1e-9);
    // Cells of 1 x 2 m, disc of 6 m: rows of 5, 7, 5 cells, sums 10 + 28 + 10 and 5 + 5.
    StepError oblong = of(6, 2.5, 0.3, 0, 1, 2);
    assertEquals(10, oblong.planes());
    double east = Math.sqrt(48);
    double north = Math.sqrt(10);
    double most = 0;
    // Two columns and no row, or one of both.
    int[][] furthest = {{2, 0}, {1, 1}};
    for (int[] f : furthest) {
      most = Math.max(most, Math.sqrt(2) + f[0] / east + f[1] / north);
    }
    assertEquals(0.3 * most, oblong.planeSigmaM(), 1e-9);
  }

  /** Probability that a normal value lies above x sigmas, by Simpson's rule. */
  private static double above(double x) {
    int n = 400;
    double h = (12 - x) / n;
    double sum = 0;
    for (int i = 0; i <= n; i++) {
      double at = x + i * h;
      sum += Math.exp(-0.5 * at * at) * (i == 0 || i == n ? 1 : i % 2 == 1 ? 4 : 2);
    }
    return sum * h / 3 / Math.sqrt(2 * Math.PI);
  }

  /** Of either sign: neighbours, eight breaks between neighbours, twelve over two cells. */
  @Test
  void anyOfThemMayBreakTheLimit() {
    Random random = new Random(32);
    for (int n = 0; n < 60; n++) {
      double a = 0.1 + random.nextDouble();
      double b = 0.1 + random.nextDouble();
      double c = 0.1 + random.nextDouble();
      int planes = 1 + random.nextInt(30);
      StepError e = new StepError(planes, a, b, c);
      double leftM = 5 * random.nextDouble();
      double sum = 2 * planes * above(leftM / a) + 16 * above(leftM / b) + 24 * above(leftM / c);
      assertEquals(Math.min(1, sum), e.broken(leftM), 1e-4);
      double tail = 0.001 + 0.4 * random.nextDouble();
      double allowanceM = e.allowanceM(tail);
      // The limit is broken with that probability just there, and with less beyond.
      assertEquals(
          tail,
          2 * planes * above(allowanceM / a)
              + 16 * above(allowanceM / b)
              + 24 * above(allowanceM / c),
          1e-4);
      assertTrue(e.broken(allowanceM) <= tail);
    }
    assertEquals(1, new StepError(8, 0.1, 0.1, 0.1).broken(-1));
    // One alone, far wider than the others: 2 x 8 x Q(z) = 0.1 at z = 2.4977.
    assertEquals(2.4977, new StepError(8, 1, 1e-9, 1e-9).allowanceM(0.1), 1e-3);
  }
}

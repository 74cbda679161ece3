package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/** Chances of steps against steps of ground with drawn errors, told by their definition. */
class StepOddsTest {
  private static final int SIDE = 9;
  private static final int MIDDLE = SIDE / 2;
  private static final double CELL_M = 0.9;
  private static final double SPACING_M = 1.85;
  private static final double SIGMA_M = 0.03;
  private static final int DRAWS = 4000;
  private static final GridSpec SPEC =
      new GridSpec(SIDE, SIDE, CELL_M, CELL_M, 0, SIDE * CELL_M, "");

  private static double normal(double x) {
    return Math.exp(-x * x / 2) / Math.sqrt(2 * Math.PI);
  }

  /** By Simpson's rule over the first value. */
  private static double bothAbove(double h, double k, double correlation) {
    int n = 4000;
    double step = (9 - h) / n;
    double sum = 0;
    double spread = Math.sqrt(1 - correlation * correlation);
    for (int i = 0; i <= n; i++) {
      double x = h + i * step;
      double over = NormalTail.exact((k - correlation * x) / spread);
      sum += normal(x) * over * (i == 0 || i == n ? 1 : i % 2 == 1 ? 4 : 2);
    }
    return sum * step / 3;
  }

  @Test
  void twoNormalValuesTogether() {
    Random random = new Random(61);
    for (int i = 0; i < 300; i++) {
      double h = 5 * random.nextDouble() - 2;
      double k = 5 * random.nextDouble() - 2;
      double correlation = 1.8 * random.nextDouble() - 0.9;
      double want = bothAbove(h, k, correlation);
      assertEquals(want, StepOdds.bothAbove(h, k, correlation), 1e-6 + 1e-3 * want);
    }
    for (double correlation : new double[] {-0.5, 0, 0.5, 2.0 / 3}) {
      double want = 0.25 + Math.asin(correlation) / (2 * Math.PI);
      assertEquals(want, StepOdds.bothAbove(0, 0, correlation), 1e-6);
    }
  }

  /** Lower triangle of the root of the covariance of all heights. */
  private static double[][] root(double lengthM) {
    int n = SIDE * SIDE;
    double[][] low = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double apartM = CELL_M * Math.hypot(i / SIDE - j / SIDE, i % SIDE - j % SIDE);
        double sum = i == j ? 1 : lengthM == 0 ? 0 : Math.exp(-apartM / lengthM);
        for (int k = 0; k < j; k++) {
          sum -= low[i][k] * low[j][k];
        }
        low[i][j] = i == j ? Math.sqrt(sum) : sum / low[j][j];
      }
    }
    return low;
  }

  private static double at(float[] z, int row, int col) {
    return z[(MIDDLE + row) * SIDE + MIDDLE + col];
  }

  /** The largest step about the middle: off the plane of 3 x 3 cells, and breaks it is part of. */
  private static double stepM(float[] z) {
    double perCol = 0;
    double perRow = 0;
    for (int i = -1; i <= 1; i++) {
      perCol += (at(z, i, 1) - at(z, i, -1)) / 6;
      perRow += (at(z, 1, i) - at(z, -1, i)) / 6;
    }
    double most = 0;
    for (int r = -2; r <= 2; r++) {
      for (int c = -2; c <= 2; c++) {
        boolean within = CELL_M * Math.hypot(r, c) <= SPACING_M;
        if (within) {
          most = Math.max(most, Math.abs(at(z, r, c) - at(z, 0, 0) - perRow * r - perCol * c));
        }
      }
    }
    int[][] axes = {{0, 1}, {1, 0}, {1, 1}, {1, -1}};
    for (int[] a : axes) {
      for (int p = -2; p <= 0; p++) {
        double[] h = new double[5];
        for (int i = 0; i < 5; i++) {
          h[i] = at(z, (p + i - 1) * a[0], (p + i - 1) * a[1]);
        }
        // From cell p to p + 1, and from p to p + 2 about p + 1.
        if (p >= -1) {
          most = Math.max(most, beyond(h[2] - h[1], h[1] - h[0], h[3] - h[2]));
        }
        most = Math.max(most, beyond(h[3] - h[1], 2 * (h[1] - h[0]), 2 * (h[4] - h[3])));
      }
    }
    return most;
  }

  private static double beyond(double rise, double before, double after) {
    double up = rise - Math.max(before, after);
    double down = Math.min(before, after) - rise;
    return Math.max(0, Math.max(up, down));
  }

  /** Shares as Boole's inequality gives them lie above what is realised, and not by much. */
  @Test
  void boundsTheRealisedShare() {
    Random random = new Random(62);
    int telling = 0;
    for (double lengthM : new double[] {0, 1.5, 6}) {
      double[][] root = root(lengthM);
      StepOdds odds =
          StepOdds.of(
              new TerrainParams(
                  SlopeMethod.HORN,
                  1.8,
                  SPACING_M,
                  2.3,
                  SIGMA_M,
                  lengthM == 0 ? null : Double.valueOf(lengthM),
                  null),
              Footprint.SMALLEST,
              new HeightError(SIGMA_M, lengthM),
              SPEC);
      StepError byLargest =
          StepError.of(
              new TerrainParams(
                  SlopeMethod.HORN,
                  1.8,
                  SPACING_M,
                  2.3,
                  SIGMA_M,
                  lengthM == 0 ? null : Double.valueOf(lengthM),
                  null),
              Footprint.SMALLEST,
              new HeightError(SIGMA_M, lengthM),
              SPEC);
      for (int kind = 0; kind < 4; kind++) {
        float[] ground = ground(kind, random);
        double[] steps = new double[DRAWS];
        for (int d = 0; d < DRAWS; d++) {
          steps[d] = stepM(drawn(ground, root, random));
        }
        java.util.Arrays.sort(steps);
        double measured = stepM(ground);
        for (double share : new double[] {0.2, 0.1, 0.05, 0.02, 0.005}) {
          double limitM = steps[(int) ((1 - share) * DRAWS)];
          double bound = odds.broken(ground, SIDE, SIDE, MIDDLE, MIDDLE, limitM);
          String where = "length " + lengthM + ", ground " + kind + ", " + share + ": " + bound;
          double noise = 4 * Math.sqrt(share * (1 - share) / DRAWS);
          assertTrue(bound >= share - noise, where);
          assertTrue(bound <= (kind == 2 ? 4 : 3) * (share + noise), where);
          assertTrue(bound <= byLargest.broken(limitM - measured) + 1e-6, where);
          telling++;
        }
      }
    }
    assertEquals(60, telling);
  }

  /** Flat, tilted, a wall beside the middle, and rough. */
  private static float[] ground(int kind, Random random) {
    float[] z = new float[SIDE * SIDE];
    for (int i = 0; i < z.length; i++) {
      double x = CELL_M * (i % SIDE);
      int row = i / SIDE;
      double y = CELL_M * row;
      z[i] =
          (float)
              (kind == 1
                  ? 0.2 * x - 0.1 * y
                  : kind == 2
                      ? (i % SIDE > MIDDLE ? 0.3 : 0)
                      : kind == 3 ? 0.05 * random.nextGaussian() : 0);
    }
    return z;
  }

  private static float[] drawn(float[] ground, double[][] root, Random random) {
    int n = ground.length;
    double[] free = new double[n];
    for (int i = 0; i < n; i++) {
      free[i] = random.nextGaussian();
    }
    float[] z = new float[n];
    for (int i = 0; i < n; i++) {
      double e = 0;
      for (int j = 0; j <= i; j++) {
        e += root[i][j] * free[j];
      }
      z[i] = (float) (ground[i] + SIGMA_M * e);
    }
    return z;
  }

  /** A step over the limit as measured is likelier than not, and no limit is always broken. */
  @Test
  void atTheEnds() {
    StepOdds odds =
        StepOdds.of(
            new TerrainParams(SlopeMethod.HORN, 1.8, SPACING_M, 2.3, SIGMA_M, null, null),
            Footprint.SMALLEST,
            new HeightError(SIGMA_M, 0),
            SPEC);
    float[] flat = new float[SIDE * SIDE];
    assertEquals(1, odds.broken(flat, SIDE, SIDE, MIDDLE, MIDDLE, 0));
    assertEquals(1, odds.onFlat(-0.1));
    assertEquals(0, odds.broken(flat, SIDE, SIDE, MIDDLE, MIDDLE, 2));
    double inside = odds.broken(flat, SIDE, SIDE, MIDDLE, MIDDLE, 0.25);
    assertEquals(odds.onFlat(0.25), inside, 1e-12);
    // At the edge fewer breaks are known.
    assertTrue(odds.broken(flat, SIDE, SIDE, 0, 0, 0.25) < inside);
    float[] wall = ground(2, new Random(1));
    assertTrue(odds.broken(wall, SIDE, SIDE, MIDDLE, MIDDLE, 0.29) > 0.25);
  }
}

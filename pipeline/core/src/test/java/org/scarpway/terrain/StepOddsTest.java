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
  static double bothAbove(double h, double k, double correlation) {
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

  /**
   * A height missing three cells away: of the break over two cells that needs it only one of the
   * two differences is known, 2 a - 3 b + d of four heights, with the other at a correlation of
   * 3/7.
   */
  @Test
  void ofABreakThatIsHalfKnownTheKnownHalfDecides() {
    StepOdds odds =
        StepOdds.of(
            new TerrainParams(SlopeMethod.HORN, 1.8, SPACING_M, 2.3, SIGMA_M, null, null),
            Footprint.SMALLEST,
            new HeightError(SIGMA_M, 0),
            SPEC);
    int[][] ends = {{0, 3}, {0, -3}, {3, 0}, {-3, 0}, {3, 3}, {-3, -3}, {3, -3}, {-3, 3}};
    for (double limitM : new double[] {0.15, 0.2, 0.3}) {
      double h = limitM / (Math.sqrt(14) * SIGMA_M);
      double more = 2 * NormalTail.exact(h) - 2 * bothAbove(h, h, 3.0 / 7);
      for (int[] end : ends) {
        float[] flat = new float[SIDE * SIDE];
        flat[(MIDDLE + end[0]) * SIDE + MIDDLE + end[1]] = Float.NaN;
        double got = odds.broken(flat, SIDE, SIDE, MIDDLE, MIDDLE, limitM);
        assertEquals(Math.min(1, odds.onFlat(limitM) + more), got, 1e-5 + 1e-3 * more);
      }
    }
    // Two cells away: neither half of the break over the cell itself, or of what leads there.
    float[] flat = new float[SIDE * SIDE];
    flat[MIDDLE * SIDE + MIDDLE + 2] = Float.NaN;
    assertEquals(1, odds.broken(flat, SIDE, SIDE, MIDDLE, MIDDLE, 2));
  }

  /** Long cells, and planes of more than 3 x 3 cells, whose errors are only bounded. */
  @Test
  void boundsTheRealisedShareOnOtherCellsAndFootprints() {
    Random random = new Random(63);
    double[][] cells = {{0.6, 0.95}, {1.1, 0.7}, {0.9, 0.9}, {0.8, 0.65}};
    Footprint[] footprints = {
      Footprint.SMALLEST, Footprint.SMALLEST, new Footprint(2, 2, 3), new Footprint(2, 3, 4)
    };
    int telling = 0;
    for (int kind = 0; kind < cells.length; kind++) {
      double x = cells[kind][0];
      double y = cells[kind][1];
      Footprint footprint = footprints[kind];
      GridSpec spec = new GridSpec(SIDE, SIDE, x, y, 0, SIDE * y, "");
      HeightError error = new HeightError(SIGMA_M, 0);
      StepOdds odds =
          StepOdds.of(
              new TerrainParams(SlopeMethod.HORN, 1.8, SPACING_M, 2.3, SIGMA_M, null, null),
              footprint,
              error,
              spec);
      for (int n = 0; n < 4; n++) {
        float[] ground = new float[SIDE * SIDE];
        double perCol = 0.3 * random.nextGaussian();
        double perRow = 0.3 * random.nextGaussian();
        for (int i = 0; i < ground.length; i++) {
          int row = i / SIDE;
          double rough = n < 2 ? 0 : 0.04 * random.nextGaussian();
          ground[i] = (float) (perCol * (i % SIDE) + perRow * row + rough);
        }
        double[] steps = new double[DRAWS];
        for (int d = 0; d < DRAWS; d++) {
          float[] z = ground.clone();
          for (int i = 0; i < z.length; i++) {
            z[i] += (float) (SIGMA_M * random.nextGaussian());
          }
          steps[d] = stepM(z, footprint, x, y);
        }
        java.util.Arrays.sort(steps);
        for (double share : new double[] {0.1, 0.02}) {
          double limitM = steps[(int) ((1 - share) * DRAWS)];
          double bound = odds.broken(ground, SIDE, SIDE, MIDDLE, MIDDLE, limitM);
          double noise = 4 * Math.sqrt(share * (1 - share) / DRAWS);
          String where = "cells " + kind + ", ground " + n + ", " + share + ": " + bound;
          assertTrue(bound >= share - noise, where);
          assertTrue(bound <= (kind < 2 ? 3 : 5) * (share + noise), where);
          if (n < 2) {
            // A plane is level to a step.
            assertEquals(odds.onFlat(limitM), bound, 1e-4 * bound);
          }
          telling++;
        }
      }
    }
    assertEquals(32, telling);
  }

  /** The largest step about the middle on any cells, off a plane fitted to a footprint. */
  private static double stepM(float[] z, Footprint footprint, double x, double y) {
    double[] along = new double[4];
    for (int r = -4; r <= 4; r++) {
      for (int c = -4; c <= 4; c++) {
        boolean under =
            Math.abs(r) <= footprint.halfRows()
                && Math.abs(c) <= footprint.halfCols()
                && Math.abs(r) + Math.abs(c) <= footprint.halfDiagonal();
        along[0] += under ? c * at(z, r, c) : 0;
        along[1] += under ? c * c : 0;
        along[2] += under ? r * at(z, r, c) : 0;
        along[3] += under ? r * r : 0;
      }
    }
    double perCol = along[0] / along[1];
    double perRow = along[2] / along[3];
    double most = 0;
    for (int r = -4; r <= 4; r++) {
      for (int c = -4; c <= 4; c++) {
        boolean beside = Math.abs(r) <= 1 && Math.abs(c) <= 1;
        if (beside || Math.hypot(c * x, r * y) <= SPACING_M) {
          most = Math.max(most, Math.abs(at(z, r, c) - at(z, 0, 0) - perRow * r - perCol * c));
        }
      }
    }
    int[][] axes = {{0, 1}, {1, 0}, {1, 1}, {1, -1}};
    for (int[] a : axes) {
      for (int p = -3; p <= -1; p++) {
        double[] h = new double[5];
        for (int i = 0; i < 5; i++) {
          h[i] = at(z, (p + i) * a[0], (p + i) * a[1]);
        }
        most = Math.max(most, beyond(h[3] - h[1], 2 * (h[1] - h[0]), 2 * (h[4] - h[3])));
        if (p > -3) {
          most = Math.max(most, beyond(h[2] - h[1], h[1] - h[0], h[3] - h[2]));
        }
      }
    }
    return most;
  }
}

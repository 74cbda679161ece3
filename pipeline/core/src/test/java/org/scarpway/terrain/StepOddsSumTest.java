package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/** The odds of a step as a sum over all differences that make it, written down one by one. */
class StepOddsSumTest {
  private static final int SIDE = 9;
  private static final double SPACING_M = 1.85;
  private static final double SIGMA_M = 0.03;

  /** A weighted sum of the heights around a cell, with errors independent of each other. */
  private static final class Sum {
    private final double[] weight = new double[SIDE * SIDE];
    private final int row;
    private final int col;

    /** False if a height beyond the edge is part of it. */
    private boolean onGround = true;

    Sum(int cell) {
      row = cell / SIDE;
      col = cell % SIDE;
    }

    Sum add(int down, int right, double w) {
      int r = row + down;
      int c = col + right;
      if (r < 0 || r >= SIDE || c < 0 || c >= SIDE) {
        onGround = false;
      } else {
        weight[r * SIDE + c] += w;
      }
      return this;
    }

    double times(Sum other) {
      double sum = 0;
      for (int i = 0; i < weight.length; i++) {
        sum += weight[i] * other.weight[i];
      }
      return sum;
    }

    double sigmaM() {
      return SIGMA_M * Math.sqrt(times(this));
    }

    double of(float[] z) {
      double sum = 0;
      for (int i = 0; i < weight.length; i++) {
        sum += weight[i] * z[i];
      }
      return sum;
    }
  }

  /** Probability that two sums exceed the limit together, upwards or downwards. */
  private static double bothBeyond(Sum one, Sum other, float[] z, double limitM) {
    if (!one.onGround || !other.onGround) {
      return 0;
    }
    double correlation = one.times(other) / Math.sqrt(one.times(one) * other.times(other));
    double a = one.of(z);
    double b = other.of(z);
    double s = one.sigmaM();
    double t = other.sigmaM();
    return StepOddsTest.bothAbove((limitM - a) / s, (limitM - b) / t, correlation)
        + StepOddsTest.bothAbove((limitM + a) / s, (limitM + b) / t, correlation);
  }

  /**
   * Every difference by its weights, its own error and that of the other half of the break, within
   * the ground and beside its edges.
   */
  @Test
  void addsUpEveryDifferenceOnce() {
    Random random = new Random(64);
    double[][] cells = {{0.9, 0.9}, {0.6, 0.95}, {1.1, 0.7}, {0.9, 0.9}, {0.8, 0.65}};
    Footprint three = Footprint.SMALLEST;
    Footprint[] footprints = {three, three, three, new Footprint(2, 2, 3), new Footprint(2, 3, 4)};
    int[][] axes = {{0, 1}, {1, 0}, {1, 1}, {1, -1}};
    for (int n = 0; n < 50; n++) {
      double x = cells[n % 5][0];
      double y = cells[n % 5][1];
      Footprint f = footprints[n % 5];
      boolean small = f.equals(Footprint.SMALLEST);
      int row = small ? 1 + random.nextInt(SIDE - 2) : SIDE / 2;
      int col = small ? 1 + random.nextInt(SIDE - 2) : SIDE / 2;
      int cell = row * SIDE + col;
      float[] z = new float[SIDE * SIDE];
      for (int i = 0; i < z.length; i++) {
        int down = i / SIDE;
        z[i] = (float) (0.1 * (i % SIDE) - 0.2 * down + 0.03 * random.nextGaussian());
      }
      double limitM = 0.25 + 0.15 * random.nextDouble();
      double want = 0;
      for (int r = -3; r <= 3; r++) {
        for (int c = -3; c <= 3; c++) {
          boolean beside = Math.abs(r) <= 1 && Math.abs(c) <= 1;
          if ((r != 0 || c != 0) && (beside || Math.hypot(c * x, r * y) <= SPACING_M)) {
            Sum off = new Sum(cell).add(r, c, 1).add(0, 0, -1);
            double alone = off.sigmaM();
            for (int dr = -4; dr <= 4; dr++) {
              for (int dc = -4; dc <= 4; dc++) {
                boolean under =
                    Math.abs(dr) <= f.halfRows()
                        && Math.abs(dc) <= f.halfCols()
                        && Math.abs(dr) + Math.abs(dc) <= f.halfDiagonal();
                if (under) {
                  off.add(dr, dc, -c * dc / f.sumDx2() - r * dr / f.sumDy2());
                }
              }
            }
            double bounded =
                alone
                    + SIGMA_M * Math.abs(c) / Math.sqrt(f.sumDx2())
                    + SIGMA_M * Math.abs(r) / Math.sqrt(f.sumDy2());
            double sigma = small ? off.sigmaM() : bounded;
            if (off.onGround) {
              want += NormalTail.exact((limitM - off.of(z)) / sigma);
              want += NormalTail.exact((limitM + off.of(z)) / sigma);
            }
          }
        }
      }
      for (int[] a : axes) {
        for (int p = -1; p <= 1; p++) {
          Sum one = new Sum(cell);
          Sum other = new Sum(cell);
          line(one, a, p, new int[] {-2, -1, 1}, 2, -3, 1);
          line(other, a, p, new int[] {-1, 1, 2}, -1, 3, -2);
          want += bothBeyond(one, other, z, limitM);
          if (p < 1) {
            Sum before = new Sum(cell);
            Sum beyond = new Sum(cell);
            line(before, a, p, new int[] {-1, 0, 1}, 1, -2, 1);
            line(beyond, a, p, new int[] {0, 1, 2}, -1, 2, -1);
            want += bothBeyond(before, beyond, z, limitM);
          }
        }
      }
      StepOdds odds =
          StepOdds.of(
              new TerrainParams(SlopeMethod.HORN, 1.8, SPACING_M, 2.3, SIGMA_M, null, null),
              f,
              new HeightError(SIGMA_M, 0),
              new GridSpec(SIDE, SIDE, x, y, 0, SIDE * y, ""));
      double got = odds.broken(z, SIDE, SIDE, row, col, limitM);
      assertEquals(Math.min(1, want), got, 1e-6 + 2e-3 * want, "ground " + n);
    }
  }

  private static void line(Sum sum, int[] axis, int from, int[] places, double... weights) {
    for (int i = 0; i < weights.length; i++) {
      sum.add((from + places[i]) * axis[0], (from + places[i]) * axis[1], weights[i]);
    }
  }
}

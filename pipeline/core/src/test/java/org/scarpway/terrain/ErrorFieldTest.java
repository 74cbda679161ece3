package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.HashSet;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Workers;

/**
 * Drawn height errors against the distribution that they are drawn from: moments of a normal
 * distribution and the covariance sigma2 exp(-distance / length), within four standard errors.
 */
class ErrorFieldTest {
  private static final double SIGMA_M = 0.7;
  private static final int ROWS = 60;
  private static final int COLS = 96;
  private static final GridSpec SPEC = new GridSpec(ROWS, COLS, 5, 8, 0, 8 * ROWS, "");

  private static float[] heights() {
    float[] z = new float[ROWS * COLS];
    for (int i = 0; i < z.length; i++) {
      z[i] = 3 * (float) Math.floor(i / (double) COLS) - i % COLS;
    }
    return z;
  }

  private static float[][] pair(Double lengthM, long seed, int k, int threads) {
    try (Workers workers = new Workers(threads)) {
      ErrorField field = new ErrorField("asked", SPEC, SIGMA_M, lengthM, seed, null, workers);
      float[][] two = new float[2][ROWS * COLS];
      field.draw(k, workers);
      field.add(0, ROWS, heights(), two[0], two[1], workers);
      return two;
    }
  }

  /** What was added to the heights. */
  private static double[] errors(float[] drawn) {
    float[] z = heights();
    double[] e = new double[z.length];
    for (int i = 0; i < e.length; i++) {
      e[i] = drawn[i] - z[i];
    }
    return e;
  }

  /** Mean product of one field and another that is shifted. */
  private static double product(double[] a, double[] b, int dRow, int dCol) {
    double sum = 0;
    int n = 0;
    for (int row = 0; row + dRow < ROWS; row++) {
      for (int col = 0; col + dCol < COLS; col++) {
        sum += a[row * COLS + col] * b[(row + dRow) * COLS + col + dCol];
        n++;
      }
    }
    return sum / n;
  }

  @Test
  void independentErrorsAreNormalAndIndependent() {
    double variance = SIGMA_M * SIGMA_M;
    double standard = 4 * variance / Math.sqrt(ROWS * COLS - 200);
    double[][] all = new double[6][];
    for (int k = 0; k < 3; k++) {
      float[][] two = pair(null, 5, k, 1);
      all[2 * k] = errors(two[0]);
      all[2 * k + 1] = errors(two[1]);
    }
    for (int i = 0; i < 6; i++) {
      double[] e = all[i];
      assertEquals(0, Arrays.stream(e).average().orElseThrow(), standard / SIGMA_M);
      assertEquals(variance, product(e, e, 0, 0), 1.5 * standard);
      // Within one standard deviation 68.27 %, within two 95.45 %.
      for (double[] share : new double[][] {{1, 0.6827}, {2, 0.9545}}) {
        double in = Arrays.stream(e).filter(x -> Math.abs(x) < share[0] * SIGMA_M).count();
        assertEquals(share[1], in / e.length, 0.025);
      }
      for (int[] lag : new int[][] {{0, 1}, {1, 0}, {1, 1}, {2, 0}}) {
        assertEquals(0, product(e, e, lag[0], lag[1]), standard, "field " + i);
      }
      for (int other = 0; other < i; other++) {
        assertEquals(0, product(e, all[other], 0, 0), standard, i + " and " + other);
      }
    }
  }

  /** The mean over many realisations; cells are 5 m wide and 8 m high. */
  @Test
  void correlatedErrorsHaveTheCovarianceThatIsAskedFor() {
    double lengthM = 20;
    int[][] lags = {{0, 0}, {0, 1}, {1, 0}, {2, 3}, {0, 8}, {5, 0}, {30, 40}};
    int pairs = 40;
    double[] sum = new double[lags.length];
    double across = 0;
    double between = 0;
    double[] before = null;
    for (int k = 0; k < pairs; k++) {
      float[][] two = pair(lengthM, 11, k, 1);
      double[] first = errors(two[0]);
      double[] second = errors(two[1]);
      for (int i = 0; i < lags.length; i++) {
        sum[i] += product(first, first, lags[i][0], lags[i][1]) / (2 * pairs);
        sum[i] += product(second, second, lags[i][0], lags[i][1]) / (2 * pairs);
      }
      across += product(first, second, 0, 0) / pairs;
      between += before == null ? 0 : product(first, before, 0, 0) / (pairs - 1);
      before = first;
    }
    double variance = SIGMA_M * SIGMA_M;
    for (int i = 0; i < lags.length; i++) {
      double distanceM = Math.sqrt(64.0 * lags[i][0] * lags[i][0] + 25.0 * lags[i][1] * lags[i][1]);
      assertEquals(variance * Math.exp(-distanceM / lengthM), sum[i], 0.03 * variance, "lag " + i);
    }
    assertEquals(0, across, 0.03 * variance);
    assertEquals(0, between, 0.03 * variance);
  }

  @Test
  void oneSeedIsOneFieldForAnyNumberOfThreads() {
    for (Double lengthM : new Double[] {null, 20.0}) {
      Set<Integer> fields = new HashSet<>();
      for (long seed : new long[] {0, 1, 2}) {
        for (int k = 0; k < 3; k++) {
          float[][] one = pair(lengthM, seed, k, 1);
          float[][] three = pair(lengthM, seed, k, 3);
          for (int i = 0; i < 2; i++) {
            assertArrayEquals(one[i], three[i]);
            fields.add(Arrays.hashCode(one[i]));
          }
        }
      }
      assertEquals(18, fields.size());
    }
  }

  /** Ground far wider than the correlation does not meet its own image around the torus. */
  @Test
  void theCovarianceHoldsAcrossTheWholeGround() {
    GridSpec wide = new GridSpec(90, 70, 4, 3, 0, 270, "");
    try (Workers workers = new Workers(1)) {
      for (double lengthM : new double[] {6, 15}) {
        ErrorField field = new ErrorField("asked", wide, SIGMA_M, lengthM, 1, null, workers);
        for (int[] lag : new int[][] {{89, 0}, {0, 69}, {89, 69}, {50, 1}, {1, 50}, {70, 60}}) {
          double distanceM = Math.hypot(3 * lag[0], 4 * lag[1]);
          assertEquals(
              SIGMA_M * SIGMA_M * Math.exp(-distanceM / lengthM),
              field.covarianceM2(lag[0], lag[1]),
              5e-5 * SIGMA_M * SIGMA_M,
              lag[0] + ", " + lag[1]);
        }
        assertTrue(field.covarianceM2(0, 0) > 0.48);
      }
    }
  }

  /** In a scratch file and read by some rows at a time: the same bits. */
  @Test
  void aFieldIsTheSameWhereverItIsStoredAndHoweverItIsRead() {
    Random random = new Random(2);
    for (Double lengthM : new Double[] {null, 20.0, 70.0}) {
      try (Workers workers = new Workers(2)) {
        ErrorField field =
            new ErrorField("asked", SPEC, SIGMA_M, lengthM, 3, workers.memory().scratch(), workers);
        for (int k = 2; k >= 0; k--) {
          float[][] whole = pair(lengthM, 3, k, 1);
          field.draw(k, workers);
          for (int go = 0; go < 5; go++) {
            int row = random.nextInt(ROWS);
            int rows = 1 + random.nextInt(ROWS - row);
            float[] z = Arrays.copyOfRange(heights(), row * COLS, (row + rows) * COLS);
            float[][] two = new float[2][z.length];
            field.add(row, rows, z, two[0], two[1], workers);
            for (int i = 0; i < 2; i++) {
              assertArrayEquals(
                  Arrays.copyOfRange(whole[i], row * COLS, (row + rows) * COLS), two[i]);
            }
          }
        }
      }
    }
  }

  /**
   * Against the defining sum over a torus of 2 x 2 images, in another order: eigenvalues by a plain
   * cosine sum, realisations by a plain sum of waves.
   */
  @Test
  void aFieldIsTheSumOfItsWaves() {
    GridSpec small = new GridSpec(5, 3, 4, 4, 0, 20, "");
    double lengthM = 2;
    try (Workers workers = new Workers(1)) {
      ErrorField field = new ErrorField("asked", small, SIGMA_M, lengthM, 9, null, workers);
      // 5 and 3 cells, and 12 lengths of half a cell: 16 points on each side.
      int n = 16;
      double[][] amplitude = new double[n][n];
      for (int u = 0; u < n; u++) {
        for (int v = 0; v < n; v++) {
          double eigenvalue = 0;
          for (int row = 0; row < n; row++) {
            for (int col = 0; col < n; col++) {
              double covariance = 0;
              for (double y : new double[] {4 * row, 4 * (row - n)}) {
                for (double x : new double[] {4 * col, 4 * (col - n)}) {
                  covariance += SIGMA_M * SIGMA_M * Math.exp(-Math.hypot(x, y) / lengthM);
                }
              }
              eigenvalue += covariance * Math.cos(2 * Math.PI * (u * row + v * col) / n);
            }
          }
          amplitude[u][v] = Math.sqrt(eigenvalue / (n * n));
        }
      }
      for (int dRow = 0; dRow < 5; dRow++) {
        for (int dCol = 0; dCol < 3; dCol++) {
          double sum = 0;
          for (int u = 0; u < n; u++) {
            for (int v = 0; v < n; v++) {
              double phase = 2 * Math.PI * (u * dRow + v * dCol) / n;
              sum += amplitude[u][v] * amplitude[u][v] * Math.cos(phase);
            }
          }
          assertEquals(sum, field.covarianceM2(dRow, dCol), 1e-12);
        }
      }
    }
  }
}

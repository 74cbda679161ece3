package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

/** The law of the ground against exact self-affine surfaces and sums by hand. */
class GroundLawTest {
  private static GroundLaw law(GridSpec spec, float[] z) {
    return GroundLaw.of(HeightRows.of(new FloatGrid(spec, z)));
  }

  /** The least exponent is below the true one in 99 of 100 draws, the largest above it. */
  @ParameterizedTest
  @ValueSource(doubles = {0.3, 0.6, 0.85})
  void theIntervalHoldsTheTrueExponent(double hurst) {
    int size = 26;
    int draws = 250;
    SelfAffineSurface surface = new SelfAffineSurface(size, hurst);
    Random random = new Random(7);
    GridSpec spec = TestGround.spec(size, size, 2, 2);
    int low = 0;
    int high = 0;
    double mean = 0;
    double deviation = 0;
    for (int k = 0; k < draws; k++) {
      float[] z = surface.draw(random);
      for (int i = 0; i < z.length; i++) {
        z[i] += 0.7f * (i % size);
      }
      SelfAffine law = law(spec, z).law();
      low += law.hurstLow() <= hurst ? 1 : 0;
      high += law.hurstHigh() >= hurst ? 1 : 0;
      mean += law.hurst() / draws;
      deviation += Math.log(law.deviationM(2)) / draws;
    }
    // 99 % of 250 less three standard deviations of a count; the upper end holds in 97 % or more.
    assertTrue(low >= 243, "below in " + low);
    assertTrue(high >= 238, "above in " + high);
    assertEquals(hurst, mean, 0.02);
    // One cell of 2 m: the spread of the height difference is 1, whatever the tilt.
    assertEquals(0, deviation, 0.08);
  }

  /**
   * 99 of 100 cells of such ground have no break beyond the bounds, for any exponent; what is next
   * to the others is more than they are.
   */
  @ParameterizedTest
  @ValueSource(doubles = {0.3, 0.6, 0.85})
  void breaksOfSuchGroundAreWithinTheBounds(double hurst) {
    int size = 26;
    SelfAffineSurface surface = new SelfAffineSurface(size, hurst);
    Random random = new Random(8);
    GridSpec spec = TestGround.spec(size, size, 2, 2);
    int beyond = 0;
    int cells = 0;
    for (int k = 0; k < 60; k++) {
      float[] z = surface.draw(random);
      GroundLaw law = law(spec, z);
      // Factor 0: what is left was taken as measured, gaps between such cells with it.
      float[] stepM = new float[z.length];
      new Breaks(law, 1, 2, 0).raise(z, size, size, 0, size, stepM);
      for (int row = 4; row < size - 4; row++) {
        for (int col = 4; col < size - 4; col++) {
          beyond += stepM[row * size + col] > 0 ? 1 : 0;
          cells++;
        }
      }
    }
    double share = beyond / (double) cells;
    assertTrue(share > 0.01 && share < 0.05, "share " + share);
  }

  /**
   * Waves of 3 m over 64 cells and 5 m over 80: a second difference of z = a sin(k x) over l is 4 a
   * sin2(k l / 2) times a wave, its spread 4 a sin2(k l / 2) / sqrt 2, and 4 - 4^h tells the law.
   */
  @Test
  void groundIsMeasuredOverOneTwoFourAndEightCells() {
    int size = 640;
    GridSpec spec = new GridSpec(size, size, 2, 3, 0, 3.0 * size, "");
    float[] z = new float[spec.cells()];
    double[] lags = new double[8];
    double[] deviations = new double[8];
    for (int i = 0; i < z.length; i++) {
      int row = i / size;
      z[i] =
          (float)
              (3 * Math.sin(2 * Math.PI * (i % size) / 64.0)
                  + 5 * Math.sin(2 * Math.PI * row / 80.0));
    }
    for (int k = 0; k < 4; k++) {
      int lag = 1 << k;
      lags[2 * k] = 2 * lag;
      deviations[2 * k] = 12 * Math.pow(Math.sin(Math.PI * lag / 64), 2) / Math.sqrt(2);
      lags[2 * k + 1] = 3 * lag;
      deviations[2 * k + 1] = 20 * Math.pow(Math.sin(Math.PI * lag / 80), 2) / Math.sqrt(2);
    }
    SelfAffine want = SelfAffine.fit(lags, deviations);
    SelfAffine got = law(spec, z).law();
    assertEquals(8, got.points());
    // Smooth ground: the exponent of second differences is nearly 2, that of the law at most 1.
    assertEquals(1, want.hurst());
    assertEquals(1, got.hurst());
    assertEquals(want.r2(), got.r2(), 0.005);
    double plain = Math.sqrt(4 - Math.pow(4, 0.999));
    assertEquals(want.deviationAt1M() / plain, got.deviationAt1M(), 0.01 * got.deviationAt1M());
  }

  @Test
  void groundWithoutALawExplainsNothing() {
    GroundLaw level = law(TestGround.spec(30, 30, 1, 1), new float[900]);
    assertNull(level.law());
    for (int axis = 0; axis < GroundLaw.AXES.length; axis++) {
      double bound = level.pairBoundM(axis);
      assertEquals(0, bound);
    }
    for (int axis = 0; axis < GroundLaw.AXES.length; axis++) {
      double bound = level.twoBoundM(axis);
      assertEquals(0, bound);
    }
    GroundLaw tiny = law(TestGround.spec(7, 7, 1, 1), TestGround.rough(7, 7, 3));
    assertNull(tiny.law());
    assertEquals(0, tiny.pairBoundM(0));
    // 12 x 12 cells: second differences over one and two cells, both ways.
    assertEquals(4, law(TestGround.spec(12, 12, 1, 1), TestGround.rough(12, 12, 3)).law().points());
  }

  @Test
  void largeGroundIsThinnedOut() {
    assertEquals(1, GroundLaw.rowStep(1000, 2000));
    assertEquals(1, GroundLaw.rowStep(10, 10));
    // 2^21 samples for each lag.
    assertEquals(2, GroundLaw.rowStep(1 << 11, 1 << 11));
    assertEquals(512, GroundLaw.rowStep(1 << 15, 1 << 15));
  }

  /** Slope of log deviation over log lag and its standard error, by the sums of the textbook. */
  private static double[] slope(double[] lags, double[] squares, long[] counts) {
    int n = lags.length;
    double x = 0;
    double y = 0;
    double xx = 0;
    double xy = 0;
    double yy = 0;
    for (int k = 0; k < n; k++) {
      double a = Math.log(lags[k]);
      double b = 0.5 * Math.log(squares[k] / counts[k]);
      x += a;
      y += b;
      xx += a * a;
      xy += a * b;
      yy += b * b;
    }
    double sxx = xx - x * x / n;
    double sxy = xy - x * y / n;
    double residual = yy - y * y / n - sxy * sxy / sxx;
    return new double[] {sxy / sxx, Math.sqrt(residual / (n - 2) / sxx)};
  }

  /**
   * Second differences by band of rows, written out; without one band after another the exponent
   * scatters by 7/8 of the sum of squares about the mean. Student's t of 7, 99 %: 2.998 (table).
   */
  @Test
  void theIntervalIsThatOfLeavingOutABandAtATime() {
    int size = 26;
    SelfAffineSurface surface = new SelfAffineSurface(size, 0.75);
    Random random = new Random(11);
    GridSpec spec = TestGround.spec(size, size, 2, 3);
    double[] lags = {2, 3, 4, 6, 8, 12};
    int within = 0;
    for (int draw = 0; draw < 6; draw++) {
      float[] z = surface.draw(random);
      double[][] squares = new double[9][6];
      long[][] counts = new long[9][6];
      for (int k = 0; k < 6; k++) {
        int lag = 1 << (k / 2);
        int down = k % 2 == 0 ? 0 : lag;
        int right = lag - down;
        for (int i = 0; i < z.length; i++) {
          int row = i / size;
          if (row + 2 * down < size && i % size + 2 * right < size) {
            int step = down * size + right;
            double d = (double) z[i + 2 * step] - 2.0 * z[i + step] + z[i];
            for (int without = 0; without < 9; without++) {
              boolean in = row * 8 / size != without;
              squares[without][k] += in ? d * d : 0;
              counts[without][k] += in ? 1 : 0;
            }
          }
        }
      }
      double mean = 0;
      for (int band = 0; band < 8; band++) {
        mean += slope(lags, squares[band], counts[band])[0] / 8;
      }
      double scatter = 0;
      for (int band = 0; band < 8; band++) {
        double off = slope(lags, squares[band], counts[band])[0] - mean;
        scatter += off * off * 7 / 8;
      }
      double[] all = slope(lags, squares[8], counts[8]);
      double half = 2.998 * Math.sqrt(scatter + all[1] * all[1]);
      SelfAffine law = law(spec, z).law();
      assertEquals(6, law.points());
      assertEquals(all[0], law.hurst(), 1e-5);
      assertEquals(Math.max(0, all[0] - half), law.hurstLow(), 1e-4);
      assertEquals(Math.min(1, all[0] + half), law.hurstHigh(), 1e-4);
      within += law.hurstLow() > 0 ? 1 : 0;
    }
    assertTrue(within > 2, within + " above 0");
  }

  /** Four rows are not eight bands: a law, but nothing is known of how sure it is. */
  @Test
  void tooFewRowsToLeaveSomeOut() {
    SelfAffine law = law(TestGround.spec(4, 60, 1, 1), TestGround.rough(4, 60, 5)).law();
    assertEquals(0, law.hurstLow());
    assertEquals(1, law.hurstHigh());
  }

  /** Noise: the least exponent is 0, steps are left as they are, and no break is explained. */
  @Test
  void groundThatMayBeNoiseExplainsNothing() {
    float[] z = new float[40 * 40];
    Random random = new Random(12);
    for (int i = 0; i < z.length; i++) {
      z[i] = (float) random.nextGaussian();
    }
    GroundLaw noise = law(TestGround.spec(40, 40, 1, 1), z);
    assertEquals(0, noise.law().hurstLow());
    for (int axis = 0; axis < GroundLaw.AXES.length; axis++) {
      double pair = noise.pairBoundM(axis);
      double two = noise.twoBoundM(axis);
      assertEquals(0, pair);
      assertEquals(0, two);
    }
  }

  /**
   * 3.1 spreads, told from the median of what breaks are told from: heights in lines of four and
   * five to the east, south, south-east and south-west, each line once; 0.6745 of a normal spread.
   */
  @Test
  void theBoundsAreThoseOfTheMedian() {
    int[][] axes = {{0, 1}, {1, 0}, {1, 1}, {1, -1}};
    double[] four = {0.5, -1.5, 1.5, -0.5};
    double[] five = {1, -2, 0, 2, -1};
    for (int size = 25; size <= 26; size++) {
      SelfAffineSurface surface = new SelfAffineSurface(size, 0.85);
      float[] z = surface.draw(new Random(13));
      z[3 * size + 5] = Float.NaN;
      GroundLaw law = law(TestGround.spec(size, size, 2, 2), z);
      assertTrue(law.law().hurstLow() > 0);
      for (int a = 0; a < 4; a++) {
        double pair = median(z, size, axes[a][0], axes[a][1], four);
        double two = median(z, size, axes[a][0], axes[a][1], five);
        assertEquals(3.1 / 0.67449 * pair, law.pairBoundM(a), 1e-4 * pair, "axis " + a);
        assertEquals(3.1 / 0.67449 * two, law.twoBoundM(a), 1e-4 * two, "axis " + a);
      }
    }
  }

  private static double median(float[] z, int size, int down, int right, double[] weights) {
    List<Double> found = new ArrayList<>();
    int last = weights.length - 1;
    for (int i = 0; i < z.length; i++) {
      int row = i / size;
      int endCol = i % size + last * right;
      if (row + last * down < size && endCol >= 0 && endCol < size) {
        double sum = 0;
        for (int k = 0; k <= last; k++) {
          sum += weights[k] * z[i + k * (down * size + right)];
        }
        if (!Double.isNaN(sum)) {
          found.add(Math.abs(sum));
        }
      }
    }
    Collections.sort(found);
    return found.get((found.size() - 1) / 2);
  }
}

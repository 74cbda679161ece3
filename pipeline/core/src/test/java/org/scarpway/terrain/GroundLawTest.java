package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

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
}

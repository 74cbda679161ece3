package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** The table of probabilities against scipy 1.10, stats.ncx2.sf. */
class SlopeOverLimitTest {
  /** Gradient, limit, sigma, probability. */
  private static final double[][] CASES = {
    {0.15, 0.3, 0.05, 0.00196651458},
    {0.225, 0.3, 0.05, 0.0802301315},
    {0.285, 0.3, 0.05, 0.415238207},
    {0.3, 0.3, 0.05, 0.533362483},
    {0.3275, 0.3, 0.05, 0.735678522},
    {0.36, 0.3, 0.05, 0.899070058},
    {0.435, 0.3, 0.05, 0.997188908},
    {0.55, 0.3, 0.05, 0.999999791},
    {0, 0.3, 0.4, 0.754839602},
    {0.18, 0.3, 0.4, 0.775425988},
    {0.3, 0.3, 0.4, 0.80787635},
    {0.52, 0.3, 0.4, 0.882291223},
    {0.78, 0.3, 0.4, 0.953195818},
    {1.38, 0.3, 0.4, 0.998693641},
    {2.3, 0.3, 0.4, 0.999999907},
    {0.64, 0.7, 0.02, 0.00141760221},
    {0.67, 0.7, 0.02, 0.0687193369},
    {0.694, 0.7, 0.02, 0.387572818},
    {0.7, 0.7, 0.02, 0.505699757},
    {0.711, 0.7, 0.02, 0.713683002},
    {0.724, 0.7, 0.02, 0.887635327},
    {0.754, 0.7, 0.02, 0.996673815},
    {0.8, 0.7, 0.02, 0.999999733},
    {0.294, 0.3, 0.002, 0.0013648963},
    {0.297, 0.3, 0.002, 0.0672421942},
    {0.2994, 0.3, 0.002, 0.383361788},
    {0.3, 0.3, 0.002, 0.501329815},
    {0.3011, 0.3, 0.002, 0.709980332},
    {0.3024, 0.3, 0.002, 0.885573762},
    {0.3054, 0.3, 0.002, 0.996567301},
    {0.31, 0.3, 0.002, 0.999999718}
  };

  @Test
  void isTheTailOfTheNonCentralChiSquare() {
    for (double[] c : CASES) {
      float[] east = {9, (float) (0.6 * c[0]), 9};
      float[] north = {9, (float) (-0.8 * c[0]), 9};
      float[] got = {-9, -9, -9};
      new SlopeOverLimit(c[1], c[2]).fill(east, north, 1, 1, 2, got);
      assertEquals(-9, got[0]);
      assertEquals(-9, got[2]);
      assertEquals(c[3], got[1], 2e-5, c[0] + " limit " + c[1] + " sigma " + c[2]);
    }
  }

  @Test
  void farFromTheLimitNothingIsInDoubt() {
    float[] east = {0, 0.1f, 5, Float.NaN, 0};
    float[] north = {0, 0, 0, 0, Float.NaN};
    float[] got = new float[5];
    new SlopeOverLimit(0.5, 0.01).fill(east, north, 5, 0, 1, got);
    assertEquals(0, got[0]);
    assertEquals(0, got[1]);
    assertEquals(1, got[2]);
    assertTrue(Float.isNaN(got[3]) && Float.isNaN(got[4]));
  }

  @Test
  void limitAndErrorMustBePositive() {
    for (double[] c : new double[][] {{0, 1}, {-1, 1}, {1, 0}, {1, -1}, {Double.NaN, 1}}) {
      assertThrows(IllegalArgumentException.class, () -> new SlopeOverLimit(c[0], c[1]));
    }
  }
}

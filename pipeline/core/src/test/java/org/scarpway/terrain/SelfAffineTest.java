package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The law of rough ground against an independent regression (scipy 1.10) and exact grounds. */
class SelfAffineTest {

  /**
   * Deviations of 0.1 lag^0.6 m, 5 % too large and too small in turn. Slope, half of its 95 %
   * interval and intercept by scipy's linregress and stats.t.
   */
  @ParameterizedTest
  @CsvSource({
    "3, 0.6000000000000002, 1.7654849073266192, 0.10163963568148535, 0.9491013335918052",
    "4, 0.5518674596716061, 0.29288024319893, 0.10297067968879099, 0.970470880811774",
    "7, 0.5999999999999999, 0.0684569912306516, 0.10069943706001006, 0.9902459867694642",
    "12, 0.594951132133385, 0.024301867403410383, 0.10113228927826372, 0.9966505376093083",
    "13, 0.5999999999999999, 0.021278785395385868, 0.10037601412111631, 0.997152189598006"
  })
  void theIntervalIsThatOfStudent(
      int points, double hurst, double half, double deviationAt1M, double r2) {
    double[] lags = new double[points];
    double[] deviations = new double[points];
    for (int k = 0; k < points; k++) {
      lags[k] = Math.pow(1.5, k);
      deviations[k] = 0.1 * Math.pow(lags[k], 0.6) * (k % 2 == 0 ? 1.05 : 1 / 1.05);
    }
    SelfAffine law = SelfAffine.fit(lags, deviations);
    assertEquals(points, law.points());
    assertEquals(hurst, law.hurst(), 1e-12);
    assertEquals(deviationAt1M, law.deviationAt1M(), 1e-12);
    assertEquals(r2, law.r2(), 1e-12);
    // Tables of t hold three decimals.
    assertEquals(Math.max(0, hurst - half), law.hurstLow(), 2e-4 * half);
    assertEquals(Math.min(1, hurst + half), law.hurstHigh(), 2e-4 * half);
    assertEquals(deviationAt1M * Math.pow(7, hurst), law.deviationM(7), 1e-12);
  }

  /** The 97.5 % points of 1 to 10 degrees of freedom, from the half width of the interval. */
  @Test
  void everyDegreeOfFreedom() {
    // Standard table.
    double[] t = {
      12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.160
    };
    for (int n = 3; n < t.length + 3; n++) {
      double[] lags = new double[n];
      double[] deviations = new double[n];
      double meanX = 0;
      for (int k = 0; k < n; k++) {
        lags[k] = Math.exp(k);
        meanX += (double) k / n;
        deviations[k] = Math.exp(0.5 * k + (k % 3 == 0 ? 1e-3 : -1e-3));
      }
      SelfAffine law = SelfAffine.fit(lags, deviations);
      double xx = 0;
      double residual = 0;
      for (int k = 0; k < n; k++) {
        xx += (k - meanX) * (k - meanX);
        double off = Math.log(deviations[k]) - Math.log(law.deviationM(lags[k]));
        residual += off * off;
      }
      double error = Math.sqrt(residual / (n - 2) / xx);
      assertEquals(t[n - 3], (law.hurstHigh() - law.hurst()) / error, 6e-4, n + " points");
      assertEquals(t[n - 3], (law.hurst() - law.hurstLow()) / error, 6e-4, n + " points");
    }
  }

  @Test
  void whatIsNotADeviationIsLeftOut() {
    double[] lags = {1, 2, 0, 4, 8, 16, -1};
    double[] deviations = {2, 4, 9, 8, Double.NaN, 0, 5};
    SelfAffine law = SelfAffine.fit(lags, deviations);
    assertEquals(3, law.points());
    assertEquals(1, law.hurst(), 1e-12);
    assertEquals(2, law.deviationAt1M(), 1e-12);
    assertEquals(1, law.r2(), 1e-12);
    assertNull(SelfAffine.fit(new double[] {1, 2}, new double[] {1, 2}));
    assertNull(SelfAffine.fit(new double[] {1, 2, 3}, new double[] {1, 2, 0}));
    assertNull(SelfAffine.fit(new double[] {2, 2, 2}, new double[] {1, 2, 3}));
    // The same at every lag: exponent 0, explained whole.
    SelfAffine flat = SelfAffine.fit(new double[] {1, 2, 4}, new double[] {3, 3, 3});
    assertEquals(0, flat.hurst());
    assertEquals(1, flat.r2());
    // Exponents stay within the law's range.
    assertEquals(1, SelfAffine.fit(new double[] {1, 2, 4}, new double[] {1, 8, 64}).hurst());
    assertEquals(0, SelfAffine.fit(new double[] {1, 2, 4}, new double[] {64, 8, 1}).hurst());
  }
}

package org.scarpway.vehicle;

/**
 * Slip sinkage: the ratio of the sinkage of a driven wheel to that at rest, as a function of slip:
 * (1 + s) / (1 - 0.5 s) (Lyasko 2010, <i>Slip sinkage effect in soil-vehicle mechanics</i>, J.
 * Terramechanics 47(1):21-31, as a secondary text gives it). Measured on a smooth wheel under 80 N
 * in a public table of single-wheel tests: 1.5 times at a slip of 0.2, 3.5 times at 0.6, so the law
 * is too low for light wheels. Up to that load the table is used, from ten times that load the law,
 * and between them the two are interpolated by the logarithm of the load (own choice).
 *
 * <p>The wheel sinks until the soil supports it, so the ratio of resistance to load follows from
 * the sinkage by geometry: 3 / ((3 - n)(n + 1)) sqrt(z / D) whatever the moduli (own derivation
 * from Bekker's sinkage and resistance). It grows with the square root of the factor. Keeping
 * Bekker's moduli at the deeper sinkage would support several times the load, and would stop the
 * crewed lunar rover of 1971, made for slopes of 20 degrees, at 9.
 */
public final class SlipSinkage {
  /** Load of the measured wheel (N), and the load from which the law alone is used. */
  static final double LIGHT_N = 80;

  private static final double HEAVY_N = 10 * LIGHT_N;
  private static final double[] MEASURED_SLIP = {0, 0.2, 0.6};
  private static final double[] MEASURED = {1, 1.5, 3.5};

  private SlipSinkage() {}

  /** Ratio of the sinkage at a slip (0 to 1) to the sinkage without slip. */
  public static double factor(double slip, double loadN) {
    return factorOf(slip, lightness(loadN));
  }

  /**
   * Weight of the measured table: 1 up to the load of the measured wheel, 0 where the law alone is
   * used.
   */
  static double lightness(double loadN) {
    double light = 1 - Math.log(loadN / LIGHT_N) / Math.log(HEAVY_N / LIGHT_N);
    return Math.max(0, Math.min(1, light));
  }

  static double factorOf(double slip, double lightness) {
    double law = (1 + slip) / (1 - 0.5 * slip);
    return law + lightness * (measured(slip) - law);
  }

  /** Linear interpolation between the measured slips, linear extrapolation beyond them. */
  private static double measured(double slip) {
    int i = slip < MEASURED_SLIP[1] ? 0 : 1;
    double share = (slip - MEASURED_SLIP[i]) / (MEASURED_SLIP[i + 1] - MEASURED_SLIP[i]);
    return MEASURED[i] + share * (MEASURED[i + 1] - MEASURED[i]);
  }
}

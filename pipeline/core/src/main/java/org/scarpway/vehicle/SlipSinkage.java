package org.scarpway.vehicle;

/**
 * How much deeper a driven wheel sinks than at rest, by its slip: (1 + s) / (1 - 0.5 s) (Lyasko
 * 2010, <i>Slip sinkage effect in soil-vehicle mechanics</i>, J. Terramechanics 47(1):21-31, as a
 * secondary text gives it). Measured on a smooth wheel under 80 N in a public table of single-wheel
 * tests: 1.5 times at a slip of 0.2, 3.5 times at 0.6, so that law is too low for light wheels.
 * Wheels under that load or less sink as in the table, those under ten times as much by the law,
 * those between in between by the logarithm of the load (own choice).
 *
 * <p>The wheel sinks until it is carried, so its resistance over its load is that of the sinkage by
 * geometry: 3 / ((3 - n)(n + 1)) sqrt(z / D) whatever the moduli (own derivation from Bekker's
 * sinkage and resistance). It grows with the root of the factor. Bekker's moduli kept at the deeper
 * sinkage would carry several times the load, and stop the crewed lunar rover of 1971, made for
 * slopes of 20 degrees, at 9.
 */
public final class SlipSinkage {
  /** Load of the measured wheel (N), and that from which the law alone counts. */
  static final double LIGHT_N = 80;

  private static final double HEAVY_N = 10 * LIGHT_N;
  private static final double[] MEASURED_SLIP = {0, 0.2, 0.6};
  private static final double[] MEASURED = {1, 1.5, 3.5};

  private SlipSinkage() {}

  /** Sinkage at a slip from 0 to 1 over that without slip. */
  public static double factor(double slip, double loadN) {
    return factorOf(slip, lightness(loadN));
  }

  /** 1 for wheels that sink as the measured one, 0 for those that do by the law. */
  static double lightness(double loadN) {
    double light = 1 - Math.log(loadN / LIGHT_N) / Math.log(HEAVY_N / LIGHT_N);
    return Math.max(0, Math.min(1, light));
  }

  static double factorOf(double slip, double lightness) {
    double law = (1 + slip) / (1 - 0.5 * slip);
    return law + lightness * (measured(slip) - law);
  }

  /** Between the measured slips in a straight line, beyond them on the last one. */
  private static double measured(double slip) {
    int i = slip < MEASURED_SLIP[1] ? 0 : 1;
    double share = (slip - MEASURED_SLIP[i]) / (MEASURED_SLIP[i + 1] - MEASURED_SLIP[i]);
    return MEASURED[i] + share * (MEASURED[i + 1] - MEASURED[i]);
  }
}

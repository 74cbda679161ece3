package org.scarpway.hazard;

/**
 * The exponential law of rock sizes on planetary surfaces: the share of ground under rocks of at
 * least a diameter D (m) is k exp(-q D), q = 1.79 + 0.152 / k, of the coverage k by all rocks
 * (Golombek M. and Rapp D. 1997, <i>Size-frequency distributions of rocks on Mars and Earth analog
 * sites</i>, J. Geophys. Res. 102(E2):4117-4129).
 */
final class RockLaw {
  /** Coverages by all rocks that the exponential law was fitted for. */
  static final double LEAST_FITTED = 0.05;

  static final double MOST_FITTED = 0.40;

  /** Coverage by rocks of at least a diameter where all rocks cover k, in the fitted range. */
  static double fitted(double k, double diameterM) {
    return k * Math.exp(-q(k) * diameterM);
  }

  private RockLaw() {}

  static double q(double k) {
    return 1.79 + 0.152 / k;
  }
}

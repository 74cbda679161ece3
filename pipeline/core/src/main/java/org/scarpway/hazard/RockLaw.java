package org.scarpway.hazard;

/**
 * The exponential law of rock sizes on planetary surfaces: the share of ground under rocks of at
 * least a diameter D (m) is k exp(-q D), q = 1.79 + 0.152 / k, with k the coverage by all rocks
 * (Golombek M. and Rapp D. 1997, <i>Size-frequency distributions of rocks on Mars and Earth analog
 * sites</i>, J. Geophys. Res. 102(E2):4117-4129).
 */
final class RockLaw {
  /** Range of coverages by all rocks for which the exponential law was fitted. */
  static final double LEAST_FITTED = 0.05;

  static final double MOST_FITTED = 0.40;

  /** Coverage by rocks of at least a diameter if all rocks cover k, for k in the fitted range. */
  static double fitted(double k, double diameterM) {
    return k * Math.exp(-q(k) * diameterM);
  }

  private RockLaw() {}

  static double q(double k) {
    return 1.79 + 0.152 / k;
  }
}

package org.scarpway.vehicle;

import org.scarpway.terrain.RiceGradient;

/**
 * The slope of a cell itself, from its own gradient, that is closed on every heading. Steeper
 * ground closes off the cells beside it, so it is not crossed even if the wheels span it.
 */
final class CellSlopeLimit {
  /** Relative rounding of a slope that is given in degrees. */
  private static final double HAIR = 1e-6;

  /** Smaller probabilities are treated as 0. Own choice. */
  private static final double NEGLIGIBLE = 1e-6;

  /** Rise over run, reduced by the rounding; infinite if the vehicle states no such limit. */
  private final double steepest;

  private final double sigma;
  private final boolean known;

  CellSlopeLimit(MoveLimits limits, Allowances allowances) {
    Vehicle.Limits stated = limits.vehicle().limits();
    steepest =
        stated == null || stated.steepestDeg() == 90
            ? Double.POSITIVE_INFINITY
            : SlopeGeometry.tan(stated.steepestDeg()) * (1 - HAIR);
    sigma = allowances.cellGradientSigma;
    known = allowances.known;
  }

  boolean shuts(double t) {
    return t > steepest;
  }

  /** Margin that a slope leaves; negative if it is steeper than the limit. */
  double margin01(double t) {
    return 1 - t / steepest;
  }

  /**
   * Probability that the true slope exceeds the limit if {@code t} (rise over run) is measured; 0
   * if heights are used as measured. The larger error of the two components counts for both.
   */
  double broken(double t) {
    if (!known || steepest == Double.POSITIVE_INFINITY) {
      return 0;
    }
    double sigmas = (steepest - t) / sigma;
    // Rayleigh bound: the circle about the measured gradient that touches the limit lies inside.
    boolean far = sigmas > 0 && Math.exp(-0.5 * sigmas * sigmas) < NEGLIGIBLE;
    return far ? 0 : RiceGradient.exceedance(t, steepest, sigma);
  }
}

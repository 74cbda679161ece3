package org.scarpway.terrain;

/**
 * Distribution of the magnitude of a gradient (rise over run) whose two components have independent
 * normal errors of equal size: the Rice distribution, on level ground the Rayleigh distribution.
 * Its mean lies above the true gradient, so measured slopes are biased upwards and level ground
 * never measures as level.
 *
 * <p>Source: Rice S.O. 1944-45, <i>Mathematical analysis of random noise</i>, Bell Syst. Tech. J.
 * 23-24; Bessel functions by Abramowitz and Stegun 9.6.12 and 9.7.1.
 */
public final class RiceGradient {
  private static final int STEPS = 128;

  /** Beyond this many sigma a probability is 0 or 1 to float precision. */
  static final double FAR = 9;

  private RiceGradient() {}

  /** Mean magnitude if the true magnitude is {@code gradient}. */
  public static double mean(double gradient, double sigma) {
    if (sigma == 0) {
      return gradient;
    }
    double x = gradient * gradient / (2 * sigma * sigma);
    return sigma
        * Math.sqrt(Math.PI / 2)
        * ((1 + x) * scaledBessel(0, x / 2) + x * scaledBessel(1, x / 2));
  }

  /** Mean measured slope (deg) on level ground. */
  public static double meanSlopeOfLevelDeg(double sigma) {
    double root = 1 / (sigma * Math.sqrt(2));
    return Math.toDegrees(Math.PI / 2 * ErrorFunction.scaledErfc(root));
  }

  /** The magnitude below which a share {@code p} of measurements on level ground lies. */
  public static double quantileOfLevel(double sigma, double p) {
    return sigma * Math.sqrt(-2 * Math.log1p(-p));
  }

  /**
   * Probability that the magnitude exceeds {@code limit}. With a measured gradient and no prior
   * knowledge, this is the probability that the true slope is above the limit.
   */
  public static double exceedance(double gradient, double limit, double sigma) {
    if (sigma == 0) {
      return gradient > limit ? 1 : 0;
    }
    double from = Math.max(-limit, gradient - FAR * sigma);
    double to = Math.min(limit, gradient + FAR * sigma);
    if (!(from < to)) {
      return 1;
    }
    // Along the gradient x = limit sin(t), across it the chord of the circle at x: smooth in t.
    double a = Math.asin(from / limit);
    double step = (Math.asin(to / limit) - a) / STEPS;
    double inside = 0;
    for (int k = 0; k <= STEPS; k++) {
      double t = a + k * step;
      double half = Math.max(0, limit * Math.cos(t));
      double off = (limit * Math.sin(t) - gradient) / sigma;
      double density = Math.exp(-0.5 * off * off) / (sigma * Math.sqrt(2 * Math.PI));
      int simpson = k == 0 || k == STEPS ? 1 : k % 2 == 1 ? 4 : 2;
      inside += simpson * density * ErrorFunction.erf(half / (sigma * Math.sqrt(2))) * half;
    }
    return Math.max(0, Math.min(1, 1 - inside * step / 3));
  }

  /** exp(-y) I_order(y), order 0 or 1. */
  private static double scaledBessel(int order, double y) {
    if (y < 25) {
      double term = order == 0 ? 1 : y / 2;
      double sum = term;
      for (int k = 1; term > 1e-17 * sum; k++) {
        term *= y * y / 4 / (k * (double) (k + order));
        sum += term;
      }
      return Math.exp(-y) * sum;
    }
    double mu = 4.0 * order * order;
    double term = 1;
    double sum = 1;
    for (int k = 1; k <= 12; k++) {
      double odd = 2 * k - 1;
      term *= -(mu - odd * odd) / (k * 8 * y);
      sum += term;
    }
    return sum / Math.sqrt(2 * Math.PI * y);
  }
}

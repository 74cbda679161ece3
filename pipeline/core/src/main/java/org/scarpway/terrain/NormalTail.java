package org.scarpway.terrain;

/**
 * Upper tail probability of the standard normal distribution, from a table for hot loops.
 *
 * <p>Source: Abramowitz and Stegun 1964, 26.2.29 (in terms of the error function). Between entries
 * the table is linear, error below 5e-7.
 */
public final class NormalTail {
  private static final double FAR = 9;
  private static final int PER_SIGMA = 256;
  private static final double[] TABLE = new double[(int) (2 * FAR * PER_SIGMA) + 2];

  static {
    for (int i = 0; i < TABLE.length; i++) {
      TABLE[i] = exact((double) i / PER_SIGMA - FAR);
    }
  }

  private NormalTail() {}

  /** Probability of a value above x; 0 and 1 beyond nine sigma, 1 where x is NaN. */
  public static double above(double x) {
    if (x >= FAR) {
      return 0;
    }
    if (!(x > -FAR)) {
      return 1;
    }
    double at = (x + FAR) * PER_SIGMA;
    int i = (int) at;
    return TABLE[i] + (at - i) * (TABLE[i + 1] - TABLE[i]);
  }

  /** Upper tail probability without the table. */
  public static double exact(double x) {
    if (x < 0) {
      return 1 - exact(-x);
    }
    return 0.5 * Math.exp(-x * x / 2) * ErrorFunction.scaledErfc(x / Math.sqrt(2));
  }

  /**
   * Quantile of the standard normal distribution: the value below which a share {@code p} lies.
   *
   * @param p above 0, below 1
   */
  public static double quantile(double p) {
    double low = -2 * FAR;
    double high = 2 * FAR;
    for (int i = 0; i < 80; i++) {
      double middle = (low + high) / 2;
      if (exact(-middle) < p) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return (low + high) / 2;
  }
}

package org.scarpway.terrain;

/**
 * Gauss error function and its complement, relative error below 1e-13.
 *
 * <p>Source: Abramowitz and Stegun 1964, series 7.1.6 below 2 and continued fraction 7.1.14 above.
 */
final class ErrorFunction {
  private static final double SPLIT = 2;
  private static final double SQRT_PI = Math.sqrt(Math.PI);

  private ErrorFunction() {}

  static double erf(double x) {
    if (x < 0) {
      return -erf(-x);
    }
    if (x > 6) {
      return 1; // to double precision
    }
    return x < SPLIT ? series(x) : 1 - Math.exp(-x * x) * scaledTail(x);
  }

  /** exp(x2) erfc(x) for x of at least 0; does not underflow where erfc does. */
  static double scaledErfc(double x) {
    return x < SPLIT ? Math.exp(x * x) * (1 - series(x)) : scaledTail(x);
  }

  private static double series(double x) {
    double term = x;
    double sum = x;
    for (int k = 1; term > 1e-17 * sum; k++) {
      term *= 2 * x * x / (2 * k + 1);
      sum += term;
    }
    return 2 / SQRT_PI * Math.exp(-x * x) * sum;
  }

  private static double scaledTail(double x) {
    double fraction = x;
    for (int k = 60; k >= 1; k--) {
      fraction = x + k / 2.0 / fraction;
    }
    return 1 / (SQRT_PI * fraction);
  }
}

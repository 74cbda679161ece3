package org.scarpway.hazard;

/**
 * Exponential integral E1(x) = integral of exp(-t)/t from x to infinity, x above 0; relative error
 * below 1e-13.
 *
 * <p>Source: Abramowitz and Stegun 1964, series 5.1.11 up to 1 and continued fraction 5.1.22 above.
 */
final class ExponentialIntegral {
  private static final double EULER = 0.5772156649015329;
  private static final int MAX_TERMS = 500;

  private ExponentialIntegral() {}

  static double e1(double x) {
    if (!(x > 0)) {
      throw new IllegalArgumentException("E1 needs an argument above 0, got " + x);
    }
    return x <= 1 ? series(x) : Math.exp(-x) * fraction(x);
  }

  private static double series(double x) {
    double sum = -EULER - Math.log(x);
    double power = 1;
    for (int k = 1; k < MAX_TERMS; k++) {
      power *= -x / k;
      double term = -power / k;
      sum += term;
      if (Math.abs(term) < 1e-17 * Math.abs(sum)) {
        break;
      }
    }
    return sum;
  }

  /** exp(x) E1(x) = 1/(x+1- 1/(x+3- 4/(x+5- ...))), by Lentz's method, for large x. */
  private static double fraction(double x) {
    double b = x + 1;
    double c = Double.MAX_VALUE;
    double d = 1 / b;
    double h = d;
    for (int k = 1; k < MAX_TERMS; k++) {
      double a = -(double) k * k;
      b += 2;
      d = 1 / (a * d + b);
      c = b + a / c;
      double factor = c * d;
      h *= factor;
      if (Math.abs(factor - 1) < 1e-16) {
        break;
      }
    }
    return h;
  }
}

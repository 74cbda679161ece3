package org.scarpway.geodata.projection;

/**
 * Sphere or oblate ellipsoid of revolution with the auxiliary latitudes that projections need:
 * conformal, authalic and rectifying.
 *
 * <p>Conformal latitude: Karney 2011, <i>Transverse Mercator with an accuracy of a few
 * nanometers</i>, J. Geod. 85:475-485, eqs. 7-9 and 19-21. Rectifying latitude: the Krueger series
 * to sixth order in the third flattening n, same paper, eqs. 12, 14, 35, 36. Authalic latitude:
 * Snyder 1987, USGS Prof. Paper 1395, eqs. 3-11 and 3-12. Series error about {@code a n^7}: below
 * 1e-9 m on Earth and 1e-8 m on Mars.
 */
public final class Ellipsoid {
  private static final double NEWTON_TOLERANCE = 1e-15;

  private final double a;
  private final double b;
  private final double inverseFlattening;
  private final double e;
  private final double e2;
  private final double qPole;
  private final double rectifyingM;
  private final double[] alpha;
  private final double[] beta;

  private Ellipsoid(double a, double b, double inverseFlattening) {
    if (!(a > 0) || !(b > 0) || b > a || Double.isInfinite(a)) {
      throw new IllegalArgumentException(
          "ellipsoid needs 0 < semi-minor <= semi-major, got " + a + " and " + b + " m");
    }
    this.a = a;
    this.b = b;
    this.inverseFlattening = inverseFlattening;
    this.e2 = (a - b) * (a + b) / (a * a);
    this.e = Math.sqrt(e2);
    this.qPole = isSphere() ? 2 : 1 + (1 - e2) * atanh(e) / e;
    double n = (a - b) / (a + b);
    double n2 = n * n;
    this.rectifyingM = a / (1 + n) * (1 + n2 / 4 + n2 * n2 / 64 + n2 * n2 * n2 / 256);
    this.alpha = KruegerSeries.forward(n);
    this.beta = KruegerSeries.inverse(n);
  }

  /** From the semi-axes (m). */
  public static Ellipsoid of(double semiMajorM, double semiMinorM) {
    double flat = semiMajorM - semiMinorM;
    return new Ellipsoid(semiMajorM, semiMinorM, flat == 0 ? 0 : semiMajorM / flat);
  }

  /** From the semi-major axis (m) and 1/f; 0 means a sphere. */
  public static Ellipsoid ofInverseFlattening(double semiMajorM, double inverseFlattening) {
    double b = inverseFlattening == 0 ? semiMajorM : semiMajorM - semiMajorM / inverseFlattening;
    return new Ellipsoid(semiMajorM, b, inverseFlattening);
  }

  public double semiMajorM() {
    return a;
  }

  public double semiMinorM() {
    return b;
  }

  /** a / (a - b), 0 for a sphere. */
  public double inverseFlattening() {
    return inverseFlattening;
  }

  public boolean isSphere() {
    return a == b;
  }

  public double eccentricity() {
    return e;
  }

  /** Radius of the circle of latitude over a: cos(phi) / sqrt(1 - e2 sin2(phi)). Snyder 14-15. */
  public double parallelRatio(double phi) {
    double s = Math.sin(phi);
    return Math.cos(phi) / Math.sqrt(1 - e2 * s * s);
  }

  /** Radius of curvature along the meridian (m). Snyder 4-18. */
  public double meridianRadiusM(double phi) {
    double s = Math.sin(phi);
    double w = 1 - e2 * s * s;
    return a * (1 - e2) / (w * Math.sqrt(w));
  }

  /** Tangent of the conformal latitude from the tangent of the geodetic latitude. Karney 7-9. */
  public double conformalTan(double tau) {
    if (e == 0) {
      return tau;
    }
    double sec = Math.sqrt(1 + tau * tau);
    double sigma = Math.sinh(e * atanh(e * tau / sec));
    return Math.sqrt(1 + sigma * sigma) * tau - sigma * sec;
  }

  /** Inverse of {@link #conformalTan}, by Newton's method. Karney 19-21. */
  public double geodeticTan(double conformalTan) {
    if (e == 0 || Double.isInfinite(conformalTan)) {
      return conformalTan;
    }
    double tau =
        Math.abs(conformalTan) > 70
            ? conformalTan * Math.exp(e * atanh(e))
            : conformalTan / (1 - e2);
    double stop = NEWTON_TOLERANCE * Math.max(1, Math.abs(conformalTan));
    for (int i = 0; i < 12; i++) {
      double got = conformalTan(tau);
      double step =
          (conformalTan - got)
              * (1 + (1 - e2) * tau * tau)
              / ((1 - e2) * Math.sqrt(1 + tau * tau) * Math.sqrt(1 + got * got));
      tau += step;
      if (!(Math.abs(step) >= stop)) {
        break;
      }
    }
    return tau;
  }

  /** Isometric latitude: asinh of the tangent of the conformal latitude. */
  public double isometric(double phi) {
    return asinh(conformalTan(Math.tan(phi)));
  }

  /** Geodetic latitude (rad) of an isometric latitude. */
  public double ofIsometric(double psi) {
    return Math.atan(geodeticTan(Math.sinh(psi)));
  }

  /** Authalic q at the pole. Snyder 3-12. */
  public double qPole() {
    return qPole;
  }

  /** Authalic q of a geodetic latitude. Snyder 3-12. */
  public double q(double phi) {
    double rest = qPole - qComplement(Math.abs(phi));
    return phi < 0 ? -rest : rest;
  }

  /** Authalic latitude (rad), exact up to the pole. Snyder 3-11. */
  public double authalic(double phi) {
    double left = qComplement(Math.abs(phi));
    double beta = Math.atan2(qPole - left, Math.sqrt(left * (2 * qPole - left)));
    return phi < 0 ? -beta : beta;
  }

  /** Geodetic latitude (rad) of an authalic latitude, by fixed-point iteration. */
  public double ofAuthalic(double beta) {
    double phi = beta;
    for (int i = 0; i < 60; i++) {
      double step = beta - authalic(phi);
      phi += step;
      if (!(Math.abs(step) >= NEWTON_TOLERANCE)) {
        break;
      }
    }
    return Math.max(-Math.PI / 2, Math.min(Math.PI / 2, phi));
  }

  /** q(pole) - q(phi) for phi >= 0, without cancellation near the pole. */
  private double qComplement(double phi) {
    double s = Math.sin(phi);
    double half = Math.sin((Math.PI / 2 - phi) / 2);
    double versed = 2 * half * half; // 1 - sin(phi)
    if (e == 0) {
      return 2 * versed;
    }
    double w = 1 - e2 * s * s;
    return versed * (1 + e2 * s) / w + (1 - e2) * atanh(e * versed / (1 - e2 * s)) / e;
  }

  /** Length of a quarter meridian over pi/2 (m): the radius of the rectifying sphere. */
  public double rectifyingM() {
    return rectifyingM;
  }

  /** Distance along the meridian from the equator (m). */
  public double meridianArcM(double phi) {
    double chi = Math.atan(conformalTan(Math.tan(phi)));
    double mu = chi;
    for (int j = alpha.length; j >= 1; j--) {
      mu += alpha[j - 1] * Math.sin(2 * j * chi);
    }
    return rectifyingM * mu;
  }

  /** Geodetic latitude (rad) at a distance along the meridian from the equator (m). */
  public double ofMeridianArc(double arcM) {
    double mu = arcM / rectifyingM;
    double chi = mu;
    for (int j = beta.length; j >= 1; j--) {
      chi -= beta[j - 1] * Math.sin(2 * j * mu);
    }
    return Math.atan(geodeticTan(Math.tan(chi)));
  }

  double[] alpha() {
    return alpha;
  }

  double[] beta() {
    return beta;
  }

  static double atanh(double x) {
    return 0.5 * Math.log1p(2 * x / (1 - x));
  }

  static double asinh(double x) {
    double m = Math.abs(x);
    double r = Math.log1p(m + m * m / (1 + Math.sqrt(1 + m * m)));
    return x < 0 ? -r : r;
  }
}

package org.scarpway.light;

/** From the mean ecliptic and equinox of a date to the mean equator and equinox of J2000.0. */
final class Ecliptic {
  private static final double SECOND = StrictMath.toRadians(1.0 / 3600);

  private Ecliptic() {}

  /** Mean obliquity (degrees) of the date: IAU 1976 (Lieske et al. 1977). */
  static double obliquityDeg(double centuries) {
    return Vectors.polynomial(
        centuries,
        23 + 26 / 60.0 + 21.448 / 3600,
        -46.8150 / 3600,
        -0.00059 / 3600,
        1.813e-3 / 3600);
  }

  /** Precession by the IAU 1976 angles (Lieske et al. 1977). */
  static double[] toJ2000(double[] ofDate, double centuries) {
    double[] equatorial = Vectors.aboutX(-StrictMath.toRadians(obliquityDeg(centuries)), ofDate);
    double zeta = Vectors.polynomial(centuries, 0, 2306.2181, 0.30188, 0.017998) * SECOND;
    double z = Vectors.polynomial(centuries, 0, 2306.2181, 1.09468, 0.018203) * SECOND;
    double theta = Vectors.polynomial(centuries, 0, 2004.3109, -0.42665, -0.041833) * SECOND;
    return Vectors.aboutZ(zeta, Vectors.aboutY(-theta, Vectors.aboutZ(z, equatorial)));
  }
}

package org.scarpway.light;

/**
 * Where the Sun stands from the Earth's centre, mean ecliptic and equinox of date, without
 * aberration: Meeus, <i>Astronomical Algorithms</i>, 2nd ed. 1998, chapter 25, good to 0.01
 * degrees.
 */
final class SunSeries {
  /** Astronomical unit (km), IAU 2012 resolution B2. */
  static final double AU_KM = 149_597_870.7;

  /** Light (km/s). */
  static final double LIGHT_KMS = 299_792.458;

  private SunSeries() {}

  /** Centuries of TT since J2000.0 to {longitude in degrees, distance in au}. */
  static double[] longitudeDistance(double centuries) {
    double t = centuries;
    double mean = Vectors.polynomial(t, 280.46646, 36_000.76983, 0.0003032);
    double anomaly =
        StrictMath.toRadians(Vectors.polynomial(t, 357.52911, 35_999.05029, -0.0001537));
    double e = Vectors.polynomial(t, 0.016708634, -0.000042037, -0.0000001267);
    double centre =
        Vectors.polynomial(t, 1.914602, -0.004817, -0.000014) * StrictMath.sin(anomaly)
            + Vectors.polynomial(t, 0.019993, -0.000101) * StrictMath.sin(2 * anomaly)
            + 0.000289 * StrictMath.sin(3 * anomaly);
    double trueAnomaly = anomaly + StrictMath.toRadians(centre);
    return new double[] {
      mean + centre, 1.000001018 * (1 - e * e) / (1 + e * StrictMath.cos(trueAnomaly))
    };
  }

  /** Vector from the Earth to the Sun (km) in the axes of J2000.0. */
  static double[] fromEarthKm(double centuries) {
    double[] at = longitudeDistance(centuries);
    return Ecliptic.toJ2000(
        Vectors.polar(StrictMath.toRadians(at[0]), 0, at[1] * AU_KM), centuries);
  }
}

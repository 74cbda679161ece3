package org.scarpway.light;

import java.time.Instant;

/**
 * Sun and Earth over Mars. The sun: Allison M. and McEwen M. 2000, <i>A post-Pathfinder evaluation
 * of areocentric solar coordinates with improved timing recipes for Mars seasonal/diurnal climate
 * studies</i>, Planet. Space Sci. 48:215-235 (west longitudes there, east here), good to 0.01
 * degrees. The Earth: mean orbit of Mars by Standish E.M., <i>Keplerian elements for approximate
 * positions of the major planets</i> (JPL), good to about 0.02 degrees, with the light time.
 */
public final class MarsSky implements Sky {
  private static final double[][] PERTURBERS = {
    // amplitude (deg), period (Julian years), phase (deg)
    {0.0071, 2.2353, 49.409},
    {0.0057, 2.7543, 168.173},
    {0.0039, 1.1177, 191.837},
    {0.0037, 15.7866, 21.736},
    {0.0021, 2.1354, 15.704},
    {0.0020, 2.4694, 95.528},
    {0.0018, 32.8493, 49.095}
  };

  /**
   * The sun's areocentric longitude Ls and what belongs to it.
   *
   * @param lsDeg areocentric solar longitude (degrees)
   * @param timeEquationDeg equation of time (degrees)
   * @param declinationDeg declination of the sun: areocentric latitude under it
   * @param areographicLatDeg areographic latitude under the sun
   * @param distanceAu distance of the sun (au)
   */
  record Season(
      double lsDeg,
      double timeEquationDeg,
      double declinationDeg,
      double areographicLatDeg,
      double distanceAu) {}

  @Override
  public SkyPosition at(Instant utc) {
    double days = TerrestrialTime.daysSinceJ2000(utc);
    Season season = season(days);
    double[] sun =
        Vectors.polar(
            StrictMath.toRadians(-sunWestDeg(days)),
            StrictMath.toRadians(season.declinationDeg),
            season.distanceAu * SunSeries.AU_KM);
    return SkyPosition.of(sun, earthKm(days));
  }

  /** Of days of terrestrial time since J2000.0. */
  static Season season(double days) {
    double anomalyDeg = 19.3871 + 0.52402073 * days;
    double anomaly = StrictMath.toRadians(anomalyDeg);
    double fictitious = 270.3871 + 0.524038496 * days;
    double perturbed = 0;
    for (double[] p : PERTURBERS) {
      perturbed += p[0] * cosDeg(0.985626 * days / p[1] + p[2]);
    }
    double centre =
        (10.691 + 3.0e-7 * days) * StrictMath.sin(anomaly)
            + 0.623 * StrictMath.sin(2 * anomaly)
            + 0.050 * StrictMath.sin(3 * anomaly)
            + 0.005 * StrictMath.sin(4 * anomaly)
            + 0.0005 * StrictMath.sin(5 * anomaly)
            + perturbed;
    double ls = fictitious + centre;
    double equation =
        2.861 * sinDeg(2 * ls) - 0.071 * sinDeg(4 * ls) + 0.002 * sinDeg(6 * ls) - centre;
    double declination = StrictMath.toDegrees(StrictMath.asin(0.42565 * sinDeg(ls)));
    double au =
        1.52367934
            * (1.00436
                - 0.09309 * StrictMath.cos(anomaly)
                - 0.004336 * StrictMath.cos(2 * anomaly)
                - 0.00031 * StrictMath.cos(3 * anomaly)
                - 0.00003 * StrictMath.cos(4 * anomaly));
    return new Season(
        between0And(360, ls), equation, declination, declination + 0.25 * sinDeg(ls), au);
  }

  /** Mars sol date. */
  static double solDate(double days) {
    return (days - 4.5) / 1.0274912517 + 44_796.0 - 0.0009626;
  }

  /** Mean solar time at the prime meridian (h). */
  static double meanTimeH(double days) {
    return between0And(24, 24 * solDate(days));
  }

  /** West longitude (degrees) under the sun. */
  static double sunWestDeg(double days) {
    return between0And(360, meanTimeH(days) * 15 + season(days).timeEquationDeg + 180);
  }

  /** Vector to the Earth (km) in the axes of Mars, of the light that arrives now. */
  static double[] earthKm(double days) {
    double[] mars = heliocentricKm(days);
    double[] earth = fromSunToEarthKm(days);
    double lightDays = Vectors.length(Vectors.minus(earth, mars)) / SunSeries.LIGHT_KMS / 86_400;
    return BodyAxes.mars(days).turned(Vectors.minus(fromSunToEarthKm(days - lightDays), mars));
  }

  /** Vector to the sun (km) in the axes of Mars by its mean orbit: the other way, for checks. */
  static double[] sunByOrbitKm(double days) {
    double[] mars = heliocentricKm(days);
    return BodyAxes.mars(days).turned(new double[] {-mars[0], -mars[1], -mars[2]});
  }

  private static double[] fromSunToEarthKm(double days) {
    double[] sun = SunSeries.fromEarthKm(days / 36_525);
    return new double[] {-sun[0], -sun[1], -sun[2]};
  }

  private static double[] heliocentricKm(double days) {
    double t = days / 36_525;
    double a = 1.52371034 + 0.00001847 * t;
    double e = 0.09339410 + 0.00007882 * t;
    double inclination = StrictMath.toRadians(1.84969142 - 0.00813131 * t);
    double longitude = -4.55343205 + 19_140.30268499 * t;
    double perihelion = -23.94362959 + 0.44441088 * t;
    double node = StrictMath.toRadians(49.55953891 - 0.29257343 * t);
    double anomaly = StrictMath.toRadians((longitude - perihelion) % 360);
    double eccentric = anomaly;
    for (int i = 0; i < 12; i++) { // Kepler's equation by Newton's method
      eccentric -=
          (eccentric - e * StrictMath.sin(eccentric) - anomaly)
              / (1 - e * StrictMath.cos(eccentric));
    }
    double[] inPlane = {
      a * (StrictMath.cos(eccentric) - e) * SunSeries.AU_KM,
      a * StrictMath.sqrt(1 - e * e) * StrictMath.sin(eccentric) * SunSeries.AU_KM,
      0
    };
    double[] fromNode = Vectors.aboutZ(-(StrictMath.toRadians(perihelion) - node), inPlane);
    double[] ecliptic = Vectors.aboutZ(-node, Vectors.aboutX(-inclination, fromNode));
    return Ecliptic.toJ2000(ecliptic, 0);
  }

  private static double between0And(double period, double value) {
    double rest = value % period;
    return rest < 0 ? rest + period : rest;
  }

  private static double sinDeg(double deg) {
    return StrictMath.sin(StrictMath.toRadians(deg));
  }

  private static double cosDeg(double deg) {
    return StrictMath.cos(StrictMath.toRadians(deg));
  }
}

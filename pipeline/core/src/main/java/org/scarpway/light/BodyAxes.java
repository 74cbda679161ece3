package org.scarpway.light;

/**
 * How a body stands in space: right ascension and declination of its north pole in the axes of
 * J2000.0, and the angle of its prime meridian, eastward (degrees).
 *
 * @param poleRaDeg right ascension of the pole
 * @param poleDecDeg declination of the pole
 * @param meridianDeg angle of the prime meridian W
 */
record BodyAxes(double poleRaDeg, double poleDecDeg, double meridianDeg) {

  /**
   * The Moon in mean-Earth axes, in which its maps are drawn: the closed formulae of Archinal et
   * al. 2011, <i>Report of the IAU Working Group on Cartographic Coordinates and Rotational
   * Elements: 2009</i>, Celest. Mech. Dyn. Astr. 109:101-135, good to about 150 m (0.005 degrees).
   *
   * @param days days of TT since J2000.0
   */
  static BodyAxes moon(double days) {
    double d = days;
    double t = d / 36_525;
    double[] e = {
      0,
      125.045 - 0.0529921 * d,
      250.089 - 0.1059842 * d,
      260.008 + 13.0120009 * d,
      176.625 + 13.3407154 * d,
      357.529 + 0.9856003 * d,
      311.589 + 26.4057084 * d,
      134.963 + 13.0649930 * d,
      276.617 + 0.3287146 * d,
      34.226 + 1.7484877 * d,
      15.134 - 0.1589763 * d,
      119.743 + 0.0036096 * d,
      239.961 + 0.1643573 * d,
      25.053 + 12.9590088 * d
    };
    double[] ra = {0, -3.8787, -0.1204, 0.0700, -0.0172, 0, 0.0072, 0, 0, 0, -0.0052, 0, 0, 0.0043};
    double[] dec = {
      0, 1.5419, 0.0239, -0.0278, 0.0068, 0, -0.0029, 0.0009, 0, 0, 0.0008, 0, 0, -0.0009
    };
    double[] w = {
      0, 3.5610, 0.1208, -0.0642, 0.0158, 0.0252, -0.0066, -0.0047, -0.0046, 0.0028, 0.0052, 0.0040,
      0.0019, -0.0044
    };
    double poleRa = 269.9949 + 0.0031 * t;
    double poleDec = 66.5392 + 0.0130 * t;
    double meridian = 38.3213 + 13.17635815 * d - 1.4e-12 * d * d;
    for (int i = 1; i < e.length; i++) {
      double sin = StrictMath.sin(StrictMath.toRadians(e[i]));
      poleRa += ra[i] * sin;
      poleDec += dec[i] * StrictMath.cos(StrictMath.toRadians(e[i]));
      meridian += w[i] * sin;
    }
    return new BodyAxes(poleRa, poleDec, meridian);
  }

  /**
   * Mars: Archinal et al. 2018, <i>Report of the IAU Working Group on Cartographic Coordinates and
   * Rotational Elements: 2015</i>, Celest. Mech. Dyn. Astr. 130:22, table 1, with the slow terms
   * (the others are below 0.0003 degrees).
   *
   * @param days days since J2000.0
   */
  static BodyAxes mars(double days) {
    double t = days / 36_525;
    double slow = 0.5042615 * t;
    return new BodyAxes(
        317.269202 - 0.10927547 * t + 0.419057 * sinDeg(79.398797 + slow),
        54.432516 - 0.05827105 * t + 1.591274 * sinDeg(90 + 166.325722 + slow),
        176.049863 + 350.891982443297 * days + 0.584542 * sinDeg(95.391654 + slow));
  }

  /** A vector of the axes of J2000.0 in the axes of the body: x to its prime meridian. */
  double[] turned(double[] v) {
    double[] node = Vectors.aboutZ(StrictMath.toRadians(90 + poleRaDeg), v);
    double[] equator = Vectors.aboutX(StrictMath.toRadians(90 - poleDecDeg), node);
    return Vectors.aboutZ(StrictMath.toRadians(meridianDeg % 360), equator);
  }

  private static double sinDeg(double deg) {
    return StrictMath.sin(StrictMath.toRadians(deg));
  }
}

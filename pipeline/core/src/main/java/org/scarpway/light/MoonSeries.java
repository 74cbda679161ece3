package org.scarpway.light;

/**
 * Where the Moon stands from the Earth's centre, mean ecliptic and equinox of date: the main terms
 * of ELP 2000-82 (Chapront-Touzé and Chapront 1983) as selected by Meeus, <i>Astronomical
 * Algorithms</i>, 2nd ed. 1998, chapter 47, good to about 10 arc seconds in longitude and 4 in
 * latitude.
 */
final class MoonSeries {
  /** Multiples of D, M, M', F; then 1e-6 degrees of longitude and 1e-3 km of distance. */
  private static final int[] LONGITUDE_DISTANCE = {
    0, 0, 1, 0, 6288774, -20905355, 2, 0, -1, 0, 1274027, -3699111, 2, 0, 0, 0, 658314, -2955968, 0,
    0, 2, 0, 213618, -569925, 0, 1, 0, 0, -185116, 48888, 0, 0, 0, 2, -114332, -3149, 2, 0, -2, 0,
    58793, 246158, 2, -1, -1, 0, 57066, -152138, 2, 0, 1, 0, 53322, -170733, 2, -1, 0, 0, 45758,
    -204586, 0, 1, -1, 0, -40923, -129620, 1, 0, 0, 0, -34720, 108743, 0, 1, 1, 0, -30383, 104755,
    2, 0, 0, -2, 15327, 10321, 0, 0, 1, 2, -12528, 0, 0, 0, 1, -2, 10980, 79661, 4, 0, -1, 0, 10675,
    -34782, 0, 0, 3, 0, 10034, -23210, 4, 0, -2, 0, 8548, -21636, 2, 1, -1, 0, -7888, 24208, 2, 1,
    0, 0, -6766, 30824, 1, 0, -1, 0, -5163, -8379, 1, 1, 0, 0, 4987, -16675, 2, -1, 1, 0, 4036,
    -12831, 2, 0, 2, 0, 3994, -10445, 4, 0, 0, 0, 3861, -11650, 2, 0, -3, 0, 3665, 14403, 0, 1, -2,
    0, -2689, -7003, 2, 0, -1, 2, -2602, 0, 2, -1, -2, 0, 2390, 10056, 1, 0, 1, 0, -2348, 6322, 2,
    -2, 0, 0, 2236, -9884, 0, 1, 2, 0, -2120, 5751, 0, 2, 0, 0, -2069, 0, 2, -2, -1, 0, 2048, -4950,
    2, 0, 1, -2, -1773, 4130, 2, 0, 0, 2, -1595, 0, 4, -1, -1, 0, 1215, -3958, 0, 0, 2, 2, -1110, 0,
    3, 0, -1, 0, -892, 3258, 2, 1, 1, 0, -810, 2616, 4, -1, -2, 0, 759, -1897, 0, 2, -1, 0, -713,
    -2117, 2, 2, -1, 0, -700, 2354, 2, 1, -2, 0, 691, 0, 2, -1, 0, -2, 596, 0, 4, 0, 1, 0, 549,
    -1423, 0, 0, 4, 0, 537, -1117, 4, -1, 0, 0, 520, -1571, 1, 0, -2, 0, -487, -1739, 2, 1, 0, -2,
    -399, 0, 0, 0, 2, -2, -381, -4421, 1, 1, 1, 0, 351, 0, 3, 0, -2, 0, -340, 0, 4, 0, -3, 0, 330,
    0, 2, -1, 2, 0, 327, 0, 0, 2, 1, 0, -323, 1165, 1, 1, -1, 0, 299, 0, 2, 0, 3, 0, 294, 0, 2, 0,
    -1, -2, 0, 8752
  };

  /** Multiples of D, M, M', F; then 1e-6 degrees of latitude. */
  private static final int[] LATITUDE = {
    0, 0, 0, 1, 5128122, 0, 0, 1, 1, 280602, 0, 0, 1, -1, 277693, 2, 0, 0, -1, 173237, 2, 0, -1, 1,
    55413, 2, 0, -1, -1, 46271, 2, 0, 0, 1, 32573, 0, 0, 2, 1, 17198, 2, 0, 1, -1, 9266, 0, 0, 2,
    -1, 8822, 2, -1, 0, -1, 8216, 2, 0, -2, -1, 4324, 2, 0, 1, 1, 4200, 2, 1, 0, -1, -3359, 2, -1,
    -1, 1, 2463, 2, -1, 0, 1, 2211, 2, -1, -1, -1, 2065, 0, 1, -1, -1, -1870, 4, 0, -1, -1, 1828, 0,
    1, 0, 1, -1794, 0, 0, 0, 3, -1749, 0, 1, -1, 1, -1565, 1, 0, 0, 1, -1491, 0, 1, 1, 1, -1475, 0,
    1, 1, -1, -1410, 0, 1, 0, -1, -1344, 1, 0, 0, -1, -1335, 0, 0, 3, 1, 1107, 4, 0, 0, -1, 1021, 4,
    0, -1, 1, 833, 0, 0, 1, -3, 777, 4, 0, -2, 1, 671, 2, 0, 0, -3, 607, 2, 0, 2, -1, 596, 2, -1, 1,
    -1, 491, 2, 0, -2, 1, -451, 0, 0, 3, -1, 439, 2, 0, 2, 1, 422, 2, 0, -3, -1, 421, 2, 1, -1, 1,
    -366, 2, 1, 0, 1, -351, 4, 0, 0, 1, 331, 2, -1, 1, 1, 315, 2, -2, 0, -1, 302, 0, 0, 1, 3, -283,
    2, 1, 1, -1, -229, 1, 1, 0, -1, 223, 1, 1, 0, 1, 223, 0, 1, -2, -1, -220, 2, 1, -1, -1, -220, 1,
    0, 1, 1, -185, 2, -1, -2, -1, 181, 0, 1, 2, 1, -177, 4, 0, -2, -1, 176, 4, -1, -1, -1, 166, 1,
    0, 1, -1, -164, 4, 0, 1, -1, 132, 1, 0, -1, -1, -119, 4, -1, 0, -1, 115, 2, -2, 0, 1, 107
  };

  private MoonSeries() {}

  /** Centuries of TT since J2000.0 to {longitude, latitude in degrees, distance in km}. */
  static double[] position(double centuries) {
    double t = centuries;
    double mean =
        Vectors.polynomial(
            t, 218.3164477, 481_267.88123421, -0.0015786, 1 / 538_841.0, -1 / 65_194_000.0);
    double elongation =
        Vectors.polynomial(
            t, 297.8501921, 445_267.1114034, -0.0018819, 1 / 545_868.0, -1 / 113_065_000.0);
    double sunAnomaly =
        Vectors.polynomial(t, 357.5291092, 35_999.0502909, -0.0001536, 1 / 24_490_000.0);
    double anomaly =
        Vectors.polynomial(
            t, 134.9633964, 477_198.8675055, 0.0087414, 1 / 69_699.0, -1 / 14_712_000.0);
    double fromNode =
        Vectors.polynomial(
            t, 93.2720950, 483_202.0175233, -0.0036539, -1 / 3_526_000.0, 1 / 863_310_000.0);
    // The Earth's orbit grows rounder: terms with the Sun's anomaly shrink with it.
    double shrink = Vectors.polynomial(t, 1, -0.002516, -0.0000074);
    double[] arguments = {elongation, sunAnomaly, anomaly, fromNode};
    double lon = 0;
    double km = 0;
    double lat = 0;
    for (int i = 0; i < LONGITUDE_DISTANCE.length; i += 6) {
      double angle = angle(LONGITUDE_DISTANCE, i, arguments);
      double size = shrunk(LONGITUDE_DISTANCE[i + 1], shrink);
      lon += size * LONGITUDE_DISTANCE[i + 4] * StrictMath.sin(angle);
      km += size * LONGITUDE_DISTANCE[i + 5] * StrictMath.cos(angle);
    }
    for (int i = 0; i < LATITUDE.length; i += 5) {
      double size = shrunk(LATITUDE[i + 1], shrink);
      lat += size * LATITUDE[i + 4] * StrictMath.sin(angle(LATITUDE, i, arguments));
    }
    double venus = 119.75 + 131.849 * t;
    double jupiter = 53.09 + 479_264.290 * t;
    double flattening = 313.45 + 481_266.484 * t;
    lon += 3958 * sinDeg(venus) + 1962 * sinDeg(mean - fromNode) + 318 * sinDeg(jupiter);
    lat +=
        -2235 * sinDeg(mean)
            + 382 * sinDeg(flattening)
            + 175 * sinDeg(venus - fromNode)
            + 175 * sinDeg(venus + fromNode)
            + 127 * sinDeg(mean - anomaly)
            - 115 * sinDeg(mean + anomaly);
    return new double[] {mean + lon * 1e-6, lat * 1e-6, 385_000.56 + km * 1e-3};
  }

  /** Vector from the Earth to the Moon (km) in the axes of J2000.0. */
  static double[] fromEarthKm(double centuries) {
    double[] at = position(centuries);
    return Ecliptic.toJ2000(
        Vectors.polar(StrictMath.toRadians(at[0]), StrictMath.toRadians(at[1]), at[2]), centuries);
  }

  private static double angle(int[] terms, int at, double[] arguments) {
    double sum = 0;
    for (int k = 0; k < 4; k++) {
      sum += terms[at + k] * arguments[k];
    }
    return StrictMath.toRadians(sum);
  }

  private static double shrunk(int multipleOfSun, double shrink) {
    return switch (Math.abs(multipleOfSun)) {
      case 0 -> 1;
      case 1 -> shrink;
      default -> shrink * shrink;
    };
  }

  private static double sinDeg(double deg) {
    return StrictMath.sin(StrictMath.toRadians(deg));
  }
}

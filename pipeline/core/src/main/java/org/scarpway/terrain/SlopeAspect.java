package org.scarpway.terrain;

/**
 * Slope (deg) and aspect (deg, azimuth of steepest descent, clockwise from north, [0, 360)).
 *
 * <p>Slope = atan of the magnitude of the gradient, aspect = azimuth of its reverse (Burrough and
 * McDonnell 1998, <i>Principles of Geographical Information Systems</i>, ch. 8). Aspect is NaN on
 * exactly level ground, never 0, which is north. The arc tangent is the polynomial of Abramowitz
 * and Stegun 1964, 4.4.49, error at most 2e-8 rad: below the spacing of float degrees.
 */
public final class SlopeAspect {
  private static final double DEG = 180 / Math.PI;

  private SlopeAspect() {}

  public static void fill(
      float[] gradEast,
      float[] gradNorth,
      int cols,
      int fromRow,
      int toRow,
      float[] slopeDeg,
      float[] aspectDeg) {
    for (int i = fromRow * cols; i < toRow * cols; i++) {
      double east = gradEast[i];
      double north = gradNorth[i];
      slopeDeg[i] = (float) slopeDeg(Math.sqrt(east * east + north * north));
      aspectDeg[i] = (float) azimuthDeg(-east, -north);
    }
  }

  /** Angle (deg) of a rise over run of at least 0. */
  public static double slopeDeg(double gradient) {
    return DEG * (gradient <= 1 ? atanTo1(gradient) : Math.PI / 2 - atanTo1(1 / gradient));
  }

  /** Azimuth (deg) clockwise from north in [0, 360); NaN if both components are 0. */
  public static double azimuthDeg(double east, double north) {
    double absEast = Math.abs(east);
    double absNorth = Math.abs(north);
    // 0/0 is NaN: level ground has no aspect.
    double angle = atanTo1(Math.min(absEast, absNorth) / Math.max(absEast, absNorth));
    if (absEast > absNorth) {
      angle = Math.PI / 2 - angle;
    }
    if (north < 0) {
      angle = Math.PI - angle;
    }
    if (east < 0) {
      angle = 2 * Math.PI - angle;
    }
    double deg = DEG * angle;
    // 359.99999 would be stored as 360.
    return (float) deg >= 360f ? 0 : deg;
  }

  /** Abramowitz and Stegun 4.4.49 on [0, 1]. */
  private static double atanTo1(double x) {
    double y = x * x;
    return x
        * (1
            + y
                * (-0.3333314528
                    + y
                        * (0.1999355085
                            + y
                                * (-0.1420889944
                                    + y
                                        * (0.1065626393
                                            + y
                                                * (-0.0752896400
                                                    + y
                                                        * (0.0429096138
                                                            + y
                                                                * (-0.0161657367
                                                                    + y * 0.0028662257))))))));
  }
}

package org.scarpway.vehicle;

/**
 * How a slope meets a heading. Grades are rise over run (plan), positive uphill along the heading
 * and positive where the ground rises to the right of it. Limits on climb, descent and side slope
 * are limits on these grades (an inclinometer held along and across the heading on the ground), not
 * on the body angles asin(sin S cos psi): the grade is never the smaller of the two.
 *
 * <p>With slope S and angle psi between heading and fall line, tan(grade) = tan S cos psi and
 * tan(cross) = tan S sin psi, so tan2(grade) + tan2(cross) = tan2 S (plane geometry).
 */
public final class SlopeGeometry {
  private SlopeGeometry() {}

  /** Rise over run along a unit heading. */
  public static double grade(double gradEast, double gradNorth, double east, double north) {
    return gradEast * east + gradNorth * north;
  }

  /** Rise over run towards the right of a unit heading. */
  public static double cross(double gradEast, double gradNorth, double east, double north) {
    return gradEast * north - gradNorth * east;
  }

  /** Angle (deg) of the ground along a heading at {@code psiDeg} from the fall line. */
  public static double gradeDeg(double slopeDeg, double psiDeg) {
    return deg(tan(slopeDeg) * Math.cos(Math.toRadians(psiDeg)));
  }

  /** Angle (deg) of the ground across a heading at {@code psiDeg} from the fall line. */
  public static double crossDeg(double slopeDeg, double psiDeg) {
    return deg(tan(slopeDeg) * Math.sin(Math.toRadians(psiDeg)));
  }

  /** Pitch (deg) of a body lying flat on the slope. */
  public static double pitchDeg(double slopeDeg, double psiDeg) {
    return Math.toDegrees(
        Math.asin(Math.sin(Math.toRadians(slopeDeg)) * Math.cos(Math.toRadians(psiDeg))));
  }

  /** Roll (deg) of a body lying flat on the slope. */
  public static double rollDeg(double slopeDeg, double psiDeg) {
    return Math.toDegrees(
        Math.asin(Math.sin(Math.toRadians(slopeDeg)) * Math.sin(Math.toRadians(psiDeg))));
  }

  /** Rise over run of an angle in degrees. */
  public static double tan(double angleDeg) {
    return Math.tan(Math.toRadians(angleDeg));
  }

  /** Angle (deg) of a rise over run. */
  public static double deg(double grade) {
    return Math.toDegrees(Math.atan(grade));
  }
}

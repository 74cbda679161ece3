package org.scarpway.vehicle;

/**
 * Geometry of a slope along and across a heading. Grades are rise over run (plan), positive uphill
 * along the heading and positive where the ground rises to the right of it. Limits on climb,
 * descent and side slope are limits on these grades (an inclinometer held along and across the
 * heading on the ground), not on the body angles asin(sin S cos psi): the grade is never smaller
 * than the body angle.
 *
 * <p>With slope S and angle psi between heading and fall line, grade = tan S cos psi and cross =
 * tan S sin psi, so grade2 + cross2 = tan2 S (plane geometry).
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

  /** Rise over run of an angle in degrees. */
  public static double tan(double angleDeg) {
    return Math.tan(Math.toRadians(angleDeg));
  }

  /** Angle (deg) of a rise over run. */
  public static double deg(double grade) {
    return Math.toDegrees(Math.atan(grade));
  }
}

package org.scarpway.reach.front;

import java.util.Arrays;

/**
 * The grades at which the slope of one ground's cost jumps upwards: where power instead of the
 * rated speed limits the vehicle, where a walker is quickest, or where braking begins. The polar
 * speed curve has a corner in the direction of such a grade, and paths in that direction are found
 * only by steps in exactly that direction.
 */
final class PolarCorner {
  /** Smallest relative increase of the cost's slope, per unit of grade, that counts as a corner. */
  private static final double LEAST_BEND = 0.25;

  private final double[] grades;

  /**
   * @param cost cost at equal steps of grade, infinite where there is no speed
   */
  PolarCorner(double[] cost, double firstGrade, double step) {
    double[] found = new double[8];
    int n = 0;
    for (int i = 2; i < cost.length - 2 && n < found.length; i++) {
      double before = bend(cost, i - 1);
      double here = bend(cost, i);
      double after = bend(cost, i + 1);
      double sum = before + here + after;
      // A corner between two entries affects both, in proportion to its distance from the other.
      if (here > before && here >= after && sum > LEAST_BEND * step * Math.abs(cost[i])) {
        found[n++] = firstGrade + step * (i + (after - before) / sum);
      }
    }
    grades = Arrays.copyOf(found, n);
  }

  private static double bend(double[] cost, int i) {
    double bend = cost[i + 1] - 2 * cost[i] + cost[i - 1];
    return bend > 0 && bend < Double.POSITIVE_INFINITY ? bend : 0;
  }

  /** The first corner strictly between two grades, NaN if there is none. */
  double between(double low, double high) {
    for (double g : grades) {
      if (g > low && g < high) {
        return g;
      }
    }
    return Double.NaN;
  }

  /**
   * Position between two directions at which the ground rises at a given grade: 0 to 1 along the
   * line between their end points; NaN if there is none or it is at an end.
   *
   * @param rise rise of the ground to the first point (m)
   * @param riseTo rise of the ground to the second point (m)
   */
  static double share(
      double grade,
      double east,
      double north,
      double rise,
      double eastTo,
      double northTo,
      double riseTo) {
    double dEast = eastTo - east;
    double dNorth = northTo - north;
    double dRise = riseTo - rise;
    // (rise + t dRise)^2 = grade^2 (length at t)^2
    double g2 = grade * grade;
    double a = dRise * dRise - g2 * (dEast * dEast + dNorth * dNorth);
    double b = rise * dRise - g2 * (east * dEast + north * dNorth);
    double c = rise * rise - g2 * (east * east + north * north);
    double root = Math.sqrt(Math.max(0, b * b - a * c));
    double t = c / (root - b);
    if (!inside(t, rise, dRise, grade)) {
      t = c / (-root - b);
    }
    return inside(t, rise, dRise, grade) ? t : Double.NaN;
  }

  private static boolean inside(double t, double rise, double dRise, double grade) {
    return t > 0 && t < 1 && (rise + t * dRise) * grade >= 0;
  }
}

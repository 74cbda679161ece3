package org.scarpway.vehicle;

import java.util.function.DoublePredicate;

/**
 * Combined traction limit of wheels on soil along and across a slope: the vector sum of the force
 * along the heading and the load across it must stay within the grip of the wheels (friction
 * circle; common practice). Grip is the thrust at the slip at which wheels dig in, the same that
 * limits climbs and descents; more may be available to hold the vehicle at rest.
 *
 * <p>On a slope S the component of the weight W is W a along the heading and l across it, (W a)2 +
 * l2 = W2 sin2 S on every heading. With the motion resistance R of the wheels they must provide (W
 * a + R)2 + l2 = W2 sin2 S + R (R + 2 W a), which increases with the climb of the heading. So at
 * each slope the circle is an upper bound on the grade along the heading. The bound is negative
 * where only headings down the slope remain, and no heading remains where the slope is steeper than
 * the wheels hold straight down (own derivation).
 */
final class FrictionCircle {
  /** No limit. */
  static final FrictionCircle NONE =
      new FrictionCircle(Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, new double[] {1, 1});

  private static final int ENTRIES = 64;
  private static final int HALVINGS = 30;

  /**
   * Slope (rise over run) from which the circle closes some headings, and the slope up to which it
   * leaves any open.
   */
  final double from;

  final double to;

  /**
   * Largest share of the weight allowed against the heading, at equal slope steps between the two.
   */
  private final double[] along01;

  private FrictionCircle(double from, double to, double[] along01) {
    this.from = from;
    this.to = to;
    this.along01 = along01;
  }

  /**
   * @param climb steepest grade that the wheels drive straight up, rise over run
   * @param descent steepest grade that they hold straight down, rise over run
   */
  static FrictionCircle of(WheelsOnGround wheels, double climb, double descent) {
    double from = Math.max(0, climb);
    if (from == Double.POSITIVE_INFINITY) {
      return NONE;
    }
    double to = Math.max(from + GradeTable.GRADE_STEP, Math.min(GradeTable.MAX_GRADE, descent));
    double[] along01 = new double[ENTRIES + 1];
    double most = 1;
    for (int i = 0; i <= ENTRIES; i++) {
      double slope = from + (to - from) * i / ENTRIES;
      double normal = 1 / Math.sqrt(1 + slope * slope);
      // A steeper slope never allows more.
      most = Math.min(most, mostAlong(wheels, normal, slope * normal));
      along01[i] = most;
    }
    return new FrictionCircle(from, to, along01);
  }

  private static double mostAlong(WheelsOnGround wheels, double normal, double sine) {
    double driven = most(along -> wheels.driveAcross(normal, along), sine);
    double rolls = -wheels.resting01(normal);
    return driven >= rolls
        ? driven
        : Math.min(rolls, most(along -> wheels.holdAcross(normal, along), sine));
  }

  /**
   * Largest value from -1 up to {@code largest} that satisfies a condition which fails above some
   * value.
   */
  private static double most(DoublePredicate holds, double largest) {
    if (holds.test(largest)) {
      return largest;
    }
    double low = -1;
    double high = largest;
    for (int i = 0; i < HALVINGS; i++) {
      double middle = (low + high) / 2;
      if (holds.test(middle)) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /**
   * Highest allowed grade along a heading on a slope of rise over run t; infinite where the circle
   * is no limit. Interpolated linearly between entries, which lie on a concave curve.
   */
  double up(double t) {
    if (!(t > from)) {
      return Double.POSITIVE_INFINITY;
    }
    double place = Math.min(ENTRIES, (t - from) / (to - from) * ENTRIES);
    int i = Math.min(ENTRIES - 1, (int) place);
    double a = along01[i] + (place - i) * (along01[i + 1] - along01[i]);
    return a / Math.sqrt(1 - a * a);
  }

  /** True if a heading stays within the circle. */
  boolean holds(double grade, double cross) {
    double t = Math.sqrt(grade * grade + cross * cross);
    return t <= to && grade <= up(t);
  }
}

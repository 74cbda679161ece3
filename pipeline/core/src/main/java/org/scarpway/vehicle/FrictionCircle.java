package org.scarpway.vehicle;

import java.util.function.DoublePredicate;

/**
 * What wheels on soil hold along and across a slope at once: the force along the heading and the
 * load across it are the two sides of a right angle whose hypotenuse must stay within the grip of
 * the wheels (friction circle; common practice). Grip is the thrust at the slip at which wheels dig
 * in, the same that bounds climbs and descents; more may be there to hold the vehicle at rest.
 *
 * <p>On a slope S the weight W pulls W a along the heading and l across it, (W a)2 + l2 = W2 sin2 S
 * on every heading. With the resistance R of the wheels they must give (W a + R)2 + l2 = W2 sin2 S
 * + R (R + 2 W a): more, the more the heading climbs. So at each slope the circle is a bound on the
 * grade along the heading, below zero where only headings down the slope are left, and none is left
 * where the slope is more than the wheels hold on straight down it (own derivation).
 */
final class FrictionCircle {
  /** No limit. */
  static final FrictionCircle NONE =
      new FrictionCircle(Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, new double[] {1, 1});

  private static final int ENTRIES = 64;
  private static final int HALVINGS = 30;

  /** Rise over run from which it takes headings, and to which it leaves any. */
  final double from;

  final double to;

  /** Most of the weight that may pull against the heading, at equal steps of the slope between. */
  private final double[] along01;

  private FrictionCircle(double from, double to, double[] along01) {
    this.from = from;
    this.to = to;
    this.along01 = along01;
  }

  /**
   * @param climb steepest grade that the wheels drive straight up
   * @param descent steepest that they hold straight down
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
      // A steeper slope never leaves more.
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

  /** Largest value from -1 on that meets a condition which fails above some value. */
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
   * Highest grade along a heading on a slope of rise over run t; infinite where the circle bounds
   * none. Linear between entries, which lie on a curve that is hollow from below.
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

  /** Whether a heading keeps within it. */
  boolean holds(double grade, double cross) {
    double t = Math.sqrt(grade * grade + cross * cross);
    return t <= to && grade <= up(t);
  }
}

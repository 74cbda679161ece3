package org.scarpway.vehicle;

import org.scarpway.vehicle.Vehicle.Sight;

/**
 * Maximum speed from which a vehicle stops within the sight of its crew: v t + v2 / 2a = s, with
 * the time t until the brakes act (stopping sight distance of road design; common practice).
 *
 * <p>The deceleration a is that of the brakes on level ground, or that of the soil's grip if
 * smaller, less the component of gravity on a descent. Grip is the friction that remains after
 * holding the vehicle on the steepest side slope that its limits allow. A climb is not credited,
 * since the ground ahead may fall (own choices, on the safe side).
 */
final class StoppingSight {
  private final double sightM;
  private final double reactionS;
  private final double brakeMs2;
  private final double gravityMs2;
  private final double friction;
  private final double side;

  private StoppingSight(
      Sight sight, double brakeMs2, double gravityMs2, double friction, double side) {
    this.sightM = sight.sightM();
    this.reactionS = sight.reactionS();
    this.brakeMs2 = brakeMs2;
    this.gravityMs2 = gravityMs2;
    this.friction = friction;
    this.side = side;
  }

  /** Creates the limit; null if the vehicle states no sight. */
  static StoppingSight of(Vehicle vehicle, double gravityMs2) {
    Sight sight = vehicle.drive().sight();
    if (sight == null) {
      return null;
    }
    Double sideDeg = vehicle.limits() == null ? null : vehicle.limits().sideDeg();
    return new StoppingSight(
        sight,
        sight.brakeMs2() == null ? Double.POSITIVE_INFINITY : sight.brakeMs2(),
        gravityMs2,
        CurveLimit.friction(vehicle.soil()),
        sideDeg == null ? 0 : Math.sin(Math.toRadians(sideDeg)));
  }

  /** Deceleration (m/s2) along a grade; 0 or less if the brakes do not stop the vehicle. */
  double decelerationMs2(double grade) {
    double secant = Math.sqrt(1 + grade * grade);
    double grip = friction / secant;
    double left = grip == Double.POSITIVE_INFINITY ? grip : Math.sqrt(over(grip, side));
    return Math.min(brakeMs2, gravityMs2 * left) - gravityMs2 * Math.max(0, -grade) / secant;
  }

  private static double over(double a, double b) {
    return Math.max(0, a * a - b * b);
  }

  /** Maximum speed (m/s) on a grade; 0 if the brakes do not stop the vehicle. */
  double speedMs(double grade) {
    double a = decelerationMs2(grade);
    if (!(a > 0)) {
      return 0;
    }
    double late = a * reactionS;
    // The root of v t + v2 / 2a = s in the form without cancellation.
    return 2 * a * sightM / (late + Math.sqrt(late * late + 2 * a * sightM));
  }
}

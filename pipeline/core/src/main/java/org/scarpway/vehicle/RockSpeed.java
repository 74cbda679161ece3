package org.scarpway.vehicle;

/**
 * Speed of advance of a vehicle that must drive around rocks. Own derivation.
 *
 * <p>Rocks are independent, so the free path to the next rock in the way is exponential with mean
 * l. To pass a rock by a sidestep s the vehicle swerves there and back, two arcs at the lateral
 * acceleration a, which takes t = 2 sqrt(s / a) at any speed. A free path X then takes the longer
 * of X / v and t, with mean t + (l / v) exp(-v t / l), so the speed of advance is l divided by that
 * mean, at most l / t. In addition the vehicle must stop within the mean free path: v2 = 2 b l. For
 * the existence of a critical speed above which no infinite path leads through random rocks see
 * Karaman S. and Frazzoli E. 2012, High-speed flight in an ergodic forest, ICRA 2899-2906.
 */
final class RockSpeed {
  /** Maximum lateral and braking acceleration as a share of gravity. Own choice. */
  private static final double MOST_OF_GRAVITY = 0.5;

  private final double swerveMs2;
  private final double brakeMs2;

  RockSpeed(Vehicle vehicle, double gravityMs2) {
    double most = MOST_OF_GRAVITY * gravityMs2;
    double onUnitCurve = CurveLimit.of(vehicle, gravityMs2).speedMs(0, 0, 1, true);
    // A vehicle that tips on level ground has no open heading; only avoid a division by zero.
    swerveMs2 = Math.max(1e-6, Math.min(most, onUnitCurve * onUnitCurve));
    brakeMs2 = Math.min(most, gravityMs2 * CurveLimit.friction(vehicle.soil()));
  }

  /**
   * @param freeMs speed without rocks
   * @param hitsPerM expected rocks in the way per metre, above 0
   * @param sidestepM lateral displacement that clears one rock (m)
   */
  double speedMs(double freeMs, double hitsPerM, double sidestepM) {
    double perM = 2 * Math.sqrt(sidestepM / swerveMs2) * hitsPerM;
    double made = 1 / (perM + Math.exp(-perM * freeMs) / freeMs);
    return Math.min(made, Math.sqrt(2 * brakeMs2 / hitsPerM));
  }
}

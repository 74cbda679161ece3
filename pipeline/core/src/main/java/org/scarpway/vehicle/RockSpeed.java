package org.scarpway.vehicle;

/**
 * How fast a vehicle makes way among rocks that it must drive round. Own derivation.
 *
 * <p>Rocks lie independently, so the free path to the next one in the way is exponential with mean
 * l. To come out of its way by a sidestep s the vehicle swerves there and back, two arcs at the
 * lateral acceleration a: that takes t = 2 sqrt(s / a), however fast it goes. A free path X then
 * takes the longer of X / v and t, on the mean t + (l / v) exp(-v t / l), so it makes l over that,
 * at most l / t. And it must stop within the mean free path: v2 = 2 b l. That there is a speed
 * above which no endless way leads through rocks at random: Karaman S. and Frazzoli E. 2012,
 * High-speed flight in an ergodic forest, ICRA 2899-2906.
 */
final class RockSpeed {
  /** Of gravity, the most that crews swerve or brake with. Own choice. */
  private static final double MOST_OF_GRAVITY = 0.5;

  private final double swerveMs2;
  private final double brakeMs2;

  RockSpeed(Vehicle vehicle, double gravityMs2) {
    double most = MOST_OF_GRAVITY * gravityMs2;
    double onUnitCurve = CurveLimit.of(vehicle, gravityMs2).speedMs(0, 0, 1, true);
    // A vehicle that tips on the level has no heading open; it need only not divide by nothing.
    swerveMs2 = Math.max(1e-6, Math.min(most, onUnitCurve * onUnitCurve));
    brakeMs2 = Math.min(most, gravityMs2 * CurveLimit.friction(vehicle.soil()));
  }

  /**
   * @param freeMs speed without rocks
   * @param hitsPerM rocks in the way per metre, above 0
   * @param sidestepM out of the way of one
   */
  double speedMs(double freeMs, double hitsPerM, double sidestepM) {
    double perM = 2 * Math.sqrt(sidestepM / swerveMs2) * hitsPerM;
    double made = 1 / (perM + Math.exp(-perM * freeMs) / freeMs);
    return Math.min(made, Math.sqrt(2 * brakeMs2 / hitsPerM));
  }
}

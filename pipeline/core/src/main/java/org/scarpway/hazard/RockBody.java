package org.scarpway.hazard;

/**
 * The parts of a vehicle that collide with rocks. A rock at least as high as the belly clearance
 * less the sinkage obstructs the full width of the vehicle. A lower rock that no wheel climbs (at
 * least the step limit less the sinkage) obstructs only the paths of the wheels.
 *
 * @param swathM width of ground that the vehicle sweeps
 * @param bellyM height of the lowest rock that hits the belly
 * @param wheelM height of the lowest rock that stops a wheel; infinite if there is none below the
 *     belly
 * @param wheelWidthM width of a wheel
 * @param wheelPaths number of wheel paths side by side
 */
public record RockBody(
    double swathM, double bellyM, double wheelM, double wheelWidthM, int wheelPaths) {
  static void requirePositive(String name, double value) {
    if (!(value > 0)) {
      throw new IllegalArgumentException(name + " must be positive, got " + value);
    }
  }

  /** Smallest diameter (m) of a rock higher than the vehicle's clearance. */
  public static double blockingDiameterM(double clearanceM) {
    return 2 * clearanceM;
  }

  public RockBody {
    requirePositive("swathM", swathM);
    requirePositive("bellyM", bellyM);
    requirePositive("wheelM", wheelM);
  }

  /** Diameter (m) of the smallest rock that hits the belly. */
  double bellyDiameterM() {
    return blockingDiameterM(bellyM);
  }

  /** Diameter (m) of the smallest rock that stops a wheel. */
  double wheelDiameterM() {
    return blockingDiameterM(Math.min(wheelM, bellyM));
  }
}

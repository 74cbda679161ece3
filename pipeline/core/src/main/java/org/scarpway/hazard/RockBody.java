package org.scarpway.hazard;

/**
 * What of a vehicle meets rocks. A rock as high as the belly clears, less what the wheels sink, is
 * in the way of all its width; a lower one that no wheel climbs, from the step limit less the
 * sinkage on, only where a wheel would meet it.
 *
 * @param swathM width of ground that the vehicle sweeps
 * @param bellyM height of the lowest rock that the belly meets
 * @param wheelM height of the lowest rock that stops a wheel; infinite for none below the belly
 * @param wheelWidthM width of a wheel
 * @param wheelPaths paths of wheels side by side
 */
public record RockBody(
    double swathM, double bellyM, double wheelM, double wheelWidthM, int wheelPaths) {
  static void requirePositive(String name, double value) {
    if (!(value > 0)) {
      throw new IllegalArgumentException(name + " must be positive, got " + value);
    }
  }

  /** Smallest diameter (m) that stands taller than what the vehicle clears. */
  public static double blockingDiameterM(double clearanceM) {
    return 2 * clearanceM;
  }

  public RockBody {
    requirePositive("swathM", swathM);
    requirePositive("bellyM", bellyM);
    requirePositive("wheelM", wheelM);
  }

  /** Diameter of the smallest rock that the belly meets. */
  double bellyDiameterM() {
    return blockingDiameterM(bellyM);
  }

  /** Diameter of the smallest rock that stops a wheel. */
  double wheelDiameterM() {
    return blockingDiameterM(Math.min(wheelM, bellyM));
  }
}

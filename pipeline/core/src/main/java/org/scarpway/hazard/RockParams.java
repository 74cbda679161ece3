package org.scarpway.hazard;

/**
 * What is known of rocks, and what the vehicle makes of them.
 *
 * @param coverage fraction of all ground under rocks, [0, 1), null where a raster has it or nobody
 *     knows of rocks
 * @param noData coverage that counts where the raster has none: no ground may have more; null for
 *     no verdict there
 * @param clearanceM rocks taller than this stop the vehicle
 * @param swathM width of ground that the vehicle sweeps
 */
public record RockParams(Double coverage, Double noData, double clearanceM, double swathM) {
  public RockParams {
    requireFraction("coverage", coverage);
    requireFraction("noData", noData);
    HazardParams.requirePositive("clearanceM", clearanceM);
    HazardParams.requirePositive("swathM", swathM);
  }

  private static void requireFraction(String name, Double value) {
    if (value != null && !(value >= 0 && value < 1)) {
      throw new IllegalArgumentException(name + " must be in [0, 1), got " + value);
    }
  }
}

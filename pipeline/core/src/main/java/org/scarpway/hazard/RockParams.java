package org.scarpway.hazard;

/**
 * What is known of rocks, and what the vehicle makes of them.
 *
 * @param count what coverages count
 * @param coverage fraction of all ground under such rocks, null where a raster has it or nobody
 *     knows of rocks
 * @param noData coverage that counts where the raster has none: no ground may have more; null for
 *     no verdict there
 * @param clearanceM rocks taller than this stop the vehicle
 * @param swathM width of ground that the vehicle sweeps
 */
public record RockParams(
    RockCount count, Double coverage, Double noData, double clearanceM, double swathM) {
  public RockParams {
    requireFraction("coverage", coverage, count);
    requireFraction("noData", noData, count);
    HazardParams.requirePositive("clearanceM", clearanceM);
    HazardParams.requirePositive("swathM", swathM);
  }

  /** All rocks count. */
  public RockParams(Double coverage, Double noData, double clearanceM, double swathM) {
    this(RockCount.ALL, coverage, noData, clearanceM, swathM);
  }

  private static void requireFraction(String name, Double value, RockCount count) {
    if (value != null && !(value >= 0 && value <= count.most())) {
      throw new IllegalArgumentException(
          name + " must be in [0, " + count.most() + "], got " + value);
    }
  }
}

package org.scarpway.hazard;

/**
 * What is known of rocks, and what the vehicle makes of them.
 *
 * @param count what coverages count
 * @param source of the coverages, as a refusal of one names it: a file
 * @param coverage fraction of all ground under such rocks, null where a raster has it or nobody
 *     knows of rocks
 * @param noData coverage that counts where the raster has none: no ground may have more; null for
 *     no verdict there
 * @param body what of the vehicle meets them
 * @param slowM mean free path below which ground is slow at best
 * @param noGoM mean free path below which it is no-go
 */
public record RockParams(
    RockCount count,
    String source,
    Double coverage,
    Double noData,
    RockBody body,
    double slowM,
    double noGoM) {
  public RockParams {
    requireFraction("coverage", coverage, count);
    requireFraction("noData", noData, count);
  }

  /** All rocks count; those that the belly does not clear are driven round however near. */
  public RockParams(Double coverage, Double noData, double clearanceM, double swathM) {
    this(
        RockCount.ALL,
        "hazard.rock_coverage",
        coverage,
        noData,
        new RockBody(swathM, clearanceM, Double.POSITIVE_INFINITY, 0, 0),
        0,
        0);
  }

  private static void requireFraction(String name, Double value, RockCount count) {
    if (value != null && !(value >= 0 && value <= count.most())) {
      throw new IllegalArgumentException(
          name + " must be in [0, " + count.most() + "], got " + value);
    }
  }
}

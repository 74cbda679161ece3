package org.scarpway.hazard;

/**
 * Rock data and the response of the vehicle to rocks.
 *
 * @param count rocks included in coverages
 * @param source file of the coverages, for error messages
 * @param coverage fraction of all ground under such rocks, null if a raster gives it or rocks are
 *     unknown
 * @param noData coverage assumed where the raster has none, which no ground may exceed; null for no
 *     verdict there
 * @param body parts of the vehicle that collide with rocks
 * @param slowM mean free path below which ground is slow at best (m)
 * @param noGoM mean free path below which it is no-go (m)
 */
public record RockParams(
    RockCount count,
    String source,
    Double coverage,
    Double noData,
    RockBody body,
    double slowM,
    double noGoM) {
  /**
   * Checks the values.
   *
   * @throws IllegalArgumentException if a coverage is outside the range of what is counted
   */
  public RockParams {
    requireFraction("coverage", coverage, count);
    requireFraction("noData", noData, count);
  }

  /**
   * Creates parameters that include all rocks; those that the belly does not clear are driven
   * around, however dense.
   */
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

package org.scarpway.vehicle;

import java.util.List;

/**
 * A person on foot, suited or not.
 *
 * @param speedFunction name of a published walking function, or null where {@code table} is given
 * @param table speed (m/s) against slope (degrees, uphill positive), ascending; empty otherwise
 * @param scale factor on the speed, such as off-path or suit
 * @param maxSlopeDeg steepest walkable slope
 * @param maxStepM highest walkable step between neighbouring cells
 * @param enduranceH duration of the supplies
 * @param reserveH part of it that must remain on arrival
 * @param loadKg mass carried; null if not given
 * @param bodyKg mass of the person; null if not given
 * @param metabolic name of a published equation or null
 * @param peakW metabolic peak limit, null if none
 * @param meanW metabolic mean limit, null if none
 * @param peakMin minutes that the peak may last on one walk
 * @param supplyMj metabolic energy that the supplies allow; null for the mean rate over the
 *     endurance
 * @param maxWalkKm longest way on foot, null for none
 * @param terrainFactor terrain factor of the worst soil walked on, 1 for a firm even way
 */
public record Walker(
    String name,
    String speedFunction,
    List<SpeedAt> table,
    double scale,
    double maxSlopeDeg,
    double maxStepM,
    double enduranceH,
    double reserveH,
    Double loadKg,
    Double bodyKg,
    String metabolic,
    Double peakW,
    Double meanW,
    double peakMin,
    Double supplyMj,
    Double maxWalkKm,
    double terrainFactor) {
  /** As published for the peak rate of a suit. */
  public static final double PEAK_MIN = 15;

  /** Terrain factor of a firm even way, to which the published rates refer. */
  public static final double FIRM_WAY = 1;

  public record SpeedAt(double slopeDeg, double speedMs) {}

  public Walker {
    table = List.copyOf(table);
  }

  /** Returns this walker on ground of the given terrain factor. */
  public Walker on(double factor) {
    return with(maxWalkKm, factor);
  }

  /** Returns this walker who by a rule walks no farther than so many km; null for no such rule. */
  public Walker within(Double mostKm) {
    boolean shorter = mostKm != null && (maxWalkKm == null || mostKm < maxWalkKm);
    return shorter ? with(mostKm, terrainFactor) : this;
  }

  private Walker with(Double mostKm, double factor) {
    return new Walker(
        name,
        speedFunction,
        table,
        scale,
        maxSlopeDeg,
        maxStepM,
        enduranceH,
        reserveH,
        loadKg,
        bodyKg,
        metabolic,
        peakW,
        meanW,
        peakMin,
        supplyMj,
        mostKm,
        factor);
  }

  /**
   * Energy (J) that walking home may consume, less the share of the reserve; infinite if unknown.
   */
  public double usableJ() {
    double kept = 1 - reserveH / enduranceH;
    if (metabolic == null || (supplyMj == null && meanW == null)) {
      return Double.POSITIVE_INFINITY;
    }
    return kept * (supplyMj != null ? supplyMj * 1e6 : meanW * enduranceH * 3600);
  }
}

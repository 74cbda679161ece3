package org.scarpway.vehicle;

/**
 * A cell held against every limit of a walker.
 *
 * @param slopeTan rise over run there; NaN if unknown
 * @param maxSlopeTan steepest walkable slope, by the walker's limit and the metabolic equation
 * @param stepM largest step to a neighbour; infinite if a height is unknown
 * @param maxStepM highest walkable step
 * @param keptOut true within keep-out ground
 */
public record OnFoot(
    double slopeTan, double maxSlopeTan, double stepM, double maxStepM, boolean keptOut) {

  public double slopeDeg() {
    return SlopeGeometry.deg(slopeTan);
  }

  public double maxSlopeDeg() {
    return SlopeGeometry.deg(maxSlopeTan);
  }

  /** NaN fails the comparison: unknown ground stays shut. */
  public boolean slopeHeld() {
    return slopeTan <= maxSlopeTan * (1 + LimitUse.ROUNDING);
  }

  public boolean stepHeld() {
    return stepM <= maxStepM * (1 + LimitUse.ROUNDING);
  }

  public boolean walkable() {
    return slopeHeld() && stepHeld() && !keptOut;
  }
}

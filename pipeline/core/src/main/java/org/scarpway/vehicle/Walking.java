package org.scarpway.vehicle;

import java.util.Locale;

/**
 * Walkability of the terrain for one walker.
 *
 * @param field movement costs; energies are metabolic
 * @param gentleCells number of cells within the slope limit and outside keep-out areas
 * @param steppedCells number of these cells that a step closes
 * @param maxStepM highest walkable step
 * @param hiddenStepM height up to which a wall can look like a slope within the limit
 * @param peakSeconds the field with seconds above the sustained rate in place of energies; null if
 *     no walk is planned above that rate
 * @param sustained the field of a walker who never exceeds the sustained rate; null if no walk is
 *     planned above it
 * @param suited true for walking in suits
 */
public record Walking(
    TraversalCost field,
    long gentleCells,
    long steppedCells,
    double maxStepM,
    double hiddenStepM,
    GradeTable peakSeconds,
    GradeTable sustained,
    boolean suited) {

  /** Note about steps for the reader of the products. */
  public String note() {
    return String.format(
        Locale.ROOT,
        "On foot, steps of more than %.2f m between cells as measured shut %.2f %% of the ground"
            + " that the slope limit leaves open. A wall of up to %.1f m whose face spreads over two"
            + " edges between cells looks like a slope within the limit and is not seen.",
        maxStepM,
        gentleCells == 0 ? 0 : 100.0 * steppedCells / gentleCells,
        hiddenStepM);
  }
}

package org.scarpway.vehicle;

import java.util.Locale;

/**
 * Ground on foot.
 *
 * @param field what walking costs; energies are metabolic
 * @param gentleCells cells that the slope limit leaves open and no keep-out area covers
 * @param steppedCells those of them that a step between cells shuts
 * @param maxStepM the step that is still walked over
 * @param hiddenStepM height up to which a wall can look like a slope within the limit
 * @param peakSeconds seconds above the rate that can be kept up in place of energies; null where no
 *     walk is planned at more
 * @param sustained of a walker who never goes above that rate; null where no walk is planned at
 *     more
 * @param suited whether it is walked in suits
 */
public record Walking(
    MoveField field,
    long gentleCells,
    long steppedCells,
    double maxStepM,
    double hiddenStepM,
    GradeTable peakSeconds,
    GradeTable sustained,
    boolean suited) {

  /** What a reader of the products must know about steps. */
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

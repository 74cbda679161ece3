package org.scarpway.vehicle;

import java.util.List;

/**
 * A person on foot, suited or not.
 *
 * @param speedFunction name of a published walking function, or null where {@code table} is given
 * @param table speed (m/s) against slope (degrees, uphill positive), ascending; empty otherwise
 * @param scale factor on the speed, such as off-path or suit
 * @param maxSlopeDeg steepest ground that is walked
 * @param maxStepM highest step between neighbouring cells that is walked over
 * @param enduranceH hours of supplies
 * @param reserveH hours that must be left on arrival
 * @param loadKg carried; null if not given
 * @param bodyKg the person's mass; null if not given
 * @param metabolic name of a published equation or null
 * @param peakW metabolic peak limit, null if none
 * @param meanW metabolic mean limit, null if none
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
    Double meanW) {
  public record SpeedAt(double slopeDeg, double speedMs) {}

  public Walker {
    table = List.copyOf(table);
  }
}

package org.scarpway.vehicle;

import java.util.List;
import org.scarpway.vehicle.Walker.SpeedAt;

/** Walkers for tests, without what a test does not ask about. */
public final class Walkers {
  private Walkers() {}

  /** Creates a walker on a firm even way. */
  public static Walker walker(
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
      Double maxWalkKm) {
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
        maxWalkKm,
        1);
  }

  /** Creates a walker with the published time at the peak and supplies for the mean rate. */
  public static Walker walker(
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
    return walker(
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
        Walker.PEAK_MIN,
        null,
        null);
  }
}

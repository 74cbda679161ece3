package org.scarpway.vehicle;

import java.util.Collections;
import java.util.List;

/** Parts of vehicles for tests, with what a test leaves out at its usual value. */
public final class VehicleParts {
  private VehicleParts() {}

  /** Turns on the spot, for one pass on wheels, without a sight limit. */
  public static Vehicle.Drive drive(
      double speedMs,
      Double crawlMs,
      Double powerW,
      Double efficiency,
      Double regeneration,
      Double hotelW,
      Double rolling) {
    return drive(speedMs, crawlMs, powerW, efficiency, regeneration, hotelW, rolling, 0);
  }

  public static Vehicle.Drive drive(
      double speedMs,
      Double crawlMs,
      Double powerW,
      Double efficiency,
      Double regeneration,
      Double hotelW,
      Double rolling,
      double turnRadiusM) {
    return drive(
        speedMs, crawlMs, powerW, efficiency, regeneration, hotelW, rolling, turnRadiusM, 1);
  }

  public static Vehicle.Drive drive(
      double speedMs,
      Double crawlMs,
      Double powerW,
      Double efficiency,
      Double regeneration,
      Double hotelW,
      Double rolling,
      double turnRadiusM,
      int passes) {
    return drive(
        speedMs,
        crawlMs,
        powerW,
        efficiency,
        regeneration,
        hotelW,
        rolling,
        turnRadiusM,
        passes,
        null,
        false);
  }

  public static Vehicle.Drive drive(
      double speedMs,
      Double crawlMs,
      Double powerW,
      Double efficiency,
      Double regeneration,
      Double hotelW,
      Double rolling,
      double turnRadiusM,
      int passes,
      Double mobilityIndex,
      boolean tracked) {
    return new Vehicle.Drive(
        speedMs,
        crawlMs,
        powerW,
        efficiency,
        regeneration,
        hotelW,
        rolling,
        turnRadiusM,
        passes,
        mobilityIndex,
        tracked,
        null);
  }

  /** Without slip, sinkage or speed loss. */
  public static Vehicle.SlowFrom slowFrom(Double slopeDeg, Double stepM, Double roughnessM) {
    return new Vehicle.SlowFrom(slopeDeg, stepM, roughnessM, null, null, null);
  }

  /** Rigid wheels. */
  public static Vehicle.Wheels wheels(
      List<Double> axlesM, List<Double> tracksM, double radiusM, double widthM) {
    return new Vehicle.Wheels(axlesM, tracksM, radiusM, widthM, null, ConeIndex.USUAL_DEFLECTION);
  }

  /** Rigid wheels with the same track on every axle. */
  public static Vehicle.Wheels wheels(
      List<Double> axlesM, double trackM, double radiusM, double widthM) {
    return wheels(axlesM, Collections.nCopies(axlesM.size(), trackM), radiusM, widthM);
  }

  /** A crew in a cabin. */
  public static Vehicle.Crew crew(int seats, int rescueSeats, Double lifeSupportH) {
    return new Vehicle.Crew(seats, rescueSeats, lifeSupportH, false);
  }

  /** A soil without a walking factor. */
  public static Soil soil(
      String name, Soil.Bekker bekker, Soil.Shear shear, Double ratingConeIndex) {
    return new Soil(name, bekker, shear, ratingConeIndex, null);
  }
}

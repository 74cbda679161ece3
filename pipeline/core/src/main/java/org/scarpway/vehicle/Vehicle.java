package org.scarpway.vehicle;

import java.util.Collections;
import java.util.List;

/**
 * A vehicle as its file gives it: SI units, an absent block is null and its limits are not applied.
 * Axle positions are metres ahead of the centre of gravity, front first.
 */
public record Vehicle(
    String name,
    String summary,
    Double massKg,
    Chassis body,
    Wheels wheels,
    Limits limits,
    SlowFrom slowFrom,
    Drive drive,
    Soil soil,
    Double batteryKwh,
    Crew crew) {

  /** The same vehicle on another soil. */
  public Vehicle withSoil(Soil other) {
    return new Vehicle(
        name, summary, massKg, body, wheels, limits, slowFrom, drive, other, batteryKwh, crew);
  }

  /** The same vehicle with more mass aboard; itself where it gives no mass. */
  public Vehicle withLoad(double kg) {
    return new Vehicle(
        name,
        summary,
        massKg == null ? null : Double.valueOf(massKg + kg),
        body,
        wheels,
        limits,
        slowFrom,
        drive,
        soil,
        batteryKwh,
        crew);
  }

  /** Outer shape (m). Overhangs and height of the centre of gravity may be null. */
  public record Chassis(
      double lengthM,
      double widthM,
      double clearanceM,
      Double frontOverhangM,
      Double rearOverhangM,
      Double cgHeightM) {}

  /**
   * Running gear (m).
   *
   * @param tracksM between the wheel centres of each axle, as many as there are axles
   * @param contactM length of the contact patch of a flexible wheel; null for a rigid one, whose
   *     patch follows from its sinkage
   * @param deflectionShare deflection of the tyre over its section height
   */
  public record Wheels(
      List<Double> axlesM,
      List<Double> tracksM,
      double radiusM,
      double widthM,
      Double contactM,
      double deflectionShare) {
    public Wheels {
      axlesM = List.copyOf(axlesM);
      tracksM = List.copyOf(tracksM);
      if (tracksM.size() != axlesM.size()) {
        throw new IllegalArgumentException(
            tracksM.size() + " tracks of " + axlesM.size() + " axles");
      }
    }

    /** Rigid wheels. */
    public Wheels(List<Double> axlesM, List<Double> tracksM, double radiusM, double widthM) {
      this(axlesM, tracksM, radiusM, widthM, null, ConeIndex.USUAL_DEFLECTION);
    }

    /** Rigid wheels with the same track on every axle. */
    public Wheels(List<Double> axlesM, double trackM, double radiusM, double widthM) {
      this(axlesM, Collections.nCopies(axlesM.size(), trackM), radiusM, widthM);
    }

    /** Between axles next to each other, the largest. */
    public double widestGapM() {
      double gap = 0;
      for (int i = 1; i < axlesM.size(); i++) {
        gap = Math.max(gap, axlesM.get(i - 1) - axlesM.get(i));
      }
      return gap;
    }

    public double widestTrackM() {
      return Collections.max(tracksM);
    }

    public double narrowestTrackM() {
      return Collections.min(tracksM);
    }

    public double wheelbaseM() {
      return axlesM.get(0) - axlesM.get(axlesM.size() - 1);
    }
  }

  /** Rated limits; null where the vehicle states none. */
  public record Limits(
      Double climbDeg, Double descendDeg, Double sideDeg, Double stepM, Double tipMarginDeg) {

    /**
     * Slope (deg) beyond which no heading keeps the limits, 90 where one of them is not stated:
     * grade along a heading and cross slope share the slope by tan2(grade) + tan2(cross) =
     * tan2(slope).
     */
    public double steepestDeg() {
      if (sideDeg == null || climbDeg == null || descendDeg == null) {
        return 90;
      }
      double along = Math.tan(Math.toRadians(Math.max(climbDeg, descendDeg)));
      double across = Math.tan(Math.toRadians(sideDeg));
      return Math.toDegrees(Math.atan(Math.hypot(along, across)));
    }
  }

  /**
   * Where go becomes slow; null where never.
   *
   * @param slipPct of the wheels on the steepest heading
   * @param sinkageM of the deepest wheel, with that slip
   * @param speedLossPct of the rated speed on the steepest heading
   */
  public record SlowFrom(
      Double slopeDeg,
      Double stepM,
      Double roughnessM,
      Double slipPct,
      Double sinkageM,
      Double speedLossPct) {

    /** Never by slip, sinkage or loss of speed. */
    public SlowFrom(Double slopeDeg, Double stepM, Double roughnessM) {
      this(slopeDeg, stepM, roughnessM, null, null, null);
    }
  }

  /**
   * Drive train. Only the speed is required; without power the vehicle keeps it wherever its limits
   * hold.
   *
   * @param speedMs rated speed along the ground
   * @param crawlMs least useful speed, on the roughest drivable ground
   * @param powerW at the wheels' motors, electrical
   * @param efficiency of electrical into mechanical power, (0, 1]
   * @param regeneration share of braking energy that returns to the battery, [0, 1)
   * @param hotelW load that runs whether or not the vehicle moves
   * @param rolling motion resistance over weight; replaced by soil where a soil is given
   * @param turnRadiusM least radius of the track of its middle, 0 where it turns on the spot
   * @param passes how often the same ground must bear the vehicle by its cone index: 1, or 50
   * @param mobilityIndex of the cone index method, null where it is worked out from the wheels
   * @param tracked runs on tracks by the cone index method; needs the mobility index
   * @param sight within which it must be able to stop; null where that bounds no speed
   */
  public record Drive(
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
      boolean tracked,
      Sight sight) {

    public Drive {
      if (tracked && mobilityIndex == null) {
        throw new IllegalArgumentException("tracks need a mobility index");
      }
    }

    /** No matter how far its crew sees. */
    public Drive(
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
      this(
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

    /** On wheels whose mobility index is worked out. */
    public Drive(
        double speedMs,
        Double crawlMs,
        Double powerW,
        Double efficiency,
        Double regeneration,
        Double hotelW,
        Double rolling,
        double turnRadiusM,
        int passes) {
      this(
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

    /** Passes once. */
    public Drive(
        double speedMs,
        Double crawlMs,
        Double powerW,
        Double efficiency,
        Double regeneration,
        Double hotelW,
        Double rolling,
        double turnRadiusM) {
      this(speedMs, crawlMs, powerW, efficiency, regeneration, hotelW, rolling, turnRadiusM, 1);
    }

    /** Turns on the spot and passes once. */
    public Drive(
        double speedMs,
        Double crawlMs,
        Double powerW,
        Double efficiency,
        Double regeneration,
        Double hotelW,
        Double rolling) {
      this(speedMs, crawlMs, powerW, efficiency, regeneration, hotelW, rolling, 0);
    }
  }

  /**
   * What the crew sees and how the vehicle stops.
   *
   * @param sightM way ahead on which whoever drives sees what would stop the vehicle
   * @param brakeMs2 deceleration by the brakes on the level; null where only the soil bounds it
   * @param reactionS from seeing to braking
   */
  public record Sight(double sightM, Double brakeMs2, double reactionS) {}

  /**
   * Seats and supplies.
   *
   * @param suited whether the crew rides in suits, which are used up from leaving the base
   */
  public record Crew(int seats, int rescueSeats, Double lifeSupportH, boolean suited) {

    /** In a cabin. */
    public Crew(int seats, int rescueSeats, Double lifeSupportH) {
      this(seats, rescueSeats, lifeSupportH, false);
    }
  }
}

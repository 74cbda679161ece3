package org.scarpway.vehicle;

import java.util.Collections;
import java.util.List;

/**
 * A vehicle as described by its file, in SI units. A block that is absent is null, and its limits
 * are not applied. Axle positions are metres ahead of the centre of gravity, front first.
 *
 * @param name name, used in products and messages
 * @param summary one line for users, empty if the file has none
 * @param massKg mass with crew, suits and tools (kg); null if not stated
 * @param body outer shape
 * @param wheels running gear; null if not stated
 * @param limits rated limits
 * @param slowFrom thresholds from which ground is slow; null for none
 * @param drive drive train
 * @param soil soil on which it drives; null for ground that wheels neither sink into nor slip on
 * @param batteryKwh usable capacity of the battery (kWh); null if not stated
 * @param crew seats and supplies; null if not stated
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

  /** True if the file states all that energy is computed from. */
  public boolean hasEnergyModel() {
    boolean resistance = drive.rolling() != null || (soil != null && soil.bekker() != null);
    return massKg != null && drive.powerW() != null && drive.efficiency() != null && resistance;
  }

  /** Returns this vehicle on another soil. */
  public Vehicle withSoil(Soil other) {
    return new Vehicle(
        name, summary, massKg, body, wheels, limits, slowFrom, drive, other, batteryKwh, crew);
  }

  /** Returns this vehicle with more mass aboard; unchanged if it states no mass. */
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

  /**
   * Outer shape (m). Overhangs and height of the centre of gravity may be null.
   *
   * @param lengthM overall length (m)
   * @param widthM overall width (m)
   * @param clearanceM ground clearance (m)
   * @param frontOverhangM part ahead of the front axle (m); null if not stated
   * @param rearOverhangM part behind the rear axle (m); null if not stated
   * @param cgHeightM height of the centre of gravity above the ground (m); null if not stated
   */
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
   * @param axlesM position of each axle ahead of the centre of gravity (m), front first
   * @param tracksM distance between the wheel centres of each axle (m), one value per axle
   * @param radiusM radius of a wheel (m)
   * @param widthM width of a wheel (m)
   * @param contactM length of the contact patch of a flexible wheel (m); null for a rigid wheel,
   *     whose patch follows from its sinkage
   * @param deflectionShare tyre deflection divided by section height
   */
  public record Wheels(
      List<Double> axlesM,
      List<Double> tracksM,
      double radiusM,
      double widthM,
      Double contactM,
      double deflectionShare) {
    /**
     * Copies the lists.
     *
     * @throws IllegalArgumentException if there is not one track per axle
     */
    public Wheels {
      axlesM = List.copyOf(axlesM);
      tracksM = List.copyOf(tracksM);
      if (tracksM.size() != axlesM.size()) {
        throw new IllegalArgumentException(
            tracksM.size() + " tracks of " + axlesM.size() + " axles");
      }
    }

    /** Largest distance between adjacent axles (m). */
    public double widestGapM() {
      double gap = 0;
      for (int i = 1; i < axlesM.size(); i++) {
        gap = Math.max(gap, axlesM.get(i - 1) - axlesM.get(i));
      }
      return gap;
    }

    /** Largest track of all axles (m). */
    public double widestTrackM() {
      return Collections.max(tracksM);
    }

    /** Smallest track of all axles (m). */
    public double narrowestTrackM() {
      return Collections.min(tracksM);
    }

    /** Distance between the first and the last axle (m). */
    public double wheelbaseM() {
      return axlesM.get(0) - axlesM.get(axlesM.size() - 1);
    }
  }

  /**
   * Rated limits; null for a limit that the vehicle does not state.
   *
   * @param climbDeg steepest climb (degrees)
   * @param descendDeg steepest descent (degrees)
   * @param sideDeg steepest cross slope (degrees)
   * @param stepM highest step (m)
   * @param tipMarginDeg angle kept to static tip-over (degrees)
   */
  public record Limits(
      Double climbDeg, Double descendDeg, Double sideDeg, Double stepM, Double tipMarginDeg) {

    /**
     * Slope (deg) beyond which no heading satisfies the limits, 90 if one of them is not stated.
     * Grade and cross slope of a heading are related to the slope by tan2(grade) + tan2(cross) =
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
   * Thresholds from which ground is slow; null for a threshold that is not used.
   *
   * @param slopeDeg slope of the ground (degrees)
   * @param stepM height of a step (m)
   * @param roughnessM roughness over the footprint (m)
   * @param slipPct wheel slip on the steepest heading (%)
   * @param sinkageM sinkage of the deepest wheel at that slip (m)
   * @param speedLossPct loss of rated speed on the steepest heading (%)
   */
  public record SlowFrom(
      Double slopeDeg,
      Double stepM,
      Double roughnessM,
      Double slipPct,
      Double sinkageM,
      Double speedLossPct) {}

  /**
   * Drive train. Only the speed is required; without power the vehicle keeps it wherever its limits
   * hold.
   *
   * @param speedMs rated speed along the ground (m/s)
   * @param crawlMs lowest useful speed (m/s), on the roughest drivable ground
   * @param powerW electrical power at the wheels' motors (W)
   * @param efficiency efficiency from electrical to mechanical power, (0, 1]
   * @param regeneration share of braking energy that returns to the battery, [0, 1)
   * @param hotelW constant load (W), whether or not the vehicle moves
   * @param rolling motion resistance divided by weight; replaced by the soil's where a soil is
   *     given
   * @param turnRadiusM minimum turning radius of the vehicle's middle (m), 0 if it turns on the
   *     spot
   * @param passes number of passes that the ground must bear by its cone index: 1 or 50
   * @param mobilityIndex mobility index of the cone index method, null if it is computed from the
   *     wheels
   * @param tracked true for tracks in the cone index method; requires the mobility index
   * @param sight sight within which the vehicle must be able to stop; null if that is no limit
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

    /**
     * Checks the drive.
     *
     * @throws IllegalArgumentException if tracks come without a mobility index
     */
    public Drive {
      if (tracked && mobilityIndex == null) {
        throw new IllegalArgumentException("tracks need a mobility index");
      }
    }
  }

  /**
   * Sight of the crew and braking of the vehicle.
   *
   * @param sightM distance ahead at which the driver sees obstacles that would stop the vehicle (m)
   * @param brakeMs2 deceleration by the brakes on the level; null where only the soil bounds it
   * @param reactionS time from seeing to braking (s)
   */
  public record Sight(double sightM, Double brakeMs2, double reactionS) {}

  /**
   * Seats and supplies.
   *
   * @param seats number of people that the vehicle carries
   * @param rescueSeats number of people that it carries in a rescue, own crew included
   * @param lifeSupportH how long life support lasts (h); null if not stated
   * @param suited true if the crew rides in suits, whose supplies are consumed from departure from
   *     the base
   */
  public record Crew(int seats, int rescueSeats, Double lifeSupportH, boolean suited) {}
}

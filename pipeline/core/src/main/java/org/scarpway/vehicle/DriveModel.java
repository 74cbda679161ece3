package org.scarpway.vehicle;

import java.util.function.DoublePredicate;

/**
 * Speed and energy of a vehicle against the grade along its heading, and the steepest grades that
 * its drive and the soil allow.
 *
 * <p>Force F = resistance + W sin(angle). Driving: wheels turn at v / (1 - slip) with thrust F, so
 * v is at most rated speed x (1 - slip) and at most power x efficiency x (1 - slip) / F, and the
 * battery gives F / (efficiency (1 - slip)) per metre. Braking: the share {@code regeneration} of
 * |F| (1 - slip) returns to the battery. Slip is limited to {@value Slip#USABLE}: beyond it wheels
 * dig in, which the sinkage law does not model (common practice, no source). Driving wheels sink
 * deeper with slip and so have more resistance; braking wheels are assumed to have the resistance
 * at rest, which helps braking least.
 */
public final class DriveModel {
  /** Bound that closes every grade, for climbs as well as descents. */
  static final double NOWHERE = -1;

  private static final double STEEPEST_RAD = Math.toRadians(80);

  private final Vehicle.Drive drive;
  private final WheelsOnGround wheels;
  private final double efficiency;
  private final double regeneration;
  private final double hotelW;
  private final StoppingSight sight;
  private final CurveLimit curves;

  // Cached results of the last requested grade.
  private double asked = Double.NaN;
  private double forceN;
  private double slip;

  /**
   * Gentlest grade found so far that exceeds the traction of the soil; all steeper grades do as
   * well.
   */
  private double uncarried = Double.POSITIVE_INFINITY;

  /**
   * @param vehicle must have a drive; with a soil it must also have mass and wheels
   * @param gravityMs2 gravity of the body (m/s2)
   */
  public DriveModel(Vehicle vehicle, double gravityMs2) {
    drive = vehicle.drive();
    wheels = new WheelsOnGround(vehicle, gravityMs2);
    efficiency = drive.efficiency() == null ? 1 : drive.efficiency();
    regeneration = drive.regeneration() == null ? 0 : drive.regeneration();
    hotelW = drive.hotelW() == null ? 0 : drive.hotelW();
    sight = StoppingSight.of(vehicle, gravityMs2);
    curves = CurveLimit.of(vehicle, gravityMs2);
  }

  /**
   * Force along the ground (N) at the slip needed on the grade, negative where the vehicle must
   * brake.
   */
  public double forceN(double grade) {
    ask(grade);
    return forceN;
  }

  /**
   * Slip of the wheels, 0 without a soil; infinite where the grade exceeds the traction of the
   * soil.
   */
  public double slip(double grade) {
    ask(grade);
    return slip;
  }

  /** Sinkage (m) of the deepest wheel at the slip of a grade; 0 without a soil's sinkage law. */
  public double sinkageM(double grade) {
    ask(grade);
    return wheels.sinkageM(Math.atan(grade), Math.min(Slip.USABLE, slip));
  }

  private void ask(double grade) {
    if (grade == asked) {
      return;
    }
    asked = grade;
    double angle = Math.atan(grade);
    double slopeN = wheels.weightN() * Math.sin(angle);
    forceN = wheels.resistanceN(angle, 0) + slopeN;
    if (forceN <= 0) {
      slip = wheels.brakingSlip(angle, -forceN);
    } else {
      slip = grade < uncarried ? wheels.drivingSlip(angle) : Double.POSITIVE_INFINITY;
      if (slip == Double.POSITIVE_INFINITY) {
        uncarried = Math.min(uncarried, grade);
      }
      forceN = wheels.resistanceN(angle, Math.min(Slip.USABLE, slip)) + slopeN;
    }
  }

  /**
   * Speed along the surface (m/s). Slip is capped at {@link Slip#USABLE} where the grade needs
   * more. The speed never exceeds the one from which the vehicle stops within the crew's sight,
   * even if that is below the crawl speed.
   */
  public double speedMs(double grade) {
    double driven = drivenMs(grade);
    if (sight == null) {
      return driven;
    }
    // Headings on which the speed would be lower are closed.
    return Math.min(driven, Math.max(leastWithinSightMs(drive), sight.speedMs(grade)));
  }

  /** True if sight limits the speed on a grade more than drive and soil do. */
  boolean boundBySight(double grade) {
    return sight != null && speedMs(grade) < drivenMs(grade);
  }

  private double drivenMs(double grade) {
    double force = forceN(grade);
    if (force <= 0) {
      return drive.speedMs();
    }
    double v = drive.speedMs() * grip();
    return drive.powerW() == null ? v : Math.min(v, drive.powerW() * efficiency * grip() / force);
  }

  private double grip() {
    return 1 - Math.min(Slip.USABLE, slip);
  }

  /** Traction energy per surface metre (J/m), negative where braking returns energy. */
  public double tractionJPerM(double grade) {
    double force = forceN(grade);
    return force >= 0 ? force / (efficiency * grip()) : regeneration * force * grip();
  }

  /** Energy per surface metre (J/m) with the hotel load, at the speed of the grade. */
  public double energyJPerM(double grade) {
    return tractionJPerM(grade) + hotelW / speedMs(grade);
  }

  /**
   * Drawbar pull (N) on level ground at a wheel slip, thrust less motion resistance (Wong 2008, ch.
   * 2); infinite if nothing limits the thrust.
   */
  public double drawbarPullN(double slip) {
    return wheels.pullN(0, slip);
  }

  /** True if the ground limits the thrust. */
  boolean grips() {
    return wheels.grips();
  }

  /** Steepest grade that the wheels drive up; negative if they cannot drive on level ground. */
  double steepestDrivenGrade() {
    return steepest(
        angle -> wheels.mostPullN(angle) >= wheels.weightN() * Math.sin(angle),
        -STEEPEST_RAD,
        STEEPEST_RAD);
  }

  /** Steepest descent on which the wheels hold the vehicle, as a positive grade. */
  double steepestHeldGrade() {
    return steepest(
        angle -> wheels.holdN(-angle, Slip.USABLE) >= wheels.weightN() * Math.sin(angle),
        0,
        STEEPEST_RAD);
  }

  /**
   * Returns the combined traction limit along and across a slope.
   *
   * @param climb result of {@link #steepestDrivenGrade}
   * @param descent result of {@link #steepestHeldGrade}
   */
  FrictionCircle circle(double climb, double descent) {
    return grips() ? FrictionCircle.of(wheels, climb, descent) : FrictionCircle.NONE;
  }

  /**
   * Steepest descent on which the vehicle still stops within the crew's sight from its least useful
   * speed, as a positive grade; infinite if sight is no limit, {@link #NOWHERE} if the vehicle does
   * not stop even on level ground.
   */
  double steepestStoppedGrade() {
    return steepestStopped(-1);
  }

  /** Like {@link #steepestStoppedGrade} for climbs, on which the soil may give less grip. */
  double steepestStoppedClimb() {
    return steepestStopped(1);
  }

  private double steepestStopped(int sign) {
    if (sight == null) {
      return Double.POSITIVE_INFINITY;
    }
    double least = leastWithinSightMs(drive);
    return sight.speedMs(0) < least
        ? NOWHERE
        : steepest(angle -> sight.speedMs(sign * Math.tan(angle)) >= least, 0, STEEPEST_RAD);
  }

  /**
   * Lowest useful speed (m/s) when sight is the limit: a tenth of {@link #leastUsefulMs} (own
   * choice).
   */
  static double leastWithinSightMs(Vehicle.Drive drive) {
    return 0.1 * leastUsefulMs(drive);
  }

  /**
   * Speed (m/s) from which the vehicle stops within sight on a grade; infinite without a sight
   * limit.
   */
  double withinSightMs(double grade) {
    return sight == null ? Double.POSITIVE_INFINITY : sight.speedMs(grade);
  }

  /** Crawl speed (m/s), or a tenth of the rated speed if the vehicle states none (own choice). */
  public static double leastUsefulMs(Vehicle.Drive drive) {
    return drive.crawlMs() == null ? 0.1 * drive.speedMs() : drive.crawlMs();
  }

  /** Steepest grade on which the power still gives the crawl speed. */
  public double steepestPoweredGrade() {
    if (drive.powerW() == null || drive.crawlMs() == null) {
      return Double.POSITIVE_INFINITY;
    }
    return steepest(
        angle -> speedByPowerMs(Math.tan(angle)) >= drive.crawlMs(), -STEEPEST_RAD, STEEPEST_RAD);
  }

  private double speedByPowerMs(double grade) {
    double force = forceN(grade);
    if (force <= 0) {
      return Double.POSITIVE_INFINITY;
    }
    return drive.powerW() * efficiency * grip() / force;
  }

  /** Last angle at which a condition that fails above some angle still holds, as a grade. */
  private static double steepest(DoublePredicate holds, double fromRad, double toRad) {
    if (holds.test(toRad)) {
      return Double.POSITIVE_INFINITY;
    }
    double low = fromRad;
    double high = toRad;
    for (int i = 0; i < 60; i++) {
      double mid = 0.5 * (low + high);
      if (holds.test(mid)) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return Math.tan(low);
  }

  /**
   * Returns the lookup table for {@link TraversalCost}, covering at least the given grades. Its
   * potential is regeneration x weight: braking never returns more than that per metre of height.
   */
  public GradeTable table(double steepestDownGrade, double steepestUpGrade) {
    int down = steps(steepestDownGrade);
    int up = steps(steepestUpGrade);
    double[] speed = new double[down + up + 1];
    double[] traction = new double[down + up + 1];
    for (int i = 0; i < speed.length; i++) {
      double grade = (i - down) * GradeTable.GRADE_STEP;
      speed[i] = speedMs(grade);
      traction[i] = tractionJPerM(grade);
    }
    return new GradeTable(
        -down * GradeTable.GRADE_STEP,
        up * GradeTable.GRADE_STEP,
        speed,
        traction,
        hotelW,
        regeneration * wheels.weightN(),
        curves);
  }

  private static int steps(double grade) {
    double bounded = Math.min(GradeTable.MAX_GRADE, Math.max(10 * GradeTable.GRADE_STEP, grade));
    return (int) Math.ceil(bounded / GradeTable.GRADE_STEP - 1e-9);
  }
}

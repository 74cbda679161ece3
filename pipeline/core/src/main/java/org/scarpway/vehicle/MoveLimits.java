package org.scarpway.vehicle;

import org.scarpway.grid.Body;
import org.scarpway.stage.UserError;

/**
 * The limits of one vehicle on one body in the units of comparison: grades (rise over run) and
 * metres, infinite if the vehicle states none. Limits hold to within {@link LimitUse#ROUNDING}, so
 * that ground exactly at a limit is not lost to float storage of the gradient.
 */
final class MoveLimits {
  private static final double NONE = Double.POSITIVE_INFINITY;

  final double climb;

  /** Steepest rated descent, and steepest descent on which the vehicle stops within sight. */
  final double ratedDescend;

  final double stopped;

  /** Steepest climb on which the vehicle stops within sight. */
  final double stoppedUp;

  /** The smaller of the two descents. */
  final double descend;

  final double side;
  final double tractionUp;
  final double tractionDown;

  /** Combined traction limit along and across a slope. */
  final FrictionCircle circle;

  final double power;

  /** Tip-over limit without its margin, and the tangent of the margin. */
  final TipOver tip;

  final double tipMargin;

  final double stepM;

  /** Belly clearance on firm ground, without sinkage (m). */
  final double clearanceM;

  final SoftGround soft;

  /** Tangent of the smaller of approach and departure angle. */
  final double trough;

  /** Cone index check; null if the soil has no cone index. */
  final ConeBearing bearing;

  final double slowSlope;
  final double slowStepM;
  final double slowRoughnessM;

  /** Roughness at which the ride speed falls to the crawl speed (m). */
  final double crawlRoughnessM;

  final double ratedMs;
  final double crawlMs;

  /** Slope at which the slope rule falls to the crawl speed (deg). */
  final double crawlSlopeDeg;

  final double slowSlopeDeg;

  final RockSpeed amongRocks;
  final DriveModel model;
  final GradeTable table;

  private final Vehicle vehicle;

  /** True if ruts are deeper than the rock check assumes: all ground with rocks is then closed. */
  final boolean noRocks;

  MoveLimits(Vehicle vehicle, Body body) {
    this(vehicle, body, Double.POSITIVE_INFINITY);
  }

  /**
   * Creates the limits on a soil by place.
   *
   * @param ownSinkageM sinkage on level ground on the soil of the vehicle's own file (m)
   */
  MoveLimits(Vehicle vehicle, Body body, double ownSinkageM) {
    this.vehicle = vehicle;
    requireUsable(vehicle, body);
    model = new DriveModel(vehicle, body.gravityMs2());
    double rutM = model.sinkageM(0);
    noRocks = rutM > ownSinkageM && !SoilMap.leavesHalf(vehicle, rutM);

    amongRocks = new RockSpeed(vehicle, body.gravityMs2());
    Vehicle.Limits limits = vehicle.limits();
    climb = limits == null ? NONE : tanOr(limits.climbDeg());
    ratedDescend = limits == null ? NONE : tanOr(limits.descendDeg());
    stopped = model.steepestStoppedGrade();
    stoppedUp = model.steepestStoppedClimb();
    descend = Math.min(ratedDescend, stopped);
    side = limits == null ? NONE : tanOr(limits.sideDeg());
    stepM = limits == null ? NONE : or(limits.stepM());

    tractionUp = model.grips() ? model.steepestDrivenGrade() : NONE;
    tractionDown = model.grips() ? model.steepestHeldGrade() : NONE;
    circle = model.circle(tractionUp, tractionDown);
    power = model.steepestPoweredGrade();

    Vehicle.Chassis chassis = vehicle.body();
    Vehicle.Wheels wheels = vehicle.wheels();
    boolean tips = wheels != null && chassis != null && chassis.cgHeightM() != null;
    tip = tips ? TipOver.of(wheels, chassis.cgHeightM()) : TipOver.NEVER;
    Double margin = limits == null ? null : limits.tipMarginDeg();
    tipMargin = margin == null ? 0 : SlopeGeometry.tan(margin);

    clearanceM = wheels == null || chassis == null ? NONE : chassis.clearanceM();
    trough = wheels == null || chassis == null ? NONE : troughTan(chassis, wheels);

    bearing = ConeBearing.of(vehicle);

    Vehicle.SlowFrom slow = vehicle.slowFrom();
    slowSlopeDeg = slow == null ? NONE : or(slow.slopeDeg());
    slowSlope = slow == null ? NONE : tanOr(slow.slopeDeg());
    slowStepM = slow == null ? NONE : or(slow.stepM());
    slowRoughnessM = slow == null ? NONE : or(slow.roughnessM());
    ratedMs = vehicle.drive().speedMs();
    Double crawl = vehicle.drive().crawlMs();
    crawlMs = crawl == null ? Double.NaN : crawl;
    crawlRoughnessM = crawl == null ? NONE : slowRoughnessM * ratedMs / crawl;
    crawlSlopeDeg = steepestRatedDeg(limits);

    double up = Math.min(Math.min(climb, tip.up), Math.min(tractionUp, power));
    up = Math.min(up, stoppedUp);
    double down = Math.min(Math.min(descend, tip.down), tractionDown);
    double across = Math.min(side, tip.widest);
    table = model.table(steepestOpen(down, across), steepestOpen(up, across));
    soft = new SoftGround(model, vehicle);
  }

  /** Belly clearance (m) left by the sinkage on the direct climb of a slope. */
  double bellyM(double tanSlope) {
    return Math.max(0, clearanceM - soft.sinkageM(tanSlope));
  }

  /** Highest step (m) that the vehicle climbs with the same sinkage. */
  double stepM(double tanSlope) {
    return Math.max(0, stepM - soft.sinkageM(tanSlope));
  }

  /** Smallest sinkage (m) that uses up the clearance or the step height. */
  double deepestM() {
    return Math.min(clearanceM, stepM);
  }

  /**
   * True if wheels sink deeper than {@link #deepestM} on the direct climb of a slope: nothing is
   * then left of a limit to compare obstacles with.
   */
  boolean buries(double tanSlope) {
    return LimitUse.ratio(soft.sinkageM(tanSlope), deepestM()) > LimitUse.FULL;
  }

  /**
   * Steepest slope with an open heading. A heading opened by tacks is steeper than the tacks, and
   * its energy is read from the table at its own grade.
   */
  private static double steepestOpen(double along, double across) {
    return along > 0 && across < NONE ? Math.sqrt(along * along + across * across) : along;
  }

  /** Lowest speed of the ride, slope, step and bearing rules (m/s); infinite if none applies. */
  double speedCapMs(double tanSlope, double stepHeightM, double roughnessM) {
    double cap = NONE;
    if (Double.isNaN(crawlMs)) {
      return cap;
    }
    if (tanSlope > slowSlope && crawlSlopeDeg > slowSlopeDeg) {
      double over = (SlopeGeometry.deg(tanSlope) - slowSlopeDeg) / (crawlSlopeDeg - slowSlopeDeg);
      cap = Math.min(cap, between(over));
    }
    double highestM = stepM(tanSlope);
    if (stepHeightM > slowStepM && highestM > slowStepM && highestM < NONE) {
      cap = Math.min(cap, between((stepHeightM - slowStepM) / (highestM - slowStepM)));
    }
    if (stepHeightM > highestM * (1 + LimitUse.ROUNDING)) {
      cap = crawlMs;
    }
    if (bearing != null) {
      cap = Math.min(cap, ratedMs * bearing.speedShare());
    }
    if (roughnessM > slowRoughnessM) {
      cap = Math.min(cap, ratedMs * slowRoughnessM / roughnessM);
    }
    return Math.max(crawlMs, cap);
  }

  private double between(double over) {
    return ratedMs + (crawlMs - ratedMs) * Math.min(1, over);
  }

  boolean needsStep() {
    return stepM < NONE || slowStepM < NONE;
  }

  boolean needsRoughness() {
    return slowRoughnessM < NONE;
  }

  boolean needsConvexity() {
    return clearanceM < NONE;
  }

  Vehicle vehicle() {
    return vehicle;
  }

  private static double steepestRatedDeg(Vehicle.Limits limits) {
    if (limits == null) {
      return NONE;
    }
    double steepest = 0;
    for (Double deg : new Double[] {limits.climbDeg(), limits.descendDeg(), limits.sideDeg()}) {
      if (deg != null) {
        steepest = Math.max(steepest, deg);
      }
    }
    return steepest > 0 ? steepest : NONE;
  }

  private static double troughTan(Vehicle.Chassis chassis, Vehicle.Wheels wheels) {
    double tan = NONE;
    for (Double overhang : new Double[] {chassis.frontOverhangM(), chassis.rearOverhangM()}) {
      if (overhang != null) {
        double deg = RampAngles.approachDeg(chassis.clearanceM(), overhang, wheels.radiusM());
        tan = Math.min(tan, deg >= 90 ? NONE : SlopeGeometry.tan(deg));
      }
    }
    return tan;
  }

  private static void requireUsable(Vehicle v, Body body) {
    String where = "vehicle " + v.name();
    if (v.drive() == null || !(v.drive().speedMs() > 0)) {
      throw UserError.of(
          where, "no drive speed", "drive: {speed_ms: above 0}", "add it to the vehicle file");
    }
    if (v.wheels() != null && v.wheels().axlesM().size() < 2) {
      throw UserError.of(
          where,
          v.wheels().axlesM().size() + " axle",
          "two or more",
          "give every axle in wheels.axles_m");
    }
    Soil soil = v.soil();
    Vehicle.Sight sight = v.drive().sight();
    if (sight != null && sight.brakeMs2() == null && (soil == null || soil.shear() == null)) {
      throw UserError.of(
          where,
          "drive.sight_m on " + (soil == null ? "no soil" : "soil " + soil.name()),
          "drive.brake_ms2, or a soil with shear, which say how fast it stops",
          "add drive.brake_ms2 to the vehicle file");
    }
    if (soil == null) {
      return;
    }
    if (v.massKg() == null || v.wheels() == null) {
      throw UserError.of(
          where,
          "soil " + soil.name() + " without mass or wheels",
          "mass_kg and wheels where a soil is given",
          "add them, or give drive.rolling instead of the soil");
    }
    if (soil.shear() != null && soil.bekker() == null) {
      throw UserError.of(
          "soil " + soil.name(),
          "shear without bekker",
          "both, since the contact length follows from the sinkage",
          "add bekker to the soil file");
    }
    if (soil.ratingConeIndex() != null
        && (v.body() == null || Math.abs(body.gravityMs2() - Body.EARTH.gravityMs2()) > 0.1)) {
      throw UserError.of(
          "soil " + soil.name(),
          "a cone index on " + body.name(),
          "cone index on Earth only, for a vehicle with a body",
          "give bekker and shear instead");
    }
  }

  private static double or(Double value) {
    return value == null ? NONE : value;
  }

  private static double tanOr(Double deg) {
    return deg == null ? NONE : SlopeGeometry.tan(deg);
  }
}

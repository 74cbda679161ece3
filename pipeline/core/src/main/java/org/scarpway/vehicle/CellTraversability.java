package org.scarpway.vehicle;

import static org.scarpway.vehicle.LimitUse.FULL;
import static org.scarpway.vehicle.LimitUse.ratio;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.hazard.Hazard;
import org.scarpway.terrain.Terrain;

/**
 * Evaluates the trafficability of single cells for one vehicle. Every limit is expressed as its
 * use, the used share of the allowed value (above 1: exceeded). Limits on the gradient are bounds
 * on grade and cross grade, so the open headings of a slope have a closed form ({@link
 * HeadingWindow}). Wheels, belly and overhangs are evaluated on the vehicle's pose where the cells
 * resolve the vehicle ({@link RowPoseEstimator}), otherwise from convexity and from the break in
 * slope towards the neighbour cell. Stores the last verdict; use one instance per thread.
 */
final class CellTraversability {
  /** Relative tolerance when the pose is compared with the gradient plane on a tack. */
  private static final double AS_PLANE = 1.001;

  /** The search for a better heading stops below this probability of no-go. Own choice. */
  private static final double NEGLIGIBLE = 1e-4;

  private final MoveLimits limits;
  private final Allowances allowances;
  private final SlopeBounds measured;

  /** Bounds for the slope that was evaluated last. */
  final SlopeBounds bounds;

  private final CellSlopeLimit cellSlope;

  private final int cols;
  private final float[] gradEast;
  private final float[] gradNorth;
  private final IsotropicLimits whole;
  private final ApproachAngleCheck trough;

  /** The limits that the cells resolve. */
  final Resolution resolution;

  /** Tacks for the headings in {@link #tackBits}, with the distance driven on each. */
  final Tacks tacks;

  private final double[] east = new double[Headings.COUNT];
  private final double[] north = new double[Headings.COUNT];
  private final int[] lost = new int[Limit.values().length + 1];

  /** Pose of the vehicle; null if the cells do not resolve the wheels. */
  final RowPoseEstimator poses;

  /** Probability that the cell itself is too steep on every heading; 0 without wheel poses. */
  private double tooSteep;

  private double worstUse;
  private Limit worstLimit;
  private double leastUse;
  private Limit leastLimit;
  private int leastAt;

  /** Headings that no limit closes, one bit each. */
  int ownBits;

  /** Headings opened by tacks although a limit closes the heading itself ({@link Tacks}). */
  int tackBits;

  /** All open headings, {@link #ownBits} and {@link #tackBits}. */
  int bits;

  byte cls;

  /** Code of the binding limit, 0 for none. */
  byte code;

  /**
   * 1 minus the use of the binding limit; 0 where it closes some headings, negative on no-go
   * ground.
   */
  double margin01;

  /** Share of headings allowed, 0 to 1; continuous where the gradient alone decides. */
  double openShare;

  /** True if the only open windows lie where no heading can use them, not even by tacks. */
  boolean narrow;

  /** True if no limit closes the ground but the cells do not resolve all limits. */
  boolean unresolved;

  double capMs;

  /** Causes of slow ground, one bit for each {@link SlowCause}; meaningless for other classes. */
  int slowCauses;

  /**
   * Probability that a limit is exceeded on the best of the 32 headings. It is an upper bound
   * except for belly and overhangs, which are evaluated at the point nearest to their limit. NaN if
   * the height error or the ground is unknown.
   */
  double noGo01;

  /**
   * @param layout positions of the vehicle's points; null if the cells do not resolve them
   * @param rule treatment of ground on which the cells do not resolve a limit
   * @param allowances allowances computed for the same layout
   */
  CellTraversability(
      MoveLimits limits,
      Terrain terrain,
      Hazard hazard,
      WheelLayout layout,
      UnresolvedRule rule,
      Allowances allowances) {
    this.limits = limits;
    this.allowances = allowances;
    measured = new SlopeBounds(limits);
    cellSlope = new CellSlopeLimit(limits, allowances);
    bounds =
        new SlopeBounds(limits, allowances, allowances.gradientSigma, allowances.gradientSigma);
    GridSpec spec = terrain.gradEast().spec();
    cols = spec.cols();
    gradEast = terrain.gradEast().values();
    gradNorth = terrain.gradNorth().values();
    poses =
        layout == null
            ? null
            : new RowPoseEstimator(
                layout, limits, spec, terrain.heightM().values(), gradEast, gradNorth, allowances);
    resolution = new Resolution(limits, terrain, poses != null, rule);
    whole =
        new IsotropicLimits(
            limits, terrain, hazard, poses == null, resolution.roughnessDecides, allowances);
    trough = new ApproachAngleCheck(limits.trough, spec, gradEast, gradNorth, allowances);
    tacks = new Tacks(spec);
    Headings headings = Headings.of(spec);
    for (int k = 0; k < Headings.COUNT; k++) {
      east[k] = headings.east(k);
      north[k] = headings.north(k);
    }
  }

  /** Returns the wheel layout, null if the cells do not resolve the vehicle. */
  static WheelLayout layout(Vehicle vehicle, GridSpec spec) {
    return WheelLayout.resolves(vehicle, spec) ? new WheelLayout(vehicle, spec) : null;
  }

  /** True on open ground where more than half of a limit is used that the cells do not resolve. */
  boolean halfUsed() {
    return unresolved
        && cls != Mobility.NO_GO
        && margin01 < 0.5
        && code != 0
        && !resolution.shows(Limit.ofCode(code));
  }

  void judge(int row, int col) {
    int cell = row * cols + col;
    narrow = false;
    unresolved = false;
    tackBits = 0;
    slowCauses = 0;
    capMs = Double.POSITIVE_INFINITY;
    if (poses != null) {
      poses.at(row, col);
    }
    if (whole.unknown(cell) || (poses != null && !poses.known())) {
      shut(Limit.VOID, (byte) 0, Double.NaN);
    } else if (whole.keptOut(cell)) {
      shut(Limit.KEEP_OUT, Mobility.NO_GO, -1);
    } else if (whole.withoutRoom(cell)) {
      shut(Limit.ROOM, Mobility.NO_GO, -1);
    } else if (whole.rocksUnknown(cell)) {
      shut(Limit.ROCK_DATA, (byte) 0, Double.NaN);
    } else if (whole.fullOfRocks(cell)) {
      shut(Limit.ROCKS, Mobility.NO_GO, -1);
    } else {
      double ge = gradEast[cell];
      double gn = gradNorth[cell];
      double t = Math.sqrt(ge * ge + gn * gn);
      bounds.at(t);
      tooSteep = cellSlopeBroken(t);
      whole.judge(cell, t);
      if (poses != null && cellSlope.shuts(t)) {
        shut(bounds.nearest(t), Mobility.NO_GO, cellSlope.margin01(t));
        noGo01 = brokenOnBest(cell);
        return;
      }
      worstUse = 0;
      worstLimit = null;
      leastUse = Double.POSITIVE_INFINITY;
      leastLimit = null;
      ownBits = 0;
      openShare = 0;
      if (poses == null ? !judgeSlope(row, col, t) : !judgePose()) {
        judgeHeadings(row, col, ge, gn, t);
      }
      conclude(cell, t);
    }
  }

  /** Removes the verdict, unless limits that do not depend on the soil have decided it. */
  void withoutSoil() {
    boolean settled = cls == 0 || code == Limit.KEEP_OUT.code() || code == Limit.ROOM.code();
    if (!settled) {
      unresolved = false;
      shut(Limit.SOIL_DATA, (byte) 0, Double.NaN);
    }
  }

  /** Upper bound on the probability that a step about a cell exceeds a limit. */
  double stepBroken(int cell, double limitM) {
    return whole.stepBroken(cell, limitM);
  }

  /** Probability that a cell with this measured slope is itself too steep on every heading. */
  double cellSlopeBroken(double t) {
    // Without wheel poses the headings are evaluated on the gradient of the cell already.
    return poses == null ? 0 : cellSlope.broken(t);
  }

  boolean fullOfRocks(int cell) {
    return whole.fullOfRocks(cell);
  }

  MoveLimits limits() {
    return limits;
  }

  private void shut(Limit limit, byte asClass, double margin) {
    ownBits = 0;
    tackBits = 0;
    bits = 0;
    openShare = 0;
    narrow = false;
    cls = asClass;
    code = limit.code();
    margin01 = margin;
    noGo01 = cls == 0 || !allowances.known ? Double.NaN : 1;
  }

  /** Returns true if the plane slope alone decides every heading: all open or all closed. */
  private boolean judgeSlope(int row, int col, double t) {
    // The steepest grades of the plane, whether or not one of the 32 headings has them.
    worst(bounds.upLimit, ratio(t, bounds.up));
    worst(bounds.downLimit, ratio(t, bounds.down));
    worst(bounds.sideLimit, bounds.worstAcross(t));
    if (bounds.everyHeading(t)) {
      worstUse = Math.min(1, worstUse);
    }
    boolean level = bounds.up > 0 && bounds.down > 0;
    if (level && worstUse <= FULL && trough.mostUse(row, col) <= Math.min(1, worstUse)) {
      ownBits = -1;
      openShare = 1;
      return true;
    }
    return !bounds.skewed && bounds.shuts(t) && shutBySlope(t);
  }

  private boolean shutBySlope(double t) {
    double use = bounds.leastUse(t);
    if (Double.isNaN(use)) {
      return false;
    }
    leastUse = Math.max(FULL, use);
    leastLimit = bounds.nearest(t);
    return true;
  }

  /** Returns true if the pose leaves every heading open. */
  private boolean judgePose() {
    worstUse = poses.worstUse();
    if (!(worstUse <= FULL)) {
      worstUse = 0;
      return false;
    }
    for (int k = 0; k < Headings.COUNT && tooSteep > 0; k++) {
      if (!holdsWithCell(k)) {
        worstUse = 0;
        return false;
      }
    }
    ownBits = -1;
    openShare = 1;
    for (int k = 0; k < Headings.COUNT; k++) {
      double contact = poses.contactUse(k);
      if (contact == worstUse || poses.slopeUse(k) == worstUse) {
        worstLimit = contact > poses.slopeUse(k) ? poses.contactLimit(k) : slopeLimit(k);
        break;
      }
    }
    return true;
  }

  /** True if the slopes of the wheels and that of the cell together satisfy the confidence. */
  private boolean holdsWithCell(int k) {
    return tooSteep == 0 || poses.slopesBroken(k) + tooSteep <= allowances.tail;
  }

  private Limit slopeLimit(int k) {
    double grade = poses.grade(k);
    double cross = poses.cross(k);
    bounds.at(Math.sqrt(grade * grade + cross * cross));
    return bounds.limit(grade, cross);
  }

  private void judgeHeadings(int row, int col, double ge, double gn, double t) {
    Arrays.fill(lost, 0);
    int bySlope = 0;
    double leastSlope = Double.POSITIVE_INFINITY;
    for (int k = 0; k < Headings.COUNT; k++) {
      double grade = ge * east[k] + gn * north[k];
      double cross = ge * north[k] - gn * east[k];
      double slopeUse = poses == null ? bounds.use(grade, cross) : poses.slopeUse(k);
      slopeUse = slopeUse > FULL || holdsWithCell(k) ? slopeUse : LimitUse.BLOCKED;
      double contactUse = 0;
      // Contact of the body matters only where the wheels may stand.
      if (slopeUse < leastSlope) {
        leastSlope = slopeUse;
        leastAt = k;
      }
      if (slopeUse <= FULL) {
        bySlope++;
        contactUse = contactUse(row, col, k, grade);
      }
      double use = Math.max(slopeUse, contactUse);
      if (use > worstUse || use < leastUse || use > FULL) {
        Limit limit;
        if (contactUse > slopeUse) {
          limit = poses == null ? Limit.APPROACH : poses.contactLimit(k);
        } else {
          limit = poses == null ? bounds.limit(grade, cross) : slopeLimit(k);
        }
        worst(limit, use);
        if (use < leastUse) {
          leastUse = use;
          leastLimit = limit;
        }
        if (use > FULL) {
          lost[limit.code()]++;
        }
      }
      if (use <= FULL) {
        ownBits |= 1 << k;
      }
    }
    bounds.at(t);
    int count = Integer.bitCount(ownBits);
    boolean smooth = poses == null && count == bySlope;
    openShare = smooth ? bounds.share(t) : count / (double) Headings.COUNT;
    if (smooth && allowances.known) {
      // The bounds are a box inside what the confidence allows; the headings are exact.
      openShare =
          Math.max(openShare, Math.min(count, Headings.COUNT - 1) / (double) Headings.COUNT);
    }
    if (bySlope < Headings.COUNT) {
      judgeBetween(row, col, ge, gn, t, bySlope);
    }
  }

  /** Probability of no-go; NaN if the error of the heights is unknown. */
  private double brokenOnBest(int cell) {
    return allowances.known ? Math.min(1, leastBroken(cell) + whole.broken(cell)) : Double.NaN;
  }

  /**
   * Upper bound on the probability that a limit on slope or contact is exceeded on the best
   * heading.
   */
  private double leastBroken(int cell) {
    double least = 1;
    for (int k = 0; k < Headings.COUNT && least > NEGLIGIBLE; k++) {
      double broken;
      if (poses != null) {
        broken = Math.min(1, poses.broken(k) + tooSteep);
      } else {
        double grade = along(k, gradEast[cell], gradNorth[cell]);
        double cross = gradEast[cell] * north[k] - gradNorth[cell] * east[k];
        broken = bounds.broken(grade, cross) + trough.broken(cell / cols, cell % cols, k, grade);
      }
      least = Math.min(least, broken);
    }
    return least;
  }

  private double contactUse(int row, int col, int k, double grade) {
    if (poses != null) {
      return poses.contactUse(k);
    }
    return limits.trough == Double.POSITIVE_INFINITY ? 0 : trough.use(row, col, k, grade);
  }

  /** Opens windows between the headings where the body clears the ground. */
  private void judgeBetween(int row, int col, double ge, double gn, double t, int bySlope) {
    if (tooSteep > 0 || (allowances.known && someHeadingAsMeasured(ge, gn))) {
      // A window narrowed below one heading by the confidence alone stays closed: contact of the
      // body on the heading it contained would not be checked. Windows meet the confidence by
      // themselves and leave none of it for the slope of the cell.
      return;
    }
    tacks.find(ge, gn, t, bounds);
    for (int k = 0; k < Headings.COUNT; k++) {
      boolean tacked = (tacks.bits >>> k & 1) != 0 && (ownBits >>> k & 1) == 0;
      // Check both sides of the window, so that a wider one would be open there as well.
      if (tacked
          && asPlane(row, col, k, ge, gn)
          && (poses == null || onPlane(tacks.beyond[k], ge, gn))) {
        tackBits |= 1 << k;
      }
    }
    if (bySlope > 0 || openByGradient(ge, gn)) {
      return;
    }
    if (!bounds.open(t)) {
      shutBySlope(t);
    } else if (tackBits != 0 || contactUse(row, col, leastAt, along(leastAt, ge, gn)) <= FULL) {
      // With a pose every heading has been evaluated: if none of them holds, the cell is closed.
      narrow = tackBits == 0 && poses == null;
      openShare = bounds.share(t);
    }
  }

  /** True if the limits on slope hold on some heading for the heights as measured. */
  private boolean someHeadingAsMeasured(double ge, double gn) {
    boolean some = false;
    for (int k = 0; k < Headings.COUNT && !some; k++) {
      some = holdsAsMeasured(along(k, ge, gn), ge * north[k] - gn * east[k]);
      some |= poses != null && holdsAsMeasured(poses.grade(k), poses.cross(k));
    }
    return some;
  }

  private boolean holdsAsMeasured(double grade, double cross) {
    measured.at(Math.sqrt(grade * grade + cross * cross));
    return measured.use(grade, cross) <= FULL;
  }

  /** True if the ground about a heading is no worse than the gradient plane. */
  private boolean asPlane(int row, int col, int k, double ge, double gn) {
    double grade = along(k, ge, gn);
    return contactUse(row, col, k, grade) <= FULL && (poses == null || onPlane(k, ge, gn));
  }

  /** True if the wheels' plane is no steeper than the gradient plane, along and across. */
  private boolean onPlane(int k, double ge, double gn) {
    double grade = along(k, ge, gn);
    double cross = ge * north[k] - gn * east[k];
    return poses.grade(k) * Math.signum(grade) <= Math.abs(grade) * AS_PLANE
        && Math.abs(poses.cross(k)) <= Math.abs(cross) * AS_PLANE
        && poses.slopeUse(k) <= bounds.use(grade, cross) * AS_PLANE;
  }

  private boolean openByGradient(double ge, double gn) {
    for (int k = 0; k < Headings.COUNT; k++) {
      if (bounds.use(along(k, ge, gn), ge * north[k] - gn * east[k]) <= FULL) {
        return true;
      }
    }
    return false;
  }

  private double along(int k, double ge, double gn) {
    return ge * east[k] + gn * north[k];
  }

  private void worst(Limit limit, double use) {
    if (use > worstUse) {
      worstUse = use;
      worstLimit = limit;
    }
  }

  private void conclude(int cell, double t) {
    bits = ownBits | tackBits;
    double broken = brokenOnBest(cell);
    noGo01 = broken;
    boolean stopped = whole.use > FULL;
    boolean between = ownBits == 0 && (tackBits != 0 || narrow);
    boolean shut = ownBits == 0 && !between;
    if (stopped || shut) {
      // Wheels sunk to the belly touch on any heading, so contact is not the cause.
      boolean sunk = stopped && whole.limit == Limit.SINKAGE;
      boolean byHeading = shut && !sunk && (!stopped || leastUse > whole.use);
      shut(
          byHeading ? leastLimit : whole.limit,
          Mobility.NO_GO,
          1 - (byHeading ? leastUse : whole.use));
      noGo01 = broken;
      return;
    }
    unresolved = !resolution.complete();
    if (resolution.shuts()) {
      shut(Limit.UNRESOLVED, Mobility.NO_GO, -1);
      return;
    }
    double step = whole.stepM(cell);
    double roughness = whole.roughnessM(cell);
    capMs = limits.speedCapMs(t, step, roughness);
    if (resolution.slows()) {
      capMs = Math.min(capMs, limits.crawlMs);
    }
    // The direct climb of the fall line is the slowest of all headings.
    capMs = whole.amongRocksMs(cell, Math.min(capMs, limits.table.speedMs(t)), capMs);
    boolean every = ownBits == -1 && openShare > 1 - LimitUse.ROUNDING;
    double slowStepM = Math.min(limits.slowStepM, limits.stepM(t));
    int why = SlowCause.HEADINGS.in(limits.soft.slowCauses(t), !every);
    why = SlowCause.UNRESOLVED.in(why, resolution.slows());
    why = SlowCause.ROCKS.in(why, whole.slowedByRocks(cell));
    why = SlowCause.SLOPE.in(why, t > limits.slowSlope * FULL);
    why = SlowCause.STEP.in(why, step > slowStepM * FULL);
    why = SlowCause.ROUGHNESS.in(why, roughness > limits.slowRoughnessM * FULL);
    why = SlowCause.PASSES.in(why, limits.bearing != null && limits.bearing.wearsOut());
    slowCauses = why;
    cls = why == 0 ? Mobility.GO : Mobility.SLOW;
    if (!every) {
      margin01 = 0;
      if (ownBits == -1) {
        code = worstLimit.code();
      } else {
        code = between ? leastLimit.code() : mostLost();
      }
      return;
    }
    if (resolution.slows()) {
      margin01 = 0;
      code = Limit.UNRESOLVED.code();
      return;
    }
    double use = Math.max(worstUse, whole.use);
    Limit limit = worstUse >= whole.use ? worstLimit : whole.limit;
    margin01 = Math.max(0, 1 - use);
    code = use > 0 && limit != null ? limit.code() : 0;
  }

  private byte mostLost() {
    int most = 0;
    for (int i = 1; i < lost.length; i++) {
      if (lost[i] > lost[most]) {
        most = i;
      }
    }
    return (byte) most;
  }
}

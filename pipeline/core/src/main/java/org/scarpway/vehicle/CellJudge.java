package org.scarpway.vehicle;

import static org.scarpway.vehicle.SlopeBounds.BLOCKED;
import static org.scarpway.vehicle.SlopeBounds.FULL;
import static org.scarpway.vehicle.SlopeBounds.ratio;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.hazard.Hazard;
import org.scarpway.terrain.Terrain;

/**
 * Judges one cell after another for one vehicle: every limit as its use, the share of the allowed
 * value that is taken (above 1: exceeded). Limits on the gradient are bounds on grade and cross
 * grade, so the slope's open headings have a closed form ({@link HeadingWindow}); wheels, belly and
 * overhangs come from the pose where the cells resolve the vehicle, otherwise from convexity and
 * from the break in slope towards the neighbour cell. Holds the last verdict; one per thread.
 */
final class CellJudge {
  private static final Limit[] CONTACTS = {Limit.CLEARANCE, Limit.APPROACH, Limit.STEP};

  private final MoveLimits limits;
  private final SlopeBounds bounds;
  private final int rows;
  private final int cols;
  private final float[] gradEast;
  private final float[] gradNorth;
  private final float[] stepM;
  private final boolean stepEstimated;
  private final float[] roughnessM;
  private final float[] convexityM;
  private final byte[] causes;
  private final float[] detour;
  private final WheelPose pose;
  private final double[] east = new double[Headings.COUNT];
  private final double[] north = new double[Headings.COUNT];
  private final int[] aheadCol = new int[Headings.COUNT];
  private final int[] aheadRow = new int[Headings.COUNT];
  private final int[] lost = new int[Limit.values().length + 1];

  private double cellUse;
  private Limit cellLimit;
  private double worstUse;
  private Limit worstLimit;
  private double leastUse;
  private Limit leastLimit;
  private double contactUse;
  private Limit contactLimit;

  /** Headings allowed, a bit each. */
  int bits;

  byte cls;

  /** Code of the limit that binds, 0 for none. */
  byte code;

  /** 1 less the use of the binding limit; 0 where it takes headings, negative on no-go ground. */
  double margin01;

  /** Share of all headings allowed, continuous where the gradient alone decides. */
  double openShare;

  /** A grade inside an open window that holds none of the headings; NaN where there is none. */
  double narrowGrade;

  double capMs;

  private static final int NO_ROOM = Hazard.Cause.NARROW.bit() | Hazard.Cause.POCKET.bit();

  CellJudge(MoveLimits limits, Terrain terrain, Hazard hazard) {
    this.limits = limits;
    bounds = new SlopeBounds(limits);
    GridSpec spec = terrain.gradEast().spec();
    rows = spec.rows();
    cols = spec.cols();
    gradEast = terrain.gradEast().values();
    gradNorth = terrain.gradNorth().values();
    stepM = limits.needsStep() ? terrain.stepM().values() : null;
    stepEstimated = stepFarFetched(terrain);
    roughnessM = limits.needsRoughness() ? terrain.roughnessM().values() : null;
    boolean resolved = WheelPose.resolves(limits.vehicle(), spec);
    pose =
        resolved
            ? new WheelPose(limits.vehicle(), limits.bellyM, spec, terrain.heightM().values())
            : null;
    convexityM = limits.needsConvexity() && !resolved ? terrain.convexityM().values() : null;
    causes = hazard.causes().values();
    detour = hazard.detourFactor().values();
    Headings headings = Headings.of(spec);
    for (int k = 0; k < Headings.COUNT; k++) {
      east[k] = headings.east(k);
      north[k] = headings.north(k);
      aheadCol[k] = (int) Math.round(Headings.dCol(k) / 4.0);
      aheadRow[k] = (int) Math.round(Headings.dRow(k) / 4.0);
    }
  }

  /**
   * How many times its own length an estimated step may be carried and still be a limit. Own
   * choice.
   */
  private static final double TRUSTED_RATIO = 3;

  /**
   * Whether the step was carried down from so much coarser scales that it says how rough the ground
   * is, but not that a vehicle is stopped.
   */
  static boolean stepFarFetched(Terrain terrain) {
    if (terrain.extrapolation() == null || terrain.extrapolation().step() == null) {
      return false;
    }
    var scale = terrain.extrapolation().step();
    return scale.fromM() > TRUSTED_RATIO * scale.toM();
  }

  void judge(int row, int col) {
    int cell = row * cols + col;
    narrowGrade = Double.NaN;
    capMs = Double.POSITIVE_INFINITY;
    if (unknown(cell) || (pose != null && !pose.fits(row, col))) {
      shut(Limit.VOID, (byte) 0, Double.NaN);
    } else if ((causes[cell] & Hazard.Cause.KEEP_OUT.bit()) != 0) {
      shut(Limit.KEEP_OUT, Mobility.NO_GO, -1);
    } else if ((causes[cell] & NO_ROOM) != 0) {
      shut(Limit.ROOM, Mobility.NO_GO, -1);
    } else if (detour[cell] == Float.POSITIVE_INFINITY) {
      shut(Limit.ROCKS, Mobility.NO_GO, -1);
    } else {
      double ge = gradEast[cell];
      double gn = gradNorth[cell];
      double t = Math.sqrt(ge * ge + gn * gn);
      bounds.at(t);
      judgeCell(cell);
      if (judgeSlope(t) || judgeHeadings(row, col, cell, t)) {
        conclude(cell, t);
      } else {
        shut(Limit.VOID, (byte) 0, Double.NaN);
      }
    }
  }

  private boolean unknown(int cell) {
    return Float.isNaN(gradEast[cell])
        || Float.isNaN(gradNorth[cell])
        || Float.isNaN(detour[cell])
        || (stepM != null && Float.isNaN(stepM[cell]))
        || (roughnessM != null && Float.isNaN(roughnessM[cell]))
        || (convexityM != null && Float.isNaN(convexityM[cell]));
  }

  private void shut(Limit limit, byte asClass, double margin) {
    bits = 0;
    openShare = 0;
    narrowGrade = Double.NaN;
    cls = asClass;
    code = limit.code();
    margin01 = margin;
  }

  /** Limits that are the same on every heading. */
  private void judgeCell(int cell) {
    cellUse = 0;
    cellLimit = null;
    if (stepM != null) {
      // An estimated step slows to the crawl speed like roughness; only a measured one stops.
      double use = stepM[cell] / limits.stepM;
      note(Limit.STEP, stepEstimated ? Math.min(1, use) : use);
    }
    if (convexityM != null) {
      note(Limit.CLEARANCE, ratio(Math.max(0, convexityM[cell]), limits.bellyM));
    }
    if (roughnessM != null) {
      // Rough ground slows to the crawl speed but does not stop.
      note(Limit.ROUGHNESS, Math.min(1, roughnessM[cell] / limits.crawlRoughnessM));
    }
    note(Limit.ROCKS, 1 - 1 / Math.max(1, detour[cell]));
    if (!Double.isNaN(limits.vci1)) {
      note(Limit.TRACTION, limits.vci1 / limits.ratingConeIndex);
    }
  }

  private void note(Limit limit, double use) {
    if (use > cellUse) {
      cellUse = use;
      cellLimit = limit;
    }
  }

  /** True where the plane slope alone settles every heading: all open or all shut. */
  private boolean judgeSlope(double t) {
    worstUse = 0;
    worstLimit = null;
    leastUse = Double.POSITIVE_INFINITY;
    leastLimit = null;
    bits = 0;
    openShare = 0;
    if (pose != null) {
      return false;
    }
    // The steepest grades of the plane, whether or not one of the headings meets them.
    worst(bounds.upLimit, ratio(t, bounds.up));
    worst(bounds.downLimit, ratio(t, bounds.down));
    worst(bounds.sideLimit, ratio(t, bounds.side));
    boolean level = bounds.up > 0 && bounds.down > 0;
    if (level && worstUse <= FULL && limits.trough == Double.POSITIVE_INFINITY) {
      bits = -1;
      openShare = 1;
      return true;
    }
    return !bounds.open(t) && shutBySlope(t);
  }

  private boolean shutBySlope(double t) {
    double use = bounds.leastUse(t);
    if (Double.isNaN(use)) {
      return false;
    }
    leastUse = Math.max(FULL, use);
    leastLimit = bounds.nearest();
    return true;
  }

  /** False where a point under the vehicle is void. */
  private boolean judgeHeadings(int row, int col, int cell, double t) {
    double ge = gradEast[cell];
    double gn = gradNorth[cell];
    Arrays.fill(lost, 0);
    int bySlope = 0;
    int byGradient = 0;
    double leastSlope = Double.POSITIVE_INFINITY;
    int leastAt = 0;
    for (int k = 0; k < Headings.COUNT; k++) {
      double grade = ge * east[k] + gn * north[k];
      double cross = ge * north[k] - gn * east[k];
      double slopeUse = bounds.use(grade, cross);
      if (slopeUse <= FULL) {
        byGradient++;
      }
      contactUse = 0;
      if (pose != null) {
        if (!pose.setWheels(cell, k)) {
          return false;
        }
        grade = pose.grade;
        cross = pose.cross;
        bounds.at(Math.sqrt(grade * grade + cross * cross));
        slopeUse = bounds.use(grade, cross);
      }
      Limit limit = bounds.limit(grade, cross);
      // What the body meets matters only where the wheels may stand.
      if (slopeUse <= FULL) {
        bySlope++;
        if (!judgeContact(row, col, cell, k, grade)) {
          return false;
        }
      }
      if (slopeUse < leastSlope) {
        leastSlope = slopeUse;
        leastAt = k;
      }
      double headingUse = slopeUse;
      if (contactUse > slopeUse) {
        headingUse = contactUse;
        limit = contactLimit;
      }
      worst(limit, headingUse);
      if (headingUse < leastUse) {
        leastUse = headingUse;
        leastLimit = limit;
      }
      if (headingUse <= FULL) {
        bits |= 1 << k;
      } else {
        lost[limit.code()]++;
      }
    }
    bounds.at(t);
    int count = Integer.bitCount(bits);
    boolean smooth = pose == null && count == bySlope;
    openShare = smooth ? bounds.share(t) : count / (double) Headings.COUNT;
    return bySlope > 0 || byGradient > 0 || judgeBetween(row, col, cell, t, leastAt);
  }

  /** No heading fits: is there a window between them, and does the body clear the ground there? */
  private boolean judgeBetween(int row, int col, int cell, double t, int nearestHeading) {
    if (!bounds.open(t)) {
      shutBySlope(t);
      return true;
    }
    contactUse = 0;
    if (pose != null && !pose.setWheels(cell, nearestHeading)) {
      return false;
    }
    double grade = gradEast[cell] * east[nearestHeading] + gradNorth[cell] * north[nearestHeading];
    if (!judgeContact(row, col, cell, nearestHeading, grade)) {
      return false;
    }
    if (contactUse <= FULL) {
      narrowGrade = bounds.gradeInside(t);
      openShare = bounds.share(t);
    }
    return true;
  }

  /** Sets the use of belly, overhangs and wheels. False where a point under the body is void. */
  private boolean judgeContact(int row, int col, int cell, int k, double grade) {
    contactLimit = Limit.APPROACH;
    if (pose == null) {
      contactUse = limits.trough == Double.POSITIVE_INFINITY ? 0 : troughUse(row, col, k, grade);
      return true;
    }
    if (!pose.setBody(cell, k)) {
      return false;
    }
    contactUse = 0;
    for (Limit limit : CONTACTS) {
      double use = poseUse(limit);
      if (use > contactUse) {
        contactUse = use;
        contactLimit = limit;
      }
    }
    return true;
  }

  private double poseUse(Limit limit) {
    return switch (limit) {
      case CLEARANCE -> ratio(limits.bellyM - pose.bellyClearanceM, limits.bellyM);
      case APPROACH -> ratio(limits.bellyM - pose.endClearanceM, limits.bellyM);
      default -> ratio(pose.gapM, limits.stepM);
    };
  }

  /** Break in slope towards the cell ahead, as a sharp trough that both overhangs must clear. */
  private double troughUse(int row, int col, int k, double grade) {
    int r = row + aheadRow[k];
    int c = col + aheadCol[k];
    if (r < 0 || c < 0 || r >= rows || c >= cols) {
      return 0;
    }
    int ahead = r * cols + c;
    double next = gradEast[ahead] * east[k] + gradNorth[ahead] * north[k];
    if (!(next > grade)) {
      return 0;
    }
    double cosine = 1 + next * grade;
    return cosine <= 0 ? BLOCKED : (next - grade) / cosine / limits.trough;
  }

  private void worst(Limit limit, double use) {
    if (use > worstUse) {
      worstUse = use;
      worstLimit = limit;
    }
  }

  private void conclude(int cell, double t) {
    boolean stopped = cellUse > FULL;
    boolean narrow = !Double.isNaN(narrowGrade);
    boolean shut = bits == 0 && !narrow;
    if (stopped || shut) {
      boolean byHeading = shut && (!stopped || leastUse > cellUse);
      shut(
          byHeading ? leastLimit : cellLimit, Mobility.NO_GO, 1 - (byHeading ? leastUse : cellUse));
      return;
    }
    double step = stepM == null ? 0 : stepM[cell];
    double roughness = roughnessM == null ? 0 : roughnessM[cell];
    capMs = limits.speedCapMs(t, step, roughness);
    boolean eased =
        t > limits.slowSlope * FULL
            || step > Math.min(limits.slowStepM, limits.stepM) * FULL
            || roughness > limits.slowRoughnessM * FULL
            || limits.ratingConeIndex < limits.vci50;
    boolean every = bits == -1 && openShare > 1 - MoveLimits.ROUNDING;
    cls = every && !eased ? Mobility.GO : Mobility.SLOW;
    if (!every) {
      margin01 = 0;
      if (bits == -1) {
        code = worstLimit.code();
      } else {
        code = narrow ? leastLimit.code() : mostLost();
      }
      return;
    }
    double use = Math.max(worstUse, cellUse);
    Limit limit = worstUse >= cellUse ? worstLimit : cellLimit;
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

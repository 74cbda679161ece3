package org.scarpway.vehicle;

import static org.scarpway.vehicle.MoveLimits.ROUNDING;

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
  /** Use that stands for a limit with nothing left to compare. */
  private static final double BLOCKED = 2;

  private static final double FULL = 1 + ROUNDING;

  private final MoveLimits limits;
  private final int rows;
  private final int cols;
  private final float[] gradEast;
  private final float[] gradNorth;
  private final float[] stepM;
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

  private double up;
  private double down;
  private double side;
  private Limit upLimit;
  private Limit downLimit;
  private Limit sideLimit;
  private double cellUse;
  private Limit cellLimit;
  private double worstUse;
  private Limit worstLimit;
  private double leastUse;
  private Limit leastLimit;

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

  CellJudge(MoveLimits limits, Terrain terrain, Hazard hazard) {
    this.limits = limits;
    GridSpec spec = terrain.gradEast().spec();
    rows = spec.rows();
    cols = spec.cols();
    gradEast = terrain.gradEast().values();
    gradNorth = terrain.gradNorth().values();
    stepM = limits.needsStep() ? terrain.stepM().values() : null;
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

  void judge(int row, int col) {
    int cell = row * cols + col;
    narrowGrade = Double.NaN;
    capMs = Double.POSITIVE_INFINITY;
    if (unknown(cell) || (pose != null && !pose.fits(row, col))) {
      shut(Limit.VOID, (byte) 0, Double.NaN);
      return;
    }
    if ((causes[cell] & Hazard.Cause.KEEP_OUT.bit()) != 0) {
      shut(Limit.KEEP_OUT, Mobility.NO_GO, -1);
      return;
    }
    if (detour[cell] == Float.POSITIVE_INFINITY) {
      shut(Limit.ROCKS, Mobility.NO_GO, -1);
      return;
    }
    double ge = gradEast[cell];
    double gn = gradNorth[cell];
    double t = Math.sqrt(ge * ge + gn * gn);
    bound(t);
    judgeCell(cell);
    if (!judgeHeadings(row, col, cell, ge, gn, t)) {
      shut(Limit.VOID, (byte) 0, Double.NaN);
      return;
    }
    conclude(cell, t);
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
    cls = asClass;
    code = limit.code();
    margin01 = margin;
  }

  /** Bounds on the grades at this slope and which limit sets each. */
  private void bound(double t) {
    up = limits.climb;
    upLimit = Limit.CLIMB;
    if (limits.tractionUp < up) {
      up = limits.tractionUp;
      upLimit = Limit.TRACTION;
    }
    if (limits.power < up) {
      up = limits.power;
      upLimit = Limit.POWER;
    }
    down = limits.descend;
    downLimit = Limit.DESCEND;
    if (limits.tractionDown < down) {
      down = limits.tractionDown;
      downLimit = Limit.TRACTION;
    }
    side = limits.side;
    sideLimit = Limit.SIDE;
    if (limits.tipSide == Double.POSITIVE_INFINITY || t == 0) {
      return;
    }
    double usable = TipOver.usableShare(t, limits.tipMargin);
    if (limits.tipUp * usable < up) {
      up = limits.tipUp * usable;
      upLimit = Limit.TIP;
    }
    if (limits.tipDown * usable < down) {
      down = limits.tipDown * usable;
      downLimit = Limit.TIP;
    }
    if (limits.tipSide * usable < side) {
      side = limits.tipSide * usable;
      sideLimit = Limit.TIP;
    }
  }

  /** Limits that are the same on every heading. */
  private void judgeCell(int cell) {
    cellUse = 0;
    cellLimit = null;
    if (stepM != null) {
      note(Limit.STEP, stepM[cell] / limits.stepM);
    }
    if (convexityM != null) {
      note(Limit.CLEARANCE, use(Math.max(0, convexityM[cell]), limits.bellyM));
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

  /** False where the wheels of some heading stand on a void. */
  private boolean judgeHeadings(int row, int col, int cell, double ge, double gn, double t) {
    worstUse = 0;
    worstLimit = null;
    leastUse = Double.POSITIVE_INFINITY;
    leastLimit = null;
    Arrays.fill(lost, 0);
    boolean free = pose == null && limits.trough == Double.POSITIVE_INFINITY;
    if (pose == null) {
      // The steepest grades of the plane, whether or not one of the headings meets them.
      worst(upLimit, use(t, up));
      worst(downLimit, use(t, down));
      worst(sideLimit, use(t, side));
    }
    if (free && up > 0 && down > 0 && worstUse <= FULL) {
      bits = -1;
      openShare = 1;
      return true;
    }
    bits = 0;
    int bySlope = 0;
    int byGradient = 0;
    double leastSlope = Double.POSITIVE_INFINITY;
    double contactThere = 0;
    for (int k = 0; k < Headings.COUNT; k++) {
      double grade = ge * east[k] + gn * north[k];
      double cross = ge * north[k] - gn * east[k];
      double slopeUse = slopeUse(grade, cross);
      if (slopeUse <= FULL) {
        byGradient++;
      }
      Limit limit = slopeLimit(grade, cross);
      double contactUse = 0;
      Limit contact = null;
      if (pose != null) {
        if (!pose.set(cell, k)) {
          return false;
        }
        bound(Math.sqrt(pose.grade * pose.grade + pose.cross * pose.cross));
        slopeUse = slopeUse(pose.grade, pose.cross);
        limit = slopeLimit(pose.grade, pose.cross);
        bound(t);
        contactUse = use(limits.bellyM - pose.bellyClearanceM, limits.bellyM);
        contact = Limit.CLEARANCE;
        double ends = use(limits.bellyM - pose.endClearanceM, limits.bellyM);
        if (ends > contactUse) {
          contactUse = ends;
          contact = Limit.APPROACH;
        }
        double gap = use(pose.gapM, limits.stepM);
        if (gap > contactUse) {
          contactUse = gap;
          contact = Limit.STEP;
        }
      } else if (limits.trough < Double.POSITIVE_INFINITY) {
        contactUse = troughUse(row, col, k, grade);
        contact = Limit.APPROACH;
      }
      if (slopeUse <= FULL) {
        bySlope++;
      }
      if (slopeUse < leastSlope) {
        leastSlope = slopeUse;
        contactThere = contactUse;
      }
      double headingUse = slopeUse;
      if (contactUse > slopeUse) {
        headingUse = contactUse;
        limit = contact;
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
    boolean open = HeadingWindow.open(t, -down * FULL, up * FULL, side * FULL);
    boolean contactFree = Integer.bitCount(bits) == bySlope;
    openShare =
        pose == null && contactFree
            ? HeadingWindow.share(t, -down * FULL, up * FULL, side * FULL)
            : Integer.bitCount(bits) / (double) Headings.COUNT;
    if (bySlope == 0 && byGradient == 0) {
      if (open && contactThere <= FULL) {
        narrowGrade = HeadingWindow.gradeInside(t, -down * FULL, up * FULL, side * FULL);
      } else if (!open) {
        shutBySlope(t);
      }
    }
    return true;
  }

  /**
   * No heading on the slope: the least use of all headings, and the limit nearest to giving way.
   */
  private void shutBySlope(double t) {
    double along = Math.max(up, down);
    double corner = Math.sqrt(along * along + side * side);
    if (along <= 0 || !(corner < Double.POSITIVE_INFINITY)) {
      return;
    }
    leastUse = Math.max(FULL, t / corner);
    leastLimit = along >= side ? (up >= down ? upLimit : downLimit) : sideLimit;
  }

  private double slopeUse(double grade, double cross) {
    double use = grade >= 0 ? use(grade, up) : use(-grade, down);
    if (grade > up * FULL || -grade > down * FULL) {
      // Also catches bounds below zero: ground on which only a descent, or nothing, is left.
      use = Math.max(use, up <= 0 || down <= 0 ? BLOCKED : use);
    }
    return Math.max(use, use(Math.abs(cross), side));
  }

  private Limit slopeLimit(double grade, double cross) {
    double along = grade >= 0 ? use(grade, up) : use(-grade, down);
    Limit alongLimit = grade >= 0 || grade > up ? upLimit : downLimit;
    return use(Math.abs(cross), side) > along ? sideLimit : alongLimit;
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

  private static double use(double got, double allowed) {
    if (allowed > 0) {
      return got / allowed;
    }
    return got > 0 ? BLOCKED : 0;
  }

  private void conclude(int cell, double t) {
    boolean stopped = cellUse > FULL;
    boolean narrow = !Double.isNaN(narrowGrade);
    if (stopped || (bits == 0 && !narrow)) {
      double use = cellUse;
      Limit limit = cellLimit;
      if (bits == 0 && !narrow && (!stopped || leastUse > cellUse)) {
        use = leastUse;
        limit = leastLimit;
      }
      narrowGrade = Double.NaN;
      shut(limit, Mobility.NO_GO, 1 - use);
      return;
    }
    capMs =
        limits.speedCapMs(
            t, stepM == null ? 0 : stepM[cell], roughnessM == null ? 0 : roughnessM[cell]);
    boolean eased =
        t > limits.slowSlope * FULL
            || (stepM != null && stepM[cell] > limits.slowStepM * FULL)
            || (roughnessM != null && roughnessM[cell] > limits.slowRoughnessM * FULL)
            || limits.ratingConeIndex < limits.vci50;
    boolean every = bits == -1 && openShare > 1 - ROUNDING;
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

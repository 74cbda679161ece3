package org.scarpway.vehicle;

import static org.scarpway.vehicle.LimitUse.FULL;
import static org.scarpway.vehicle.LimitUse.ratio;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;

/**
 * Estimates the pose of a vehicle on the ground for each cell of a stretch of a row and all
 * headings: wheels on bilinear ground, body on the least-squares plane over all wheels (equal
 * springs). Computes the use of the limits on the slope of that plane and of the contact limits for
 * belly, overhangs and wheels.
 *
 * <p>Processes one heading after the other along the stretch, on copies of the ground shifted by
 * whole cells, so that every inner loop runs over plain arrays ({@link RowLoops}). The contact
 * limits are skipped where the relief within reach proves that they can neither close a heading nor
 * be the binding limit. Stores one stretch; use one instance per thread.
 */
final class RowPoseEstimator {
  /** Number of cells in a stretch: long enough for vector loops, short enough for the cache. */
  static final int LENGTH = 128;

  /** Use of the tip-over limit if slope and margin use it up. */
  private static final double MOST_USE = 1e6;

  /**
   * Distance from a limit, in standard deviations, beyond which the probability of exceeding it is
   * negligible.
   */
  private static final double FAR_SIGMA = 5;

  private final WheelLayout layout;
  private final MoveLimits limits;
  private final SlopeBounds[] bounds;
  private final boolean[] plainBounds;
  private final Allowances allowances;
  private final double[] bellyLossM;
  private final double[] stepM;
  private final GridSpec spec;
  private final float[] heightM;
  private final float[] gradEast;
  private final float[] gradNorth;
  private final boolean[][] needed;
  private final double underPerReliefM;
  private final double wheelsPerReliefM;
  private final double mostBellyLossM;

  /** Heights by row (ring buffer), column shift, and cell of the stretch. */
  private final double[][][] ground;

  /** The same arrays in order, northernmost row first. */
  private final double[][][] around;

  private final double[] line;
  private final double[] east = new double[LENGTH];
  private final double[] north = new double[LENGTH];
  private final double[] bellyM = new double[LENGTH];
  private final double[] low = new double[LENGTH];
  private final double[] high = new double[LENGTH];
  private final double[] worstSlope = new double[LENGTH];
  private final double[] worstContact = new double[LENGTH];
  private final double[] left = new double[LENGTH];
  private final double[] right = new double[LENGTH];
  private final double[][] mean;
  private final double[][] grade;
  private final double[][] cross;
  private final double[][] belly;
  private final double[][] ends;
  private final double[][] offPlane;
  private final double[][] slopeUse = new double[Headings.COUNT][LENGTH];

  private int row = Integer.MIN_VALUE;
  private int firstCol = Integer.MIN_VALUE;
  private int n;
  private int here;
  private boolean contacts;

  RowPoseEstimator(
      WheelLayout layout,
      MoveLimits limits,
      GridSpec spec,
      float[] heightM,
      float[] gradEast,
      float[] gradNorth,
      Allowances allowances) {
    this.allowances = allowances;
    this.layout = layout;
    this.limits = limits;
    this.spec = spec;
    this.heightM = heightM;
    this.gradEast = gradEast;
    this.gradNorth = gradNorth;
    bounds = new SlopeBounds[layout.poses];
    plainBounds = new boolean[layout.poses];
    bellyLossM = new double[layout.poses];
    stepM = new double[layout.poses];
    double most = 0;
    double leastStepM = Double.POSITIVE_INFINITY;
    for (int k = 0; k < layout.poses; k++) {
      boolean known = allowances.known;
      bounds[k] =
          known
              ? new SlopeBounds(
                  limits, allowances, allowances.alongSigma[k], allowances.acrossSigma[k])
              : new SlopeBounds(limits);
      plainBounds[k] = bounds[k].plain();
      bellyLossM[k] = known ? allowances.z * allowances.underSigmaM[k] : 0;
      stepM[k] = limits.stepM - (known ? allowances.zWheel * allowances.offPlaneSigmaM[k] : 0);
      double sigmas = Math.max(Math.max(allowances.z, allowances.zWheel), FAR_SIGMA);
      most = Math.max(most, known ? sigmas * allowances.underSigmaM[k] : 0);
      leastStepM =
          Math.min(leastStepM, limits.stepM - (known ? sigmas * allowances.offPlaneSigmaM[k] : 0));
    }
    mostBellyLossM = most;
    needed = layout.needed();
    int across = 2 * layout.reachCols + 1;
    ground = new double[2 * layout.reachRows + 1][across][LENGTH];
    around = new double[ground.length][][];
    line = new double[LENGTH + across];
    mean = new double[layout.poses][LENGTH];
    grade = new double[layout.poses][LENGTH];
    cross = new double[layout.poses][LENGTH];
    belly = new double[layout.poses][LENGTH];
    ends = new double[layout.poses][LENGTH];
    offPlane = new double[layout.poses][LENGTH];
    underPerReliefM = layout.mostOffPlane(layout.wheelCount, layout.pointCount);
    double wheels = layout.mostOffPlane(0, layout.wheelCount);
    wheelsPerReliefM = leastStepM > 0 ? wheels / leastStepM : Double.POSITIVE_INFINITY;
  }

  /** Moves to a cell; computes the stretch that contains it unless it is already loaded. */
  void at(int toRow, int col) {
    int first = col - col % LENGTH;
    if (toRow != row || first != firstCol) {
      load(toRow, first);
      setWheels();
      contacts = false;
      if (contactMatters()) {
        setBody();
      }
    }
    here = col - first;
  }

  /** Returns false if a sample point of any heading touches a void or lies outside the grid. */
  boolean known() {
    return !Double.isNaN(high[here]);
  }

  /** Largest use over all headings of slope and contact limits. */
  double worstUse() {
    return contacts ? Math.max(worstSlope[here], worstContact[here]) : worstSlope[here];
  }

  double slopeUse(int heading) {
    return slopeUse[heading][here];
  }

  /**
   * Use of the contact limits for belly, overhangs and wheels; 0 where they are proved irrelevant.
   */
  double contactUse(int heading) {
    if (!contacts) {
      return 0;
    }
    int k = heading % layout.poses;
    return contactUse(k, here, belly[k][here], ends[k][here], offPlane[k][here]);
  }

  /** The contact limit with the largest use. */
  Limit contactLimit(int heading) {
    double use = contactUse(heading);
    int k = heading % layout.poses;
    if (use <= ratio(belly[k][here], bellyM(k))) {
      return Limit.CLEARANCE;
    }
    return use <= ratio(ends[k][here], bellyM(k)) ? Limit.APPROACH : Limit.STEP;
  }

  private double contactUse(
      int pose, int i, double overBellyM, double overEndsM, double offPlaneM) {
    return Math.max(
        ratio(Math.max(overBellyM, overEndsM), bellyM[i] - bellyLossM[pose]),
        ratio(offPlaneM, stepM[pose]));
  }

  /** Belly clearance (m) less sinkage and the allowance for height error. */
  double bellyM(int heading) {
    return bellyM[here] - bellyLossM[heading % layout.poses];
  }

  /** Step limit (m) less the allowance for height error. */
  double stepM(int heading) {
    return stepM[heading % layout.poses];
  }

  /** Upper bound on the probability that a slope limit is exceeded on a heading. */
  double slopesBroken(int heading) {
    return bounds[heading % layout.poses].broken(grade(heading), cross(heading));
  }

  /**
   * Upper bound on the probability that a limit on slope or contact is exceeded on a heading;
   * contact is included where it may matter.
   */
  double broken(int heading) {
    int k = heading % layout.poses;
    double slope = slopesBroken(heading);
    if (!contacts) {
      return slope;
    }
    double under = Math.max(belly[k][here], ends[k][here]);
    return Math.min(
        1,
        slope
            + Allowances.broken(under, bellyM[here], allowances.underSigmaM[k])
            + allowances.wheelBroken(offPlane[k][here], limits.stepM, k));
  }

  /** Grade of the wheels' plane along a heading. */
  double grade(int heading) {
    double g = grade[heading % layout.poses][here];
    return heading < layout.poses ? g : -g;
  }

  double cross(int heading) {
    double c = cross[heading % layout.poses][here];
    return heading < layout.poses ? c : -c;
  }

  /** Computes the contact values below, if they have not been computed yet. */
  void requireBody() {
    if (!contacts) {
      setBody();
    }
  }

  /** Highest ground under the belly relative to the wheels' plane (m), negative if below it. */
  double bellyGroundM(int heading) {
    return belly[heading % layout.poses][here];
  }

  /**
   * Highest ground under the ends of the body relative to the wheels' plane (m); minus infinity if
   * the wheels reach beyond the ends.
   */
  double endsGroundM(int heading) {
    return ends[heading % layout.poses][here];
  }

  /** Largest distance between the ground under a wheel and the wheels' plane (m). */
  double offPlaneM(int heading) {
    return offPlane[heading % layout.poses][here];
  }

  private void load(int toRow, int first) {
    boolean next = toRow == row + 1 && first == firstCol;
    row = toRow;
    firstCol = first;
    n = Math.min(LENGTH, spec.cols() - first);
    for (int r = next ? row + layout.reachRows : row - layout.reachRows;
        r <= row + layout.reachRows;
        r++) {
      loadLine(r);
    }
    for (int r = 0; r < around.length; r++) {
      around[r] = ground[Math.floorMod(row - layout.reachRows + r, ground.length)];
    }
    int cell = row * spec.cols() + first;
    for (int i = 0; i < n; i++) {
      east[i] = gradEast[cell + i];
      north[i] = gradNorth[cell + i];
      bellyM[i] = limits.bellyM(Math.sqrt(east[i] * east[i] + north[i] * north[i]));
    }
  }

  /** Loads a row of heights; cells outside the grid are void. */
  private void loadLine(int r) {
    int from = firstCol - layout.reachCols;
    int count = n + 2 * layout.reachCols;
    for (int i = 0; i < count; i++) {
      int col = from + i;
      line[i] = spec.holds(r, col) ? heightM[r * spec.cols() + col] : Double.NaN;
    }
    double[][] shifted = ground[Math.floorMod(r, ground.length)];
    for (int shift = 0; shift < shifted.length; shift++) {
      System.arraycopy(line, shift, shifted[shift], 0, n);
    }
  }

  private double[] ground(int rowOff, int colOff) {
    return around[rowOff + layout.reachRows][colOff + layout.reachCols];
  }

  private void blend(int pose, int point, double[] out) {
    int r = layout.row(pose, point);
    int c = layout.col(pose, point);
    RowLoops.blend(
        n,
        ground(r, c),
        ground(r, c + 1),
        ground(r + 1, c),
        ground(r + 1, c + 1),
        layout.weight(pose, point, 0),
        layout.weight(pose, point, 1),
        layout.weight(pose, point, 2),
        layout.weight(pose, point, 3),
        out);
  }

  private void setWheels() {
    Arrays.fill(worstSlope, 0);
    for (int k = 0; k < layout.poses; k++) {
      Arrays.fill(mean[k], 0);
      Arrays.fill(grade[k], 0);
      Arrays.fill(cross[k], 0);
      for (int i = 0; i < layout.wheelCount; i += 2) {
        blend(k, i, left);
        blend(k, i + 1, right);
        double along = layout.alongWeight[i];
        double across = layout.acrossWeight[i + 1];
        RowLoops.addAxle(n, left, right, along, across, mean[k], grade[k], cross[k]);
      }
      RowLoops.divide(n, mean[k], layout.wheelCount);
      bounds[k].fillUse(plainBounds[k], 1, n, grade[k], cross[k], MOST_USE, slopeUse[k]);
      RowLoops.raise(n, slopeUse[k], 1, worstSlope);
      if (layout.poses < Headings.COUNT) {
        double[] reverse = slopeUse[k + layout.poses];
        bounds[k].fillUse(plainBounds[k], -1, n, grade[k], cross[k], MOST_USE, reverse);
        RowLoops.raise(n, reverse, 1, worstSlope);
      }
    }
  }

  /**
   * Returns true if the relief within reach about the cell's gradient plane is large enough for
   * contact to matter.
   */
  private boolean contactMatters() {
    Arrays.fill(low, Double.POSITIVE_INFINITY);
    Arrays.fill(high, Double.NEGATIVE_INFINITY);
    for (int r = 0; r < needed.length; r++) {
      for (int c = 0; c < needed[r].length; c++) {
        if (needed[r][c]) {
          double eastM = (c - layout.reachCols) * spec.cellXM();
          double northM = (layout.reachRows - r) * spec.cellYM();
          double[] z = ground(r - layout.reachRows, c - layout.reachCols);
          RowLoops.widen(n, z, east, north, eastM, northM, low, high);
        }
      }
    }
    for (int i = 0; i < n; i++) {
      double leftM = bellyM[i] - mostBellyLossM;
      double perReliefM =
          leftM > 0
              ? Math.max(underPerReliefM / leftM, wheelsPerReliefM)
              : Double.POSITIVE_INFINITY;
      double most = (0.5 * (high[i] - low[i]) * perReliefM) * FULL;
      boolean idle = most <= worstSlope[i] && most <= 1;
      if (!idle && !Double.isNaN(high[i])) {
        return true;
      }
    }
    return false;
  }

  private void setBody() {
    contacts = true;
    Arrays.fill(worstContact, 0);
    for (int k = 0; k < layout.poses; k++) {
      Arrays.fill(offPlane[k], 0);
      Arrays.fill(belly[k], Double.NEGATIVE_INFINITY);
      Arrays.fill(ends[k], Double.NEGATIVE_INFINITY);
      for (int i = 0; i < layout.pointCount; i++) {
        double[] z = left;
        double x = layout.xM[i] - layout.middleM;
        double y = layout.yM[i];
        blend(k, i, z);
        if (i < layout.wheelCount) {
          RowLoops.raiseOff(n, z, mean[k], grade[k], cross[k], x, y, offPlane[k]);
        } else {
          double[] most = i < layout.bellyEnd ? belly[k] : ends[k];
          RowLoops.raiseAbove(n, z, mean[k], grade[k], cross[k], x, y, most);
        }
      }
      for (int i = 0; i < n; i++) {
        worstContact[i] =
            Math.max(worstContact[i], contactUse(k, i, belly[k][i], ends[k][i], offPlane[k][i]));
      }
    }
  }
}

package org.scarpway.terrain;

/**
 * Breaks in the ground (m). A break is the amount by which the height difference of two neighbours
 * lies outside the range of the differences just before and just beyond; likewise over two cells,
 * whatever share of the difference lies on either side of the middle cell. A wall along the rows,
 * columns or diagonals has a break of at least its whole height on any slope, wherever it cuts the
 * cells; the foot or crest of a slope or a ramp of three cells has none. The definition contains no
 * threshold: a break changes no faster than the heights do, as {@link StepError} requires.
 * Definition of our own, no source.
 *
 * <p>A missing height hides no break: where a difference before or beyond is missing, the break is
 * the largest for any value of it, and where more is missing, it may be any. So a cell has no step
 * if a height is missing within two cells along any axis, nor where that leaves a wall through it
 * possible, and removing heights never lowers a step. Beyond the edge of the ground there are no
 * breaks.
 *
 * <p>Over a length of at most a wheel spacing, a break is used as a measured step. Over longer
 * lengths the natural relief alone can cause such differences: breaks within the bounds of {@link
 * GroundLaw} are assumed to follow the law, and the step is estimated from it; larger breaks are
 * used as measured. Next to a break beyond its bound a lower bound applies, and a cell between two
 * of them gets at least the lower of their breaks, so that a wall has no gap where a single cell of
 * it is measured lower. If only breaks over one cell are measured, each half of a difference over
 * two cells is also a break, compared with the ground before and beyond both halves: the part of a
 * wall that falls on its foot is lost only once.
 */
final class Breaks {
  /** Halo rows: rows on either side of a cell that its break depends on. */
  static final int HALO_ROWS = 5;

  /**
   * For differences over two cells longer than the wheel spacing: minimum share of the difference
   * that must fall on the half next to an end cell for the break to be assigned to that cell.
   * Otherwise the cell may lie further from the wall than a wheel does from the vehicle's middle.
   * Own choice.
   */
  private static final double SHARED = 0.1;

  /**
   * Lower bound, as a share of the bound, that applies next to a break beyond the bound: 99 % of
   * single breaks are below it, on the kind of ground that the bounds are derived for.
   */
  private static final double NEXT = 2.2 / 3.1;

  /** Rows around the requested ones that are needed to find gaps in walls. */
  private static final int AROUND = 2;

  private static final int[][] RING = {
    {-1, -1}, {-1, 0}, {-1, 1}, {0, 1}, {1, 1}, {1, 0}, {1, -1}, {0, -1}
  };

  private final GroundLaw law;
  private final boolean pairsMeasured;
  private final boolean twosMeasured;
  private final double factor;

  /**
   * @param law bounds of natural relief; null if one and two cells are both within a wheel spacing
   * @param factor scaling of steps to the wheel spacing, on ground that follows the law
   */
  Breaks(GroundLaw law, double wheelSpacingM, double cellM, double factor) {
    this.law = law;
    this.factor = factor;
    pairsMeasured = within(cellM, wheelSpacingM);
    twosMeasured = within(2 * cellM, wheelSpacingM);
  }

  /** True if a law is needed to separate breaks from natural relief. */
  static boolean needLaw(double wheelSpacingM, double cellM) {
    return !within(2 * cellM, wheelSpacingM);
  }

  private static boolean within(double lengthM, double wheelSpacingM) {
    return lengthM <= wheelSpacingM * (1 + 1e-9);
  }

  /** Raises the steps of some rows, given as measured against the plane, to include the breaks. */
  void raise(float[] z, int rows, int cols, int fromRow, int toRow, float[] stepM) {
    Window w = new Window(z, rows, cols, fromRow, toRow);
    w.fill();
    for (int row = fromRow; row < toRow; row++) {
      for (int col = 0; col < cols; col++) {
        int i = row * cols + col;
        stepM[i] = (float) w.stepM(row, col, stepM[i]);
      }
    }
  }

  /** The requested rows of ground with the rows around them. */
  private final class Window {
    private final float[] z;
    private final int rows;
    private final int cols;
    private final int top;
    private final int end;
    private final float[] pairM;
    private final float[] twoM;

    /** Largest break of each cell divided by its bound. */
    private final float[] share;

    /** The break of each cell where it is used as measured, otherwise 0. */
    private final float[] wallM;

    Window(float[] z, int rows, int cols, int fromRow, int toRow) {
      this.z = z;
      this.rows = rows;
      this.cols = cols;
      top = Math.max(0, fromRow - AROUND);
      end = Math.min(rows, toRow + AROUND);
      pairM = new float[(end - top) * cols];
      twoM = new float[pairM.length];
      share = new float[pairM.length];
      wallM = new float[pairM.length];
    }

    void fill() {
      for (int a = 0; a < GroundLaw.AXES.length; a++) {
        double pairBoundM = law == null ? Double.POSITIVE_INFINITY : law.pairBoundM(a);
        double twoBoundM = law == null ? Double.POSITIVE_INFINITY : law.twoBoundM(a);
        int down = GroundLaw.AXES[a][0];
        int right = GroundLaw.AXES[a][1];
        for (int row = top - down; row < end + down; row++) {
          for (int col = 0; col < cols; col++) {
            pair(row, col, down, right, pairBoundM);
            two(row, col, down, right, twoBoundM);
          }
        }
      }
      for (int row = top; row < end; row++) {
        for (int col = 0; col < cols; col++) {
          int i = (row - top) * cols + col;
          boolean beyond = share[i] > 1;
          for (int k = 0; share[i] > NEXT && k < RING.length && !beyond; k++) {
            beyond = holds(row + RING[k][0], col + RING[k][1]) && share[ring(i, k)] > 1;
          }
          wallM[i] = beyond ? Math.max(pairM[i], twoM[i]) : 0;
        }
      }
    }

    private int ring(int i, int k) {
      return i + RING[k][0] * cols + RING[k][1];
    }

    private boolean holds(int row, int col) {
      return row >= top && row < end && col >= 0 && col < cols;
    }

    private void mark(int row, int col, float breakM, float[] mostM, float taken) {
      if (holds(row, col)) {
        int i = (row - top) * cols + col;
        mostM[i] = Math.max(mostM[i], breakM);
        share[i] = Math.max(share[i], taken);
      }
    }

    private boolean onGround(int row, int col) {
      return row >= 0 && row < rows && col >= 0 && col < cols;
    }

    private double heightM(int row, int col) {
      return onGround(row, col) ? z[row * cols + col] : Double.NaN;
    }

    private void pair(int row, int col, int down, int right, double boundM) {
      double a = heightM(row, col);
      double b = heightM(row + down, col + right);
      double before = a - heightM(row - down, col - right);
      double beyond = heightM(row + 2 * down, col + 2 * right) - b;
      float pair = outside(b - a, before, beyond);
      if (Float.isNaN(pair)) {
        boolean ends =
            !onGround(row - down, col - right) || !onGround(row + 2 * down, col + 2 * right);
        pair = ends ? 0 : mostOutside(b - a, before, beyond);
      }
      markPair(row, col, down, right, pair, boundM);
    }

    private void two(int row, int col, int down, int right, double boundM) {
      double a = heightM(row - down, col - right);
      double middle = heightM(row, col);
      double b = heightM(row + down, col + right);
      double before = a - heightM(row - 2 * down, col - 2 * right);
      double beyond = heightM(row + 2 * down, col + 2 * right) - b;
      float two = outside(b - a, 2 * before, 2 * beyond);
      // If two cells are within a wheel spacing, the halves never exceed that break or a pair.
      boolean halves = pairsMeasured && !twosMeasured;
      float first = halves ? outside(middle - a, before, beyond) : 0;
      float second = halves ? outside(b - middle, before, beyond) : 0;
      if (Float.isNaN(two + first + second)) {
        if (!onGround(row - 2 * down, col - 2 * right)
            || !onGround(row + 2 * down, col + 2 * right)) {
          return;
        }
        two = mostOutside(b - a, 2 * before, 2 * beyond);
        first = halves ? mostOutside(middle - a, before, beyond) : 0;
        second = halves ? mostOutside(b - middle, before, beyond) : 0;
      }
      if (two > 0) {
        float taken = taken(two, boundM);
        double trend = (before + beyond) / 2;
        double share = (middle - a - trend) / (b - a - 2 * trend);
        mark(row, col, two, twoM, taken);
        // An unknown share (NaN) passes.
        if (pairsMeasured || !(share <= SHARED)) {
          mark(row - down, col - right, two, twoM, taken);
        }
        if (pairsMeasured || !(1 - share <= SHARED)) {
          mark(row + down, col + right, two, twoM, taken);
        }
      }
      double none = Double.POSITIVE_INFINITY;
      markPair(row - down, col - right, down, right, first, none);
      markPair(row, col, down, right, second, none);
    }

    private void markPair(int row, int col, int down, int right, float breakM, double boundM) {
      if (breakM > 0) {
        float taken = taken(breakM, boundM);
        mark(row, col, breakM, pairM, taken);
        mark(row + down, col + right, breakM, pairM, taken);
      }
    }

    /** A break divided by its bound; 0 without a bound, even for a break of any height. */
    private static float taken(float breakM, double boundM) {
      return boundM == Double.POSITIVE_INFINITY ? 0 : (float) (breakM / boundM);
    }

    /** Distance of a rise from the interval between two others; NaN if one is unknown. */
    private static float outside(double rise, double before, double beyond) {
      double off = Math.max(rise - Math.max(before, beyond), Math.min(before, beyond) - rise);
      return off <= 0 ? 0 : (float) off;
    }

    /** The largest such distance for any value of what is unknown; may be infinite. */
    private static float mostOutside(double rise, double before, double beyond) {
      if (Double.isNaN(before)) {
        double most = Math.abs(rise - beyond);
        return Double.isNaN(most) ? Float.POSITIVE_INFINITY : (float) most;
      }
      if (Double.isNaN(beyond)) {
        return mostOutside(rise, beyond, before);
      }
      return Double.isNaN(rise) ? Float.POSITIVE_INFINITY : outside(rise, before, beyond);
    }

    double stepM(int row, int col, float planeStepM) {
      int i = (row - top) * cols + col;
      double step = Math.max(factor * planeStepM, wallM[i]);
      step = pairsMeasured ? Math.max(step, pairM[i]) : step;
      step = twosMeasured ? Math.max(step, twoM[i]) : step;
      step = law == null ? step : Math.max(step, between(row, col, i));
      return step < Double.POSITIVE_INFINITY ? step : Double.NaN;
    }

    /** The lower of two walls on opposite sides of a cell, maximised over all pairs. */
    private double between(int row, int col, int i) {
      double most = 0;
      for (int k = 0; k < RING.length; k++) {
        double wall = wall(row, col, i, k);
        for (int apart = 3; wall > most && apart <= 4; apart++) {
          most = Math.max(most, Math.min(wall, wall(row, col, i, (k + apart) % RING.length)));
        }
      }
      return most;
    }

    private double wall(int row, int col, int i, int k) {
      return holds(row + RING[k][0], col + RING[k][1]) ? wallM[ring(i, k)] : 0;
    }
  }
}

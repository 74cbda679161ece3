package org.scarpway.vehicle;

/**
 * Steps between neighbouring cells, for a person on foot. A step is the amount by which the rise
 * from a cell to one of its eight neighbours exceeds the rises over the same distance just before
 * and just after, or exceeds the rise of the steepest walkable ground, whichever is more. Steps are
 * not scaled to other baselines.
 *
 * <p>Our own definition, no source. A plane within the slope limit has no step. A wall is a step of
 * its whole height, on level and on sloping ground, up and down, and so is a lone bump or hollow.
 * The beginning or end of a slope is not a step. A wall whose face spreads over two edges between
 * cells looks like a short slope and is only tested against the slope limit: {@link #hiddenM}.
 */
final class StepsOnFoot {
  private static final int[] D_ROW = {-1, -1, -1, 0, 0, 1, 1, 1};
  private static final int[] D_COL = {-1, 0, 1, -1, 1, -1, 0, 1};

  private final float[] heightM;
  private final int rows;
  private final int cols;

  /** Rise of the steepest walkable ground to each neighbour (m). */
  private final double[] slopeM = new double[D_ROW.length];

  /**
   * @param steepest steepest walkable ground, rise over run
   */
  StepsOnFoot(float[] heightM, int rows, int cols, double cellXM, double cellYM, double steepest) {
    this.heightM = heightM;
    this.rows = rows;
    this.cols = cols;
    for (int k = 0; k < slopeM.length; k++) {
      slopeM[k] = steepest * Math.hypot(D_COL[k] * cellXM, D_ROW[k] * cellYM);
    }
  }

  /**
   * Largest step (m) between a cell and its neighbours within the grid, 0 or more; infinite if a
   * required height is unknown.
   */
  double largestM(int row, int col) {
    double here = heightM[row * cols + col];
    double largest = 0;
    for (int k = 0; k < D_ROW.length; k++) {
      int r = row + D_ROW[k];
      int c = col + D_COL[k];
      if (holds(r, c)) {
        double there = heightM[r * cols + c];
        double rise = there - here;
        boolean first = !holds(row - D_ROW[k], col - D_COL[k]);
        boolean last = !holds(r + D_ROW[k], c + D_COL[k]);
        double before = first ? 0 : here - heightM[(row - D_ROW[k]) * cols + col - D_COL[k]];
        double after = last ? before : heightM[(r + D_ROW[k]) * cols + c + D_COL[k]] - there;
        before = first ? after : before;
        double out = Math.max(rise - Math.max(before, after), Math.min(before, after) - rise);
        double step = Math.max(out, Math.abs(rise) - slopeM[k]);
        // NaN fails the comparison.
        largest = step <= largest ? largest : Double.isNaN(step) ? Double.POSITIVE_INFINITY : step;
      }
    }
    return largest;
  }

  private boolean holds(int row, int col) {
    return row >= 0 && row < rows && col >= 0 && col < cols;
  }

  /**
   * Height (m) of the highest wall whose face, spread evenly over two edges between cells of that
   * width, is no steeper than the steepest ground.
   */
  static double hiddenM(double cellM, double steepest) {
    return 2 * cellM * steepest;
  }
}

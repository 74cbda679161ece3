package org.scarpway.terrain;

import java.util.Arrays;

/**
 * Step (m): largest height difference between a cell and the cells within a wheel spacing of it,
 * after removing the local plane.
 *
 * <p>Definition of our own from common practice, no source. The plane is passed in, usually that of
 * the footprint: a sloping plane has step 0, a spike of one cell has its whole height. A plane over
 * 3 x 3 cells absorbs half of a scarp between two cells, a wider one less. If no cell but the
 * centre lies within the wheel spacing, the eight neighbours are compared, and the result refers to
 * one cell size, not to the wheel spacing.
 */
public final class StepHeight {
  /** Longest wheel spacing in cells: the cost per cell grows with its square. */
  static final int MOST_CELLS = 64;

  private StepHeight() {}

  /** Half width, in cells, of the neighbourhood that is compared. */
  static int haloCells(double wheelSpacingM, double cellM) {
    return Math.max(1, (int) Math.floor(wheelSpacingM / cellM * (1 + 1e-9)));
  }

  /** Column and row offsets of all cells to compare, in pairs. */
  static int[] neighbours(double wheelSpacingM, double cellXM, double cellYM) {
    int halfCols = haloCells(wheelSpacingM, cellXM);
    int halfRows = haloCells(wheelSpacingM, cellYM);
    int[] pairs = new int[2 * (2 * halfCols + 1) * (2 * halfRows + 1)];
    int n = 0;
    for (int dy = -halfRows; dy <= halfRows; dy++) {
      for (int dx = -halfCols; dx <= halfCols; dx++) {
        double distanceM = Math.hypot(dx * cellXM, dy * cellYM);
        boolean adjacent = Math.abs(dx) <= 1 && Math.abs(dy) <= 1;
        if ((dx != 0 || dy != 0) && (adjacent || distanceM <= wheelSpacingM * (1 + 1e-9))) {
          pairs[n++] = dx;
          pairs[n++] = dy;
        }
      }
    }
    return Arrays.copyOf(pairs, n);
  }

  /**
   * @param planeEast rise over run of the plane to remove, towards east
   * @param planeNorth rise over run of that plane towards north
   * @param stepM output (m)
   */
  public static void fill(
      float[] heightM,
      int rows,
      int cols,
      int fromRow,
      int toRow,
      double cellXM,
      double cellYM,
      double wheelSpacingM,
      float[] planeEast,
      float[] planeNorth,
      float[] stepM) {
    int halfCols = haloCells(wheelSpacingM, cellXM);
    int halfRows = haloCells(wheelSpacingM, cellYM);
    int[] pairs = neighbours(wheelSpacingM, cellXM, cellYM);
    int count = pairs.length / 2;
    int[] offset = new int[count];
    float[] eastM = new float[count];
    float[] northM = new float[count];
    for (int k = 0; k < count; k++) {
      offset[k] = pairs[2 * k + 1] * cols + pairs[2 * k];
      eastM[k] = (float) (pairs[2 * k] * cellXM);
      northM[k] = (float) (-pairs[2 * k + 1] * cellYM);
    }
    for (int row = fromRow; row < toRow; row++) {
      if (!Edges.leaveInterior(stepM, rows, cols, row, halfRows, halfCols)) {
        continue;
      }
      int from = row * cols + halfCols;
      int end = row * cols + cols - halfCols;
      Arrays.fill(stepM, from, end, 0f);
      // One neighbour at a time along the row, so that the loops are vectorised.
      for (int k = 0; k < count; k++) {
        raise(heightM, from, end, offset[k], eastM[k], northM[k], planeEast, planeNorth, stepM);
      }
    }
  }

  /**
   * Uses float: the difference of two neighbours and the plane are small, with a relative error of
   * 1e-7.
   */
  private static void raise(
      float[] heightM,
      int from,
      int end,
      int offset,
      float eastM,
      float northM,
      float[] planeEast,
      float[] planeNorth,
      float[] stepM) {
    for (int i = from; i < end; i++) {
      float plane = planeEast[i] * eastM + planeNorth[i] * northM;
      // max propagates NaN, so a void anywhere in the window gives NaN.
      stepM[i] = Math.max(stepM[i], Math.abs(heightM[i + offset] - heightM[i] - plane));
    }
  }
}

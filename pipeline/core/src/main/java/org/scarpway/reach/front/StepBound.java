package org.scarpway.reach.front;

import java.util.Arrays;

/**
 * Lower bounds on the cost per metre of any step from a cell, for the cells of some rows: the least
 * cost, on any heading, of the cells that a step can cross.
 */
public final class StepBound {
  private final int first;
  private final float[] least;

  /**
   * @param from first row
   * @param to row after the last
   */
  public StepBound(Costs costs, int from, int to) {
    int cols = costs.field().spec().cols();
    int top = Math.max(0, from - TileGround.SEEN);
    int bottom = Math.min(costs.field().spec().rows(), to + TileGround.SEEN);
    float[] ofRow = new float[(bottom - top) * cols];
    float[] cells = new float[cols];
    for (int row = top; row < bottom; row++) {
      for (int col = 0; col < cols; col++) {
        cells[col] = costs.leastPerM(row * cols + col);
      }
      for (int col = 0; col < cols; col++) {
        float low = cells[col];
        int last = Math.min(cols - 1, col + TileGround.SEEN);
        for (int c = Math.max(0, col - TileGround.SEEN); c <= last; c++) {
          low = Math.min(low, cells[c]);
        }
        ofRow[(row - top) * cols + col] = low;
      }
    }
    this.first = from * cols;
    this.least = new float[(to - from) * cols];
    Arrays.fill(least, Float.POSITIVE_INFINITY);
    for (int row = from; row < to; row++) {
      int last = Math.min(bottom - 1, row + TileGround.SEEN);
      for (int r = Math.max(top, row - TileGround.SEEN); r <= last; r++) {
        for (int col = 0; col < cols; col++) {
          int at = (row - from) * cols + col;
          least[at] = Math.min(least[at], ofRow[(r - top) * cols + col]);
        }
      }
    }
  }

  /** Lower bound on the cost per metre of any step from the cell, infinite if there is none. */
  public double perM(int cell) {
    return least[cell - first];
  }
}

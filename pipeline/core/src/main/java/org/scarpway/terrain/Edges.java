package org.scarpway.terrain;

import java.util.Arrays;

/** The void rule at the edge of the grid: cells whose window would extend beyond it become NaN. */
final class Edges {
  private Edges() {}

  /**
   * Sets to NaN the cells of a row within {@code haloCols} of the west and east edge, or the whole
   * row if it is within {@code haloRows} of the north or south edge.
   *
   * @return true if cells {@code haloCols} to {@code cols - haloCols} (exclusive) remain to be
   *     computed
   */
  static boolean leaveInterior(
      float[] out, int rows, int cols, int row, int haloRows, int haloCols) {
    int first = row * cols;
    if (row < haloRows || row >= rows - haloRows || cols <= 2 * haloCols) {
      Arrays.fill(out, first, first + cols, Float.NaN);
      return false;
    }
    Arrays.fill(out, first, first + haloCols, Float.NaN);
    Arrays.fill(out, first + cols - haloCols, first + cols, Float.NaN);
    return true;
  }

  /** Like leaveInterior, for several arrays of one shape, some of which may be null. */
  static boolean leaveInteriorOfAll(
      float[][] outs, int rows, int cols, int row, int haloRows, int haloCols) {
    boolean left = false;
    for (float[] out : outs) {
      left |= out != null && leaveInterior(out, rows, cols, row, haloRows, haloCols);
    }
    return left;
  }
}

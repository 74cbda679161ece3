package org.scarpway.terrain;

/**
 * Standard deviation of a quantity over 3 x 3 cells, in its unit, with the number of cells (nine,
 * not eight) in the denominator.
 *
 * <p>Applied to slope it is a measure of roughness: Frankel K.L. and Dolan J.F. 2007,
 * <i>Characterizing arid region alluvial fan surface roughness with airborne laser swath mapping
 * digital topographic data</i>, JGR 112:F02025. Applied to heights it is not detrended. The void
 * rule of the package applies.
 */
public final class WindowDeviation {
  private WindowDeviation() {}

  public static void fill(
      float[] values, int rows, int cols, int fromRow, int toRow, float[] deviation) {
    for (int row = fromRow; row < toRow; row++) {
      if (!Edges.leaveInterior(deviation, rows, cols, row, 1, 1)) {
        continue;
      }
      for (int col = 1; col < cols - 1; col++) {
        int i = row * cols + col;
        double centre = values[i];
        double sum = 0;
        double squares = 0;
        for (int k = 0; k < 9; k++) {
          double d = values[i + (k / 3 - 1) * cols + k % 3 - 1] - centre;
          sum += d;
          squares += d * d;
        }
        deviation[i] = (float) Math.sqrt(Math.max(0, (squares - sum * sum / 9) / 9));
      }
    }
  }
}

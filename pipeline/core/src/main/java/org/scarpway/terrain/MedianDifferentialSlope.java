package org.scarpway.terrain;

import java.util.Arrays;

/**
 * Median differential slope (rise over run): the median of |slope over a baseline l less slope over
 * 2l| at the same place, which removes the tilt that comes with longer baselines.
 *
 * <p>Source: Kreslavsky M.A. and Head J.W. 2000, <i>Kilometer-scale roughness of Mars: results from
 * MOLA data analysis</i>, JGR 105(E11):26695-26711. NaN if no place has all four heights.
 */
public final class MedianDifferentialSlope {
  private MedianDifferentialSlope() {}

  /**
   * @param halfRows l / 2 southward in cells
   * @param halfCols l / 2 eastward in cells
   * @param baselineM l
   * @param rowStep row sampling interval
   */
  public static double of(
      float[] heightM,
      int rows,
      int cols,
      int halfRows,
      int halfCols,
      double baselineM,
      int rowStep) {
    RmsDeviation.Rows heights = RmsDeviation.Rows.of(heightM, cols);
    return of(heights, rows, cols, halfRows, halfCols, baselineM, rowStep);
  }

  static double of(
      RmsDeviation.Rows heights,
      int rows,
      int cols,
      int halfRows,
      int halfCols,
      double baselineM,
      int rowStep) {
    if (halfRows < 0 || halfCols < 0 || halfRows + halfCols < 1 || rowStep < 1) {
      throw new IllegalArgumentException(
          "half baseline must point south or east and the row step be positive, got "
              + halfRows
              + ", "
              + halfCols
              + " cells, step "
              + rowStep);
    }
    int usedRows = Math.max(0, rows - 4 * halfRows + rowStep - 1) / rowStep;
    double[] found = new double[usedRows * Math.max(0, cols - 4 * halfCols)];
    int n = 0;
    float[][] line = new float[5][cols];
    for (int row = 2 * halfRows; row < rows - 2 * halfRows; row += rowStep) {
      for (int k = -2; k <= 2; k++) {
        heights.read(row + k * halfRows, line[2 + k]);
      }
      for (int c = 2 * halfCols; c < cols - 2 * halfCols; c++) {
        double near = (double) line[3][c + halfCols] - line[1][c - halfCols];
        double far = (double) line[4][c + 2 * halfCols] - line[0][c - 2 * halfCols];
        double d = Math.abs(near / baselineM - far / (2 * baselineM));
        if (!Double.isNaN(d)) {
          found[n++] = d;
        }
      }
    }
    if (n == 0) {
      return Double.NaN;
    }
    Arrays.sort(found, 0, n);
    return n % 2 == 1 ? found[n / 2] : (found[n / 2 - 1] + found[n / 2]) / 2;
  }
}

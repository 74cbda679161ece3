package org.scarpway.terrain;

import java.util.Arrays;

/**
 * Median differential slope (rise over run): the median of |slope over a baseline l less slope over
 * 2l| at the same place, which removes the tilt that comes with longer baselines.
 *
 * <p>Source: Kreslavsky M.A. and Head J.W. 2000, <i>Kilometer-scale roughness of Mars: results from
 * MOLA data analysis</i>, JGR 105(E11):26695-26711. NaN where no place has all four heights.
 */
public final class MedianDifferentialSlope {
  private MedianDifferentialSlope() {}

  /**
   * @param halfBaselineCells l / 2 in cells along a row
   */
  public static double alongRows(
      float[] heightM, int rows, int cols, double cellXM, int halfBaselineCells) {
    int h = halfBaselineCells;
    if (h < 1) {
      throw new IllegalArgumentException("half baseline must be at least 1 cell, got " + h);
    }
    double baselineM = 2 * h * cellXM;
    double[] found = new double[rows * Math.max(0, cols - 4 * h)];
    int n = 0;
    for (int row = 0; row < rows; row++) {
      for (int i = row * cols + 2 * h; i < row * cols + cols - 2 * h; i++) {
        double near = (double) heightM[i + h] - heightM[i - h];
        double far = (double) heightM[i + 2 * h] - heightM[i - 2 * h];
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

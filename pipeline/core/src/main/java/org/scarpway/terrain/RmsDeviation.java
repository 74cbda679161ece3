package org.scarpway.terrain;

/**
 * RMS deviation (m): root mean square of the height difference between two points a lag apart.
 *
 * <p>Source: Shepard M.K. et al. 2001, <i>The roughness of natural terrain: a planetary and remote
 * sensing perspective</i>, JGR 106(E12):32777-32795. Pairs with a void are skipped; NaN if none
 * remains. The RMS slope at that lag is atan(deviation / lag).
 */
public final class RmsDeviation {
  private RmsDeviation() {}

  /** Reads the heights of a row. */
  interface Rows {
    void read(int row, float[] into);

    /** Rows of heights in memory. */
    static Rows of(float[] heightM, int cols) {
      return (row, into) -> System.arraycopy(heightM, row * cols, into, 0, cols);
    }
  }

  /** RMS deviation as published. */
  public static double of(float[] heightM, int rows, int cols, int lagRows, int lagCols) {
    return of(Rows.of(heightM, cols), rows, cols, lagRows, lagCols, 1, false);
  }

  /**
   * RMS deviation of every {@code rowStep}th row, with the mean difference (regional tilt) removed.
   */
  public static double detrended(
      float[] heightM, int rows, int cols, int lagRows, int lagCols, int rowStep) {
    return detrended(Rows.of(heightM, cols), rows, cols, lagRows, lagCols, rowStep);
  }

  static double detrended(Rows heights, int rows, int cols, int lagRows, int lagCols, int rowStep) {
    return of(heights, rows, cols, lagRows, lagCols, rowStep, true);
  }

  private static double of(
      Rows heights, int rows, int cols, int lagRows, int lagCols, int rowStep, boolean removeMean) {
    if (lagRows < 0 || lagCols < 0 || lagRows + lagCols < 1 || rowStep < 1) {
      throw new IllegalArgumentException(
          "lag must point south or east and the row step be positive, got lag "
              + lagRows
              + ", "
              + lagCols
              + " cells, step "
              + rowStep);
    }
    Sums sums = new Sums();
    float[] one = new float[cols];
    float[] both = new float[2 * cols];
    for (int row = 0; row + lagRows < rows; row += rowStep) {
      for (int k = 0; k < 2; k++) {
        heights.read(row + k * lagRows, one);
        System.arraycopy(one, 0, both, k * cols, cols);
      }
      sums.addRow(both, 0, cols + lagCols, cols - lagCols);
    }
    return sums.deviationM(removeMean);
  }

  /** Sums over pairs of points, accumulated row by row; independent of how the rows are loaded. */
  static final class Sums {
    private double sum;
    private double squares;
    private long n;

    /**
     * Adds {@code count} pairs: each point from index {@code from} on with the point {@code apart}
     * further.
     */
    void addRow(float[] heightM, int from, int apart, int count) {
      double rowSum = 0;
      double rowSquares = 0;
      int rowN = 0;
      for (int i = from; i < from + count; i++) {
        double d = (double) heightM[i + apart] - heightM[i];
        if (!Double.isNaN(d)) {
          rowSum += d;
          rowSquares += d * d;
          rowN++;
        }
      }
      sum += rowSum;
      squares += rowSquares;
      n += rowN;
    }

    /** Returns the deviation (m), NaN if no pair was added. */
    double deviationM(boolean removeMean) {
      if (n == 0) {
        return Double.NaN;
      }
      double mean = removeMean ? sum / n : 0;
      return Math.sqrt(Math.max(0, squares / n - mean * mean));
    }
  }
}

package org.scarpway.hazard;

/**
 * For every point of a lattice the least, over all points of it, of their squared Euclidean
 * distance (m2) plus a value of their own: with 0 on marked points and infinity on all others the
 * exact squared distance to the nearest marked one. Linear in points.
 *
 * <p>Source (from memory): Felzenszwalb P.F. and Huttenlocher D.P. 2012, <i>Distance transforms of
 * sampled functions</i>, Theory of Computing 8:415-428: the lower envelope of parabolas along each
 * column, then along each row.
 */
final class DistanceTransform {
  private final int rows;
  private final int cols;
  private final double stepXM;
  private final double stepYM;
  private final double[] value;
  private final int[] vertex;
  private final double[] from;

  DistanceTransform(int rows, int cols, double stepXM, double stepYM) {
    this.rows = rows;
    this.cols = cols;
    this.stepXM = stepXM;
    this.stepYM = stepYM;
    int longest = Math.max(rows, cols);
    value = new double[longest];
    vertex = new int[longest];
    from = new double[longest];
  }

  /**
   * @param valuesM2 in and out, row-major
   */
  void apply(float[] valuesM2) {
    for (int col = 0; col < cols; col++) {
      along(valuesM2, col, cols, rows, stepYM);
    }
    for (int row = 0; row < rows; row++) {
      along(valuesM2, row * cols, 1, cols, stepXM);
    }
  }

  private void along(float[] values, int first, int stride, int length, double stepM) {
    int n = 0;
    for (int k = 0; k < length; k++) {
      value[k] = values[first + k * stride];
      if (value[k] == Double.POSITIVE_INFINITY) {
        continue;
      }
      double crossing = Double.NEGATIVE_INFINITY;
      while (n > 0) {
        crossing = crossing(vertex[n - 1], k, stepM);
        if (crossing > from[n - 1]) {
          break;
        }
        n--;
        crossing = Double.NEGATIVE_INFINITY;
      }
      vertex[n] = k;
      from[n++] = crossing;
    }
    if (n == 0) {
      return;
    }
    int v = 0;
    for (int k = 0; k < length; k++) {
      while (v + 1 < n && from[v + 1] <= k) {
        v++;
      }
      double away = (k - vertex[v]) * stepM;
      values[first + k * stride] = (float) (away * away + value[vertex[v]]);
    }
  }

  /** Where the parabola of b begins to lie below that of a, a before b. */
  private double crossing(int a, int b, double stepM) {
    double step2 = stepM * stepM;
    double atA = value[a] / step2 + (double) a * a;
    double atB = value[b] / step2 + (double) b * b;
    return (atB - atA) / (2.0 * (b - a));
  }
}

package org.scarpway.grid;

/**
 * Lower envelope of parabolas, the one-dimensional pass of the exact Euclidean distance transform.
 * For every point p of a line it computes the minimum over all points q of (p - q)2 + value(q), in
 * m2. Applied along all columns and then along all rows of a lattice, with 0 on marked points and
 * infinity elsewhere, it yields the exact squared Euclidean distance to the nearest marked point.
 * Linear in the number of points. Not safe for use by several threads.
 *
 * <p>Source: Felzenszwalb P.F. and Huttenlocher D.P. 2012, <i>Distance transforms of sampled
 * functions</i>, Theory of Computing 8:415-428.
 */
public final class LowerEnvelope {
  private final double[] value;
  private final int[] vertex;
  private final double[] from;

  /**
   * Allocates the buffers.
   *
   * @param longest number of points of the longest line that will be passed to {@link #along}
   */
  public LowerEnvelope(int longest) {
    value = new double[longest];
    vertex = new int[longest];
    from = new double[longest];
  }

  /**
   * Replaces the values of one line by their minima.
   *
   * @param valuesM2 values (m2) on entry, minima (m2) on return; infinity allowed
   * @param first index of the first point of the line
   * @param stride difference of index between consecutive points
   * @param length number of points of the line
   * @param stepM distance between consecutive points (m)
   */
  public void along(float[] valuesM2, int first, int stride, int length, double stepM) {
    int n = 0;
    for (int k = 0; k < length; k++) {
      value[k] = valuesM2[first + k * stride];
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
      valuesM2[first + k * stride] = (float) (away * away + value[vertex[v]]);
    }
  }

  /** Position from which the parabola of b lies below that of a, for a before b. */
  private double crossing(int a, int b, double stepM) {
    double step2 = stepM * stepM;
    double atA = value[a] / step2 + (double) a * a;
    double atB = value[b] / step2 + (double) b * b;
    return (atB - atA) / (2.0 * (b - a));
  }
}

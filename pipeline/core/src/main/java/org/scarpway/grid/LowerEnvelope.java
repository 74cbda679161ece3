package org.scarpway.grid;

/**
 * The lower envelope of parabolas that stand on the points of a line: for every point the least,
 * over all points of the line, of their squared distance (m2) plus a value of their own. Along all
 * columns and then along all rows of a lattice, with 0 on marked points and infinity on the others,
 * it gives the exact squared Euclidean distance to the nearest marked one. Linear in points. Not
 * shared between threads.
 *
 * <p>Source: Felzenszwalb P.F. and Huttenlocher D.P. 2012, <i>Distance transforms of sampled
 * functions</i>, Theory of Computing 8:415-428.
 */
public final class LowerEnvelope {
  private final double[] value;
  private final int[] vertex;
  private final double[] from;

  /**
   * @param longest points of the longest line
   */
  public LowerEnvelope(int longest) {
    value = new double[longest];
    vertex = new int[longest];
    from = new double[longest];
  }

  /**
   * @param valuesM2 in and out
   * @param first index of the first point of the line
   * @param stride from one point to the next
   * @param length points of the line
   * @param stepM between points
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

  /** Where the parabola of b begins to lie below that of a, a before b. */
  private double crossing(int a, int b, double stepM) {
    double step2 = stepM * stepM;
    double atA = value[a] / step2 + (double) a * a;
    double atB = value[b] / step2 + (double) b * b;
    return (atB - atA) / (2.0 * (b - a));
  }
}

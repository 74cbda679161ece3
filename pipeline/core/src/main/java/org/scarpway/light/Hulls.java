package org.scarpway.light;

import java.util.Arrays;

/**
 * The upper convex hull of the ground passed by each of many lines, as points of the line's
 * vertical plane, the newest last.
 */
final class Hulls {
  private static final int FIRST_POINTS = 8;

  private final double[][] points;
  private final int[] sizes;
  private final boolean[] gaps;

  /** True if the last tangent touches the outermost point of its line, or there is none. */
  boolean atEnd;

  /** True if there is ground without height between points of the last tangent's line. */
  boolean gap;

  Hulls(int lines) {
    points = new double[lines][];
    sizes = new int[lines];
    gaps = new boolean[lines];
  }

  /** Notes ground without height, which is a gap if some with height lies beyond. */
  void miss(int line) {
    gaps[line] |= sizes[line] > 0;
  }

  /** Adds a point; x must grow along a line. */
  void push(int line, double x, double y) {
    double[] p = points[line];
    int n = sizes[line];
    if (p == null) {
      p = new double[2 * FIRST_POINTS];
      points[line] = p;
    }
    while (n >= 2) {
      double ax = p[2 * n - 2] - p[2 * n - 4];
      double ay = p[2 * n - 1] - p[2 * n - 3];
      double bx = x - p[2 * n - 4];
      double by = y - p[2 * n - 3];
      if (ax * by - ay * bx < 0) {
        break;
      }
      n--;
    }
    if (2 * n == p.length) {
      p = Arrays.copyOf(p, 4 * n);
      points[line] = p;
    }
    p[2 * n] = x;
    p[2 * n + 1] = y;
    sizes[line] = n + 1;
  }

  /**
   * Tangent of the elevation at which a line's hull is seen, negative infinity if it is empty.
   *
   * @param x place of the eye in the line's plane
   * @param y place of the eye in the line's plane
   * @param upX vertical of the eye in that plane
   * @param upY vertical of the eye in that plane
   */
  double tangent(int line, double x, double y, double upX, double upY) {
    int i = sizes[line] - 1;
    atEnd = i <= 0;
    gap = gaps[line];
    if (i < 0) {
      return Double.NEGATIVE_INFINITY;
    }
    double[] p = points[line];
    double best = tangent(p, i, x, y, upX, upY);
    while (i > 0) {
      double next = tangent(p, i - 1, x, y, upX, upY);
      if (next < best) {
        return best;
      }
      best = next;
      i--;
    }
    atEnd = true;
    return best;
  }

  private static double tangent(double[] p, int i, double x, double y, double upX, double upY) {
    double dx = p[2 * i] - x;
    double dy = p[2 * i + 1] - y;
    return (dx * upX + dy * upY) / (dy * upX - dx * upY);
  }
}

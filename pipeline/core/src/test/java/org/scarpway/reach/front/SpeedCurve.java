package org.scarpway.reach.front;

import java.util.function.DoubleUnaryOperator;

/**
 * Exact travel times on a plane where the speed depends on the direction only: the least time to
 * (x, y) is the gauge of the convex hull of the polar speed curve (ways may take turns between
 * directions).
 */
public final class SpeedCurve {
  private static final int DIRECTIONS = 1 << 15;

  private final double[] x = new double[DIRECTIONS + 1];
  private final double[] y = new double[DIRECTIONS + 1];
  private final int corners;

  /**
   * @param surfaceMs speed along the surface against the grade, above 0
   */
  public SpeedCurve(double gradEast, double gradNorth, DoubleUnaryOperator surfaceMs) {
    // The fastest direction is a corner of the hull; from there once round, back to it.
    int fastest = 0;
    for (int k = 1; k < DIRECTIONS; k++) {
      fastest =
          ms(k, gradEast, gradNorth, surfaceMs) > ms(fastest, gradEast, gradNorth, surfaceMs)
              ? k
              : fastest;
    }
    int n = 0;
    for (int k = fastest; k <= fastest + DIRECTIONS; k++) {
      double a = 2 * Math.PI * k / DIRECTIONS;
      double ms = ms(k, gradEast, gradNorth, surfaceMs);
      double px = ms * Math.cos(a);
      double py = ms * Math.sin(a);
      while (n >= 2 && !left(n - 2, n - 1, px, py)) {
        n--;
      }
      x[n] = px;
      y[n++] = py;
    }
    corners = n;
  }

  private static double ms(
      int k, double gradEast, double gradNorth, DoubleUnaryOperator surfaceMs) {
    double a = 2 * Math.PI * k / DIRECTIONS;
    double g = gradEast * Math.cos(a) + gradNorth * Math.sin(a);
    return surfaceMs.applyAsDouble(g) / Math.sqrt(1 + g * g);
  }

  private boolean left(int a, int b, double px, double py) {
    return (x[b] - x[a]) * (py - y[a]) - (y[b] - y[a]) * (px - x[a]) > 0;
  }

  /** Least time (s) over a displacement in metres of the plan. */
  public double timeS(double eastM, double northM) {
    double least = 0;
    for (int k = 0; k + 1 < corners; k++) {
      double dx = x[k + 1] - x[k];
      double dy = y[k + 1] - y[k];
      // Outward normal of an edge: the edge lies where n . p = n . corner.
      double reach = dy * x[k] - dx * y[k];
      least = Math.max(least, (dy * eastM - dx * northM) / reach);
    }
    return least;
  }
}

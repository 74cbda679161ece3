package org.scarpway.vehicle;

/**
 * Inner loops over a stretch of a row, in a form that the compiler vectorises: one plain counter,
 * no offsets, no branches. Every loop processes elements [0, n) of its arrays.
 */
final class RowLoops {
  private RowLoops() {}

  /** Interpolates the ground bilinearly. */
  static void blend(
      int n,
      double[] a,
      double[] b,
      double[] c,
      double[] d,
      double wa,
      double wb,
      double wc,
      double wd,
      double[] out) {
    for (int i = 0; i < n; i++) {
      out[i] = a[i] * wa + b[i] * wb + c[i] * wc + d[i] * wd;
    }
  }

  /** Adds one axle to the sums of its wheels' heights, plain and weighted. */
  static void addAxle(
      int n,
      double[] left,
      double[] right,
      double alongWeight,
      double acrossWeight,
      double[] sum,
      double[] grade,
      double[] cross) {
    for (int i = 0; i < n; i++) {
      double both = left[i] + right[i];
      sum[i] += both;
      grade[i] += both * alongWeight;
      cross[i] += (right[i] - left[i]) * acrossWeight;
    }
  }

  static void divide(int n, double[] a, double by) {
    for (int i = 0; i < n; i++) {
      a[i] /= by;
    }
  }

  /** Sets {@code most} to the larger of itself and {@code times} a. */
  static void raise(int n, double[] a, double times, double[] most) {
    for (int i = 0; i < n; i++) {
      most[i] = Math.max(most[i], a[i] * times);
    }
  }

  /**
   * Sets {@code most} to the larger of itself and the height of the ground above the plane at (x,
   * y) from its middle.
   */
  static void raiseAbove(
      int n,
      double[] ground,
      double[] mean,
      double[] grade,
      double[] cross,
      double x,
      double y,
      double[] most) {
    for (int i = 0; i < n; i++) {
      most[i] = Math.max(most[i], ground[i] - (mean[i] + grade[i] * x + cross[i] * y));
    }
  }

  /** Like raiseAbove, for the distance from the plane, above or below. */
  static void raiseOff(
      int n,
      double[] ground,
      double[] mean,
      double[] grade,
      double[] cross,
      double x,
      double y,
      double[] most) {
    for (int i = 0; i < n; i++) {
      most[i] = Math.max(most[i], Math.abs(ground[i] - (mean[i] + grade[i] * x + cross[i] * y)));
    }
  }

  /**
   * Extends [low, high] to include the height above a plane through the cell, at (east, north) from
   * it.
   */
  static void widen(
      int n,
      double[] ground,
      double[] gradEast,
      double[] gradNorth,
      double east,
      double north,
      double[] low,
      double[] high) {
    for (int i = 0; i < n; i++) {
      double over = ground[i] - (gradEast[i] * east + gradNorth[i] * north);
      low[i] = Math.min(low[i], over);
      high[i] = Math.max(high[i], over);
    }
  }

  /** Computes the use of bounds on grade and cross grade; the bounds are given as reciprocals. */
  static void use(
      int n,
      double[] grade,
      double[] cross,
      double perUp,
      double perDown,
      double perSide,
      double[] use) {
    for (int i = 0; i < n; i++) {
      use[i] =
          Math.max(Math.max(grade[i] * perUp, grade[i] * -perDown), Math.abs(cross[i]) * perSide);
    }
  }

  /**
   * Sets the use to the larger of itself and the use of the tip-over limit with its margin ({@link
   * TipOver#usableShare}); {@code most} if slope and margin use up the limit.
   */
  static void raiseTip(
      int n,
      double[] grade,
      double[] cross,
      double perUp,
      double perDown,
      double perSide,
      double margin,
      double most,
      double[] use) {
    for (int i = 0; i < n; i++) {
      double g = grade[i];
      double c = cross[i];
      double t = Math.sqrt(g * g + c * c);
      double taken = Math.max(Math.max(g * perUp, g * -perDown), Math.abs(c) * perSide);
      double tip = taken * (t + margin) / Math.max(t * (1 - t * margin), 1e-12);
      use[i] = Math.max(use[i], Math.min(tip, most));
    }
  }
}

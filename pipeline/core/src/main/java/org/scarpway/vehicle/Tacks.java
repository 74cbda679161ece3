package org.scarpway.vehicle;

import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;

/**
 * Tacks through open windows that lie between two of the 32 headings. The open headings of a plane
 * lie in pairs of windows left and right of the fall line. Alternating between the two, as a boat
 * tacks, gives every direction between them at the speed of the convex hull of the polar speed
 * curve, which the literature calls the convexified speed profile: one metre of advance in the
 * direction theta off the fall line takes cos theta / cos psi metres driven at psi. So where a
 * window contains none of the 32 headings, the next heading towards the fall line is opened with
 * the distance multiplied by that factor. It gains the same height, and no speed or energy is
 * claimed that the window does not allow. Windows within half a heading's spacing of the fall line
 * (no heading lies between the pair) and factors above {@link #MOST_FACTOR} stay closed.
 *
 * <p>Stores the last result; use one instance per thread.
 */
final class Tacks {
  /** Own choice: beyond it there is hardly any advance. */
  static final double MOST_FACTOR = 3;

  private final double[] azimuth = new double[Headings.COUNT];
  private final double[] east = new double[Headings.COUNT];
  private final double[] north = new double[Headings.COUNT];
  private final double widestGap;

  /** Headings opened by tacks, one bit each. */
  int bits;

  /** Distance driven divided by distance of advance, for each of these headings. */
  final double[] pathRatio = new double[Headings.COUNT];

  /** For each of these headings, the heading on the other side of the window. */
  final int[] beyond = new int[Headings.COUNT];

  Tacks(GridSpec spec) {
    Headings headings = Headings.of(spec);
    double widest = 0;
    for (int k = 0; k < Headings.COUNT; k++) {
      azimuth[k] = Math.toRadians(headings.azimuthDeg(k));
      east[k] = headings.east(k);
      north[k] = headings.north(k);
      widest = Math.max(widest, k == 0 ? 0 : azimuth[k] - azimuth[k - 1]);
    }
    widestGap = widest;
  }

  /**
   * Finds the open windows of a gradient of rise over run t that contain none of the 32 headings.
   */
  void find(double gradEast, double gradNorth, double t, SlopeBounds bounds) {
    bits = 0;
    if (!bounds.windows) {
      return;
    }
    double up = bounds.up * LimitUse.FULL;
    double down = bounds.down * LimitUse.FULL;
    double least = HeadingWindow.leastGrade(t, bounds.side * LimitUse.FULL);
    double uphill = Math.atan2(gradEast, gradNorth);
    pair(gradEast, gradNorth, t, bounds, uphill, Math.max(least, -down), Math.min(t, up));
    pair(gradEast, gradNorth, t, bounds, uphill + Math.PI, Math.max(least, -up), Math.min(t, down));
  }

  private void pair(
      double gradEast,
      double gradNorth,
      double t,
      SlopeBounds bounds,
      double fallLine,
      double low,
      double high) {
    if (!(low <= high) || !(high > 0)) {
      return;
    }
    double inner = Math.acos(Math.min(1, high / t));
    double outer = Math.acos(Math.min(1, Math.max(0, low / t)));
    if (outer - inner > widestGap) {
      return;
    }
    double middleGrade = 0.5 * (Math.max(0, low) + high);
    for (int side = -1; side <= 1; side += 2) {
      double from = fallLine + side * inner;
      int out = 0;
      int in = 0;
      double outBy = Double.POSITIVE_INFINITY;
      double inBy = Double.POSITIVE_INFINITY;
      for (int k = 0; k < Headings.COUNT; k++) {
        double off = turn(side * (azimuth[k] - from));
        if (off < outBy) {
          outBy = off;
          out = k;
        }
        if (2 * Math.PI - off < inBy) {
          inBy = 2 * Math.PI - off;
          in = k;
        }
      }
      boolean between = inBy < 2 * inner;
      if (between
          && !open(out, gradEast, gradNorth, bounds)
          && !open(in, gradEast, gradNorth, bounds)) {
        double grade = Math.abs(gradEast * east[in] + gradNorth * north[in]);
        double times = grade / middleGrade;
        if (times <= MOST_FACTOR) {
          bits |= 1 << in;
          pathRatio[in] = times;
          beyond[in] = out;
        }
      }
    }
  }

  private boolean open(int k, double gradEast, double gradNorth, SlopeBounds bounds) {
    double grade = gradEast * east[k] + gradNorth * north[k];
    double cross = gradEast * north[k] - gradNorth * east[k];
    return bounds.use(grade, cross) <= LimitUse.FULL;
  }

  /** Normalises an angle to [0, 2 pi). */
  private static double turn(double angle) {
    double a = angle % (2 * Math.PI);
    return a < 0 ? a + 2 * Math.PI : a;
  }
}

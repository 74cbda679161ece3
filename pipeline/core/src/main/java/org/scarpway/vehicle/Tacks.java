package org.scarpway.vehicle;

import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;

/**
 * Headings that a slope leaves open between two of the 32. The open headings of a plane lie in
 * pairs of windows left and right of the fall line. Driving them in turn, as a boat tacks, makes
 * good every direction between the two, at the speed of the hull of the polar speed curve: going a
 * metre in the direction theta off the fall line takes cos theta / cos psi metres at psi. So where
 * a window holds none of the 32, the next heading towards the fall line is opened with a way longer
 * by that factor. It gains the same height, and no speed or energy is claimed that the window does
 * not give. Not openable, and left shut: windows within half a heading's spacing of the fall line,
 * with no heading between the pair, and factors above {@link #MOST_FACTOR}.
 *
 * <p>Holds the last answer; one per thread.
 */
final class Tacks {
  /** Own choice: beyond it hardly any way is made good. */
  static final double MOST_FACTOR = 3;

  private final double[] azimuth = new double[Headings.COUNT];
  private final double[] east = new double[Headings.COUNT];
  private final double[] north = new double[Headings.COUNT];
  private final double widestGap;

  /** Headings made good by tacks, a bit each. */
  int bits;

  /** Way driven over way made good on each of these. */
  final double[] longer = new double[Headings.COUNT];

  /** For each of these the heading on the other side of the window. */
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

  /** Finds the windows of a gradient of rise over run t that hold none of the headings. */
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
          longer[in] = times;
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

  /** An angle in [0, 2 pi). */
  private static double turn(double angle) {
    double a = angle % (2 * Math.PI);
    return a < 0 ? a + 2 * Math.PI : a;
  }
}

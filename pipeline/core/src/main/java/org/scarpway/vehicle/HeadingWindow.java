package org.scarpway.vehicle;

/**
 * Open headings of a plane slope in closed form: the headings on which the grade t cos psi lies in
 * [down, up] and the cross grade |t sin psi| is at most side, with t the slope's rise over run and
 * psi the angle from uphill. Unlike sampling at the 32 headings, this finds every window, however
 * narrow.
 */
final class HeadingWindow {
  private static final double ACROSS = Math.acos(0);

  private HeadingWindow() {}

  /**
   * Share of all headings that are open, 0 to 1.
   *
   * @param t slope, rise over run
   * @param down lowest grade allowed, usually negative
   * @param up highest grade allowed
   * @param side largest cross grade allowed
   */
  static double share(double t, double down, double up, double side) {
    if (t == 0) {
      return down <= 0 && up >= 0 ? 1 : 0;
    }
    double least = leastGrade(t, side);
    double uphill = width(t, Math.max(least, down), Math.min(t, up));
    boolean symmetric = down == -up;
    double downhill = symmetric ? uphill : width(t, Math.max(least, -up), Math.min(t, -down));
    // Each term is the open angle on one side of the fall line, at most a quarter turn.
    return Math.min(1, (uphill + downhill) / Math.PI);
  }

  /** True if any heading is open, even a single one. */
  static boolean open(double t, double down, double up, double side) {
    double least = leastGrade(t, side);
    return Math.max(least, down) <= Math.min(t, up) || Math.max(least, -up) <= Math.min(t, -down);
  }

  /**
   * Smallest |grade| at which the cross grade is within its bound; infinite if the bound is below
   * 0.
   */
  static double leastGrade(double t, double side) {
    if (side < 0) {
      return Double.POSITIVE_INFINITY;
    }
    return t <= side ? 0 : Math.sqrt((t - side) * (t + side));
  }

  /** Angle (rad) over which the grade runs through [low, high]. */
  private static double width(double t, double low, double high) {
    return low >= high ? 0 : angle(low / t) - angle(high / t);
  }

  /** Angle from uphill; the arc cosine is slow, and most windows end at the fall line or across. */
  private static double angle(double share) {
    if (share >= 1) {
      return 0;
    }
    return share == 0 ? ACROSS : Math.acos(Math.max(-1, share));
  }
}

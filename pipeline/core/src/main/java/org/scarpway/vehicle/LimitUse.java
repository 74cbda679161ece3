package org.scarpway.vehicle;

/** The share of a limit that a vehicle uses on ground: 1 is all of it, more breaks it. */
final class LimitUse {
  /** Relative slack of every comparison. */
  static final double ROUNDING = 1e-6;

  /** Use of a limit that leaves nothing to compare with. */
  static final double BLOCKED = 2;

  /** Use up to which a limit holds. */
  static final double FULL = 1 + ROUNDING;

  /** Share of an allowed value that is taken. */
  static double ratio(double got, double allowed) {
    if (allowed > 0) {
      return got / allowed;
    }
    // Less than nothing is left where the error of the heights alone may take all of it.
    return got > 0 || allowed < 0 ? BLOCKED : 0;
  }

  private LimitUse() {}
}

package org.scarpway.vehicle;

/**
 * Use of a limit: the value found divided by the value allowed. 1 is exactly at the limit, more
 * exceeds it.
 */
final class LimitUse {
  /** Relative tolerance of every comparison. */
  static final double ROUNDING = 1e-6;

  /** Use of a limit that is exceeded but has no finite ratio. */
  static final double BLOCKED = 2;

  /** Largest use at which a limit holds. */
  static final double FULL = 1 + ROUNDING;

  /** Returns the value found divided by the value allowed. */
  static double ratio(double got, double allowed) {
    if (allowed > 0) {
      return got / allowed;
    }
    // The allowed value is negative if the allowance for height error exceeds the limit.
    return got > 0 || allowed < 0 ? BLOCKED : 0;
  }

  private LimitUse() {}
}

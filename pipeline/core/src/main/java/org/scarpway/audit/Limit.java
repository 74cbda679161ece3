package org.scarpway.audit;

/**
 * A limited quantity: the amount available and the amount that the plan may use. Infinite for no
 * limit.
 *
 * @param given amount available, for instance the whole battery
 * @param planned amount available less its reserve
 */
public record Limit(String name, double given, double planned) {
  public Limit {
    if (!(planned <= given)) {
      throw new IllegalArgumentException(name + ": " + planned + " planned of " + given);
    }
  }

  boolean isNone() {
    return given == Double.POSITIVE_INFINITY;
  }

  /** Share of the available amount that is left (%). */
  double leftPct(double used) {
    return isNone() ? Double.POSITIVE_INFINITY : 100 * (given - used) / given;
  }
}

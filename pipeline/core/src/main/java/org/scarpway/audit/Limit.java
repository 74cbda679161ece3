package org.scarpway.audit;

/**
 * One thing that runs out: what is given of it, and what the plan may use up. Infinite where there
 * is no limit.
 *
 * @param given for instance the whole battery
 * @param planned given less its reserve
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

  /** Share that is left (%). */
  double leftPct(double used) {
    return isNone() ? Double.POSITIVE_INFINITY : 100 * (given - used) / given;
  }
}

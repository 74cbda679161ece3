package org.scarpway.reach.question;

/**
 * What of each limit must be left at every moment of a trip, home rule included (%). Where nothing
 * of a kind is limited there is nothing to keep.
 */
public record Reserves(
    double timePct, double lifeSupportPct, double energyPct, double distancePct) {
  /** What is left of a limit when its share is kept; all of it to the last bit where that is 0. */
  public static double less(double limit, double pct) {
    return pct == 0 ? limit : limit * (1 - pct / 100);
  }

  /** The reserve put back: what there is of a limit (NaN where there is none). */
  public static double whole(double limit, double pct) {
    return limit == Double.POSITIVE_INFINITY
        ? Double.NaN
        : pct == 0 ? limit : limit / (1 - pct / 100);
  }

  /** A tenth of each: own choice, common practice, no source. */
  public static final double USUAL_PCT = 10;

  public static final Reserves NONE = new Reserves(0, 0, 0, 0);

  public Reserves withLifeSupport(double pct) {
    return new Reserves(timePct, pct, energyPct, distancePct);
  }
}

package org.scarpway.reach.question;

/**
 * The share of each limit that must be left at every moment of a trip, home rule included (%). The
 * reserve of a quantity without a limit has no effect.
 *
 * @param timePct share of the time budget (%), [0, 100)
 * @param lifeSupportPct share of life support (%), [0, 100)
 * @param energyPct share of the energy budget (%), [0, 100)
 * @param distancePct share of the distance budget (%), [0, 100)
 */
public record Reserves(
    double timePct, double lifeSupportPct, double energyPct, double distancePct) {
  /**
   * Returns the limit less its reserve; bit-identical to the limit if the reserve is 0.
   *
   * @param limit amount in any unit, may be infinite
   * @param pct reserve (%), [0, 100)
   */
  public static double less(double limit, double pct) {
    return pct == 0 ? limit : limit * (1 - pct / 100);
  }

  /**
   * The inverse of {@link #less}: the limit with its reserve added back, NaN for an infinite limit.
   */
  public static double whole(double limit, double pct) {
    return limit == Double.POSITIVE_INFINITY
        ? Double.NaN
        : pct == 0 ? limit : limit / (1 - pct / 100);
  }

  /** Returns the larger reserve of each quantity. */
  public Reserves orMore(Reserves other) {
    return new Reserves(
        Math.max(timePct, other.timePct),
        Math.max(lifeSupportPct, other.lifeSupportPct),
        Math.max(energyPct, other.energyPct),
        Math.max(distancePct, other.distancePct));
  }

  /** Default reserve of each limit (%): the project's own choice, common practice, no source. */
  public static final double USUAL_PCT = 10;

  /** No reserves. */
  public static final Reserves NONE = new Reserves(0, 0, 0, 0);

  /**
   * Returns these reserves with another reserve of life support.
   *
   * @param pct share of life support that must be left (%)
   */
  public Reserves withLifeSupport(double pct) {
    return new Reserves(timePct, pct, energyPct, distancePct);
  }
}

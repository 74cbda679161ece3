package org.scarpway.reach;

/**
 * What of each limit must be left at every moment of a trip, home rule included (%). Where nothing
 * of a kind is limited there is nothing to keep.
 */
public record Reserves(
    double timePct, double lifeSupportPct, double energyPct, double distancePct) {

  /** A tenth of each: own choice, common practice, no source. */
  public static final double USUAL_PCT = 10;

  public static final Reserves NONE = new Reserves(0, 0, 0, 0);

  Reserves withLifeSupport(double pct) {
    return new Reserves(timePct, pct, energyPct, distancePct);
  }
}

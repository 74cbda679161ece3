package org.scarpway.reach.trip;

/** Ways home of a vehicle that somebody may be taken aboard of, cell by cell. */
interface Ride {
  /** Time home (s), NaN where there is no way. */
  float timeS(int cell);

  /** Way driven home (m). */
  float distanceM(int cell);

  /**
   * Most energy that is used at any moment (J).
   *
   * @param before what was used until the ride begins
   */
  double needJ(int cell, double before);
}

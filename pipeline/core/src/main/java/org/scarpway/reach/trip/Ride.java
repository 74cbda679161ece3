package org.scarpway.reach.trip;

/** Ways home, per cell, of a vehicle that takes another crew aboard. */
interface Ride {
  /** Time home (s), NaN where there is no way. */
  float timeS(int cell);

  /** Length driven home (m). */
  float distanceM(int cell);

  /**
   * Largest energy used at any moment of the ride, the energy used before included (J).
   *
   * @param before energy used before the ride begins (J)
   */
  double needJ(int cell, double before);
}

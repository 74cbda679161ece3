package org.scarpway.sortie;

/** Upper bound on what a trip still brings. */
@FunctionalInterface
interface ToGo {
  /**
   * Bound on the value of all further stops.
   *
   * @param done set of stops done, bit k - 1 for place k
   * @param last place where the vehicle stands
   * @param state day, hours and energy there
   */
  double mostValue(long done, int last, DayClock state);
}

package org.scarpway.sortie;

/**
 * Upper bound on what a trip still brings, in two parts: a price for every stop that is not done
 * yet, and a part that depends on the place and the clock.
 */
interface ToGo {
  /** Price of a stop, counted as long as it is not done. */
  double price(int place);

  /** What all further stops bring at most beyond the prices of those not done. */
  double most(int last, DayClock state);
}

package org.scarpway.reach.trip;

import java.util.List;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.question.ReachRequest.Quantity;

/** The known ways out and home that are checked against the budgets and the home rule. */
interface FoundWays {
  /** Least costs of the way out, null if not computed. */
  CostField out(Quantity q);

  /** Least costs of the way home, null if not computed. */
  CostField home(Quantity q);

  /** Ways out that were found, the quickest first. */
  List<PathSums> outWays();

  /** Ways home that were found, the quickest first; a single null if nobody has to come home. */
  List<PathSums> homeWays();

  /** Requirements of a stop in each cell. */
  Stops stops();

  /** Time from a stop in a cell until everybody is home (s). */
  double stopS(int cell);

  /** True if no trip to the cell leaves time to get home from every place on it. */
  boolean neverInTime(int cell, double stayS);

  /**
   * Least energy of a trip without the stay, each way minimised by itself (J); NaN without an
   * energy model, negative infinity if no bound is known.
   */
  double leastEnergyJ(int cell, boolean oneWay);

  /** Least surface length of a trip, each way minimised by itself (m); NaN if no limit needs it. */
  double leastDistanceM(int cell, boolean oneWay);
}

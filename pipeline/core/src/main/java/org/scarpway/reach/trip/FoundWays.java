package org.scarpway.reach.trip;

import java.util.List;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.question.ReachRequest.Quantity;

/** Ways out and home as they are held against budgets and the home rule. */
interface FoundWays {
  /** Least costs of the way out, null where nobody asked. */
  CostField out(Quantity q);

  /** Least costs of the way home, null where nobody asked. */
  CostField home(Quantity q);

  /** Ways out that were found, the quickest first. */
  List<PathSums> outWays();

  /** Ways home that were found, the quickest first; one null where nobody has to come home. */
  List<PathSums> homeWays();

  /** What a stop anywhere asks for. */
  Stops stops();

  /** From a stop in a cell until everybody is home (s). */
  double stopS(int cell);

  /** Whether no trip leaves time to get home from every place on it. */
  boolean neverInTime(int cell, double stayS);

  /** Least energy of a trip without the stay, each way by itself; NaN if it is not known. */
  double leastEnergyJ(int cell, boolean oneWay);

  /** Least surface length of a trip (m), each way by itself; NaN if no limit asks for it. */
  double leastDistanceM(int cell, boolean oneWay);
}

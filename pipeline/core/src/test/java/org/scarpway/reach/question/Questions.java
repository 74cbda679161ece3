package org.scarpway.reach.question;

import java.util.List;
import org.scarpway.vehicle.TraversalCost;

/** Parts of questions for tests, with what a test leaves out at its usual value. */
public final class Questions {
  /** Share of the best route that an alternative may use (%). */
  public static final double SHARED_PCT = 50;

  private Questions() {}

  /** A stop without a stay. */
  public static CorridorRequest.Stop stop(String name, double xM, double yM) {
    return new CorridorRequest.Stop(name, xM, yM, 0);
  }

  /** Without reserves, in a cabin. */
  public static CorridorRequest corridor(
      String name,
      List<CorridorRequest.Stop> via,
      boolean anyOrder,
      CorridorRequest.Cost cost,
      List<Double> withinPct,
      int alternatives,
      double mostSharedPct,
      int tradeOffs) {
    return new CorridorRequest(
        name,
        via,
        anyOrder,
        cost,
        withinPct,
        alternatives,
        mostSharedPct,
        tradeOffs,
        Reserves.NONE,
        null);
  }

  /** Stops in the given order, no trade-offs. */
  public static CorridorRequest corridor(
      String name,
      List<CorridorRequest.Stop> via,
      CorridorRequest.Cost cost,
      List<Double> withinPct,
      int alternatives) {
    return corridor(name, via, false, cost, withinPct, alternatives, SHARED_PCT, 0);
  }

  /** With time as the only limit. */
  public static WalkHome walkHome(
      TraversalCost field, double enduranceS, double reserveS, List<WalkHome.Refuge> refuges) {
    return new WalkHome(field, enduranceS, reserveS, WalkHome.Limits.NONE, refuges, List.of());
  }

  /** A stop without a stay. */
  public static CorridorResult.Visit visit(
      String name, double xM, double yM, double timeS, double energyJ, double distanceM) {
    return new CorridorResult.Visit(name, xM, yM, timeS, energyJ, distanceM, 0, 0);
  }
}

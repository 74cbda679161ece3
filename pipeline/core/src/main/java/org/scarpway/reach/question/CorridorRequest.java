package org.scarpway.reach.question;

import java.util.List;

/**
 * One question of the kind "in which ground should the route be drawn".
 *
 * @param via stops, the first and the last where the route begins and ends
 * @param anyOrder whether the stops between may be visited in any order, else as they stand
 * @param withinPct excess over the best route at which corridors are drawn, increasing
 * @param alternatives how many further routes on other ground are wanted
 * @param mostSharedPct how much of its length an alternative may share with the ground of the ways
 *     before it
 * @param tradeOffs how many weightings of time, energy and hazard are tried, 0 for none
 * @param reserves what must be left of battery and life support
 * @param suits that the crew rides in; null in a cabin, or where nothing is known of them
 */
public record CorridorRequest(
    String name,
    List<Stop> via,
    boolean anyOrder,
    Cost cost,
    List<Double> withinPct,
    int alternatives,
    double mostSharedPct,
    int tradeOffs,
    Reserves reserves,
    ReachRequest.Suits suits) {
  public static final double USUAL_SHARED_PCT = 50;

  /**
   * A stop.
   *
   * @param stayS time spent there, at the hotel load (s)
   */
  public record Stop(String name, double xM, double yM, double stayS) {
    /** A stop that is only passed. */
    public Stop(String name, double xM, double yM) {
      this(name, xM, yM, 0);
    }
  }

  /** What the best route has least of. */
  public enum Cost {
    TIME,
    ENERGY,
    DISTANCE
  }

  public CorridorRequest {
    via = List.copyOf(via);
    withinPct = List.copyOf(withinPct);
  }

  /** Nothing kept, in a cabin. */
  public CorridorRequest(
      String name,
      List<Stop> via,
      boolean anyOrder,
      Cost cost,
      List<Double> withinPct,
      int alternatives,
      double mostSharedPct,
      int tradeOffs) {
    this(
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

  /** Stops in order, the usual alternatives, no trade-offs. */
  public CorridorRequest(
      String name, List<Stop> via, Cost cost, List<Double> withinPct, int alternatives) {
    this(name, via, false, cost, withinPct, alternatives, USUAL_SHARED_PCT, 0);
  }
}

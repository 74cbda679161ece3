package org.scarpway.reach.question;

import java.util.List;

/**
 * A corridor request: in which ground a route between given stops should be drawn.
 *
 * @param name name of the request, used in products and messages
 * @param via stops; the route begins at the first and ends at the last
 * @param anyOrder true if the intermediate stops may be visited in any order; false for the order
 *     of {@code via}
 * @param cost quantity that the best route minimises
 * @param withinPct corridor limits: excess cost over the best route (%), increasing
 * @param alternatives number of further routes on other ground
 * @param mostSharedPct largest share of an alternative's length that may lie on the ground of the
 *     routes ranked before it (%)
 * @param tradeOffs number of weightings of time, energy and hazard to try, 0 for none
 * @param reserves shares of battery and life support that must be left
 * @param suits the suits that the crew rides in; null in a cabin, or if nothing is known of them
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

  /**
   * A stop.
   *
   * @param name name of the stop
   * @param xM east coordinate in the CRS of the grid (m)
   * @param yM north coordinate in the CRS of the grid (m)
   * @param stayS length of the stay, at the hotel load (s)
   */
  public record Stop(String name, double xM, double yM, double stayS) {}

  /** The quantity that the best route minimises. */
  public enum Cost {
    /** Driving time (s). */
    TIME,
    /** Energy from the battery (J). */
    ENERGY,
    /** Length along the surface (m). */
    DISTANCE
  }

  /** Copies the lists; the values are checked when the request is solved. */
  public CorridorRequest {
    via = List.copyOf(via);
    withinPct = List.copyOf(withinPct);
  }
}

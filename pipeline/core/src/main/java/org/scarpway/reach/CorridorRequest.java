package org.scarpway.reach;

import java.util.List;

/** One question of the kind "in which ground should the route be drawn". */
public record CorridorRequest(
    String name, List<Stop> via, Cost cost, List<Double> withinPct, int alternatives) {

  /** A stop in order. */
  public record Stop(String name, double xM, double yM) {}

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
}

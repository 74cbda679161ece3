package org.scarpway.reach.question;

import java.util.List;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachRequest.Target;

/**
 * A crew underway: where it stands, what it has left, and which stops of its plan remain.
 *
 * @param question the reach question whose base, home rule, limits and reserves hold
 * @param xM east coordinate of the crew in the CRS of the grid (m)
 * @param yM north coordinate of the crew in the CRS of the grid (m)
 * @param left what is left of every limited quantity
 * @param stops remaining stops in the order of the plan, each with the length of its stay
 * @param endsAtBase true if the plan leads home after the last stop
 * @param legs quantity that the ways from stop to stop minimise
 */
public record ReplanRequest(
    ReachRequest question,
    double xM,
    double yM,
    Left left,
    List<Target> stops,
    boolean endsAtBase,
    Quantity legs) {
  /** Copies the stops. */
  public ReplanRequest {
    stops = List.copyOf(stops);
  }
}

package org.scarpway.reach.question;

import java.util.List;
import org.scarpway.audit.Finding;
import org.scarpway.reach.question.ReplanResult.Homeward;

/**
 * Whether and until when a crew can turn for home along a route, by the rules and reserves of one
 * reach question.
 *
 * @param question the reach question whose base, home rule, limits and reserves hold
 * @param at one for each vertex of the route
 * @param drivenAgain audit findings of the recalculated ways home
 */
public record HomeAlong(ReachRequest question, List<Turn> at, List<Finding> drivenAgain) {
  /** Copies the lists. */
  public HomeAlong {
    at = List.copyOf(at);
    drivenAgain = List.copyOf(drivenAgain);
  }

  /** True if home is sure from every place of the route. */
  public boolean everywhere() {
    return at.stream().allMatch(Turn::sure);
  }

  /**
   * The way home from one vertex.
   *
   * @param sure true if home is sure on arrival there as planned
   * @param latestS time since departure until which a crew that waits there still comes home (s);
   *     infinite if nothing limits it, NaN if home is not sure on arrival
   * @param end what ends it then, or what forbids it on arrival; empty if nothing does
   * @param home the trip home on arrival, with what is left; null if not sure, and at vertices of
   *     which it was not asked
   */
  public record Turn(boolean sure, double latestS, String end, Homeward home) {}
}

package org.scarpway.reach.question;

import java.util.List;
import org.scarpway.audit.Finding;
import org.scarpway.reach.question.CorridorResult.Place;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.question.ReplanResult.Homeward;

/**
 * Whether and until when a crew can turn for home along a route, by the rules and reserves of one
 * reach question.
 *
 * @param question the reach question whose base, home rule, limits and reserves hold
 * @param limited what the question, the battery or the life support limits
 * @param at one for each vertex of the route
 * @param drivenAgain audit findings of the recalculated ways home
 */
public record HomeAlong(
    ReachRequest question, List<Consumable> limited, List<Turn> at, List<Finding> drivenAgain) {
  /** Copies the lists. */
  public HomeAlong {
    limited = List.copyOf(limited);
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
   * @param atBase true at the base, where there is no turning for home
   * @param way the way home; null if home is not sure, at the base, and at vertices of which it was
   *     not asked
   */
  public record Turn(boolean sure, double latestS, String end, boolean atBase, Way way) {}

  /**
   * The way home that keeps every rule until the latest time to turn: what is said of it holds at
   * any time before.
   *
   * @param home the drive home on arrival at the vertex, with what is left
   * @param stoppedS time until everybody is home after the vehicle stops there for good (s): of the
   *     ride in the other vehicle, change of vehicles included, of the walk, or of a rescue from
   *     the alarm on; by drive-back that of the drive itself
   * @param line corners of the drive home
   * @param curvesS what curves add to the time of that drive, which verdicts do not count (s)
   */
  public record Way(Homeward home, double stoppedS, List<Place> line, double curvesS) {
    /** Copies the list. */
    public Way {
      line = List.copyOf(line);
    }
  }
}

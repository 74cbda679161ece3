package org.scarpway.reach.trip;

import java.util.List;
import java.util.Locale;
import java.util.function.IntFunction;
import org.scarpway.reach.front.StartCell;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * What the home rule requires of a stop in each cell, and the ground that trips may use.
 *
 * @param stops requirements of a stop; those of a pair follow from its ways home
 * @param atLeast lower bounds on these requirements; null if no cell is undecided
 * @param walks walks home by the rule walk-back, else null
 * @param fetched ways of the rescuer by the rule base-rescue, else null
 * @param field ground of the way out
 * @param homeField ground of the way home
 */
record RuleGround(
    Stops stops,
    Stops atLeast,
    WalksHome walks,
    Fetching.Fetched fetched,
    TraversalCost field,
    TraversalCost homeField) {

  /**
   * @param limits limits of the crew
   * @param rescuer limits of a rescuer that sets out from the base
   * @param base cell of the base
   * @throws UserError if the base or a refuge cannot be walked, or the walker has no time
   */
  static RuleGround of(
      ReachRequest request,
      ReachLimits limits,
      ReachLimits rescuer,
      TraversalInput ground,
      WalkHome walkHome,
      boolean hasEnergy,
      int base,
      Workers workers,
      Progress progress) {
    TraversalCost open = ground.field();
    if (request.home() == HomeRule.WALK_BACK) {
      WalksHome walks = walks(request, ground, walkHome, base, workers, progress);
      Stops stops = new Stops(limits, walks.timeS(), null, List.of());
      TraversalCost field = open.within(Stops.atMost(walks.timeS(), walkHome.limitS()));
      return new RuleGround(stops, null, walks, null, field, field);
    }
    if (request.home() == HomeRule.BASE_RESCUE) {
      Fetching.Fetched fetched =
          Fetching.of(limits, rescuer, ground, hasEnergy, base, workers, progress);
      TraversalCost field = open.within(fetched.stops().within());
      return new RuleGround(fetched.stops(), fetched.atLeast(), null, fetched, field, field);
    }
    boolean pair = request.home() == HomeRule.PAIR;
    return new RuleGround(
        Stops.none(limits), null, null, null, open, pair ? ground.loaded() : open);
  }

  /**
   * What ends the ground of trips at a cell from which nobody comes home, or to which no way keeps
   * to ground from which everybody does.
   */
  IntFunction<ReachEnd> stopEnds() {
    ReachLimits limits = stops.limits();
    if (!limits.askedOfStops()) {
      return cell -> ReachEnd.NO_WAY_HOME;
    }
    IntFunction<ReachEnd> missing = walks == null ? fetched.missing() : walks.missing();
    return cell -> {
      ReachEnd own = missing.apply(cell);
      return own == null ? limits.stopEnd() : own;
    };
  }

  private static WalksHome walks(
      ReachRequest request,
      TraversalInput ground,
      WalkHome walkHome,
      int base,
      Workers workers,
      Progress progress) {
    String where = "reach '" + request.name() + "'";
    if (walkHome == null) {
      throw UserError.of(
          where, "home rule walk-back without a walker", "a walker file", "add walker to the job");
    }
    if (!(walkHome.limitS() > 0)) {
      throw UserError.of(
          where,
          String.format(
              Locale.ROOT,
              "walker endurance of %.0f s leaves nothing after the reserve of %.0f s",
              walkHome.enduranceS(),
              walkHome.reserveS()),
          "endurance above the reserve",
          "change endurance_h or reserve_h in the walker file");
    }
    StartCell.requireOnFoot(
        "base '" + request.baseName() + "' as refuge",
        request.baseXM(),
        request.baseYM(),
        walkHome.field());
    int[] refuges = refuges(walkHome, base);
    progress.begin("walks home of reach '" + request.name() + "'", ground.field().spec().cells());
    WalksHome walks = WalksHome.of(walkHome, ground.heightM(), refuges, workers, progress);
    progress.end();
    return walks;
  }

  /** Cells of the places of safety, the base first. */
  static int[] refuges(WalkHome walkHome, int base) {
    int[] refuges = new int[walkHome.refuges().size() + 1];
    refuges[0] = base;
    for (int i = 1; i < refuges.length; i++) {
      WalkHome.Refuge r = walkHome.refuges().get(i - 1);
      refuges[i] =
          StartCell.requireOnFoot("refuge '" + r.name() + "'", r.xM(), r.yM(), walkHome.field());
    }
    return refuges;
  }
}

package org.scarpway.reach.trip;

import java.util.BitSet;
import java.util.List;
import java.util.function.IntFunction;
import org.scarpway.reach.front.ConnectedGround;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** Determines the reason why no trip to a cell is evaluated. */
final class BeyondReach {
  private final TraversalCost open;
  private final boolean oneWay;
  private final ReachEnd tripEnd;

  /**
   * Cells with a way out, and with a way home, at any cost; null if the fronts cover all ground.
   */
  private BitSet out;

  private BitSet home;

  /** Cells with a way out on all of {@code open}; null if no stop has to leave time. */
  private BitSet everyWay;

  /** What ends cells that only the home rule shuts. */
  private IntFunction<ReachEnd> stopEnds;

  private BeyondReach(TraversalCost open, ReachLimits limits) {
    this.open = open;
    this.oneWay = limits.home() == HomeRule.NONE;
    this.tripEnd = limits.tripEnd();
  }

  /**
   * @param open the vehicle's field before the home rule restricts it
   * @param base cell that trips begin in
   * @param stopEnds what ends cells that only the home rule shuts
   */
  static BeyondReach of(
      TraversalCost open,
      int base,
      ReachLimits limits,
      TripFronts solved,
      IntFunction<ReachEnd> stopEnds,
      Workers workers) {
    BeyondReach beyond = new BeyondReach(open, limits);
    beyond.stopEnds = stopEnds;
    if (limits.askedOfStops()) {
      // A front of no budget holds the base alone; what joins it is all that is asked.
      Costs costs = new Costs(open, Quantity.TIME_S, Direction.OUT);
      beyond.everyWay = ConnectedGround.of(Front.from(costs, 0, base).labels());
    }
    if (solved.ended()) {
      workers.all(
          List.of(
              () -> beyond.out = ConnectedGround.of(solved.out(Quantity.TIME_S)),
              () ->
                  beyond.home =
                      beyond.oneWay ? null : ConnectedGround.of(solved.home(Quantity.TIME_S))));
    }
    return beyond;
  }

  ReachEnd end(int cell) {
    if (open.allowed(cell) == 0) {
      return ReachEnd.NO_GO;
    }
    if (out != null && out.get(cell)) {
      return oneWay || home.get(cell) ? tripEnd : ReachEnd.NO_WAY_HOME;
    }
    if (everyWay == null || !everyWay.get(cell)) {
      return ReachEnd.CUT_OFF;
    }
    return stopEnds.apply(cell);
  }
}

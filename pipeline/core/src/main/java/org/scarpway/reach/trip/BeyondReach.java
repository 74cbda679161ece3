package org.scarpway.reach.trip;

import java.util.BitSet;
import java.util.List;
import org.scarpway.reach.front.ConnectedGround;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.MoveField;

/** Determines the reason why no trip to a cell is evaluated. */
final class BeyondReach {
  private final MoveField open;
  private final Floats gapM;
  private final ReachEnd stopEnd;
  private final boolean oneWay;
  private final ReachEnd tripEnd;

  /**
   * Cells with a way out, and with a way home, at any cost; null if the fronts cover all ground.
   */
  private BitSet out;

  private BitSet home;

  private BeyondReach(MoveField open, ReachLimits limits, Floats gapM) {
    this.open = open;
    this.gapM = gapM;
    this.stopEnd = limits.askedOfStops() ? limits.stopEnd() : null;
    this.oneWay = limits.home() == HomeRule.NONE;
    this.tripEnd = limits.tripEnd();
  }

  /**
   * @param open the vehicle's field before the home rule restricts it
   */
  static BeyondReach of(
      MoveField open, ReachLimits limits, TripFronts solved, Floats gapM, Workers workers) {
    BeyondReach beyond = new BeyondReach(open, limits, gapM);
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
    boolean widthKnown = !Float.isNaN(gapM.get(cell));
    return widthKnown && stopEnd != null ? stopEnd : ReachEnd.CUT_OFF;
  }
}

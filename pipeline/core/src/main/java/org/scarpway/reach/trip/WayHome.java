package org.scarpway.reach.trip;

import java.util.List;
import org.scarpway.reach.corridor.PlannedWay;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.LegLine;
import org.scarpway.reach.front.Tacking;
import org.scarpway.reach.front.Trace;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.stage.Digits;
import org.scarpway.vehicle.TraversalCost;

/** Draws the way home of a checked trip as the vehicle drives it. */
record WayHome(TraversalInput ground, boolean hasEnergy) {
  /** Time lost in curves from which a remark is made (s). */
  private static final double TOLD_S = 60;

  /**
   * @param judge the check of the trip
   * @param field ground of the way home
   * @param warnings receives a remark on time that verdicts do not count
   * @return the way, empty if there is none
   */
  List<ProfilePoint> home(
      int here,
      BudgetCheck judge,
      Stops stops,
      TraversalCost field,
      ReachLimits kept,
      List<String> warnings) {
    if (judge.keptHome == null) {
      return List.of();
    }
    List<ProfilePoint> points = drawn(here, kept.changeS(), judge, stops, field);
    double curvesS = curvesS(points, judge, here);
    if (curvesS > TOLD_S) {
      warnings.add(
          Digits.text(
              "curves add %s min to the way home, which verdicts do not count", curvesS / 60));
    }
    return points;
  }

  /**
   * The way home of a checked trip.
   *
   * @param leaveS time at which the cell is left (s)
   */
  List<ProfilePoint> drawn(
      int cell, double leaveS, BudgetCheck judge, Stops stops, TraversalCost field) {
    int[] corners = TripLine.home(cell, leaveS, judge, stops, Trace.Drawn.AS_STRAIGHT_AS_CAN_BE);
    Costs costs = judge.keptHome.labels().costs();
    LegLine leg = Tacking.along(LegLine.of(field.spec(), corners), costs);
    return PlannedWay.along(leg, ground.withField(field), hasEnergy).points();
  }

  /** What curves add to the time of the way home, which verdicts do not count (s). */
  static double curvesS(List<ProfilePoint> drawn, BudgetCheck judge, int cell) {
    return drawn.get(drawn.size() - 1).timeS() - judge.keptHome.timeS(cell);
  }
}

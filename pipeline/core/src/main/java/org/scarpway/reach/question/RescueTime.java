package org.scarpway.reach.question;

import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.stage.Digits;
import org.scarpway.vehicle.Vehicle;

/** Checks that the time of a rescue from the base leaves any time to drive. */
public final class RescueTime {
  private RescueTime() {}

  /**
   * @param cellM shorter side of a cell (m); reaching the next cell takes three of them: the way
   *     out, the rescuer's way out and the way home
   * @return one sentence with the time sum if no cell but the base can be reached, else null
   */
  public static String usedUp(
      HomeRule home, Budget budget, Reserves kept, Rescue rescue, Vehicle vehicle, double cellM) {
    if (home != HomeRule.BASE_RESCUE) {
      return null;
    }
    double wholeS = orInfinite(budget.timeS());
    double plannedS = Reserves.less(wholeS, kept.timePct());
    String of = "time";
    Vehicle.Crew crew = vehicle.crew();
    double ownS =
        crew == null || crew.lifeSupportH() == null ? orInfinite(null) : 3600 * crew.lifeSupportH();
    double lifeS = Math.min(orInfinite(budget.lifeSupportS()), ownS);
    double aliveS = Reserves.less(lifeS, kept.lifeSupportPct());
    if (aliveS < plannedS) {
      wholeS = lifeS;
      plannedS = aliveS;
      of = "life support";
    }
    if (budget.suits() != null && budget.suits().plannedS(kept.lifeSupportPct()) < plannedS) {
      wholeS = budget.suits().enduranceS();
      plannedS = budget.suits().plannedS(kept.lifeSupportPct());
      of = "the suits' endurance";
    }
    double leftS = plannedS - rescue.alarmS() - rescue.loadS();
    if (leftS >= 3 * cellM / vehicle.drive().speedMs()) {
      return null;
    }
    return Digits.text(
        "base-rescue leaves the base only: of %s min of %s, %s min of reserve, %s min of alarm"
            + " and %s min to load leave %s min for the way out, the way of the vehicle that"
            + " comes and the way home",
        wholeS / 60,
        of,
        (wholeS - plannedS) / 60,
        rescue.alarmS() / 60,
        rescue.loadS() / 60,
        Math.max(0, leftS / 60));
  }

  private static double orInfinite(Double amount) {
    return amount == null ? Double.POSITIVE_INFINITY : amount;
  }
}

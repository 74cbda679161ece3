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
   *     out, the rescuer's way out and the way home; and of the rescuer's life support its way out
   *     and, for two crews, twice the way home
   * @return one sentence with the time sum if no cell but the base can be reached, else null
   */
  public static String usedUp(
      HomeRule home, Budget budget, Reserves kept, Rescue rescue, Vehicle vehicle, double cellM) {
    if (home != HomeRule.BASE_RESCUE) {
      return null;
    }
    Share alive = alive(budget, kept, vehicle);
    double wholeS = orInfinite(budget.timeS());
    Share time = new Share("time", wholeS, Reserves.less(wholeS, kept.timePct()));
    Share least = alive.plannedS < time.plannedS ? alive : time;
    double nextS = 3 * cellM / vehicle.drive().speedMs();
    double leftS = least.plannedS - rescue.alarmS() - rescue.loadS();
    if (!(leftS >= nextS)) {
      return Digits.text(
          "base-rescue leaves the base only: of %s min of %s, %s min of reserve, %s min of alarm"
              + " and %s min to load leave %s min for the way out, the way of the vehicle that"
              + " comes and the way home",
          least.wholeS / 60,
          least.of,
          (least.wholeS - least.plannedS) / 60,
          rescue.alarmS() / 60,
          rescue.loadS() / 60,
          Math.max(0, leftS / 60));
    }
    double twoCrewsS = alive.plannedS - 2 * rescue.loadS();
    if (!(twoCrewsS >= nextS)) {
      return Digits.text(
          "base-rescue leaves the base only: of %s min of %s of the vehicle that comes, %s min of"
              + " reserve and twice %s min to load, for two crews, leave %s min for its way out"
              + " and twice the way home",
          alive.wholeS / 60,
          alive.of,
          (alive.wholeS - alive.plannedS) / 60,
          rescue.loadS() / 60,
          Math.max(0, twoCrewsS / 60));
    }
    return null;
  }

  /** A limit of time, and the part of it that may be planned (s). */
  private record Share(String of, double wholeS, double plannedS) {}

  /** The life support or the suits, whichever may be planned for less. */
  private static Share alive(Budget budget, Reserves kept, Vehicle vehicle) {
    Vehicle.Crew crew = vehicle.crew();
    double ownS =
        crew == null || crew.lifeSupportH() == null ? orInfinite(null) : 3600 * crew.lifeSupportH();
    double lifeS = Math.min(orInfinite(budget.lifeSupportS()), ownS);
    double plannedS = Reserves.less(lifeS, kept.lifeSupportPct());
    if (budget.suits() != null) {
      double suitedS = budget.suits().plannedS(kept.lifeSupportPct());
      if (suitedS < plannedS) {
        return new Share("the suits' endurance", budget.suits().enduranceS(), suitedS);
      }
    }
    return new Share("life support", lifeS, plannedS);
  }

  private static double orInfinite(Double amount) {
    return amount == null ? Double.POSITIVE_INFINITY : amount;
  }
}

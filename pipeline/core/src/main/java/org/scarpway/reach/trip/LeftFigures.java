package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.audit.HomeRule.Used;
import org.scarpway.reach.question.Left;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReplanResult.Amount;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.question.ReplanResult.Homeward;

/**
 * States what a trip home needs of every limited quantity, beside what is left and what must be
 * kept of it.
 *
 * @param left amounts left where the crew stands
 * @param reserve amounts of them that must be left at home
 */
record LeftFigures(Left left, Left reserve, ReachLimits limits) {

  /**
   * The trip that was checked last, counted from a place.
   *
   * @param used amounts used from where the crew stands to that place
   */
  Homeward of(BudgetCheck judge, Used used) {
    return of(judge, used, judge.totalTimeS, judge.neededTimeS, judge.neededAliveS);
  }

  /**
   * The way home from where the crew stands, if it breaks a limit or the rule. Of a stop from which
   * nobody gets home no amount is known, whatever it is that does not suffice, so that the amounts
   * are those of the way itself; by the rule pair both crews use the life support of one vehicle.
   */
  Homeward broken(BudgetCheck judge) {
    double timeS = judge.totalTimeS;
    if (limits.home() == HomeRule.PAIR) {
      timeS = limits.changeS() + judge.homeTimeS;
      return of(judge, Used.NOTHING, timeS, timeS, limits.breathedS(timeS));
    }
    boolean known = judge.neededTimeS < Double.POSITIVE_INFINITY;
    return known ? of(judge, Used.NOTHING) : of(judge, Used.NOTHING, timeS, timeS, timeS);
  }

  private Homeward of(BudgetCheck judge, Used used, double totalS, double neededS, double aliveS) {
    List<Amount> all = new ArrayList<>();
    add(all, Consumable.TIME, left.timeS(), reserve.timeS(), used.timeS(), neededS);
    add(
        all,
        Consumable.LIFE_SUPPORT,
        left.lifeSupportS(),
        reserve.lifeSupportS(),
        used.timeS(),
        aliveS);
    add(
        all,
        Consumable.ENERGY,
        left.energyJ(),
        reserve.energyJ(),
        used.energyJ(),
        judge.neededEnergyJ - limits.usedJ());
    add(
        all,
        Consumable.DISTANCE,
        left.distanceM(),
        reserve.distanceM(),
        used.distanceM(),
        judge.totalDistanceM);
    return new Homeward(
        totalS - used.timeS(), judge.totalEnergyJ, judge.totalDistanceM - used.distanceM(), all);
  }

  /** What is limited. */
  List<Consumable> limited() {
    List<Consumable> all = new ArrayList<>();
    limited(all, Consumable.TIME, left.timeS());
    limited(all, Consumable.LIFE_SUPPORT, left.lifeSupportS());
    limited(all, Consumable.ENERGY, left.energyJ());
    limited(all, Consumable.DISTANCE, left.distanceM());
    return all;
  }

  private static void limited(List<Consumable> all, Consumable of, Double left) {
    if (left != null) {
      all.add(of);
    }
  }

  private static void add(
      List<Amount> all, Consumable of, Double left, Double kept, double used, double needed) {
    if (left != null) {
      all.add(new Amount(of, left - used, kept, needed - used));
    }
  }
}

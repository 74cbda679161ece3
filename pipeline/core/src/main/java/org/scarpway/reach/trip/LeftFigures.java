package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.audit.HomeRule.Used;
import org.scarpway.reach.question.Left;
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
    List<Amount> all = new ArrayList<>();
    add(all, Consumable.TIME, left.timeS(), reserve.timeS(), used.timeS(), judge.neededTimeS);
    add(
        all,
        Consumable.LIFE_SUPPORT,
        left.lifeSupportS(),
        reserve.lifeSupportS(),
        used.timeS(),
        judge.neededAliveS);
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
        judge.totalTimeS - used.timeS(),
        judge.totalEnergyJ,
        judge.totalDistanceM - used.distanceM(),
        all);
  }

  private static void add(
      List<Amount> all, Consumable of, Double left, Double kept, double used, double needed) {
    if (left != null) {
      all.add(new Amount(of, left - used, kept, needed - used));
    }
  }
}

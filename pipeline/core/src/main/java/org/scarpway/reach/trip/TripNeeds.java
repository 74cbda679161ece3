package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.scarpway.reach.question.WhyNot.Shortfall;
import org.scarpway.reach.question.WhyNot.Supply;

/** What the known trips to one place need, held against the limits. */
final class TripNeeds {
  private static final List<Supply> SUPPLIES =
      List.of(Supply.TIME, Supply.ENERGY, Supply.DISTANCE, Supply.LIFE_SUPPORT);

  private final double[] planned;

  /** Needs of the trip that exceeds the limits least; null if no trip is known. */
  private double[] best;

  private double bestUse = Double.POSITIVE_INFINITY;

  /** Least need of each supply over trips that meet the limits on all others. */
  private final double[] alone = new double[SUPPLIES.size()];

  private TripNeeds(ReachLimits limits) {
    planned =
        new double[] {limits.timeS(), limits.energyJ(), limits.distanceM(), limits.lifeSupportS()};
    Arrays.fill(alone, Double.POSITIVE_INFINITY);
  }

  /**
   * @param limits limits in force; ways may have been computed without them
   */
  static TripNeeds of(ReachLimits limits, TripFronts ways, int cell, double stayS) {
    TripNeeds needs = new TripNeeds(limits);
    BudgetCheck check = new BudgetCheck(limits, ways);
    for (PathSums out : ways.outWays()) {
      for (PathSums home : ways.homeWays()) {
        needs.add(check.needs(out, home, cell, stayS));
      }
    }
    return needs;
  }

  private void add(double[] needed) {
    double worst = 0;
    int over = -1;
    int count = 0;
    for (int i = 0; i < needed.length; i++) {
      // Without an energy model the energy is NaN, and no limit.
      if (needed[i] > planned[i]) {
        over = i;
        count++;
      }
      double use = needed[i] / planned[i];
      worst = use > worst ? use : worst;
    }
    if (!(needed[0] < Double.POSITIVE_INFINITY) || worst == Double.POSITIVE_INFINITY) {
      return;
    }
    if (worst < bestUse) {
      bestUse = worst;
      best = needed;
    }
    if (count == 1 && needed[over] < alone[over]) {
      alone[over] = needed[over];
    }
  }

  /** True if a trip meets every limit. */
  boolean holds() {
    return bestUse <= 1;
  }

  /** The limits that the trip exceeds which exceeds them least. */
  List<Shortfall> shortfalls() {
    List<Shortfall> all = new ArrayList<>();
    for (int i = 0; best != null && i < planned.length; i++) {
      if (best[i] > planned[i]) {
        all.add(new Shortfall(SUPPLIES.get(i), best[i], planned[i]));
      }
    }
    return all;
  }

  /**
   * The single supply whose raise suffices by the least share, else all supplies that the trip
   * exceeds which exceeds the limits least.
   */
  List<Shortfall> cheapest() {
    int least = -1;
    for (int i = 0; i < alone.length; i++) {
      boolean known = alone[i] < Double.POSITIVE_INFINITY;
      if (known && (least < 0 || alone[i] / planned[i] < alone[least] / planned[least])) {
        least = i;
      }
    }
    return least < 0
        ? shortfalls()
        : List.of(new Shortfall(SUPPLIES.get(least), alone[least], planned[least]));
  }
}

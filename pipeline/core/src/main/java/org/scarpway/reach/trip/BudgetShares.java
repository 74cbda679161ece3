package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.LongAdder;
import org.scarpway.reach.question.ReachByBudget;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.Reserves;

/**
 * Counts cells by the share of the time and of the energy limit that they take: of the trips that
 * meet every limit the least, and the least of all by itself. Several threads may count at once.
 */
final class BudgetShares {
  /** Steps of a budget. */
  static final int STEPS = 20;

  /** Whether time and energy are limited. */
  private final boolean[] asked = new boolean[2];

  private final LongAdder[][] surely = new LongAdder[2][STEPS];
  private final LongAdder[][] atMost = new LongAdder[2][STEPS];
  private final ReachLimits limits;

  /**
   * @param stops where a stop must meet limits other than that of time, what suffices for it was
   *     found for the whole limits alone, and nothing is counted
   */
  BudgetShares(ReachLimits limits, Stops stops) {
    this.limits = limits;
    asked[0] = !stops.askMore() && limits.timeS() < Double.POSITIVE_INFINITY;
    asked[1] = !stops.askMore() && limits.energyJ() < Double.POSITIVE_INFINITY;
    for (int q = 0; q < 2; q++) {
      for (int k = 0; k < STEPS; k++) {
        surely[q][k] = new LongAdder();
        atMost[q][k] = new LongAdder();
      }
    }
  }

  /** True if there is anything to count. */
  boolean asked() {
    return asked[0] || asked[1];
  }

  /** Counts the cell that was checked last and is surely reached; each cell once. */
  void surely(BudgetCheck judge, int cell, double stayS) {
    if (asked()) {
      count(surely, judge.timeShare, judge.energyShare);
      possibly(judge, cell, stayS);
    }
  }

  /** Counts a cell that is possibly reached; each cell once. */
  void possibly(BudgetCheck judge, int cell, double stayS) {
    judge.leastShares(cell, stayS);
    count(atMost, judge.timeShare, judge.energyShare);
  }

  private void count(LongAdder[][] cells, double timeShare, double energyShare) {
    cells[0][step(timeShare)].increment();
    cells[1][step(energyShare)].increment();
  }

  /** The least step whose budget suffices; what needs more than all of it counts for all of it. */
  static int step(double share) {
    return Math.max(0, Math.min(STEPS - 1, (int) Math.ceil(share * STEPS) - 1));
  }

  List<ReachByBudget> of(double cellAreaM2) {
    List<ReachByBudget> all = new ArrayList<>();
    Reserves kept = limits.reserves();
    if (asked[0]) {
      all.add(of(0, Quantity.TIME_S, limits.timeS(), kept.timePct(), cellAreaM2));
    }
    if (asked[1]) {
      all.add(of(1, Quantity.ENERGY_J, limits.energyJ(), kept.energyPct(), cellAreaM2));
    }
    return all;
  }

  private ReachByBudget of(int q, Quantity quantity, double planned, double pct, double cellM2) {
    return new ReachByBudget(
        quantity,
        Reserves.whole(planned, pct),
        pct,
        cumulative(surely[q], cellM2),
        cumulative(atMost[q], cellM2));
  }

  private static List<Double> cumulative(LongAdder[] cells, double cellM2) {
    List<Double> areas = new ArrayList<>();
    long sum = 0;
    for (LongAdder n : cells) {
      sum += n.sum();
      areas.add(sum * cellM2);
    }
    return areas;
  }
}

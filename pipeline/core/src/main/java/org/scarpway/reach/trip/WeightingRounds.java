package org.scarpway.reach.trip;

import java.util.BitSet;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReachState;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * Tries weightings of the limits one after another while they may decide cells. A weighting finds
 * trips that give up some of one quantity for another. It helps where each limit is met by some
 * known trip, but none meets all. Where no known trip meets one limit even by itself, the cell lies
 * between a bound and the sum along the best way of that one quantity, and stays possible.
 */
final class WeightingRounds {
  /** Open share of the reach (%) below which no further weighting is computed for cells. */
  private static final double SETTLED_PCT = 0.1;

  /** A round that decides less than the open cells divided by this is the last. */
  private static final int LEAST_GAIN = 10;

  /** Decides a cell anew. */
  @FunctionalInterface
  interface Decision {
    void decide(int cell, BudgetCheck check);
  }

  private final ReachLimits limits;
  private final TripFronts solved;
  private final Refinement more;
  private final GridSpec spec;
  private final double stayS;
  private final List<Target> targets;

  /**
   * @param stayS stay in cells (s)
   * @param targets targets, each with its own stay
   */
  WeightingRounds(
      ReachLimits limits,
      TripFronts solved,
      Refinement more,
      GridSpec spec,
      double stayS,
      List<Target> targets) {
    this.limits = limits;
    this.solved = solved;
    this.more = more;
    this.spec = spec;
    this.stayS = stayS;
    this.targets = targets;
  }

  /**
   * @param state states of cells, which the decision updates
   */
  void run(Bytes state, Decision decision, Workers workers, Progress progress) {
    int openBefore = Integer.MAX_VALUE;
    for (double[] weights : more.rounds()) {
      BudgetCheck check = new BudgetCheck(limits, solved, more);
      BitSet open = openCells(state, check);
      BitSet openTargets = openTargets(check);
      int count = open.cardinality();
      boolean settled = 100.0 * count <= SETTLED_PCT * inReach(state);
      boolean stuck = (long) LEAST_GAIN * (openBefore - count) < openBefore;
      if (openTargets.isEmpty() && (settled || stuck)) {
        return;
      }
      openBefore = count;
      open.or(openTargets);
      more.weigh(weights, open, solved, workers, progress);
      workers.overRows(
          spec.rows(),
          (from, to) -> {
            BudgetCheck again = new BudgetCheck(limits, solved, more);
            for (int cell = from * spec.cols(); cell < to * spec.cols(); cell++) {
              if (state.get(cell) == ReachState.POSSIBLY) {
                decision.decide(cell, again);
              }
            }
          });
    }
  }

  private BitSet openCells(Bytes state, BudgetCheck check) {
    BitSet open = new BitSet();
    for (int cell = 0; cell < state.size(); cell++) {
      if (state.get(cell) == ReachState.POSSIBLY) {
        check.evaluate(cell, stayS, null);
        open.set(cell, check.weighable());
      }
    }
    return open;
  }

  private BitSet openTargets(BudgetCheck check) {
    BitSet open = new BitSet();
    for (Target t : targets) {
      int cell = spec.cellOf(t.xM(), t.yM());
      if (cell >= 0 && solved.answers(cell)) {
        check.evaluate(cell, t.stayS(), null);
        if (check.weighable()) {
          open.set(cell);
        }
      }
    }
    return open;
  }

  private static long inReach(Bytes state) {
    long cells = 0;
    for (int cell = 0; cell < state.size(); cell++) {
      byte s = state.get(cell);
      cells += s == ReachState.SURELY || s == ReachState.POSSIBLY ? 1 : 0;
    }
    return cells;
  }
}

package org.scarpway.reach.trip;

import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Finds cells that are possibly reached by base-rescue although no feasible trip to them is known.
 * The check is repeated with requirements of a stop that are lower bounds: the least time, wait,
 * energy and distance over all ways of a rescuer. A cell that cannot be reached even then is not
 * reached.
 */
final class LeftOpen {
  private final ReachLimits limits;
  private final TripFronts solved;

  private LeftOpen(ReachLimits limits, TripFronts solved) {
    this.limits = limits;
    this.solved = solved;
  }

  /**
   * @param from cell where the ways out begin
   * @param stays shortest and longest stay at a far end that will be checked (s)
   * @param atLeast lower bounds on the requirements of a stop; null if no cell is undecided
   */
  static LeftOpen of(
      ReachRequest request,
      ReachLimits limits,
      TraversalInput ground,
      boolean hasEnergy,
      int from,
      int base,
      double[] stays,
      Stops atLeast,
      Workers workers,
      Progress progress) {
    if (atLeast == null) {
      return new LeftOpen(limits, null);
    }
    TraversalCost field = ground.field().within(atLeast.within());
    Floats heightM = ground.heightM();
    TripFronts solved =
        from == base
            ? new TripFronts(
                request, limits, field, field, hasEnergy, heightM, base, stays, atLeast, workers,
                progress)
            : new TripFronts(
                request, limits, field, field, hasEnergy, heightM, from, base, null, stays, atLeast,
                workers, progress);
    if (!solved.knowsLeastEnergyHome() && from != base) {
      solved.addLeastEnergy(workers, progress);
    }
    return new LeftOpen(limits, solved);
  }

  boolean anything() {
    return solved != null;
  }

  /** A check for the use of one thread; null if no cell is undecided. */
  BudgetCheck judge() {
    return solved == null ? null : new BudgetCheck(limits, solved);
  }

  /** True if the lower bounds do not rule a cell out. */
  boolean holds(BudgetCheck judge, int cell, double stayS) {
    if (judge == null || cell < 0 || !solved.answers(cell)) {
      return false;
    }
    judge.evaluate(cell, stayS, null);
    return judge.state != 0;
  }
}

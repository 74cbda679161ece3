package org.scarpway.reach.trip;

import org.scarpway.reach.question.Ground;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.MoveField;

/**
 * Cells that nobody has shown to be out of reach by base-rescue, though no trip to them is known:
 * the question again where a stop asks for no more than the least time, wait, energy and distance
 * of any way of a rescuer. What cannot be reached even so is not reached.
 */
final class LeftOpen {
  private final ReachLimits limits;
  private final TripFronts solved;

  private LeftOpen(ReachLimits limits, TripFronts solved) {
    this.limits = limits;
    this.solved = solved;
  }

  /**
   * @param stays shortest and longest time that will be asked for at a far end (s)
   * @param atLeast what a stop asks for at least; null where nothing is left open
   */
  static LeftOpen of(
      ReachRequest request,
      ReachLimits limits,
      Ground ground,
      boolean hasEnergy,
      int base,
      double[] stays,
      Stops atLeast,
      Workers workers,
      Progress progress) {
    if (atLeast == null) {
      return new LeftOpen(limits, null);
    }
    MoveField field = ground.mobility().field().within(atLeast.within());
    TripFronts solved =
        new TripFronts(
            request,
            limits,
            field,
            field,
            hasEnergy,
            ground.heightM(),
            base,
            stays,
            atLeast,
            () -> {},
            workers,
            progress);
    return new LeftOpen(limits, solved);
  }

  boolean anything() {
    return solved != null;
  }

  /** Asks about cells, one thread each; null where nothing is left open. */
  BudgetCheck judge() {
    return solved == null ? null : new BudgetCheck(limits, solved);
  }

  /** Whether nothing shows that a cell is out of reach. */
  boolean holds(BudgetCheck judge, int cell, double stayS) {
    if (judge == null || cell < 0 || !solved.answers(cell)) {
      return false;
    }
    judge.ask(cell, stayS, null);
    return judge.state != 0;
  }
}

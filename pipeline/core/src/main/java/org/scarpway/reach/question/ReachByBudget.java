package org.scarpway.reach.question;

import java.util.List;
import org.scarpway.reach.question.ReachRequest.Quantity;

/**
 * How much ground would be reached with a smaller budget of one quantity, everything else as asked:
 * areas at equal steps of the budget, the last at all of it. The same share of the smaller budget
 * is kept as reserve.
 *
 * @param quantity time or energy
 * @param budget all of it, its reserve included (s or J); of energy the battery where that is less
 * @param reservePct share of it that is kept (%)
 * @param surelyM2 plan area that is surely reached with each step (m2): one of the trips found
 *     suffices; asked anew with that budget, more trips may be found
 * @param possiblyM2 plan area of the ground that may be reached at most, the surely reached
 *     included (m2): the least amount by itself suffices
 */
public record ReachByBudget(
    Quantity quantity,
    double budget,
    double reservePct,
    List<Double> surelyM2,
    List<Double> possiblyM2) {
  /** Copies the lists. */
  public ReachByBudget {
    surelyM2 = List.copyOf(surelyM2);
    possiblyM2 = List.copyOf(possiblyM2);
  }

  /** Returns the budget of a step, from 0. */
  public double amount(int step) {
    return budget * (step + 1) / surelyM2.size();
  }
}

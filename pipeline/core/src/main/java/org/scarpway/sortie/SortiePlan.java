package org.scarpway.sortie;

import java.util.List;

/**
 * The answer: which stops on which day in which order.
 *
 * @param visits steps in order, the way home last; empty if the crew stays at the base
 * @param value what they bring
 * @param atMost no plan brings more than this
 * @param labels labels that the exact search kept
 * @param acts the timetable, in order of time
 */
public record SortiePlan(
    List<Visit> visits, double value, double atMost, long labels, List<Act> acts) {
  /** Copies the lists. */
  public SortiePlan {
    visits = List.copyOf(visits);
    acts = List.copyOf(acts);
  }

  /** Whether no plan brings more. */
  public boolean isProven() {
    return atMost <= value;
  }

  /** How much more than this plan any plan could bring (%), 0 if it is proven best. */
  public double mostMorePct() {
    return isProven() ? 0 : 100 * (atMost / value - 1);
  }
}

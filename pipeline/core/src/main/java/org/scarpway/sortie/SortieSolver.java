package org.scarpway.sortie;

import java.util.List;

/** Answers a sortie question. */
public final class SortieSolver {
  /** Labels after which the exact search ends. */
  public static final long MOST_LABELS = 12_000_000;

  private SortieSolver() {}

  /**
   * The plan of most value.
   *
   * @return the plan, null if no plan keeps all rules with every stop that must be made
   */
  public static SortiePlan solve(Sortie sortie) {
    return solve(sortie, MOST_LABELS);
  }

  /** As {@link #solve(Sortie)} with a given number of labels after which the exact search ends. */
  public static SortiePlan solve(Sortie sortie, long mostLabels) {
    LabelSearch search =
        new LabelSearch(sortie, new AllLeft(sortie.stops()), Double.NEGATIVE_INFINITY, mostLabels);
    search.run();
    List<Visit> visits = search.best();
    if (visits == null) {
      return null;
    }
    return new SortiePlan(
        visits, search.bestValue(), search.atMost(), search.labels(), Timetable.of(sortie, visits));
  }
}

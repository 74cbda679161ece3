package org.scarpway.sortie;

import java.util.List;

/** Answers a sortie question. */
public final class SortieSolver {
  /** Labels after which the exact search ends. */
  public static final long MOST_LABELS = 6_000_000;

  private static final int NARROW = 60;
  private static final long BEAM_STEPS = 60_000;

  private SortieSolver() {}

  /**
   * The plan of most value.
   *
   * @return the plan, null if no plan keeps all rules with every stop that must be made
   */
  public static SortiePlan solve(Sortie sortie) {
    return solve(sortie, MOST_LABELS);
  }

  /**
   * As {@link #solve(Sortie)} with a given number of labels after which the exact search ends; the
   * plan may then be less than the best, and is no more than {@link SortiePlan#mostMorePct} from
   * it.
   */
  public static SortiePlan solve(Sortie sortie, long mostLabels) {
    int n = Math.max(1, sortie.stops().size());
    LabelSearch quick = beam(sortie, RelaxedTours.unpriced(sortie), NARROW, null);
    RelaxedTours bound = RelaxedTours.of(sortie, Math.max(0, quick.bestValue()));
    LabelSearch wide = beam(sortie, bound, (int) (BEAM_STEPS / n), quick);
    double known = wide.bestValue();
    double atMost = Unit.floor(bound.atMost(), sortie.stops());
    List<Visit> visits = wide.best() == null ? quick.best() : wide.best();
    long labels = quick.labels() + wide.labels();
    if (known < atMost) {
      LabelSearch exact = new LabelSearch(sortie, bound, known);
      exact.run(mostLabels, Integer.MAX_VALUE);
      visits = exact.best() == null ? visits : exact.best();
      known = exact.bestValue();
      atMost = Math.min(atMost, Unit.floor(exact.atMost(), sortie.stops()));
      labels += exact.labels();
    }
    if (visits == null) {
      return null;
    }
    List<Act> acts = Timetable.of(sortie, visits);
    List<String> broken = PlanAudit.broken(sortie, visits, acts);
    if (!broken.isEmpty()) {
      throw new IllegalStateException("the audit of the sortie: " + broken.get(0));
    }
    return new SortiePlan(visits, known, Math.max(known, atMost), labels, acts);
  }

  private static LabelSearch beam(Sortie sortie, ToGo toGo, int width, LabelSearch before) {
    double known = before == null ? Double.NEGATIVE_INFINITY : before.bestValue();
    LabelSearch beam = new LabelSearch(sortie, toGo, known);
    beam.run(Long.MAX_VALUE, width);
    return beam;
  }
}

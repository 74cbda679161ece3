package org.scarpway.sortie;

import java.util.List;

/** Answers a sortie question. */
public final class SortieSolver {
  /** Labels after which the exact search ends. */
  public static final long MOST_LABELS = 2_000_000;

  /** With no more stops than this, a bound that is adjusted costs more than it saves. */
  private static final int FEW_STOPS = 10;

  private static final int NARROW = 60;
  private static final int BEAM_STEPS = 60_000;
  private static final int WIDER = 8;

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
    int n = sortie.stops().size();
    ToGo bound = RelaxedTours.unpriced(sortie);
    LabelSearch quick = beam(sortie, bound, NARROW, Double.NEGATIVE_INFINITY);
    double atMost = Double.POSITIVE_INFINITY;
    List<Visit> visits = quick.best();
    double known = quick.bestValue();
    long labels = quick.labels();
    if (n > FEW_STOPS) {
      RelaxedTours tours = RelaxedTours.of(sortie, Math.max(0, known));
      bound = tours;
      atMost = Unit.floor(tours.atMost(), sortie.stops());
      LabelSearch wide = beam(sortie, bound, BEAM_STEPS / n, known);
      visits = wide.best() == null ? visits : wide.best();
      known = wide.bestValue();
      labels += wide.labels();
    }
    if (known < atMost) {
      LabelSearch exact = new LabelSearch(sortie, bound, known);
      exact.run(mostLabels, Integer.MAX_VALUE);
      visits = exact.best() == null ? visits : exact.best();
      known = exact.bestValue();
      atMost = Math.min(atMost, Unit.floor(exact.atMost(), sortie.stops()));
      labels += exact.labels();
    }
    if (known < atMost) {
      LabelSearch widest = beam(sortie, bound, WIDER * BEAM_STEPS / Math.max(1, n), known);
      visits = widest.best() == null ? visits : widest.best();
      known = widest.bestValue();
      labels += widest.labels();
    }
    if (visits == null) {
      return null;
    }
    List<Act> acts = Timetable.of(sortie, visits);
    List<String> broken = PlanAudit.broken(sortie, visits, acts);
    if (!broken.isEmpty()) {
      throw new IllegalStateException("the audit of the sortie: " + broken.get(0));
    }
    // A relaxed tour may make a stop twice, a plan may not.
    double all = sortie.stops().stream().mapToDouble(SortieStop::value).sum();
    return new SortiePlan(visits, known, Math.max(known, Math.min(atMost, all)), labels, acts);
  }

  private static LabelSearch beam(Sortie sortie, ToGo toGo, int width, double known) {
    LabelSearch beam = new LabelSearch(sortie, toGo, known);
    beam.run(Long.MAX_VALUE, width);
    return beam;
  }
}

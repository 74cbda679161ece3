package org.scarpway.sortie;

import java.util.List;

/**
 * The question: a base, stops, ways between them, and the rules.
 *
 * @param rules what a day may hold
 * @param home how the crew comes home if the vehicle fails
 * @param stops places to choose from; place k of {@code legs} is stop k - 1
 * @param legs ways between base (place 0) and stops
 */
public record Sortie(DayRules rules, HomeRule home, List<SortieStop> stops, Legs legs) {
  /**
   * Copies the list.
   *
   * @throws IllegalArgumentException if legs and stops do not belong together, or a stop is to come
   *     after a place that is no stop
   */
  public Sortie {
    stops = List.copyOf(stops);
    int n = stops.size();
    if (legs.places() != n + 1) {
      throw new IllegalArgumentException(legs.places() + " places of legs for " + n + " stops");
    }
    for (SortieStop s : stops) {
      for (int a : s.after()) {
        if (a < 1 || a > n) {
          throw new IllegalArgumentException("stop " + s.name() + " after place " + a);
        }
      }
    }
  }

  /** The stop at a place, 1 for the first. */
  public SortieStop at(int place) {
    return stops.get(place - 1);
  }

  /** The same question under other rules of a day. */
  public Sortie with(DayRules other) {
    return new Sortie(other, home, stops, legs);
  }

  /** The same question with other stops; their number stays. */
  public Sortie withStops(List<SortieStop> others) {
    return new Sortie(rules, home, others, legs);
  }
}

package org.scarpway.sortie;

import java.util.List;

/** The largest plain number of which all values are multiples. */
final class Unit {
  private static final double[] PLAIN = {10, 5, 1, 0.5, 0.1, 0.05, 0.01};

  private Unit() {}

  /** That number less a little for rounding, 0 if there is none. */
  static double of(List<SortieStop> stops) {
    for (double unit : PLAIN) {
      boolean all =
          stops.stream()
              .mapToDouble(s -> s.value() / unit)
              .allMatch(v -> v < 1e9 && Math.abs(v - Math.rint(v)) < 1e-9);
      if (all) {
        return unit * (1 - 1e-6);
      }
    }
    return 0;
  }

  /** The largest value of a plan that is not above a bound. */
  static double floor(double bound, List<SortieStop> stops) {
    double unit = of(stops) / (1 - 1e-6);
    return unit > 0 ? Math.floor(bound / unit + 1e-6) * unit : bound;
  }
}

package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;

/** Round numbers along an axis: steps of 1, 2 or 5 times a power of ten. */
record Ticks(double step, List<Double> values) {
  Ticks {
    values = List.copyOf(values);
  }

  /** Every round number in [low, high]; at most {@code most} of them. */
  static Ticks between(double low, double high, int most) {
    for (int parts = most; ; parts--) {
      double step = step(high - low, parts);
      long first = (long) Math.ceil(low / step - 1e-9);
      long last = (long) Math.floor(high / step + 1e-9);
      if (last - first < most || parts == 1) {
        List<Double> values = new ArrayList<>();
        for (long k = first; k <= last; k++) {
          values.add(k * step);
        }
        return new Ticks(step, values);
      }
    }
  }

  /** Smallest round step that divides the span into at most {@code parts} parts. */
  static double step(double span, int parts) {
    if (!(span > 0)) {
      return 1;
    }
    double least = span / parts;
    int power = (int) Math.floor(Math.log10(least));
    for (int p = power; ; p++) {
      for (int digit : new int[] {1, 2, 5}) {
        double step = p < 0 ? digit / Math.pow(10, -p) : digit * Math.pow(10, p);
        if (step >= least * (1 - 1e-9)) {
          return step;
        }
      }
    }
  }

  /** Largest round number that is not above {@code most}. */
  static double roundBelow(double most) {
    int power = (int) Math.floor(Math.log10(most));
    double best = 0;
    for (int p = power - 1; p <= power; p++) {
      for (int digit : new int[] {1, 2, 5}) {
        double v = p < 0 ? digit / Math.pow(10, -p) : digit * Math.pow(10, p);
        if (v <= most * (1 + 1e-9)) {
          best = v;
        }
      }
    }
    return best;
  }

  /** Number of decimals needed to distinguish neighbouring ticks. */
  int decimals() {
    return Math.max(0, (int) -Math.floor(Math.log10(step) + 1e-9));
  }

  String text(double value) {
    return Figures.fixed(value, decimals());
  }
}

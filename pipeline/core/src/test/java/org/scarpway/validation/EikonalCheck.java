package org.scarpway.validation;

import static org.scarpway.reach.front.Fields.grid;
import static org.scarpway.reach.front.Fields.level;
import static org.scarpway.reach.front.Fields.timesOut;
import static org.scarpway.reach.front.Fields.timesOutOfAny;

import java.util.Arrays;
import java.util.Locale;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;

/**
 * Exact distances and times in a box of +-100 m against reach, which may be off by no more than a
 * solver of second order is. That solver starts from an exact circle; reach starts from cells, so
 * that its exact answer is the one from the centres of these cells.
 */
class EikonalCheck {
  private static final String SOLVER = "scikit-fmm 2022.08.15, second order";

  private static GridSpec box(double cellM) {
    int n = (int) (200 / cellM) + 1;
    return grid(n, n, cellM, -100 - cellM / 2, -100 - cellM / 2);
  }

  @Test
  void distanceFromACircle() {
    double[][] rows = {{2, 0.479}, {1, 0.308}, {0.5, 0.128}};
    for (double[] row : rows) {
      GridSpec g = box(row[0]);
      int n = g.cols();
      IntPredicate onCircle =
          i -> Math.abs(Math.hypot(g.xM(i % n), g.yM(i / n)) - 10) <= row[0] / 2;
      int[] ring = IntStream.range(0, g.cells()).filter(onCircle).toArray();
      double[] t = timesOutOfAny(level(g, (x, y) -> 1), ring);
      double worstM = 0;
      for (int i = 0; i < t.length; i++) {
        double x = g.xM(i % n);
        double y = g.yM(i / n);
        double exactM =
            Arrays.stream(ring)
                .mapToDouble(s -> Math.hypot(x - g.xM(s % n), y - g.yM(s / n)))
                .min()
                .orElseThrow();
        worstM = Math.max(worstM, Math.abs(t[i] - exactM));
      }
      Validation.near(
          String.format(Locale.ROOT, "7-P19-circle-%.1f", row[0]),
          String.format(
              Locale.ROOT,
              "largest error of the distance from a ring of cells of %.1f m, radius 10 m (m);"
                  + " second order from the circle %.3f",
              row[0],
              row[1]),
          "distance to the nearest centre of the ring; tolerance from " + SOLVER,
          "R",
          0,
          worstM,
          row[1]);
    }
  }

  /** The solver starts from the exact front that leaves the point at (0, 0) 10 m away. */
  @Test
  void speedThatGrowsSteadily() {
    double v0 = 1.5;
    double perM = 0.01;
    double[][] rows = {{2, 0.356}, {1, 0.178}, {0.5, 0.088}};
    for (double[] row : rows) {
      GridSpec g = box(row[0]);
      int n = g.cols();
      double[] t = timesOut(level(g, (x, y) -> v0 + perM * y), 0, 0);
      double worstS = 0;
      for (int i = 0; i < t.length; i++) {
        double r = Math.hypot(g.xM(i % n), g.yM(i / n));
        double cosh = 1 + perM * perM * r * r / (2 * v0 * (v0 + perM * g.yM(i / n)));
        double exactS = Math.log(cosh + Math.sqrt(cosh * cosh - 1)) / perM;
        worstS = Math.max(worstS, Math.abs(t[i] - exactS));
      }
      Validation.near(
          String.format(Locale.ROOT, "7-P19-gradient-%.1f", row[0]),
          String.format(
              Locale.ROOT,
              "largest error of the time from one cell of %.1f m, speed 1.5 + 0.01 y (s); second"
                  + " order from an exact front %.3f",
              row[0],
              row[1]),
          "acosh(1 + g^2 r^2 / (2 v0 v)) / g; tolerance from " + SOLVER,
          "R",
          0,
          worstS,
          row[1]);
    }
  }
}

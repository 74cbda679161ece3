package org.scarpway.validation;

import static org.scarpway.reach.front.Fields.grid;
import static org.scarpway.reach.front.Fields.level;
import static org.scarpway.reach.front.Fields.timesOut;
import static org.scarpway.reach.front.Fields.timesOverNeighbours;

import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;

/** Known errors of steps between neighbours, and what is left of them by the wide steps. */
class PropagationCheck {

  @Test
  void elongationOfWaysOverNeighbours() {
    GridSpec g = grid(401, 401, 1, -200.5, -200.5);
    double[] t = timesOverNeighbours(level(g, (x, y) -> 1), 0, 0);
    double worst = 0;
    double sum = 0;
    int directions = 720;
    for (int i = 0; i < t.length; i++) {
      double r = Math.hypot(g.xM(i % 401), g.yM(i / 401));
      worst = r > 0 ? Math.max(worst, t[i] / r - 1) : worst;
    }
    for (int k = 0; k < directions; k++) {
      double a = 2 * Math.PI * (k + 0.5) / directions;
      double x = Math.rint(199 * Math.cos(a));
      double y = Math.rint(199 * Math.sin(a));
      sum += t[g.cellOf(x, y)] / Math.hypot(x, y) - 1;
    }
    int inside = 0;
    for (double v : t) {
      inside += v <= 190 ? 1 : 0;
    }
    String source = "8-neighbour metric: 1 / cos(22.5 deg) - 1, its mean, area of the octagon";
    Validation.near(
        "7-P1-neighbours-worst-pct",
        "largest elongation over 8 neighbours (%)",
        source,
        "C",
        8.239220,
        100 * worst,
        1e-3);
    Validation.near(
        "7-P2-neighbours-mean-pct",
        "mean elongation over 8 neighbours (%)",
        source,
        "C",
        5.47862,
        100 * sum / directions,
        0.02);
    Validation.near(
        "7-P3-neighbours-area-ratio",
        "octagon over disc",
        source,
        "C",
        0.900316,
        inside / (Math.PI * 190 * 190),
        0.002);
  }

  @Test
  void wideStepsLeaveLittleOfIt() {
    GridSpec g = grid(401, 401, 1, -200.5, -200.5);
    double[] t = timesOut(level(g, (x, y) -> 1), 0, 0);
    int inside = 0;
    double worstM = 0;
    for (int i = 0; i < t.length; i++) {
      double r = Math.hypot(g.xM(i % 401), g.yM(i / 401));
      inside += t[i] <= 190 ? 1 : 0;
      if (Math.max(Math.abs(g.xM(i % 401)), Math.abs(g.yM(i / 401))) <= 100) {
        worstM = Math.max(worstM, Math.abs(t[i] - r));
      }
    }
    Validation.near(
        "7-P3-wide-steps-area-ratio",
        "area reached over disc, radius 190 cells; 48 neighbours 0.995138",
        "isotropic metric: a disc",
        "C",
        1,
        inside / (Math.PI * 190 * 190),
        1 - 0.995138);
    Validation.near(
        "7-P20-point-source-error",
        "largest error in a box of +-100 cells about one source cell; second order methods 0.326",
        "scikit-fmm 2022.08.15, second order, single-cell source",
        "R",
        0,
        worstM,
        0.326);
  }

  @Test
  void pointSourceAtOtherCellSizes() {
    double[][] rows = {{2, 0.652}, {0.5, 0.163}};
    for (double[] r : rows) {
      int n = (int) (200 / r[0]) + 1;
      GridSpec g = grid(n, n, r[0], -100 - r[0] / 2, -100 - r[0] / 2);
      double[] t = timesOut(level(g, (x, y) -> 1), 0, 0);
      double worstM = 0;
      for (int i = 0; i < t.length; i++) {
        worstM = Math.max(worstM, Math.abs(t[i] - Math.hypot(g.xM(i % n), g.yM(i / n))));
      }
      Validation.near(
          "7-P20-point-source-error-" + r[0],
          "largest error in +-100 about one source cell of "
              + r[0]
              + "; second order methods "
              + r[1],
          "scikit-fmm 2022.08.15, second order, single-cell source",
          "R",
          0,
          worstM,
          r[1]);
    }
  }

  @Test
  void directWaveBeforeTheCrossover() {
    double cell = 20.0 / 41;
    GridSpec g = grid(90, 247, cell, -20.5 * cell, -40.5 * cell);
    double[] t = timesOut(level(g, (x, y) -> y > 0 ? 1 : 3), 0, 10);
    // Nearer than 2 d sqrt((v2 + v1) / (v2 - v1)) = 28.284 the straight way is the quicker one.
    Validation.nearRel(
        "7-P9-direct-wave",
        "time between points 20 apart, 10 from ground three times as fast (direct way)",
        "crossover at 28.28427",
        "C",
        40 * cell,
        t[g.cellOf(40 * cell, 10)],
        0.005);
    Validation.nearRel(
        "7-P9-after-crossover",
        "the same, 40 apart (head wave)",
        "critical refraction: X/v2 + 2 d sqrt(1/v1^2 - 1/v2^2)",
        "C",
        82 * cell / 3 + 20 * Math.sqrt(1 - 1 / 9.0),
        t[g.cellOf(82 * cell, 10)],
        0.005);
  }

  @Test
  void twoReachesTogether() {
    GridSpec g = grid(260, 360, 0.1, -13.05, -13.05);
    double[] a = timesOut(level(g, (x, y) -> 1), 0, 0);
    double[] b = timesOut(level(g, (x, y) -> 1), 10, 0);
    int n = 0;
    for (int i = 0; i < a.length; i++) {
      n += a[i] <= 10 || b[i] <= 10 ? 1 : 0;
    }
    Validation.nearRel(
        "7-P17-union-10",
        "ground within 10 of either of two points 10 apart",
        "two circles less their lens",
        "C",
        505.481561,
        n * g.cellAreaM2(),
        0.005);
  }
}

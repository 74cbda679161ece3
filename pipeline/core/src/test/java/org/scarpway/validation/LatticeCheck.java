package org.scarpway.validation;

import static org.scarpway.reach.front.Fields.grid;
import static org.scarpway.reach.front.Fields.level;
import static org.scarpway.reach.front.Fields.timesOut;

import java.util.Locale;
import org.jgrapht.alg.shortestpath.DijkstraShortestPath;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.SimpleWeightedGraph;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;

/**
 * What ways over k neighbours cost at best, answered by a graph library, and that reach is not
 * further from the truth than the finest of these lattices.
 */
class LatticeCheck {
  private static final String GRAPH = "JGraphT 1.5.2, DijkstraShortestPath; ";

  /** Steps of one eighth of the circle, as (along, across). */
  private static final int[][] STEPS_4 = {{1, 0}};

  private static final int[][] STEPS_8 = {{1, 0}, {1, 1}};
  private static final int[][] STEPS_16 = {{1, 0}, {2, 1}, {1, 1}};
  private static final int[][] STEPS_32 = {{1, 0}, {3, 1}, {2, 1}, {3, 2}, {1, 1}};
  private static final int[][] STEPS_48 = {{1, 0}, {4, 1}, {3, 1}, {2, 1}, {3, 2}, {4, 3}, {1, 1}};

  private static final double WORST_OF_48_PCT = 0.754900;
  private static final double MEAN_OF_32_PCT = 0.48985;

  @Test
  void elongationOfLattices() {
    // A quarter of the plane: ways to its points do not leave it.
    lattice(4, STEPS_4, 41.421356, null, 0.636620);
    lattice(8, STEPS_8, 8.239220, 5.47862, 0.900316);
    lattice(16, STEPS_16, 2.748630, 1.43788, 0.972044);
    lattice(32, STEPS_32, 1.308146, MEAN_OF_32_PCT, 0.990326);
    lattice(48, STEPS_48, WORST_OF_48_PCT, null, 0.995138);
  }

  private static void lattice(
      int neighbours, int[][] steps, double worstPct, Double meanPct, double areaRatio) {
    int n = 161;
    SimpleWeightedGraph<Integer, DefaultWeightedEdge> graph =
        graph(n, n, steps, (r, c, row, col) -> Math.hypot(row - r, col - c));
    var paths = new DijkstraShortestPath<>(graph).getPaths(0);
    double worst = 0;
    long inside = 0;
    long onAxis = 0;
    // Between two rows of points, so that a side along a row counts as it should.
    double radius = 150.5;
    for (int i = 1; i < n * n; i++) {
      int row = i / n;
      double length = paths.getWeight(i);
      worst = Math.max(worst, length / Math.hypot(row, i % n) - 1);
      inside += length <= radius ? 1 : 0;
      onAxis += i < n && length <= radius ? 1 : 0;
    }
    double sum = 0;
    int directions = 360;
    for (int k = 0; k < directions; k++) {
      double a = Math.PI / 2 * (k + 0.5) / directions;
      int row = (int) Math.rint(160 * Math.sin(a));
      int col = (int) Math.rint(160 * Math.cos(a));
      sum += paths.getWeight(row * n + col) / Math.hypot(row, col) - 1;
    }
    // The four quarters share their axes, of which the count holds two each, and the source.
    double area = 1 + 4.0 * (inside - onAxis);
    String id = String.format(Locale.ROOT, "-lattice-%02d", neighbours);
    String of = " over " + neighbours + " neighbours";
    Validation.near(
        "7-P1" + id + "-worst-pct",
        "largest elongation" + of + " (%)",
        GRAPH + "1 / cos(half the widest angle between steps) - 1",
        "C",
        worstPct,
        100 * worst,
        1e-3);
    if (meanPct != null) {
      Validation.near(
          "7-P2" + id + "-mean-pct",
          "mean elongation" + of + " (%)",
          GRAPH + "mean of the same over all directions",
          "C",
          meanPct,
          100 * sum / directions,
          0.02);
    }
    Validation.near(
        "7-P3" + id + "-area-ratio",
        "area reached" + of + " over disc",
        GRAPH + "polygon with a corner for each step",
        "C",
        areaRatio,
        area / (Math.PI * radius * radius),
        0.002);
  }

  @Test
  void reachIsNotBehindTheFinestLattice() {
    GridSpec g = grid(401, 401, 1, -200.5, -200.5);
    double[] t = timesOut(level(g, (x, y) -> 1), 0, 0);
    double worst = 0;
    for (int i = 0; i < t.length; i++) {
      double r = Math.hypot(g.xM(i % 401), g.yM(i / 401));
      worst = r > 0 ? Math.max(worst, t[i] / r - 1) : worst;
    }
    double sum = 0;
    int directions = 720;
    for (int k = 0; k < directions; k++) {
      double a = 2 * Math.PI * (k + 0.5) / directions;
      double x = Math.rint(199 * Math.cos(a));
      double y = Math.rint(199 * Math.sin(a));
      sum += t[g.cellOf(x, y)] / Math.hypot(x, y) - 1;
    }
    Validation.near(
        "7-P1-reach-worst-pct",
        "largest elongation of reach, any distance and direction (%); 48 neighbours 0.754900",
        "isotropic metric: none; tolerance is that of 48 neighbours",
        "C",
        0,
        100 * worst,
        WORST_OF_48_PCT);
    Validation.near(
        "7-P2-reach-mean-pct",
        "mean elongation of reach over directions, 199 cells away (%); 32 neighbours 0.48985",
        "isotropic metric: none; tolerance is that of 32 neighbours",
        "C",
        0,
        100 * sum / directions,
        MEAN_OF_32_PCT);
  }

  /** Edge of speeds 2 and 1 through points of the lattice, which is the best case for it. */
  @Test
  void refractionOnLattices() {
    refraction(8, STEPS_8, 21.213203);
    refraction(16, STEPS_16, 20.306044);
    refraction(32, STEPS_32, 20.194218);
  }

  private static void refraction(int neighbours, int[][] steps, double expected) {
    int n = 21;
    SimpleWeightedGraph<Integer, DefaultWeightedEdge> graph =
        graph(
            n,
            n,
            steps,
            (r, c, row, col) -> {
              int above = Math.max(0, 10 - Math.min(r, row)) - Math.max(0, 10 - Math.max(r, row));
              double fast = r == row ? (r <= 10 ? 1 : 0) : above / (double) Math.abs(row - r);
              return Math.hypot(row - r, col - c) * (fast / 2 + (1 - fast));
            });
    Validation.near(
        String.format(Locale.ROOT, "7-P7-lattice-%02d", neighbours),
        "the same as snell over " + neighbours + " neighbours, the edge through their points",
        GRAPH + "best crossing at a point of the lattice, closed form",
        "C",
        expected,
        new DijkstraShortestPath<>(graph).getPathWeight(0, n * n - 1),
        1e-6);
  }

  private interface EdgeCost {
    double of(int row, int col, int toRow, int toCol);
  }

  private static SimpleWeightedGraph<Integer, DefaultWeightedEdge> graph(
      int rows, int cols, int[][] steps, EdgeCost cost) {
    SimpleWeightedGraph<Integer, DefaultWeightedEdge> graph =
        new SimpleWeightedGraph<>(DefaultWeightedEdge.class);
    for (int i = 0; i < rows * cols; i++) {
      graph.addVertex(i);
    }
    for (int i = 0; i < rows * cols; i++) {
      for (int[] step : steps) {
        connect(graph, rows, cols, i, step[0], step[1], cost);
        connect(graph, rows, cols, i, step[1], step[0], cost);
        connect(graph, rows, cols, i, step[0], -step[1], cost);
        connect(graph, rows, cols, i, step[1], -step[0], cost);
      }
    }
    return graph;
  }

  private static void connect(
      SimpleWeightedGraph<Integer, DefaultWeightedEdge> graph,
      int rows,
      int cols,
      int from,
      int down,
      int right,
      EdgeCost cost) {
    int row = from / cols + down;
    int col = from % cols + right;
    if (row < 0 || row >= rows || col < 0 || col >= cols) {
      return;
    }
    DefaultWeightedEdge edge = graph.addEdge(from, row * cols + col);
    if (edge != null) {
      graph.setEdgeWeight(edge, cost.of(from / cols, from % cols, row, col));
    }
  }
}

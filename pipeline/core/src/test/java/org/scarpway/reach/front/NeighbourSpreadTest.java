package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Collections;
import java.util.Random;
import org.jgrapht.alg.shortestpath.DijkstraShortestPath;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.SimpleWeightedGraph;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Memory;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

class NeighbourSpreadTest {
  private static final int ROWS = 61;
  private static final int COLS = 83;
  private static final int SOURCE = 20 * COLS + 31;

  private static FloatGrid rough() {
    GridSpec spec = new GridSpec(ROWS, COLS, 3, 4, 0, 400, "");
    Random random = new Random(5);
    float[] cost = new float[spec.cells()];
    for (int i = 0; i < cost.length; i++) {
      int kind = random.nextInt(8);
      cost[i] =
          kind == 0 ? Float.POSITIVE_INFINITY : kind == 1 ? 0 : (float) Math.exp(random.nextInt(4));
    }
    cost[7] = Float.NaN;
    cost[SOURCE] = 1;
    return new FloatGrid(spec, cost);
  }

  private static double[] costs(FloatGrid grid, int side, int threads, int... sources) {
    NeighbourSpread spread =
        new NeighbourSpread(
            new Memory(),
            grid.spec(),
            Floats.of(grid.values()),
            Double.POSITIVE_INFINITY,
            side,
            sources);
    try (Workers workers = new Workers(threads)) {
      workers.all(Collections.nCopies(threads, () -> spread.work(Progress.NONE)));
    }
    double[] v = new double[grid.spec().cells()];
    for (int i = 0; i < v.length; i++) {
      v[i] = spread.cost(i);
    }
    return v;
  }

  @Test
  void agreesWithAGraphLibrary() {
    FloatGrid grid = rough();
    SimpleWeightedGraph<Integer, DefaultWeightedEdge> graph =
        new SimpleWeightedGraph<>(DefaultWeightedEdge.class);
    float[] cost = grid.values();
    for (int i = 0; i < cost.length; i++) {
      graph.addVertex(i);
    }
    int[][] forward = {{0, 1}, {1, -1}, {1, 0}, {1, 1}};
    for (int i = 0; i < cost.length; i++) {
      for (int[] d : forward) {
        int row = i / COLS + d[0];
        int col = i % COLS + d[1];
        double mean =
            grid.spec().holds(row, col) ? (cost[i] + (double) cost[row * COLS + col]) / 2 : -1;
        if (mean >= 0 && mean < Double.POSITIVE_INFINITY) {
          graph.setEdgeWeight(
              graph.addEdge(i, row * COLS + col), mean * Math.hypot(3 * d[1], 4 * d[0]));
        }
      }
    }
    var expected = new DijkstraShortestPath<>(graph).getPaths(SOURCE);
    double[] got = costs(grid, 16, 1, SOURCE);
    int reached = 0;
    for (int i = 0; i < got.length; i++) {
      double e = expected.getWeight(i);
      assertEquals(e, got[i], e < Double.POSITIVE_INFINITY ? 1e-12 * (1 + e) : 0, "cell " + i);
      reached += e < Double.POSITIVE_INFINITY ? 1 : 0;
    }
    assertTrue(reached > 3000, "reached " + reached);
  }

  @Test
  void tilesAndThreadsChangeNothing() {
    FloatGrid grid = rough();
    double[] whole = costs(grid, 128, 1, SOURCE, 3 * COLS + 80);
    for (int side : new int[] {1, 7, 16, 64}) {
      for (int threads = 1; threads <= 2; threads++) {
        double[] got = costs(grid, side, threads, SOURCE, 3 * COLS + 80);
        for (int i = 0; i < whole.length; i++) {
          assertEquals(whole[i], got[i], "side " + side + " cell " + i);
        }
      }
    }
  }
}

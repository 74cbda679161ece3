package org.scarpway.reach.clearance;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Bottleneck widths on random graphs against their definition. */
class WidestForestTest {
  private static final int NODES = 14;

  private final float[][] width = new float[NODES][NODES];

  private WidestForest graph(Random random) {
    WidestForest graph = new WidestForest();
    for (float[] row : width) {
      Arrays.fill(row, 0);
    }
    int edges = random.nextInt(40);
    for (int e = 0; e < edges; e++) {
      int a = random.nextInt(NODES);
      int b = random.nextInt(NODES);
      float w = 1 + random.nextInt(6);
      if (a != b) {
        graph.add(a, b, w);
        width[a][b] = width[b][a] = Math.max(width[a][b], w);
      }
    }
    return graph;
  }

  /** Widest paths between all pairs by trying every node on the way (Floyd-Warshall). */
  private static float[][] widest(float[][] edges) {
    int n = edges.length;
    float[][] w = new float[n][];
    for (int i = 0; i < n; i++) {
      w[i] = edges[i].clone();
    }
    for (int k = 0; k < n; k++) {
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          w[i][j] = Math.max(w[i][j], Math.min(w[i][k], w[k][j]));
        }
      }
    }
    return w;
  }

  @Test
  void widthsFromTheFirstNodeAreTheWidest() {
    Random random = new Random(1);
    for (int k = 0; k < 300; k++) {
      WidestForest graph = graph(random);
      float[] expected = widest(width)[0];
      expected[0] = 0;
      assertArrayEquals(expected, graph.widthsFromFirst(NODES), "graph " + k);
    }
  }

  @Test
  void contractionKeepsTheWidthsBetweenTerminals() {
    Random random = new Random(2);
    for (int k = 0; k < 300; k++) {
      WidestForest graph = graph(random);
      int[] terminal = new int[NODES];
      int[] node = new int[NODES];
      int terminals = 0;
      for (int i = 0; i < NODES; i++) {
        boolean is = random.nextInt(3) == 0;
        node[terminals] = i;
        terminal[i] = is ? terminals++ : -1;
      }
      WidestForest contracted = graph.between(terminal);
      assertTrue(contracted.edges() < Math.max(1, terminals));
      float[][] left = new float[terminals][terminals];
      for (int e = 0; e < contracted.edges(); e++) {
        int a = contracted.from(e);
        int b = contracted.to(e);
        left[a][b] = left[b][a] = contracted.widthM(e);
      }
      float[][] whole = widest(width);
      float[][] kept = widest(left);
      for (int a = 0; a < terminals; a++) {
        for (int b = 0; b < terminals; b++) {
          if (a != b) {
            assertEquals(whole[node[a]][node[b]], kept[a][b], "graph " + k);
          }
        }
      }
    }
  }
}

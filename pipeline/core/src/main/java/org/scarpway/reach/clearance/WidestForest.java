package org.scarpway.reach.clearance;

import java.util.Arrays;

/**
 * Graph of which only the maximum spanning forest matters (Kruskal 1956, <i>On the shortest
 * spanning subtree of a graph and the traveling salesman problem</i>, Proceedings of the American
 * Mathematical Society 7(1):48-50): the widest path between two nodes runs along it.
 */
final class WidestForest {
  /** Number of recent pairs of nodes of which only the widest edge is kept. */
  private static final int RECENT = 1 << 12;

  private final int[] recent = new int[RECENT];
  private int[] from = new int[1024];
  private int[] to = new int[1024];
  private float[] widthM = new float[1024];
  private int edges;

  // State of a pass over the edges, the widest first.
  private int[] root;
  private int rootA;
  private int rootB;

  /** Adds an edge between two different nodes. */
  void add(int a, int b, float width) {
    int low = Math.min(a, b);
    int high = Math.max(a, b);
    int slot = (low * 0x9E3779B1 + high * 0x85EBCA6B) >>> 20;
    int same = recent[slot] - 1;
    if (same >= 0 && from[same] == low && to[same] == high) {
      widthM[same] = Math.max(widthM[same], width);
      return;
    }
    if (edges == from.length) {
      from = Arrays.copyOf(from, 2 * edges);
      to = Arrays.copyOf(to, 2 * edges);
      widthM = Arrays.copyOf(widthM, 2 * edges);
    }
    from[edges] = low;
    to[edges] = high;
    widthM[edges] = width;
    recent[slot] = ++edges;
  }

  int edges() {
    return edges;
  }

  int from(int edge) {
    return from[edge];
  }

  int to(int edge) {
    return to[edge];
  }

  float widthM(int edge) {
    return widthM[edge];
  }

  /**
   * Width of the widest path from node 0 to every node, 0 where there is none.
   *
   * @param nodes number of nodes
   */
  float[] widthsFromFirst(int nodes) {
    float[] widest = new float[nodes];
    // Circular lists of the nodes of each component.
    int[] next = begin(nodes);
    int first = 0;
    for (long key : widestFirst()) {
      int e = (int) key;
      if (!unites(e)) {
        continue;
      }
      if (rootA == first || rootB == first) {
        // This edge is the narrowest on the widest path to all nodes of the other component.
        int other = rootA == first ? rootB : rootA;
        int node = other;
        do {
          widest[node] = widthM[e];
          node = next[node];
        } while (node != other);
        first = Math.min(rootA, rootB);
      }
      int after = next[rootA];
      next[rootA] = next[rootB];
      next[rootB] = after;
    }
    return widest;
  }

  /**
   * Contracts the forest: the widest paths between the terminals alone are as wide in the result.
   *
   * @param terminal per node its number in the result, or -1
   */
  WidestForest between(int[] terminal) {
    WidestForest contracted = new WidestForest();
    begin(terminal.length);
    int[] in = terminal.clone();
    for (long key : widestFirst()) {
      int e = (int) key;
      if (unites(e)) {
        int a = in[rootA];
        int b = in[rootB];
        if (a >= 0 && b >= 0) {
          contracted.add(a, b, widthM[e]);
        }
        in[Math.min(rootA, rootB)] = Math.max(a, b);
      }
    }
    return contracted;
  }

  /** Starts a pass; returns the nodes, each its own root. */
  private int[] begin(int nodes) {
    root = new int[nodes];
    for (int i = 0; i < nodes; i++) {
      root[i] = i;
    }
    return root.clone();
  }

  /** The edges as keys, the index in the lower half; the widest first, ties by index. */
  private long[] widestFirst() {
    long[] keys = new long[edges];
    for (int e = 0; e < edges; e++) {
      keys[e] = DiscOrder.key(e, widthM[e]);
    }
    Arrays.sort(keys);
    return keys;
  }

  /** Unites the components of an edge under the lower root; false if they are one already. */
  private boolean unites(int edge) {
    rootA = rootOf(from[edge]);
    rootB = rootOf(to[edge]);
    root[Math.max(rootA, rootB)] = Math.min(rootA, rootB);
    return rootA != rootB;
  }

  private int rootOf(int node) {
    int at = node;
    while (root[at] != at) {
      root[at] = root[root[at]];
      at = root[at];
    }
    return at;
  }
}

package org.scarpway.reach.corridor;

import java.util.Arrays;

/**
 * Computes a lower bound on the cost of any order of visits: the minimum spanning arborescence from
 * the first place, with a price on every edge out of a place. The prices are adjusted by
 * subgradient steps so that each place is left only once (Held &amp; Karp 1971, <i>The
 * traveling-salesman problem and minimum spanning trees: part II</i>, Math. Programming 1:6-25;
 * trees by Edmonds 1967, <i>Optimum branchings</i>, J. Res. NBS 71B:233-240). Every order is such
 * an arborescence, and the prices cancel in it, so the bound is valid for any prices.
 */
final class OrderBound {
  private static final int ROUNDS = 400;

  private OrderBound() {}

  /**
   * @param costs finite costs from row to column, first place first, last place last
   * @param known cost of any known order
   */
  static double of(double[][] costs, double known) {
    int n = costs.length;
    double[] price = new double[n];
    double[][] priced = new double[n][n];
    double best = Double.NEGATIVE_INFINITY;
    double stride = 1;
    int sinceBetter = 0;
    for (int round = 0; round < ROUNDS; round++) {
      double prices = 0;
      for (int i = 0; i < n; i++) {
        prices += price[i];
        for (int j = 0; j < n; j++) {
          boolean barred = i == j || j == 0 || i == n - 1 || (n > 2 && i == 0 && j == n - 1);
          priced[i][j] = barred ? Double.POSITIVE_INFINITY : costs[i][j] + price[i];
        }
      }
      int[] from = leastTree(priced);
      double bound = -prices;
      int[] left = new int[n];
      for (int j = 1; j < n; j++) {
        bound += priced[from[j]][j];
        left[from[j]]++;
      }
      if (bound > best) {
        best = bound;
        sinceBetter = 0;
      } else if (++sinceBetter == 10) {
        stride /= 2;
        sinceBetter = 0;
      }
      double norm = 0;
      for (int i = 0; i < n - 1; i++) {
        norm += (left[i] - 1.0) * (left[i] - 1.0);
      }
      if (norm == 0) {
        break;
      }
      double step = stride * Math.max(known - bound, 1e-6 * Math.abs(known)) / norm;
      for (int i = 0; i < n - 1; i++) {
        price[i] += step * (left[i] - 1);
      }
    }
    // Rounding must not raise the bound above the true minimum.
    return best - 1e-9 * Math.abs(best);
  }

  /**
   * For each place but the first, its predecessor in the minimum spanning arborescence from the
   * first.
   */
  static int[] leastTree(double[][] costs) {
    int n = costs.length;
    int[] from = new int[n];
    for (int j = 1; j < n; j++) {
      for (int i = 0; i < n; i++) {
        from[j] = costs[i][j] < costs[from[j]][j] ? i : from[j];
      }
    }
    int[] ring = ring(from);
    if (ring == null) {
      return from;
    }
    // The cycle is contracted to one place, the last; an edge that enters it replaces an edge of
    // the cycle.
    boolean[] inRing = new boolean[n];
    Arrays.stream(ring).forEach(v -> inRing[v] = true);
    int[] outside = new int[n - ring.length];
    int m = 0;
    for (int v = 0; v < n; v++) {
      if (!inRing[v]) {
        outside[m++] = v;
      }
    }
    double[][] small = new double[m + 1][m + 1];
    int[] entered = new int[m];
    int[] leftFrom = new int[m];
    small[m][m] = Double.POSITIVE_INFINITY;
    for (int a = 0; a < m; a++) {
      int v = outside[a];
      for (int b = 0; b < m; b++) {
        small[a][b] = costs[v][outside[b]];
      }
      small[a][m] = Double.POSITIVE_INFINITY;
      small[m][a] = Double.POSITIVE_INFINITY;
      entered[a] = ring[0];
      leftFrom[a] = ring[0];
      for (int r : ring) {
        double in = costs[v][r] - costs[from[r]][r];
        if (in < small[a][m]) {
          small[a][m] = in;
          entered[a] = r;
        }
        if (costs[r][v] < small[m][a]) {
          small[m][a] = costs[r][v];
          leftFrom[a] = r;
        }
      }
    }
    int[] tree = leastTree(small);
    int[] whole = from.clone();
    for (int b = 1; b < m; b++) {
      whole[outside[b]] = tree[b] == m ? leftFrom[b] : outside[tree[b]];
    }
    int into = tree[m];
    whole[entered[into]] = outside[into];
    return whole;
  }

  /** Places that form a cycle, or null. */
  private static int[] ring(int[] from) {
    int n = from.length;
    int[] seenBy = new int[n];
    for (int start = 1; start < n; start++) {
      int v = start;
      while (v != 0 && seenBy[v] == 0) {
        seenBy[v] = start;
        v = from[v];
      }
      if (v != 0 && seenBy[v] == start) {
        int[] ring = new int[n];
        int k = 0;
        int w = v;
        do {
          ring[k++] = w;
          w = from[w];
        } while (w != v);
        return Arrays.copyOf(ring, k);
      }
    }
    return null;
  }
}

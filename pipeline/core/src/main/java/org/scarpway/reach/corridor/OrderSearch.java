package org.scarpway.reach.corridor;

import java.util.Random;

/**
 * Computes a good order of visits by local search where there are too many places for the exact
 * solution: cheapest insertion of every place; then runs of places are moved, in either direction,
 * while that saves cost (Or 1976, <i>Traveling salesman-type combinatorial problems</i>, doctoral
 * thesis, Northwestern University), from several starts, each perturbed by exchanging two stretches
 * (Martin, Otto &amp; Felten 1991, <i>Large-step Markov chains for the traveling salesman
 * problem</i>, Complex Systems 5:299-326). The result is deterministic.
 */
final class OrderSearch {
  private static final int LONGEST_RUN = 10;
  private static final int LEAST_STARTS = 40;

  /** Search effort; small problems get more restarts, since each costs little. */
  private static final int EFFORT = 200_000;

  /** Exchanges per perturbation; a single one could be undone by moving a run. */
  private static final int KICKS = 3;

  private static final double LEAST_GAIN = 1e-9;

  /** Share by which a perturbed order may be worse than the current one and still replace it. */
  private static final double MOST_WORSE = 0.03;

  private final double[][] costs;
  private final int n;
  private int[] order;
  private final double[] there;
  private final double[] back;

  private OrderSearch(double[][] costs) {
    this.costs = costs;
    this.n = costs.length;
    this.there = new double[n];
    this.back = new double[n];
  }

  /**
   * @param costs finite costs from row to column, first place first, last place last
   */
  static int[] order(double[][] costs) {
    OrderSearch s = new OrderSearch(costs);
    s.insertAll();
    s.improve();
    int[] best = s.order;
    int[] here = best;
    Random random = new Random(costs.length);
    for (int i = 0; i < Math.max(LEAST_STARTS, EFFORT / (costs.length * costs.length)); i++) {
      s.order = here;
      for (int k = 0; k < KICKS; k++) {
        s.exchangeStretches(random);
      }
      s.improve();
      double cost = cost(costs, s.order);
      if (cost < cost(costs, here) * (1 + MOST_WORSE)) {
        here = s.order;
      }
      if (cost < cost(costs, best) * (1 - LEAST_GAIN)) {
        best = s.order;
      }
    }
    return best;
  }

  private void insertAll() {
    int[] made = {0, n - 1};
    boolean[] in = new boolean[n];
    while (made.length < n) {
      double least = Double.POSITIVE_INFINITY;
      int place = -1;
      int at = -1;
      for (int p = 1; p < n - 1; p++) {
        for (int k = 1; !in[p] && k < made.length; k++) {
          int a = made[k - 1];
          int b = made[k];
          double more = costs[a][p] + costs[p][b] - (made.length == 2 ? 0 : costs[a][b]);
          if (more < least) {
            least = more;
            place = p;
            at = k;
          }
        }
      }
      in[place] = true;
      int[] longer = new int[made.length + 1];
      System.arraycopy(made, 0, longer, 0, at);
      longer[at] = place;
      System.arraycopy(made, at, longer, at + 1, made.length - at);
      made = longer;
    }
    order = made;
  }

  private void improve() {
    while (moveOne()) {
      // Repeats until no move of a run saves cost.
    }
  }

  private boolean moveOne() {
    for (int k = 1; k < n; k++) {
      there[k] = there[k - 1] + costs[order[k - 1]][order[k]];
      back[k] = back[k - 1] + costs[order[k]][order[k - 1]];
    }
    double best = LEAST_GAIN * there[n - 1];
    int bestFrom = -1;
    int bestTo = -1;
    int bestAt = -1;
    boolean bestTurned = false;
    for (int i = 1; i < n - 1; i++) {
      for (int j = i; j < Math.min(n - 1, i + LONGEST_RUN); j++) {
        int before = order[i - 1];
        int after = order[j + 1];
        double freed = costs[before][order[i]] + costs[order[j]][after] - costs[before][after];
        double turning = back[j] - back[i] - (there[j] - there[i]);
        double inPlace =
            costs[before][order[i]]
                + costs[order[j]][after]
                - costs[before][order[j]]
                - costs[order[i]][after]
                - turning;
        if (inPlace > best) {
          best = inPlace;
          bestFrom = i;
          bestTo = j;
          bestAt = i;
          bestTurned = true;
        }
        // Position k: between order[k - 1] and order[k], outside the run.
        for (int k = 1; k < n; k++) {
          if (k >= i && k <= j + 1) {
            continue;
          }
          int a = order[k - 1];
          int b = order[k];
          double straight = freed + costs[a][b] - costs[a][order[i]] - costs[order[j]][b];
          double turned = freed + costs[a][b] - costs[a][order[j]] - costs[order[i]][b] - turning;
          if (Math.max(straight, turned) > best) {
            best = Math.max(straight, turned);
            bestFrom = i;
            bestTo = j;
            bestAt = k;
            bestTurned = turned > straight;
          }
        }
      }
    }
    if (bestFrom < 0) {
      return false;
    }
    move(bestFrom, bestTo, bestAt, bestTurned);
    return true;
  }

  private void move(int from, int to, int at, boolean turned) {
    int[] moved = new int[n];
    int m = 0;
    for (int k = 0; k < n; k++) {
      if (k == at) {
        for (int r = 0; r <= to - from; r++) {
          moved[m++] = order[turned ? to - r : from + r];
        }
      }
      if (k < from || k > to) {
        moved[m++] = order[k];
      }
    }
    order = moved;
  }

  /** Exchanges two neighbouring stretches of random length. */
  private void exchangeStretches(Random random) {
    int a = 1 + random.nextInt(n - 1);
    int b = 1 + random.nextInt(n - 1);
    int c = 1 + random.nextInt(n - 1);
    int low = Math.min(a, Math.min(b, c));
    int high = Math.max(a, Math.max(b, c));
    int middle = a + b + c - low - high;
    int[] changed = order.clone();
    int m = low;
    for (int k = middle; k < high; k++) {
      changed[m++] = order[k];
    }
    for (int k = low; k < middle; k++) {
      changed[m++] = order[k];
    }
    order = changed;
  }

  /** Cost of an order, from the first place to the last. */
  static double cost(double[][] costs, int[] order) {
    double sum = 0;
    for (int i = 1; i < order.length; i++) {
      sum += costs[order[i - 1]][order[i]];
    }
    return sum;
  }
}

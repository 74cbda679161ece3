package org.scarpway.reach.corridor;

import java.util.Arrays;

/**
 * Computes the order in which to visit places (asymmetric travelling salesman path with given first
 * and last place). With up to {@value #MOST_EXACT} places between them the order is optimal (Held
 * &amp; Karp 1962, <i>A dynamic programming approach to sequencing problems</i>, J. SIAM
 * 10(1):196-210); with more it is a good one ({@link OrderSearch}) with a proven lower bound
 * ({@link OrderBound}).
 */
final class VisitOrder {
  static final int MOST_EXACT = 15;

  /** Factor for the finite cost that stands for a missing path. */
  private static final double FAR_APART = 1e6;

  private final int[] order;
  private final double cost;
  private final double atLeast;

  private VisitOrder(int[] order, double cost, double atLeast) {
    this.order = order;
    this.cost = cost;
    this.atLeast = atLeast;
  }

  /** Indices of the places in the order of travel; index 0 comes first, the last index last. */
  int[] order() {
    return order;
  }

  /** Cost of that order. */
  double cost() {
    return cost;
  }

  /** Lower bound on the cost of any order; equal to the cost if the order is proven optimal. */
  double atLeast() {
    return atLeast;
  }

  /**
   * @param costs costs from row to column, infinite where there is no path; first place first, last
   *     place last
   * @return the order, null if none was found
   */
  static VisitOrder of(double[][] costs) {
    int between = costs.length - 2;
    double[][] finite = finite(costs);
    VisitOrder best;
    if (between <= MOST_EXACT) {
      best = exact(finite);
    } else {
      int[] order = OrderSearch.order(finite);
      double cost = OrderSearch.cost(finite, order);
      best = new VisitOrder(order, cost, Math.min(cost, OrderBound.of(finite, cost)));
    }
    return OrderSearch.cost(costs, best.order) < Double.POSITIVE_INFINITY ? best : null;
  }

  /** Upper bound on the excess of the cost over the optimum (%). */
  double gapPct() {
    return cost > atLeast ? 100 * (cost / atLeast - 1) : 0;
  }

  /** Replaces missing paths by a cost above that of any order of existing paths. */
  private static double[][] finite(double[][] costs) {
    double most = 0;
    for (double[] row : costs) {
      for (double c : row) {
        most = c < Double.POSITIVE_INFINITY ? Math.max(most, c) : most;
      }
    }
    double[][] finite = new double[costs.length][];
    double far = FAR_APART * Math.max(most, 1e-6);
    for (int i = 0; i < costs.length; i++) {
      finite[i] = Arrays.stream(costs[i]).map(c -> Math.min(c, far)).toArray();
    }
    return finite;
  }

  private static VisitOrder exact(double[][] costs) {
    int m = costs.length - 2;
    int last = costs.length - 1;
    if (m == 0) {
      return new VisitOrder(new int[] {0, 1}, costs[0][1], costs[0][1]);
    }
    int sets = 1 << m;
    // Least cost from the first place through a set of the others to its member j.
    double[] least = new double[sets * m];
    byte[] from = new byte[sets * m];
    Arrays.fill(least, Double.POSITIVE_INFINITY);
    for (int j = 0; j < m; j++) {
      least[(1 << j) * m + j] = costs[0][j + 1];
    }
    for (int set = 1; set < sets; set++) {
      for (int i = 0; i < m; i++) {
        double before = least[set * m + i];
        for (int j = 0; j < m && before < Double.POSITIVE_INFINITY; j++) {
          int to = (set | 1 << j) * m + j;
          double c = before + costs[i + 1][j + 1];
          if ((set >>> j & 1) == 0 && c < least[to]) {
            least[to] = c;
            from[to] = (byte) i;
          }
        }
      }
    }
    int all = sets - 1;
    int at = 0;
    for (int j = 1; j < m; j++) {
      if (least[all * m + j] + costs[j + 1][last] < least[all * m + at] + costs[at + 1][last]) {
        at = j;
      }
    }
    int[] order = new int[m + 2];
    order[m + 1] = last;
    for (int k = m, set = all; k > 0; k--) {
      order[k] = at + 1;
      int before = from[set * m + at];
      set &= ~(1 << at);
      at = before;
    }
    double cost = OrderSearch.cost(costs, order);
    return new VisitOrder(order, cost, cost);
  }
}

package org.scarpway.reach.corridor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** Orders against every permutation, bounds against best orders. */
class VisitOrderTest {

  /** Least cost over every order, none left out. */
  private static double leastOfAll(double[][] c, int at, int left) {
    if (left == 0) {
      return c[at][c.length - 1];
    }
    double least = Double.POSITIVE_INFINITY;
    for (int j = 1; j < c.length - 1; j++) {
      if ((left >>> j & 1) != 0) {
        least = Math.min(least, c[at][j] + leastOfAll(c, j, left & ~(1 << j)));
      }
    }
    return least;
  }

  private static double leastOfAll(double[][] c) {
    return leastOfAll(c, 0, (1 << (c.length - 1)) - 2);
  }

  private static double[][] random(Random random, int n) {
    double[][] c = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        c[i][j] = i == j ? 0 : 1 + 99 * random.nextDouble();
      }
    }
    return c;
  }

  /** Points on a hillside: going up costs more than coming down. */
  private static double[][] hillside(Random random, int n) {
    double[][] p = new double[n][2];
    for (double[] q : p) {
      q[0] = random.nextDouble();
      q[1] = random.nextDouble();
    }
    p[n - 1] = p[0];
    double[][] c = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        double up = p[j][1] - p[i][1];
        c[i][j] = Math.hypot(p[j][0] - p[i][0], up) + Math.max(0, up) * 0.5;
      }
    }
    return c;
  }

  @Test
  void bestOfAllOrders() {
    Random random = new Random(5);
    for (int n = 2; n <= 9; n++) {
      for (int k = 0; k < 20; k++) {
        double[][] c = k % 2 == 0 ? random(random, n) : hillside(random, n);
        VisitOrder best = VisitOrder.of(c);
        assertEquals(leastOfAll(c), best.cost(), 1e-9);
        assertEquals(best.cost(), OrderSearch.cost(c, best.order()), 0);
        assertEquals(0, best.gapPct());
        assertEquals(n, java.util.Arrays.stream(best.order()).distinct().count());
        assertEquals(0, best.order()[0]);
        assertEquals(n - 1, best.order()[n - 1]);
      }
    }
  }

  @Test
  void boundNeverExceedsTheBestAndComesCloseToIt() {
    Random random = new Random(6);
    double worst = 0;
    for (int k = 0; k < 30; k++) {
      double[][] c = k % 2 == 0 ? random(random, 14) : hillside(random, 14);
      double best = VisitOrder.of(c).cost();
      double bound = OrderBound.of(c, best);
      assertTrue(bound <= best, bound + " over " + best);
      worst = Math.max(worst, 1 - bound / best);
    }
    assertTrue(worst < 0.08, "bound up to " + 100 * worst + " % under the best order");
  }

  @Test
  void searchFindsTheBestOfMiddlingManyPlaces() {
    Random random = new Random(7);
    int best = 0;
    for (int k = 0; k < 20; k++) {
      double[][] c = k % 2 == 0 ? random(random, 15) : hillside(random, 15);
      double exact = VisitOrder.of(c).cost();
      double found = OrderSearch.cost(c, OrderSearch.order(c));
      assertTrue(found >= exact * (1 - 1e-12));
      assertTrue(found <= exact * 1.05, found + " for " + exact);
      best += found <= exact * (1 + 1e-9) ? 1 : 0;
    }
    assertTrue(best >= 16, best + " of 20");
  }

  @Test
  void manyPlacesComeWithAProvenGap() {
    Random random = new Random(8);
    for (int n : new int[] {20, 40, 80}) {
      double[][] c = hillside(random, n);
      VisitOrder found = VisitOrder.of(c);
      assertEquals(n, java.util.Arrays.stream(found.order()).distinct().count());
      assertTrue(found.atLeast() <= found.cost());
      assertTrue(found.gapPct() < 6, n + " places: " + found.gapPct() + " %");
    }
  }

  @Test
  void leastTreeIsTheLeastOfAllTrees() {
    Random random = new Random(9);
    for (int k = 0; k < 200; k++) {
      int n = 2 + k % 5;
      double[][] c = random(random, n);
      int[] from = OrderBound.leastTree(c);
      double cost = 0;
      for (int j = 1; j < n; j++) {
        cost += c[from[j]][j];
        assertTrue(leads(from, j));
      }
      int[] try_ = new int[n];
      double least = Double.POSITIVE_INFINITY;
      for (int code = 0; code < Math.pow(n, n - 1); code++) {
        double sum = 0;
        int rest = code;
        boolean sound = true;
        for (int j = 1; j < n; j++) {
          try_[j] = rest % n;
          rest /= n;
          sound &= try_[j] != j;
          sum += c[try_[j]][j];
        }
        for (int j = 1; sound && j < n; j++) {
          sound = leads(try_, j);
        }
        least = sound ? Math.min(least, sum) : least;
      }
      assertEquals(least, cost, 1e-9);
    }
  }

  private static boolean leads(int[] from, int j) {
    for (int steps = 0; j != 0; steps++) {
      if (steps > from.length) {
        return false;
      }
      j = from[j];
    }
    return true;
  }

  @Test
  void missingWaysAreNotTaken() {
    double inf = Double.POSITIVE_INFINITY;
    // 1 cannot be left towards 3, the last: it must come first although that is dear.
    double[][] c = {{0, 9, 1, 1}, {1, 0, 9, inf}, {1, 1, 0, 9}, {0, 0, 0, 0}};
    assertEquals(27, VisitOrder.of(c).cost());
    double[][] none = {{0, inf, 1, 1}, {1, 0, 9, 1}, {1, inf, 0, 9}, {0, 0, 0, 0}};
    assertNull(VisitOrder.of(none));
  }
}

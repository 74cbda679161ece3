package org.scarpway.reach.front;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import org.scarpway.grid.GridSpec;

/**
 * Least-cost path from a cell to the nearest source over straight lines of up to {@value #LONGEST}
 * cells, found by a best-first search that the labels guide (A*: Hart, Nilsson, Raphael 1968, <i>A
 * formal basis for the heuristic determination of minimum cost paths</i>, IEEE Trans. Syst. Sci.
 * Cybern. 4(2):100-107). It is for costs that jump with the direction: the steps of the front lead
 * in 16 directions between cells, these lines in 224.
 */
final class LineSearch {
  private static final int LONGEST = 9;

  /** The search is given up after so many cells. */
  private static final int MOST_CELLS = 100_000;

  private static final int[] D_ROW;
  private static final int[] D_COL;

  static {
    List<int[]> lines = new ArrayList<>();
    for (int row = -LONGEST; row <= LONGEST; row++) {
      for (int col = -LONGEST; col <= LONGEST; col++) {
        if (divisor(Math.abs(row), Math.abs(col)) == 1) {
          lines.add(new int[] {row, col});
        }
      }
    }
    D_ROW = lines.stream().mapToInt(l -> l[0]).toArray();
    D_COL = lines.stream().mapToInt(l -> l[1]).toArray();
  }

  private static int divisor(int a, int b) {
    return b == 0 ? a : divisor(b, a % b);
  }

  /** Cost of the straight line between two cells, infinite if it may not be used. */
  interface LineCost {
    double of(int from, int to);
  }

  private record Reached(double total, double cost, int cell) {}

  /** The cell from which another is reached, and the cost so far. */
  private record Before(double cost, int cell) {}

  private LineSearch() {}

  /**
   * @return the corners from the cell to a source; empty if no path is found
   */
  static int[] toSource(CostField labels, int start, LineCost cost) {
    GridSpec spec = labels.costs().field().spec();
    PriorityQueue<Reached> queue =
        new PriorityQueue<>(
            Comparator.comparingDouble(Reached::total).thenComparingInt(Reached::cell));
    Map<Integer, Before> best = new HashMap<>();
    best.put(start, new Before(0, start));
    queue.add(new Reached(labels.value(start), 0, start));
    for (int n = 0; n < MOST_CELLS && !queue.isEmpty(); n++) {
      Reached at = queue.remove();
      if (at.cost > best.get(at.cell).cost) {
        continue;
      }
      if (labels.value(at.cell) == 0) {
        return back(best, start, at.cell);
      }
      int row = at.cell / spec.cols();
      int col = at.cell % spec.cols();
      for (int k = 0; k < D_ROW.length; k++) {
        int to = at.cell + D_ROW[k] * spec.cols() + D_COL[k];
        if (spec.holds(row + D_ROW[k], col + D_COL[k]) && labels.reached(to)) {
          double there = at.cost + cost.of(at.cell, to);
          Before known = best.get(to);
          if (there < (known == null ? Double.POSITIVE_INFINITY : known.cost)) {
            best.put(to, new Before(there, at.cell));
            queue.add(new Reached(there + labels.value(to), there, to));
          }
        }
      }
    }
    return new int[0];
  }

  private static int[] back(Map<Integer, Before> best, int start, int source) {
    List<Integer> way = new ArrayList<>();
    for (int cell = source; cell != start; cell = best.get(cell).cell) {
      way.add(0, cell);
    }
    way.add(0, start);
    return way.stream().mapToInt(Integer::intValue).toArray();
  }
}

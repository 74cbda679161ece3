package org.scarpway.reach.trip;

import java.util.BitSet;
import java.util.PriorityQueue;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.TraversalCost;

/**
 * What a crew must have for coming home after a stop so that a way leads to a place: the least,
 * over all ways by neighbouring cells, of the largest amount in a cell of the way (a minimum
 * bottleneck path, found in the order of Dijkstra 1959). Barred headings do not count.
 */
final class NeededOnTheWay {
  private NeededOnTheWay() {}

  private record Cell(float amount, int index) implements Comparable<Cell> {
    @Override
    public int compareTo(Cell other) {
      int byAmount = Float.compare(amount, other.amount);
      return byAmount != 0 ? byAmount : Integer.compare(index, other.index);
    }
  }

  /**
   * Returns an amount, infinite if no way keeps to ground from which anybody comes home.
   *
   * @param amounts what coming home from every cell needs; NaN where nobody comes home
   */
  static double to(int place, int base, TraversalCost open, Floats amounts) {
    GridSpec spec = open.spec();
    BitSet seen = new BitSet();
    PriorityQueue<Cell> queue = new PriorityQueue<>();
    queue.add(new Cell(0, base));
    seen.set(base);
    while (!queue.isEmpty()) {
      Cell at = queue.poll();
      if (at.index == place) {
        return at.amount;
      }
      int row = at.index / spec.cols();
      int col = at.index % spec.cols();
      for (int r = Math.max(0, row - 1); r <= Math.min(spec.rows() - 1, row + 1); r++) {
        for (int c = Math.max(0, col - 1); c <= Math.min(spec.cols() - 1, col + 1); c++) {
          int cell = r * spec.cols() + c;
          float s = amounts.get(cell);
          if (!seen.get(cell) && !Float.isNaN(s) && open.allowed(cell) != 0) {
            seen.set(cell);
            queue.add(new Cell(Math.max(s, at.amount), cell));
          }
        }
      }
    }
    return Double.POSITIVE_INFINITY;
  }
}

package org.scarpway.reach.trip;

import java.util.BitSet;
import java.util.PriorityQueue;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.TraversalCost;

/**
 * The longest walk home that a crew must be able to make so that a way leads to a place: the least,
 * over all ways by neighbouring cells, of the longest walk from a cell of the way (a minimum
 * bottleneck path, found in the order of Dijkstra 1959). Barred headings do not count.
 */
final class WalkNeeded {
  private WalkNeeded() {}

  private record Cell(float walkS, int index) implements Comparable<Cell> {
    @Override
    public int compareTo(Cell other) {
      int byWalk = Float.compare(walkS, other.walkS);
      return byWalk != 0 ? byWalk : Integer.compare(index, other.index);
    }
  }

  /**
   * Returns a time (s), infinite if no way keeps to ground that is joined on foot.
   *
   * @param walkS walk home from every cell, however long (s); NaN where there is none
   */
  static double to(int place, int base, TraversalCost open, Floats walkS) {
    GridSpec spec = open.spec();
    BitSet seen = new BitSet();
    PriorityQueue<Cell> queue = new PriorityQueue<>();
    queue.add(new Cell(walkS.get(base), base));
    seen.set(base);
    while (!queue.isEmpty()) {
      Cell at = queue.poll();
      if (at.index == place) {
        return at.walkS;
      }
      int row = at.index / spec.cols();
      int col = at.index % spec.cols();
      for (int r = Math.max(0, row - 1); r <= Math.min(spec.rows() - 1, row + 1); r++) {
        for (int c = Math.max(0, col - 1); c <= Math.min(spec.cols() - 1, col + 1); c++) {
          int cell = r * spec.cols() + c;
          float s = walkS.get(cell);
          if (!seen.get(cell) && !Float.isNaN(s) && open.allowed(cell) != 0) {
            seen.set(cell);
            queue.add(new Cell(Math.max(s, at.walkS), cell));
          }
        }
      }
    }
    return Double.POSITIVE_INFINITY;
  }
}

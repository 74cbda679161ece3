package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WhyNot.Crossing;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.TraversalCost;

/**
 * The way between reached ground and a place that crosses least closed ground, over steps between
 * neighbouring cells (Dijkstra 1959): half of a step counts for each closed cell at its ends.
 * Barred headings do not count, so that a vehicle may need more than that ground.
 */
final class ClosedCrossing {
  private final GridSpec spec;
  private final TraversalCost open;
  private final ByteGrid limit;
  private final BitSet reached;
  private final BitSet onFoot;

  /**
   * @param reached cells that are surely reached
   * @param onFoot cells that are joined on foot to a place of safety, others are closed too; null
   *     by rules without a walk
   */
  ClosedCrossing(TraversalInput ground, BitSet reached, BitSet onFoot) {
    this.onFoot = onFoot;
    this.open = ground.field();
    this.spec = open.spec();
    this.limit = ground.limit();
    this.reached = reached;
  }

  private record Step(double closedM, int cell) implements Comparable<Step> {
    @Override
    public int compareTo(Step other) {
      int byLength = Double.compare(closedM, other.closedM);
      return byLength != 0 ? byLength : Integer.compare(cell, other.cell);
    }
  }

  /** Returns null if nothing is reached, or if no closed ground parts the place from it. */
  Crossing from(int place) {
    if (reached.isEmpty()) {
      return null;
    }
    Map<Integer, Integer> before = new HashMap<>();
    Map<Integer, Double> least = new HashMap<>();
    BitSet done = new BitSet();
    PriorityQueue<Step> queue = new PriorityQueue<>();
    queue.add(new Step(0, place));
    least.put(place, 0.0);
    while (!queue.isEmpty()) {
      Step at = queue.poll();
      if (reached.get(at.cell)) {
        return crossing(at, before);
      }
      if (done.get(at.cell)) {
        continue;
      }
      done.set(at.cell);
      int row = at.cell / spec.cols();
      int col = at.cell % spec.cols();
      for (int r = Math.max(0, row - 1); r <= Math.min(spec.rows() - 1, row + 1); r++) {
        for (int c = Math.max(0, col - 1); c <= Math.min(spec.cols() - 1, col + 1); c++) {
          int cell = r * spec.cols() + c;
          double halfM = 0.5 * Math.hypot((r - row) * spec.cellYM(), (c - col) * spec.cellXM());
          double closedM = at.closedM + halfM * (closed(cell) + closed(at.cell));
          Double known = least.get(cell);
          if (!done.get(cell) && (known == null || closedM < known)) {
            least.put(cell, closedM);
            before.put(cell, at.cell);
            queue.add(new Step(closedM, cell));
          }
        }
      }
    }
    return null;
  }

  private int closed(int cell) {
    return open.allowed(cell) == 0 || unwalked(cell) ? 1 : 0;
  }

  private boolean unwalked(int cell) {
    return onFoot != null && !onFoot.get(cell);
  }

  private Crossing crossing(Step end, Map<Integer, Integer> before) {
    List<Integer> cells = new ArrayList<>();
    for (Integer cell = end.cell; cell != null; cell = before.get(cell)) {
      if (closed(cell) == 1) {
        cells.add(cell);
      }
    }
    if (cells.isEmpty()) {
      return null;
    }
    int first = cells.get(0);
    return new Crossing(
        spec.xM(first % spec.cols()),
        spec.yM(first / spec.cols()),
        end.closedM,
        limits(cells),
        cells);
  }

  private List<String> limits(List<Integer> cells) {
    int[] count = new int[256];
    boolean walks = false;
    for (int cell : cells) {
      if (open.allowed(cell) == 0) {
        count[limit == null ? 0 : limit.values()[cell] & 0xFF]++;
      } else {
        walks = true;
      }
    }
    List<String> all = new ArrayList<>();
    if (walks) {
      all.add(ReachEnd.NO_WAY_ON_FOOT.label());
    }
    Arrays.stream(Limit.values())
        .filter(l -> count[l.code()] > 0)
        .sorted(Comparator.comparingInt(l -> -count[l.code()]))
        .map(Limit::label)
        .forEach(all::add);
    return all;
  }
}

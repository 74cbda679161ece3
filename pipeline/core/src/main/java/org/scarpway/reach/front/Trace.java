package org.scarpway.reach.front;

import java.util.Arrays;
import java.util.function.IntPredicate;
import org.scarpway.grid.GridSpec;

/**
 * Traces a drivable path from a cell to its source as straight lines between cell centres; every
 * line uses only allowed cells and headings, or tacking. The step codes of the front are followed,
 * each to the cheaper end of its edge, by which labels are backed ({@link Stencil#gain}); there is
 * therefore a path wherever there is a label. Then stretches that cost more than a straight line
 * are replaced by it, by dynamic programming over windows, and corners are moved while that lowers
 * the cost.
 */
public final class Trace {
  private static final int WINDOW = 48;
  private static final int MOST_ROUNDS = 24;
  private static final double LEAST_GAIN = 1e-5;

  /** Lines of fewer cells get no additional corner. */
  private static final int SHORTEST = 8;

  private final GridSpec spec;
  private final CostField labels;
  private final Costs costs;
  private final Line line;
  private final IntPredicate keepsTo;
  private int[] way = new int[256];
  private int n;
  private double cost;

  private Trace(CostField labels, IntPredicate keepsTo) {
    this.labels = labels;
    this.keepsTo = keepsTo;
    this.costs = labels.costs();
    this.spec = costs.field().spec();
    this.line = new Line(spec);
  }

  /** Corners of the path, from the given cell to the source. */
  public int[] cells() {
    return Arrays.copyOf(way, n);
  }

  /** Cost of the path, summed over its lines, in the quantity of the front (energy: reduced). */
  public double cost() {
    return cost;
  }

  /** How thoroughly a path is simplified to few straight lines. */
  public enum Drawn {
    ONCE,
    AS_STRAIGHT_AS_CAN_BE,
    FROM_STEP_TO_STEP,

    /** From the lines of a {@link LineSearch}, where one finds a path. */
    SEARCHED
  }

  /**
   * @param cell start of the path; must be reached
   */
  public static Trace toSource(CostField labels, int cell) {
    return toSource(labels, cell, c -> true, Drawn.AS_STRAIGHT_AS_CAN_BE);
  }

  /**
   * @param keepsTo cells that lines may cross where they replace steps of the front
   */
  public static Trace toSource(CostField labels, int cell, IntPredicate keepsTo, Drawn drawn) {
    Trace trace = new Trace(labels, keepsTo);
    trace.follow(cell);
    if (drawn == Drawn.FROM_STEP_TO_STEP) {
      return trace;
    }
    if (drawn == Drawn.SEARCHED) {
      trace.search(cell);
    }
    trace.straighten();
    if (drawn != Drawn.AS_STRAIGHT_AS_CAN_BE) {
      return trace;
    }
    double before = Double.POSITIVE_INFINITY;
    for (int i = 0; i < MOST_ROUNDS && trace.cost < before * (1 - LEAST_GAIN); i++) {
      before = trace.cost;
      trace.addCorners();
      trace.moveCorners();
      trace.straighten();
    }
    return trace;
  }

  private void follow(int start) {
    int cell = start;
    while (true) {
      add(cell);
      int code = labels.stepAt(cell);
      if (code == Stencil.STRAIGHT) {
        int source = labels.straightSource(cell, line);
        if (source != cell) {
          add(source);
        }
        return;
      }
      Stencil stencil = labels.stencil();
      int first = stencil.first(cell, code);
      if (Stencil.toCell(code, 0) == code) {
        cell = first;
        continue;
      }
      int second = stencil.second(cell, code);
      int end = stencil.throughEnd(costs, cell, code, labels.value(first), labels.value(second));
      cell = end == 0 ? first : second;
    }
  }

  private void search(int start) {
    int[] found = LineSearch.toSource(labels, start, this::cost);
    if (found.length > 0) {
      way = found;
      n = found.length;
    }
  }

  private void add(int cell) {
    if (n == way.length) {
      way = Arrays.copyOf(way, 2 * n);
    }
    way[n++] = cell;
  }

  private double cost(int from, int to) {
    if (from == to) {
      return 0;
    }
    double cost = line.between(from, to).cost(costs);
    for (int i = 0; cost < Double.POSITIVE_INFINITY && i < line.count(); i++) {
      cost = keepsTo.test(line.cell(i)) ? cost : Double.POSITIVE_INFINITY;
    }
    return cost;
  }

  private void straighten() {
    double[] best = new double[n];
    int[] from = new int[n];
    for (int j = 1; j < n; j++) {
      // The original step, kept if nothing better is found.
      best[j] = best[j - 1] + line.between(way[j - 1], way[j]).cost(costs);
      from[j] = j - 1;
      for (int i = j - 2; i >= Math.max(0, j - WINDOW); i--) {
        if (best[i] < best[j]) {
          double v = best[i] + cost(way[i], way[j]);
          if (v <= best[j]) {
            best[j] = v;
            from[j] = i;
          }
        }
      }
    }
    cost = best[n - 1];
    int corners = 1;
    for (int j = n - 1; j > 0; j = from[j]) {
      corners++;
    }
    int last = n - 1;
    n = corners;
    int[] kept = new int[corners];
    for (int j = last; corners > 1; j = from[j]) {
      kept[--corners] = way[j];
    }
    kept[0] = way[0];
    way = kept;
  }

  /** Adds a corner in the middle of each long line. */
  private void addCorners() {
    int[] corners = cells();
    n = 0;
    for (int i = 0; i < corners.length; i++) {
      if (i > 0) {
        int row = corners[i - 1] / spec.cols() + corners[i] / spec.cols();
        int col = corners[i - 1] % spec.cols() + corners[i] % spec.cols();
        int dr = corners[i] / spec.cols() - corners[i - 1] / spec.cols();
        int dc = corners[i] % spec.cols() - corners[i - 1] % spec.cols();
        int middle = row / 2 * spec.cols() + col / 2;
        if (Math.max(Math.abs(dr), Math.abs(dc)) >= SHORTEST
            && cost(corners[i - 1], middle) + cost(middle, corners[i]) < Double.POSITIVE_INFINITY) {
          add(middle);
        }
      }
      add(corners[i]);
    }
  }

  /** Moves each corner to the best of the surrounding cells. */
  private void moveCorners() {
    for (int i = 1; i + 1 < n; i++) {
      double least = cost(way[i - 1], way[i]) + cost(way[i], way[i + 1]);
      int row = way[i] / spec.cols();
      int col = way[i] % spec.cols();
      for (int r = row - 1; r <= row + 1; r++) {
        for (int c = col - 1; c <= col + 1; c++) {
          int to = r * spec.cols() + c;
          if (spec.holds(r, c) && labels.reached(to)) {
            double v = cost(way[i - 1], to) + cost(to, way[i + 1]);
            if (v < least) {
              least = v;
              way[i] = to;
            }
          }
        }
      }
    }
  }
}

package org.scarpway.reach;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;

/**
 * A real way from a cell to its source as straight lines between cell centres, every line through
 * allowed cells only. The steps that the front left behind are followed to the nearer cell each;
 * then every stretch of them that a straight line beats is replaced by it, by dynamic programming
 * over windows.
 */
final class Trace {
  private static final int WINDOW = 48;

  private final int[] cells;
  private final double cost;

  private Trace(int[] cells, double cost) {
    this.cells = cells;
    this.cost = cost;
  }

  /** Corners of the way, the asked cell first, the source last. */
  int[] cells() {
    return cells;
  }

  /** What the way costs, line by line, in the quantity of the front (energy: reduced). */
  double cost() {
    return cost;
  }

  /**
   * @param cell must be reached
   */
  static Trace toSource(Labels labels, int cell) {
    Line line = new Line(labels.costs().field().spec());
    return straighten(follow(labels, cell, line), labels.costs(), line);
  }

  private static int[] follow(Labels labels, int start, Line line) {
    int[] way = new int[256];
    int n = 0;
    int cell = start;
    while (true) {
      if (n + 2 > way.length) {
        way = Arrays.copyOf(way, 2 * n);
      }
      way[n++] = cell;
      int code = labels.stepAt(cell);
      if (code == Labels.STRAIGHT) {
        int source = labels.straightSource(cell, line);
        if (source != cell) {
          way[n++] = source;
        }
        return Arrays.copyOf(way, n);
      }
      int next = next(labels, cell, code);
      cell = next >= 0 ? next : onward(labels, cell, line);
    }
  }

  /** Cell that the step leads to, or to the side of which; -1 where neither side can be reached. */
  private static int next(Labels labels, int cell, int code) {
    Stencil stencil = labels.stencil();
    double share = Stencil.share(code);
    int a = stencil.first(cell, code);
    if (share == 0) {
      return a;
    }
    int b = stencil.second(cell, code);
    double viaA = labels.value(a) + stencil.cost(labels.costs(), cell, Stencil.toCell(code, 0));
    double viaB = labels.value(b) + stencil.cost(labels.costs(), cell, Stencil.toCell(code, 1));
    if (viaA == Double.POSITIVE_INFINITY && viaB == Double.POSITIVE_INFINITY) {
      return -1;
    }
    boolean nearerA = share < 0.5;
    if (viaA == Double.POSITIVE_INFINITY || viaB == Double.POSITIVE_INFINITY) {
      return viaA < viaB ? a : b;
    }
    return nearerA ? a : b;
  }

  /**
   * Cell nearer to the source by the best straight line, for a step that ends between two cells of
   * which neither can be reached: where allowed headings change from cell to cell. The nearest ring
   * that has one is taken.
   */
  private static int onward(Labels labels, int cell, Line line) {
    GridSpec spec = labels.costs().field().spec();
    int row = cell / spec.cols();
    int col = cell % spec.cols();
    for (int ring = 1; ring <= WINDOW; ring++) {
      int best = -1;
      double least = Double.POSITIVE_INFINITY;
      for (int r = row - ring; r <= row + ring; r++) {
        boolean whole = Math.abs(r - row) == ring;
        for (int c = col - ring; c <= col + ring; c += whole ? 1 : 2 * ring) {
          int to = r * spec.cols() + c;
          if (spec.holds(r, c) && labels.value(to) < labels.value(cell)) {
            double cost = labels.value(to) + line.between(cell, to).cost(labels.costs());
            if (cost < least) {
              least = cost;
              best = to;
            }
          }
        }
      }
      if (best >= 0) {
        return best;
      }
    }
    throw new IllegalStateException("no straight way leads on from cell " + cell);
  }

  private static Trace straighten(int[] way, Costs costs, Line line) {
    double[] best = new double[way.length];
    int[] from = new int[way.length];
    for (int j = 1; j < way.length; j++) {
      best[j] = Double.POSITIVE_INFINITY;
      for (int i = j - 1; i >= Math.max(0, j - WINDOW); i--) {
        if (best[i] < best[j]) {
          double v = best[i] + line.between(way[i], way[j]).cost(costs);
          if (v < best[j]) {
            best[j] = v;
            from[j] = i;
          }
        }
      }
    }
    int n = 1;
    for (int j = way.length - 1; j > 0; j = from[j]) {
      n++;
    }
    int[] corners = new int[n];
    for (int j = way.length - 1; n > 0; j = from[j]) {
      corners[--n] = way[j];
    }
    return new Trace(corners, best[way.length - 1]);
  }
}

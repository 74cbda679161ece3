package org.scarpway.reach;

import java.util.Arrays;

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
      cell = next(labels, cell, code);
    }
  }

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
      throw new IllegalStateException("no step from cell " + cell + " ends on a cell");
    }
    boolean nearerA = share < 0.5;
    if (viaA == Double.POSITIVE_INFINITY || viaB == Double.POSITIVE_INFINITY) {
      return viaA < viaB ? a : b;
    }
    return nearerA ? a : b;
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

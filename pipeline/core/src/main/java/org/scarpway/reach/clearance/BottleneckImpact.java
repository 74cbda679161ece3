package org.scarpway.reach.clearance;

import java.util.Arrays;
import java.util.BitSet;
import org.scarpway.grid.GridSpec;
import org.scarpway.vehicle.TraversalCost;

/**
 * Computes the ground that is lost if a passage is closed: cells that are connected to the base,
 * whatever the headings, but no longer once the cells across the passage's narrowest place are
 * blocked.
 */
public final class BottleneckImpact {
  /**
   * Cosine of the smallest angle between the directions to the barriers on either side, seen from
   * the narrowest place.
   */
  private static final double FACING = Math.cos(Math.toRadians(120));

  private final Clearance clearance;
  private final GridSpec spec;
  private final int base;
  private final BitSet driveable = new BitSet();
  private final BitSet joined;

  public BottleneckImpact(TraversalCost field, Clearance clearance, int base) {
    this.clearance = clearance;
    this.spec = field.spec();
    this.base = base;
    for (int cell = 0; cell < spec.cells(); cell++) {
      driveable.set(cell, field.allowed(cell) != 0);
    }
    this.joined = flood(new BitSet());
  }

  /**
   * Cells that are disconnected from the base if a passage is closed, without the closed cells;
   * empty if there is another way, null if the base itself is in the passage.
   *
   * @param across closed cells
   */
  public BitSet behind(int[] across) {
    BitSet closed = new BitSet();
    for (int cell : across) {
      closed.set(cell);
    }
    if (closed.get(base)) {
      return null;
    }
    BitSet lost = (BitSet) joined.clone();
    lost.andNot(flood(closed));
    lost.andNot(closed);
    return lost;
  }

  /** Flood fill by runs of a row, so that the queue remains small on large grids. */
  private BitSet flood(BitSet closed) {
    BitSet open = (BitSet) driveable.clone();
    open.andNot(closed);
    BitSet seen = new BitSet(spec.cells());
    int[] stack = new int[1024];
    int depth = 0;
    stack[depth++] = base;
    int cols = spec.cols();
    while (depth > 0) {
      int cell = stack[--depth];
      if (seen.get(cell)) {
        continue;
      }
      int rowStart = cell - cell % cols;
      int first = Math.max(rowStart, open.previousClearBit(cell - 1) + 1);
      int end = Math.min(rowStart + cols, open.nextClearBit(cell + 1));
      seen.set(first, end);
      open.clear(first, end);
      // A path between cells that touch at a corner needs the cells beside it, so 4-connectivity
      // suffices.
      for (int side = -cols; side <= cols; side += 2 * cols) {
        if (rowStart + side < 0 || rowStart + side >= spec.cells()) {
          continue;
        }
        int to = open.nextSetBit(first + side);
        while (to >= 0 && to < end + side) {
          stack = depth == stack.length ? Arrays.copyOf(stack, 2 * depth) : stack;
          stack[depth++] = to;
          to = open.nextSetBit(open.nextClearBit(to));
        }
      }
    }
    return seen;
  }

  /**
   * Cells across the narrowest place at a lattice point, from barrier to barrier: between barriers
   * that face each other there, else between the two nearest barrier points around it. Null if
   * there are none.
   */
  public int[] across(int point) {
    Facing facing = new Facing(clearance);
    if (facing.at(point)) {
      int step = facing.dRow * clearance.cols() + facing.dCol;
      return between(point - step, point + step);
    }
    double halfX = spec.cellXM() / 2;
    double halfY = spec.cellYM() / 2;
    double radiusM = clearance.widthAtM(point) / 2 + Math.hypot(halfX, halfY);
    int row = point / clearance.cols();
    int col = point % clearance.cols();
    int rows = (int) Math.ceil(radiusM / halfY);
    int cols = (int) Math.ceil(radiusM / halfX);
    double[] east = new double[16];
    double[] south = new double[16];
    int[] edge = new int[16];
    int n = 0;
    for (int r = Math.max(0, row - rows); r <= Math.min(clearance.rows() - 1, row + rows); r++) {
      for (int c = Math.max(0, col - cols); c <= Math.min(clearance.cols() - 1, col + cols); c++) {
        double x = (c - col) * halfX;
        double y = (r - row) * halfY;
        if (clearance.widthAtM(r * clearance.cols() + c) == 0 && Math.hypot(x, y) <= radiusM) {
          if (n == edge.length) {
            east = Arrays.copyOf(east, 2 * n);
            south = Arrays.copyOf(south, 2 * n);
            edge = Arrays.copyOf(edge, 2 * n);
          }
          east[n] = x;
          south[n] = y;
          edge[n++] = r * clearance.cols() + c;
        }
      }
    }
    int a = -1;
    int b = -1;
    double leastM = Double.POSITIVE_INFINITY;
    for (int i = 0; i < n; i++) {
      for (int k = i + 1; k < n; k++) {
        double apartM = Math.hypot(east[i] - east[k], south[i] - south[k]);
        double facingM2 = east[i] * east[k] + south[i] * south[k];
        double lengths = Math.hypot(east[i], south[i]) * Math.hypot(east[k], south[k]);
        if (apartM < leastM && facingM2 <= FACING * lengths) {
          leastM = apartM;
          a = edge[i];
          b = edge[k];
        }
      }
    }
    return a < 0 ? null : between(a, b);
  }

  /** Every cell that the line between two lattice points touches; may contain duplicates. */
  int[] between(int a, int b) {
    int rowA = a / clearance.cols();
    int colA = a % clearance.cols();
    int dRow = b / clearance.cols() - rowA;
    int dCol = b % clearance.cols() - colA;
    int steps = 4 * Math.max(Math.abs(dRow), Math.abs(dCol));
    int[] cells = new int[4 * steps + 4];
    int n = 0;
    int last = -1;
    for (int k = 0; k <= steps; k++) {
      double row = (rowA + (double) dRow * k / steps) / 2;
      double col = (colA + (double) dCol * k / steps) / 2;
      for (int side = 0; side < 4; side++) {
        int r = (int) Math.floor(row + ((side & 1) == 0 ? -1e-9 : 1e-9));
        int c = (int) Math.floor(col + ((side & 2) == 0 ? -1e-9 : 1e-9));
        if (spec.holds(r, c) && r * spec.cols() + c != last) {
          last = r * spec.cols() + c;
          cells[n++] = last;
        }
      }
    }
    return Arrays.copyOf(cells, n);
  }

  /** Cells that are connected to the base while every passage is open. */
  BitSet joined() {
    return joined;
  }
}

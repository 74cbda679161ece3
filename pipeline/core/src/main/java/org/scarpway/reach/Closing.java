package org.scarpway.reach;

import java.util.Arrays;
import java.util.BitSet;
import org.scarpway.grid.GridSpec;
import org.scarpway.vehicle.MoveField;

/**
 * What is lost when a passage is closed: ground that is joined to the base, whatever the headings,
 * but no longer once the cells across the passage's narrowest place cannot be used.
 */
final class Closing {
  /** Two barriers must stand on different sides of the narrowest place, seen from it. */
  private static final double OPPOSITE = 0.6;

  private final MoveField field;
  private final Clearance clearance;
  private final GridSpec spec;
  private final int base;
  private final BitSet joined;

  Closing(MoveField field, Clearance clearance, int base) {
    this.field = field;
    this.clearance = clearance;
    this.spec = field.spec();
    this.base = base;
    this.joined = flood(new BitSet());
  }

  /**
   * Cells that hang on the passage whose narrowest place is a lattice point, those across it not
   * counted; none where there is another way; null where no two barriers face each other there or
   * the base itself stands in it.
   */
  BitSet behind(int point) {
    BitSet closed = across(point);
    if (closed == null || closed.get(base)) {
      return null;
    }
    BitSet lost = (BitSet) joined.clone();
    lost.andNot(flood(closed));
    lost.andNot(closed);
    return lost;
  }

  private BitSet flood(BitSet closed) {
    BitSet seen = new BitSet(spec.cells());
    int[] stack = new int[1024];
    int depth = 0;
    stack[depth++] = base;
    seen.set(base);
    int cols = spec.cols();
    while (depth > 0) {
      int cell = stack[--depth];
      // A way between cells that touch at a corner needs the cells beside it: four neighbours do.
      for (int side = 0; side < 4; side++) {
        int row = cell / cols + (side == 0 ? -1 : side == 1 ? 1 : 0);
        int col = cell % cols + (side == 2 ? -1 : side == 3 ? 1 : 0);
        int to = row * cols + col;
        if (spec.holds(row, col) && field.allowed(to) != 0 && !seen.get(to) && !closed.get(to)) {
          seen.set(to);
          stack = depth == stack.length ? Arrays.copyOf(stack, 2 * depth) : stack;
          stack[depth++] = to;
        }
      }
    }
    return seen;
  }

  /** Cells on the straight line between the two barriers that leave the least room, or null. */
  private BitSet across(int point) {
    double radiusM = clearance.widthAtM(point) / 2;
    double halfX = spec.cellXM() / 2;
    double halfY = spec.cellYM() / 2;
    int row = point / clearance.cols();
    int col = point % clearance.cols();
    int rows = (int) Math.ceil(radiusM / halfY);
    int cols = (int) Math.ceil(radiusM / halfX);
    int[] touching = new int[16];
    int n = 0;
    for (int r = Math.max(0, row - rows); r <= Math.min(clearance.rows() - 1, row + rows); r++) {
      for (int c = Math.max(0, col - cols); c <= Math.min(clearance.cols() - 1, col + cols); c++) {
        int p = r * clearance.cols() + c;
        double apartM = Math.hypot((r - row) * halfY, (c - col) * halfX);
        if (clearance.widthAtM(p) == 0 && apartM <= radiusM * (1 + 1e-5)) {
          touching = n == touching.length ? Arrays.copyOf(touching, 2 * n) : touching;
          touching[n++] = p;
        }
      }
    }
    int a = -1;
    int b = -1;
    double mostM = 2 * radiusM * OPPOSITE;
    for (int i = 0; i < n; i++) {
      for (int k = i + 1; k < n; k++) {
        double apartM =
            Math.hypot(
                clearance.xM(touching[i]) - clearance.xM(touching[k]),
                clearance.yM(touching[i]) - clearance.yM(touching[k]));
        if (apartM > mostM) {
          mostM = apartM;
          a = touching[i];
          b = touching[k];
        }
      }
    }
    return a < 0 ? null : between(a, b);
  }

  /** Every cell that the line between two lattice points touches. */
  private BitSet between(int a, int b) {
    BitSet cells = new BitSet();
    int rowA = a / clearance.cols();
    int colA = a % clearance.cols();
    int dRow = b / clearance.cols() - rowA;
    int dCol = b % clearance.cols() - colA;
    int steps = 4 * Math.max(Math.abs(dRow), Math.abs(dCol));
    for (int k = 0; k <= steps; k++) {
      double row = (rowA + (double) dRow * k / steps) / 2;
      double col = (colA + (double) dCol * k / steps) / 2;
      for (int side = 0; side < 4; side++) {
        int r = (int) Math.floor(row + ((side & 1) == 0 ? -1e-9 : 1e-9));
        int c = (int) Math.floor(col + ((side & 2) == 0 ? -1e-9 : 1e-9));
        if (spec.holds(r, c)) {
          cells.set(r * spec.cols() + c);
        }
      }
    }
    return cells;
  }

  /** Cells that are joined to the base while every passage is open. */
  BitSet joined() {
    return joined;
  }
}

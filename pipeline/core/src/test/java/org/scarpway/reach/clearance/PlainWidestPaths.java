package org.scarpway.reach.clearance;

import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Ints;
import org.scarpway.stage.ScratchFile;
import org.scarpway.vehicle.TraversalCost;

/**
 * Widest paths by one search over all points, the widest first, and discs in one order over all
 * cells: on one thread, without blocks.
 */
final class PlainWidestPaths {
  private final Clearance clearance;
  private final GridSpec spec;
  private final int rows;
  private final int cols;
  private final ScratchFile file;
  private final float topM;
  private final double diagonalM;

  /** Diameter of the widest disc that reaches a lattice point (m), 0 where none does. */
  private final Floats carriedM;

  private PlainWidestPaths(Clearance clearance, ScratchFile file) {
    this.clearance = clearance;
    this.spec = clearance.spec();
    this.rows = clearance.rows();
    this.cols = clearance.cols();
    this.file = file;
    this.topM = (float) Math.hypot(spec.cols() * spec.cellXM(), spec.rows() * spec.cellYM());
    this.diagonalM = Math.hypot(spec.cellXM() / 2, spec.cellYM() / 2);
    this.carriedM = Floats.of(rows * cols, file);
  }

  /**
   * @param gapM receives the bottleneck width per cell (m), NaN where there is no path; without
   *     barriers the length of the grid's diagonal
   */
  static void spread(Clearance clearance, TraversalCost field, int base, Floats gapM) {
    long bytes = (long) Float.BYTES * clearance.rows() * clearance.cols();
    PlainWidestPaths w = new PlainWidestPaths(clearance, field.scratch(bytes));
    w.spread(base);
    w.collect(field, gapM);
  }

  private float ownM(int point) {
    return Math.min(topM, clearance.widthAtM(point));
  }

  private void spread(int base) {
    MaxWidthQueue queue = new MaxWidthQueue(file);
    aboutBase(base, queue);
    Ints level = Ints.few(file);
    int depth = 0;
    while (depth > 0 || !queue.isEmpty()) {
      int p = depth > 0 ? level.get(--depth) : queue.poll();
      float width = carriedM.get(p);
      int row = p / cols;
      int col = p % cols;
      for (int r = Math.max(0, row - 1); r <= Math.min(rows - 1, row + 1); r++) {
        for (int c = Math.max(0, col - 1); c <= Math.min(cols - 1, col + 1); c++) {
          int to = r * cols + c;
          float ownM = carriedM.get(to) == 0 ? ownM(to) : 0;
          if (ownM >= width) {
            carriedM.set(to, width);
            level = depth == level.size() ? level.more() : level;
            level.set(depth++, to);
          } else if (ownM > 0) {
            carriedM.set(to, ownM);
            queue.add(to, ownM);
          }
        }
      }
    }
  }

  /** Initialises the queue with all discs that cover the base. */
  private void aboutBase(int base, MaxWidthQueue queue) {
    double x = clearance.xM(clearance.centre(base));
    double y = clearance.yM(clearance.centre(base));
    float[] widthsM = new float[cols];
    for (int r = 0; r < rows; r++) {
      clearance.readWidthsM(r * cols, widthsM, cols);
      double dy = clearance.yM(r * cols) - y;
      for (int c = 0; c < cols; c++) {
        float ownM = Math.min(topM, widthsM[c]);
        double dx = clearance.xM(c) - x;
        boolean near = ownM > 0 && Math.abs(dx) <= ownM / 2 && Math.abs(dy) <= ownM / 2;
        if (near && Math.hypot(dx, dy) <= ownM / 2) {
          carriedM.set(r * cols + c, ownM);
          queue.add(r * cols + c, ownM);
        }
      }
    }
  }

  private void collect(TraversalCost field, Floats gapM) {
    int cells = spec.cells();
    for (int cell = 0; cell < cells; cell++) {
      float width = carriedM.get(clearance.centre(cell));
      gapM.set(cell, width > 0 && field.allowed(cell) != 0 ? width : Float.NaN);
    }
    // Discs in order of width, the widest first; every cell is filled once.
    Ints next = Ints.of(cells + 1, file);
    for (int i = 0; i <= cells; i++) {
      next.set(i, i);
    }
    MaxWidthQueue discs = new MaxWidthQueue(file);
    float[] above = new float[cols];
    float[] here = new float[cols];
    float[] below = new float[cols];
    fillRow(0, below);
    for (int row = 0; row < rows; row++) {
      float[] free = above;
      above = here;
      here = below;
      below = free;
      if (row + 1 < rows) {
        fillRow(row + 1, below);
      }
      float[] top = row == 0 ? here : above;
      float[] bottom = row + 1 == rows ? here : below;
      for (int col = 0; col < cols; col++) {
        if (here[col] > 0 && coversMore(top, here, bottom, col)) {
          discs.add(row * cols + col, here[col]);
        }
      }
    }
    while (!discs.isEmpty()) {
      cover(discs.poll(), next, gapM);
    }
  }

  private void fillRow(int row, float[] widthsM) {
    carriedM.read(row * cols, widthsM, 0, cols);
  }

  /**
   * True if the disc about a point may cover cells that the discs about its neighbours do not. The
   * arguments are the widths of three rows with the point in the middle one; beyond the edge of the
   * grid its own row is repeated.
   */
  private boolean coversMore(float[] above, float[] here, float[] below, int col) {
    float width = here[col];
    boolean atSlope = false;
    for (int c = Math.max(0, col - 1); c <= Math.min(cols - 1, col + 1); c++) {
      double besideM = c == col ? 0 : spec.cellXM() / 2;
      double beyondM = c == col ? spec.cellYM() / 2 : diagonalM;
      if (within(width, here[c], besideM)
          || within(width, above[c], above == here ? besideM : beyondM)
          || within(width, below[c], below == here ? besideM : beyondM)) {
        return false;
      }
      atSlope |= above[c] < width || here[c] < width || below[c] < width;
    }
    return atSlope;
  }

  /** True if a disc lies within the disc of another point. */
  private static boolean within(float width, float other, double apartM) {
    return apartM > 0 && other / 2 >= width / 2 + apartM * (1 - 1e-6);
  }

  private void cover(int p, Ints next, Floats gapM) {
    float width = carriedM.get(p);
    double radiusM = width / 2.0 * (1 + 1e-6);
    // Row and column of the point in units of cells.
    int latticeRow = p / cols;
    double atRow = latticeRow / 2.0 - 0.5;
    double atCol = p % cols / 2.0 - 0.5;
    int firstRow = (int) Math.max(0, Math.ceil(atRow - radiusM / spec.cellYM()));
    int lastRow = (int) Math.min(spec.rows() - 1.0, Math.floor(atRow + radiusM / spec.cellYM()));
    for (int r = firstRow; r <= lastRow; r++) {
      double dy = (r - atRow) * spec.cellYM();
      double half = Math.sqrt(Math.max(0, radiusM * radiusM - dy * dy)) / spec.cellXM();
      int first = r * spec.cols() + (int) Math.max(0, Math.ceil(atCol - half));
      int end = r * spec.cols() + (int) Math.min(spec.cols() - 1.0, Math.floor(atCol + half));
      for (int i = free(next, first); i <= end; i = free(next, i)) {
        if (gapM.get(i) < width) {
          gapM.set(i, width);
        }
        next.set(i, i + 1);
      }
    }
  }

  private static int free(Ints next, int i) {
    int root = i;
    for (int up = next.get(root); up != root; up = next.get(root)) {
      root = up;
    }
    int at = i;
    for (int after = next.get(at); after != root; after = next.get(at)) {
      next.set(at, root);
      at = after;
    }
    return root;
  }
}

package org.scarpway.reach.clearance;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Ints;
import org.scarpway.vehicle.MoveField;

/**
 * Every place where a barrier faces itself across free ground: only there does closing a passage
 * cut anything off, since between two barriers that do not hang together there is a way round
 * either of them. What lies beyond the edge of the grid joins the barriers that touch it, as no way
 * leads there.
 */
final class Narrows {
  private final Clearance clearance;
  private final GridSpec spec;
  private int[] points = new int[1024];
  private int[] steps = new int[1024];
  private int count;

  private Narrows(Clearance clearance) {
    this.clearance = clearance;
    this.spec = clearance.spec();
  }

  /**
   * @param work one value for each cell and one more; holds nothing of use afterwards
   */
  static Narrows of(MoveField field, Clearance clearance, Ints work) {
    Narrows n = new Narrows(clearance);
    n.join(field, work);
    n.find(work);
    return n;
  }

  int count() {
    return count;
  }

  /** Lattice point in the middle. */
  int point(int i) {
    return points[i];
  }

  /** From one barrier to the other. */
  double widthM(int i) {
    return clearance.widthAtM(points[i]);
  }

  /** The widest disc that the widest ways bring through there. */
  double passableM(int i) {
    // A step to the left by up to half a row is taken for one to the right from the row above.
    int dRow = Math.floorDiv(steps[i] + clearance.cols() / 2, clearance.cols());
    return Squeeze.widthM(clearance, points[i], dRow, steps[i] - dRow * clearance.cols());
  }

  /** From it to the barrier on one side; on the other side it is as far. */
  int step(int i) {
    return steps[i];
  }

  /** Barrier cells that touch, be it at a corner, get one root. */
  private void join(MoveField field, Ints root) {
    int cols = spec.cols();
    int outside = spec.cells();
    root.set(outside, outside);
    for (int row = 0; row < spec.rows(); row++) {
      for (int col = 0; col < cols; col++) {
        int cell = row * cols + col;
        if (field.allowed(cell) != 0) {
          root.set(cell, -1);
          continue;
        }
        root.set(cell, cell);
        if (row == 0 || col == 0 || row == spec.rows() - 1 || col == cols - 1) {
          unite(root, cell, outside);
        }
        if (col > 0) {
          unite(root, cell, cell - 1);
        }
        if (row > 0) {
          for (int c = Math.max(0, col - 1); c <= Math.min(cols - 1, col + 1); c++) {
            unite(root, cell, cell - cols + c - col);
          }
        }
      }
    }
  }

  private static void unite(Ints root, int cell, int other) {
    if (root.get(other) >= 0) {
      int a = rootOf(root, cell);
      int b = rootOf(root, other);
      root.set(Math.min(a, b), Math.max(a, b));
    }
  }

  private static int rootOf(Ints root, int cell) {
    int at = cell;
    for (int up = root.get(at); up != at; up = root.get(at)) {
      int next = root.get(up);
      root.set(at, next);
      at = next;
    }
    return at;
  }

  private void find(Ints root) {
    Facing facing = new Facing(clearance);
    int rows = clearance.rows();
    int cols = clearance.cols();
    float[] above = new float[cols];
    float[] here = new float[cols];
    float[] below = new float[cols];
    clearance.readWidthsM(0, here, cols);
    clearance.readWidthsM(cols, below, cols);
    for (int row = 1; row < rows - 1; row++) {
      float[] free = above;
      above = here;
      here = below;
      below = free;
      clearance.readWidthsM((row + 1) * cols, below, cols);
      for (int col = 1; col < cols - 1; col++) {
        float w = here[col];
        // A step towards either of two opposite contacts comes closer to it.
        boolean between =
            w > 0
                && ((here[col - 1] < w && here[col + 1] < w)
                    || (above[col] < w && below[col] < w)
                    || (above[col - 1] < w && below[col + 1] < w)
                    || (above[col + 1] < w && below[col - 1] < w));
        boolean found = between && facing.at(row * cols + col);
        while (found) {
          int a = barrierAt(root, row + facing.dRow, col + facing.dCol);
          int b = barrierAt(root, row - facing.dRow, col - facing.dCol);
          if (rootOf(root, a) == rootOf(root, b)) {
            add(row * cols + col, facing.dRow * cols + facing.dCol);
          }
          found = facing.next();
        }
      }
    }
  }

  /** A barrier cell at a lattice point; all that meet there hang together. */
  private int barrierAt(Ints root, int row, int col) {
    for (int r = Math.max(0, (row - 1) / 2); r <= Math.min(spec.rows() - 1, row / 2); r++) {
      for (int c = Math.max(0, (col - 1) / 2); c <= Math.min(spec.cols() - 1, col / 2); c++) {
        if (root.get(r * spec.cols() + c) >= 0) {
          return r * spec.cols() + c;
        }
      }
    }
    throw new IllegalStateException("no barrier at a contact");
  }

  private void add(int point, int step) {
    if (count == points.length) {
      points = Arrays.copyOf(points, 2 * count);
      steps = Arrays.copyOf(steps, 2 * count);
    }
    points[count] = point;
    steps[count++] = step;
  }
}

package org.scarpway.reach.clearance;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Ints;
import org.scarpway.vehicle.TraversalCost;

/**
 * Finds every place where a barrier faces itself across free ground. Only there can closing a
 * passage disconnect anything, since between two unconnected barriers there is a way around either
 * of them. Ground beyond the edge of the grid counts as a barrier and connects the barriers that
 * touch it, as no path leads there.
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
   * @param work working memory, one value per cell and one more
   */
  static Narrows of(TraversalCost field, Clearance clearance, Ints work) {
    Narrows n = new Narrows(clearance);
    n.join(field, work);
    n.find(work);
    return n;
  }

  int count() {
    return count;
  }

  /** Lattice point at the midpoint of a place. */
  int point(int i) {
    return points[i];
  }

  /** Bottleneck width, from one barrier to the other (m). */
  double widthM(int i) {
    return clearance.widthAtM(points[i]);
  }

  /** Diameter of the widest disc that can pass there on the widest paths (m). */
  double passableM(int i) {
    // Splits the index offset so that the column offset is at most half a row to either side.
    int dRow = Math.floorDiv(steps[i] + clearance.cols() / 2, clearance.cols());
    return Squeeze.widthM(clearance, points[i], dRow, steps[i] - dRow * clearance.cols());
  }

  /**
   * Index offset from the midpoint to the barrier on one side; the other side is at the opposite
   * offset.
   */
  int step(int i) {
    return steps[i];
  }

  /** Gives barrier cells that touch, corners included, the same root (connected components). */
  private void join(TraversalCost field, Ints root) {
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
        // A step along an axis towards either of two opposite contacts comes closer to it.
        boolean between =
            w > 0
                && ((here[col - 1] < w && here[col + 1] < w) || (above[col] < w && below[col] < w));
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

  /** A barrier cell at a lattice point; all barrier cells that meet there are connected. */
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

package org.scarpway.reach.front;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.vehicle.TraversalCost;

/**
 * The costs of one tile for its fronts: the cost of crossing each cell on each heading of travel,
 * so that fronts out and home share them. Cells are indexed within the tile and a halo of {@link
 * #PAD} cells, in rows of {@link #stride}; cells off the grid are barriers.
 */
final class TileGround {
  /** Halo width: two cells on which steps end, and two more so that no index needs a check. */
  static final int PAD = 4;

  static final int SEEN = 2;

  /** No step begins here: a barrier, or a cell outside this tile. */
  static final byte CLOSED = 0;

  /** Near barriers or barred headings: near steps also end between cells. */
  static final byte TIGHT = 1;

  /** Open ground: every heading is allowed on all cells that far steps can cross. */
  static final byte OPEN = 2;

  final int stride;
  final byte[] kind;

  /**
   * Lower bound on the cost per metre of any step from a cell: the least of the cells that a step
   * can cross. Infinite where no step begins.
   */
  final float[] least;

  final boolean[] barrier;

  /** By heading of travel, then by cell. */
  final float[] perM;

  private final int side;
  private final float[] ofRow;
  private final CostRow costs;

  TileGround(int side) {
    this.side = side;
    this.stride = side + 2 * PAD;
    int n = stride * stride;
    this.kind = new byte[n];
    this.least = new float[n];
    this.barrier = new boolean[n];
    this.ofRow = new float[n];
    this.perM = new float[n * Headings.COUNT];
    this.costs = new CostRow(side + 2 * SEEN);
  }

  int side() {
    return side;
  }

  /** Approximate size in memory of a tile with the given side (bytes). */
  static long bytes(int side) {
    long stride = side + 2L * PAD;
    return stride * stride * (Float.BYTES * (Headings.COUNT + 2) + 2);
  }

  /** Loads the ground of the tile whose first cell is given. */
  void load(Costs from, int firstRow, int firstCol) {
    TraversalCost field = from.field();
    GridSpec spec = field.spec();
    Arrays.fill(kind, CLOSED);
    Arrays.fill(least, Float.POSITIVE_INFINITY);
    Arrays.fill(ofRow, Float.POSITIVE_INFINITY);
    Arrays.fill(barrier, true);
    int wide = side + 2 * SEEN;
    int begin = Math.max(0, SEEN - firstCol);
    int end = Math.min(wide, spec.cols() - firstCol + SEEN);
    int[] runs = new int[stride];
    for (int r = 0; r < wide; r++) {
      int row = firstRow + r - SEEN;
      if (row < 0 || row >= spec.rows()) {
        Arrays.fill(runs, 0);
        continue;
      }
      int to = (r + PAD - SEEN) * stride + PAD - SEEN;
      int first = row * spec.cols() + firstCol - SEEN;
      costs.fill(from, first + begin, end - begin, perM, to + begin, stride * stride);
      int run = 0;
      for (int c = begin; c < end; c++) {
        int at = to + c;
        int allowed = field.allowed(first + c);
        run = allowed == -1 ? run + 1 : 0;
        runs[c] = run >= 2 * SEEN + 1 ? runs[c] + 1 : 0;
        if (allowed != 0) {
          barrier[at] = false;
          least[at] = from.leastPerM(first + c);
          if (r >= SEEN && r < wide - SEEN && c >= SEEN && c < wide - SEEN) {
            kind[at] = TIGHT;
          }
        }
        // All cells of the 5 x 5 block that ends here allow every heading.
        if (runs[c] >= 2 * SEEN + 1) {
          kind[at - SEEN * stride - SEEN] = OPEN;
        }
      }
    }
    closeEdges(firstRow, firstCol, spec);
    boundSteps();
  }

  /** Makes the cells of the halo that lie off the grid barriers. */
  private void closeEdges(int firstRow, int firstCol, GridSpec spec) {
    for (int r = -SEEN; r < side + SEEN; r++) {
      for (int c = -SEEN; c < side + SEEN; c++) {
        if (!spec.holds(firstRow + r, firstCol + c)) {
          int at = (r + PAD) * stride + c + PAD;
          for (int t = 0; t < Headings.COUNT; t++) {
            perM[t * stride * stride + at] = Float.POSITIVE_INFINITY;
          }
        }
      }
    }
  }

  /** Computes the minimum over the surrounding 5 x 5 cells from the least cost of each cell. */
  private void boundSteps() {
    int n = least.length;
    for (int at = SEEN; at < n - SEEN; at++) {
      ofRow[at] =
          Math.min(
              least[at],
              Math.min(
                  Math.min(least[at - 2], least[at - 1]), Math.min(least[at + 1], least[at + 2])));
    }
    int two = 2 * stride;
    for (int at = two; at < n - two; at++) {
      least[at] =
          Math.min(
              ofRow[at],
              Math.min(
                  Math.min(ofRow[at - two], ofRow[at - stride]),
                  Math.min(ofRow[at + stride], ofRow[at + two])));
    }
    for (int at = 0; at < n; at++) {
      if (kind[at] == CLOSED) {
        least[at] = Float.POSITIVE_INFINITY;
      }
    }
  }
}

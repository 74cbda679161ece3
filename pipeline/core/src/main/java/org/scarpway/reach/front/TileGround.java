package org.scarpway.reach.front;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.vehicle.TraversalCost;

/**
 * The costs of one tile for its front: the cost of crossing each cell on each heading, computed on
 * first use. Cells are indexed within the tile and a halo of {@link #PAD} cells, in rows of {@link
 * #stride}; cells off the grid are barriers. Formulas are those of {@link Stencil}, bit for bit.
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

  private static final float UNKNOWN = -1;

  final int stride;
  final byte[] kind;

  /**
   * Lower bound on the cost per metre of any step from a cell: the least of the cells that a step
   * can cross. Infinite where no step begins.
   */
  final float[] least;

  final boolean[] barrier;
  private final Costs costs;
  private final Stencil stencil;
  private final GridSpec spec;
  private final int side;
  private final float[] perM;
  private final float[] ofRow;
  private final int[] far = new int[Stencil.FAR];
  private final int[] middle = new int[Stencil.FAR];
  private final int[] middle2 = new int[Stencil.FAR];
  private final int[] beyond = new int[Stencil.FAR];
  private final int[] nearRow = new int[Stencil.NEAR];
  private final int[] nearCol = new int[Stencil.NEAR];
  private int firstCell;

  TileGround(Costs costs, Stencil stencil, int side) {
    this.costs = costs;
    this.stencil = stencil;
    this.spec = costs.field().spec();
    this.side = side;
    this.stride = side + 2 * PAD;
    int n = stride * stride;
    this.kind = new byte[n];
    this.least = new float[n];
    this.barrier = new boolean[n];
    this.ofRow = new float[n];
    this.perM = new float[n * Headings.COUNT];
    for (int j = 0; j < Stencil.FAR; j++) {
      int dr = stencil.farRow(j);
      int dc = stencil.farCol(j);
      far[j] = dr * stride + dc;
      middle[j] = dr / 2 * stride + dc / 2;
      middle2[j] = (dr - dr / 2) * stride + dc - dc / 2;
    }
    for (int s = 0; s < Stencil.FAR; s++) {
      int even = Stencil.even(s);
      int odd = Stencil.odd(s);
      beyond[s] = middle[odd] == middle[even] ? middle2[odd] : middle[odd];
    }
    for (int j = 0; j < Stencil.NEAR; j++) {
      nearRow[j] = stencil.nearRow(j) * stride;
      nearCol[j] = stencil.nearCol(j);
    }
  }

  /** Approximate size in memory of a tile with the given side (bytes). */
  static long bytes(int side) {
    long stride = side + 2L * PAD;
    return stride * stride * (Float.BYTES * (Headings.COUNT + 1) + 2);
  }

  /** Loads the ground of the tile whose first cell is given. */
  void load(int firstRow, int firstCol) {
    TraversalCost field = costs.field();
    firstCell = firstRow * spec.cols() + firstCol;
    Arrays.fill(kind, CLOSED);
    Arrays.fill(least, Float.POSITIVE_INFINITY);
    Arrays.fill(ofRow, Float.POSITIVE_INFINITY);
    Arrays.fill(barrier, true);
    Arrays.fill(perM, UNKNOWN);
    int margin = PAD - SEEN;
    int wide = side + 2 * SEEN;
    int[] runs = new int[stride];
    for (int r = 0; r < wide; r++) {
      int row = firstRow + r - SEEN;
      int run = 0;
      for (int c = 0; c < wide; c++) {
        int col = firstCol + c - SEEN;
        int at = (r + margin) * stride + c + margin;
        if (!spec.holds(row, col)) {
          run = 0;
          runs[c] = 0;
          Arrays.fill(
              perM, at * Headings.COUNT, (at + 1) * Headings.COUNT, Float.POSITIVE_INFINITY);
          continue;
        }
        int cell = row * spec.cols() + col;
        int allowed = field.allowed(cell);
        run = allowed == -1 ? run + 1 : 0;
        runs[c] = run >= 2 * SEEN + 1 ? runs[c] + 1 : 0;
        if (allowed != 0) {
          barrier[at] = false;
          least[at] = costs.leastPerM(cell);
          if (r >= SEEN && r < wide - SEEN && c >= SEEN && c < wide - SEEN) {
            kind[at] = TIGHT;
          }
        } else {
          Arrays.fill(
              perM, at * Headings.COUNT, (at + 1) * Headings.COUNT, Float.POSITIVE_INFINITY);
        }
        // All cells of the 5 x 5 block that ends here allow every heading.
        if (runs[c] >= 2 * SEEN + 1) {
          kind[at - SEEN * stride - SEEN] = OPEN;
        }
      }
    }
    boundSteps();
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

  private double perM(int at, int heading) {
    float known = perM[at * Headings.COUNT + heading];
    return known >= 0 ? known : workOut(at, heading);
  }

  private int cellAt(int at) {
    return firstCell + (at / stride - PAD) * spec.cols() + at % stride - PAD;
  }

  private double workOut(int at, int heading) {
    float cost = (float) costs.perM(cellAt(at), heading);
    perM[at * Headings.COUNT + heading] = cost;
    return cost;
  }

  /** Index offset to far cell {@code j}. */
  int far(int j) {
    return far[j];
  }

  /** Index offset to the cells that the step to far cell {@code j} crosses. */
  int middle(int j) {
    return middle[j];
  }

  int middle2(int j) {
    return middle2[j];
  }

  /** Index offset to neighbour {@code j}. */
  int near(int j) {
    return nearRow[j] + nearCol[j];
  }

  /** See {@link Stencil#far(Costs, int, int)}. */
  double farPerM(int cell, int j) {
    int k = 2 * j;
    if ((j & 1) != 0) {
      return 0.25
          * (perM(cell, k)
              + perM(cell + middle[j], k)
              + perM(cell + middle2[j], k)
              + perM(cell + far[j], k));
    }
    if ((j & 3) == 2 && kind[cell] == TIGHT && cornerBarred(cell, j)) {
      return Double.POSITIVE_INFINITY;
    }
    return 0.25 * perM(cell, k) + 0.5 * perM(cell + middle[j], k) + 0.25 * perM(cell + far[j], k);
  }

  private boolean cornerBarred(int cell, int j) {
    int row = nearRow[j / 2];
    int col = nearCol[j / 2];
    return barrier[cell + row]
        || barrier[cell + col]
        || barrier[cell + 2 * row + col]
        || barrier[cell + row + 2 * col];
  }

  /** See {@link Stencil#farMiddle(Costs, int, int)}. */
  double farMiddlePerM(int cell, int s) {
    int k = 2 * s + 1;
    int even = Stencil.even(s);
    return 0.25 * perM(cell, k)
        + 0.375 * perM(cell + middle[even], k)
        + 0.125 * perM(cell + beyond[s], k)
        + 0.125 * (perM(cell + far[even], k) + perM(cell + far[Stencil.odd(s)], k));
  }

  /** Position on far edge {@code s} of a corner of the cost, 0 to 1, NaN for none. */
  double corner(int cell, int s) {
    return costs.corner(cellAt(cell), 2 * s);
  }

  /** See {@link Stencil#chord}. */
  double chordPerM(int cell, int s, double share) {
    return stencil.chord(costs, cellAt(cell), s, share);
  }

  /** See {@link Stencil#near(Costs, int, int)}. */
  double nearPerM(int cell, int j) {
    int k = 4 * j;
    if ((j & 1) != 0
        && kind[cell] == TIGHT
        && (barrier[cell + nearRow[j]] || barrier[cell + nearCol[j]])) {
      return Double.POSITIVE_INFINITY;
    }
    return 0.5 * (perM(cell, k) + perM(cell + near(j), k));
  }

  /** See {@link Stencil#nearBetween(Costs, int, int, int)}. */
  double nearBetweenPerM(int cell, int s, int quarter) {
    int k = 4 * s + quarter;
    double t = quarter / (double) Stencil.QUARTERS;
    return 0.5
        * (perM(cell, k)
            + (1 - t) * perM(cell + near(s), k)
            + t * perM(cell + near((s + 1) & (Stencil.NEAR - 1)), k));
  }
}

package org.scarpway.reach.clearance;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.stage.Floats;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Gives every cell the width of the widest disc that covers it, of those about all points of the
 * lattice. The discs are sorted in each block of the lattice; each block of cells then merges the
 * lists of the blocks from which discs reach it, the widest first, until it is covered.
 */
final class DiscCover {
  /** Factor on distances that covers the tolerance of radii and rounding. */
  private static final double NEARER = 1 - 1e-5;

  private final Floats carriedM;
  private final int cols;
  private final int blockCols;
  private final BlockDiscs[] discs;

  private DiscCover(Clearance clearance, Floats carriedM, int side) {
    this.carriedM = carriedM;
    this.cols = clearance.cols();
    this.blockCols = (cols + side - 1) / side;
    this.discs = new BlockDiscs[(clearance.rows() + side - 1) / side * blockCols];
  }

  /**
   * @param carriedM diameter of the disc about each lattice point (m), 0 for none
   * @param gapM receives the width per cell (m), NaN on barriers and where no disc comes
   * @param side lattice points on a side of a block
   */
  static void fill(
      Clearance clearance,
      TraversalCost field,
      Floats carriedM,
      Floats gapM,
      Workers workers,
      int side) {
    DiscCover cover = new DiscCover(clearance, carriedM, side);
    ScratchFile file = field.scratch(2L * Float.BYTES * clearance.rows() * clearance.cols());
    List<Runnable> sort = new ArrayList<>();
    for (int k = 0; k < cover.discs.length; k++) {
      int block = k;
      int row = k / cover.blockCols * side;
      int col = k % cover.blockCols * side;
      sort.add(() -> cover.discs[block] = BlockDiscs.of(clearance, carriedM, row, col, side, file));
    }
    workers.all(sort);
    List<Runnable> fill = new ArrayList<>();
    int rows = clearance.spec().rows();
    int cols = clearance.spec().cols();
    for (int r = 0; r < rows; r += side) {
      for (int c = 0; c < cols; c += side) {
        CoveredCells cells =
            new CoveredCells(clearance, r, c, Math.min(side, rows - r), Math.min(side, cols - c));
        fill.add(() -> cover.fill(cells, field, gapM));
      }
    }
    workers.all(fill);
  }

  private void fill(CoveredCells cells, TraversalCost field, Floats gapM) {
    List<BlockDiscs> near = new ArrayList<>();
    for (BlockDiscs d : discs) {
      if (d.count() > 0 && reaches(d, DiscOrder.widthM(d.key(0)), cells)) {
        near.add(d);
      }
    }
    long[] first = new long[near.size()];
    int[] next = new int[near.size()];
    // A heap of the lists by their first disc.
    int[] heap = new int[near.size()];
    int n = 0;
    for (int k = 0; k < first.length; k++) {
      if (advance(near, k, next, first, cells)) {
        heap[n++] = k;
      }
    }
    for (int i = n / 2 - 1; i >= 0; i--) {
      sink(heap, n, first, i);
    }
    cells.begin(field, carriedM, n == 0 ? 0 : DiscOrder.widthM(first[heap[0]]));
    while (n > 0 && cells.anyLeft()) {
      int k = heap[0];
      cells.cover(DiscOrder.index(first[k]), DiscOrder.widthM(first[k]));
      if (!advance(near, k, next, first, cells)) {
        heap[0] = heap[--n];
      }
      sink(heap, n, first, 0);
    }
    cells.write(gapM);
  }

  /** Moves to the next disc of a list that reaches the cells; false if there is none. */
  private boolean advance(
      List<BlockDiscs> near, int k, int[] next, long[] first, CoveredCells cells) {
    BlockDiscs d = near.get(k);
    while (next[k] < d.count()) {
      first[k] = d.key(next[k]++);
      float widthM = DiscOrder.widthM(first[k]);
      int point = DiscOrder.index(first[k]);
      int row = point / cols;
      int col = point - row * cols;
      if (cells.apartM(row, row, col, col) * NEARER <= widthM / 2) {
        return true;
      }
      if (!reaches(d, widthM, cells)) {
        return false;
      }
    }
    return false;
  }

  private static boolean reaches(BlockDiscs d, float widthM, CoveredCells cells) {
    return d.apartM(cells) * NEARER <= widthM / 2;
  }

  private static void sink(int[] heap, int n, long[] first, int start) {
    int i = start;
    int moved = heap[i];
    for (int down = 2 * i + 1; down < n; down = 2 * i + 1) {
      if (down + 1 < n && first[heap[down + 1]] < first[heap[down]]) {
        down++;
      }
      if (first[heap[down]] >= first[moved]) {
        break;
      }
      heap[i] = heap[down];
      i = down;
    }
    heap[i] = moved;
  }
}

package org.scarpway.reach.front;

import java.util.Arrays;
import java.util.BitSet;
import org.scarpway.grid.GridSpec;

/**
 * Computes the connected component of the sources: the cells to which any path leads, by the same
 * steps as a given front that stopped before it reached all of them. Steps that end between two
 * cells connect nothing that the steps to one of those cells do not.
 */
public final class ConnectedGround {
  private final Costs costs;
  private final Stencil stencil;
  private final int rows;
  private final int cols;
  private final BitSet joined;

  /** Cells with an allowed heading that are not joined. */
  private final BitSet free;

  private int[] next = new int[1024];
  private int found;

  private ConnectedGround(CostField labels) {
    GridSpec spec = labels.costs().field().spec();
    this.costs = labels.costs();
    this.stencil = labels.stencil();
    this.rows = spec.rows();
    this.cols = spec.cols();
    this.joined = new BitSet(spec.cells());
    this.free = new BitSet(spec.cells());
  }

  public static BitSet of(CostField labels) {
    ConnectedGround j = new ConnectedGround(labels);
    int cells = j.rows * j.cols;
    for (int cell = 0; cell < cells; cell++) {
      if (labels.reached(cell)) {
        j.joined.set(cell);
      } else if (!j.costs.barrier(cell)) {
        j.free.set(cell);
      }
    }
    BitSet edge = j.besideFree();
    edge.and(j.joined);
    for (int cell = edge.nextSetBit(0); cell >= 0; cell = edge.nextSetBit(cell + 1)) {
      j.offer(cell);
    }
    while (j.found > 0) {
      int[] now = j.next;
      int n = j.found;
      j.next = new int[now.length];
      j.found = 0;
      for (int i = 0; i < n; i++) {
        j.offer(now[i]);
      }
    }
    return j.joined;
  }

  /** Cells with a free one on their rings, and those free ones. */
  private BitSet besideFree() {
    BitSet beside = new BitSet(rows * cols);
    for (int from = free.nextSetBit(0); from >= 0; ) {
      int row = from / cols;
      int to = Math.min((row + 1) * cols, free.nextClearBit(from));
      int first = Math.max(row * cols, from - TileGround.SEEN);
      int end = Math.min((row + 1) * cols, to + TileGround.SEEN);
      int lastRow = Math.min(rows - 1, row + TileGround.SEEN);
      for (int r = Math.max(0, row - TileGround.SEEN); r <= lastRow; r++) {
        beside.set(first + (r - row) * cols, end + (r - row) * cols);
      }
      from = free.nextSetBit(to);
    }
    return beside;
  }

  /** Adds the cells that have this one on their rings. */
  private void offer(int done) {
    int row = done / cols;
    int col = done % cols;
    for (int j = 0; j < Stencil.NEAR; j++) {
      int r = row - stencil.nearRow(j);
      int c = col - stencil.nearCol(j);
      if (open(r, c) && allowed(r, c, Stencil.NEAR_CODES + j * Stencil.QUARTERS)) {
        join(r * cols + c);
      }
    }
    for (int j = 0; j < Stencil.FAR; j++) {
      int r = row - stencil.farRow(j);
      int c = col - stencil.farCol(j);
      if (open(r, c) && allowed(r, c, j * Stencil.EIGHTHS)) {
        join(r * cols + c);
      }
    }
  }

  private boolean open(int row, int col) {
    return row >= 0 && row < rows && col >= 0 && col < cols && free.get(row * cols + col);
  }

  private boolean allowed(int row, int col, int code) {
    return stencil.cost(costs, row * cols + col, code) < Double.POSITIVE_INFINITY;
  }

  private void join(int cell) {
    joined.set(cell);
    free.clear(cell);
    if (found == next.length) {
      next = Arrays.copyOf(next, 2 * found);
    }
    next[found++] = cell;
  }
}

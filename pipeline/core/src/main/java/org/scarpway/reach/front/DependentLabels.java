package org.scarpway.reach.front;

import java.util.Arrays;
import java.util.BitSet;
import org.scarpway.grid.GridSpec;

/**
 * Finds the labels of a front that no longer hold when some cells lose theirs: those whose step
 * ends on such a cell, and so on. All others are costs of unbroken chains of steps, so a front that
 * starts from them reaches the same labels as one that starts anew.
 */
final class DependentLabels {
  private final CostField labels;
  private final int rows;
  private final int cols;
  private final BitSet lost;
  private int[] stack = new int[1024];
  private int depth;

  private DependentLabels(CostField labels, BitSet first) {
    this.labels = labels;
    this.rows = labels.costs().field().spec().rows();
    this.cols = labels.costs().field().spec().cols();
    this.lost = new BitSet(rows * cols);
    for (int cell = first.nextSetBit(0); cell >= 0; cell = first.nextSetBit(cell + 1)) {
      lose(cell);
    }
  }

  /**
   * @param first cells that lose their label
   * @return these, as far as they have one, and all cells whose label depends on theirs
   */
  static BitSet on(CostField labels, BitSet first) {
    DependentLabels all = new DependentLabels(labels, first);
    while (all.depth > 0) {
      all.loseAround(all.stack[--all.depth]);
    }
    return all.lost;
  }

  /** Some cells and all within a number of rows and columns of them. */
  static BitSet around(GridSpec spec, BitSet cells, int apart) {
    BitSet all = new BitSet();
    for (int cell = cells.nextSetBit(0); cell >= 0; cell = cells.nextSetBit(cell + 1)) {
      int row = cell / spec.cols();
      int col = cell % spec.cols();
      int left = Math.max(0, col - apart);
      int end = Math.min(spec.cols(), col + apart + 1);
      int last = Math.min(spec.rows() - 1, row + apart);
      for (int r = Math.max(0, row - apart); r <= last; r++) {
        all.set(r * spec.cols() + left, r * spec.cols() + end);
      }
    }
    return all;
  }

  private void lose(int cell) {
    if (labels.reached(cell) && !lost.get(cell)) {
      lost.set(cell);
      if (depth == stack.length) {
        stack = Arrays.copyOf(stack, 2 * depth);
      }
      stack[depth++] = cell;
    }
  }

  private void loseAround(int end) {
    int row = end / cols;
    int col = end % cols;
    int lastRow = Math.min(rows - 1, row + TileGround.SEEN);
    int lastCol = Math.min(cols - 1, col + TileGround.SEEN);
    for (int r = Math.max(0, row - TileGround.SEEN); r <= lastRow; r++) {
      for (int c = Math.max(0, col - TileGround.SEEN); c <= lastCol; c++) {
        int cell = r * cols + c;
        if (labels.reached(cell) && !lost.get(cell) && dependsOn(cell, end)) {
          lose(cell);
        }
      }
    }
  }

  /**
   * True if the label of a cell may depend on that of a cell on its rings. A step to a cell may
   * stand for one to a point beside it whose cost was held up by the path through the cell; it
   * depends on the neighbours on the ring as well.
   */
  private boolean dependsOn(int cell, int end) {
    int code = labels.stepAt(cell);
    if (code >= Stencil.CODES) {
      return false;
    }
    Stencil stencil = labels.stencil();
    if (stencil.first(cell, code) == end || stencil.second(cell, code) == end) {
      return true;
    }
    return Stencil.toCell(code, 0) == code && stencil.before(cell, code) == end;
  }
}

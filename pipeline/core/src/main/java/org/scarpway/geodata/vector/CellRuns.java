package org.scarpway.geodata.vector;

import java.util.function.IntPredicate;
import org.scarpway.stage.Ints;
import org.scarpway.stage.ScratchFile;

/**
 * The 4-connected components of a set of cells, labelled by runs (consecutive cells of a row). Runs
 * are numbered row by row, west to east; the label of a component is its lowest run.
 */
final class CellRuns {
  private final int[] rowStart;
  private Ints firstCol;
  private Ints endCol;
  private final Ints parent;
  private int count;

  /**
   * @param file where runs are stored; null for the heap
   */
  CellRuns(int rows, int cols, IntPredicate inside, ScratchFile file) {
    firstCol = Ints.few(file);
    endCol = Ints.few(file);
    rowStart = new int[rows + 1];
    for (int row = 0; row < rows; row++) {
      rowStart[row] = count;
      int base = row * cols;
      for (int col = 0; col < cols; col++) {
        if (inside.test(base + col)) {
          int first = col;
          while (col < cols && inside.test(base + col)) {
            col++;
          }
          add(first, col);
        }
      }
    }
    rowStart[rows] = count;
    parent = Ints.of(count, file);
    for (int run = 0; run < count; run++) {
      parent.set(run, run);
    }
    for (int row = 1; row < rows; row++) {
      joinRows(row);
    }
  }

  /** Label of the component that contains a cell of the set. */
  int partOf(int row, int col) {
    int low = rowStart[row];
    int end = rowStart[row + 1];
    while (end - low > 1) {
      int mid = (low + end) >>> 1;
      if (firstCol.get(mid) <= col) {
        low = mid;
      } else {
        end = mid;
      }
    }
    return root(low);
  }

  private void add(int first, int end) {
    if (count == firstCol.size()) {
      firstCol = firstCol.more();
      endCol = endCol.more();
    }
    firstCol.set(count, first);
    endCol.set(count++, end);
  }

  private void joinRows(int row) {
    int above = rowStart[row - 1];
    int run = rowStart[row];
    while (above < rowStart[row] && run < rowStart[row + 1]) {
      if (firstCol.get(above) < endCol.get(run) && firstCol.get(run) < endCol.get(above)) {
        join(above, run);
      }
      if (endCol.get(above) < endCol.get(run)) {
        above++;
      } else {
        run++;
      }
    }
  }

  private void join(int a, int b) {
    int rootA = root(a);
    int rootB = root(b);
    parent.set(Math.max(rootA, rootB), Math.min(rootA, rootB));
  }

  private int root(int run) {
    int r = run;
    while (parent.get(r) != r) {
      parent.set(r, parent.get(parent.get(r)));
      r = parent.get(r);
    }
    return r;
  }
}

package org.scarpway.geodata.vector;

import java.util.Arrays;
import java.util.function.IntPredicate;

/**
 * The 4-connected components of a set of cells, labelled by runs (consecutive cells of a row). Runs
 * are numbered row by row, west to east; the label of a component is its lowest run.
 */
final class CellRuns {
  private final int[] rowStart;
  private int[] firstCol = new int[16];
  private int[] endCol = new int[16];
  private int[] parent;
  private int count;

  CellRuns(int rows, int cols, IntPredicate inside) {
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
    parent = new int[count];
    for (int run = 0; run < count; run++) {
      parent[run] = run;
    }
    for (int row = 1; row < rows; row++) {
      joinRows(row);
    }
  }

  int count() {
    return count;
  }

  /** Label of the component that contains a cell of the set. */
  int partOf(int row, int col) {
    int at = Arrays.binarySearch(firstCol, rowStart[row], rowStart[row + 1], col);
    return root(at >= 0 ? at : -at - 2);
  }

  private void add(int first, int end) {
    if (count == firstCol.length) {
      firstCol = Arrays.copyOf(firstCol, 2 * count);
      endCol = Arrays.copyOf(endCol, 2 * count);
    }
    firstCol[count] = first;
    endCol[count++] = end;
  }

  private void joinRows(int row) {
    int above = rowStart[row - 1];
    int run = rowStart[row];
    while (above < rowStart[row] && run < rowStart[row + 1]) {
      if (firstCol[above] < endCol[run] && firstCol[run] < endCol[above]) {
        join(above, run);
      }
      if (endCol[above] < endCol[run]) {
        above++;
      } else {
        run++;
      }
    }
  }

  private void join(int a, int b) {
    int rootA = root(a);
    int rootB = root(b);
    parent[Math.max(rootA, rootB)] = Math.min(rootA, rootB);
  }

  private int root(int run) {
    int r = run;
    while (parent[r] != r) {
      parent[r] = parent[parent[r]];
      r = parent[r];
    }
    return r;
  }
}

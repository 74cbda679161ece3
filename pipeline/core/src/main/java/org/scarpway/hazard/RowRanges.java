package org.scarpway.hazard;

import java.util.Arrays;

/**
 * Ranges of columns on every row of a grid. Touching ranges are merged, so there are never more
 * ranges than cells.
 */
final class RowRanges {
  private static final int FIRST_ROOM = 4;

  /**
   * Each range packs its first column in the upper 32 bits and its end (exclusive) in the lower.
   */
  private final long[][] ranges;

  private final int[] counts;

  RowRanges(int rows) {
    ranges = new long[rows][];
    counts = new int[rows];
  }

  /** Adds the columns [first, end) to a row; ignored if empty. */
  void add(int row, int first, int end) {
    if (end <= first) {
      return;
    }
    int n = counts[row];
    if (n > 0) {
      long last = ranges[row][n - 1];
      if (first >= first(last) && first <= end(last)) {
        ranges[row][n - 1] = range(first(last), Math.max(end, end(last)));
        return;
      }
    } else if (ranges[row] == null) {
      ranges[row] = new long[FIRST_ROOM];
    }
    if (n == ranges[row].length) {
      join(row);
      n = counts[row];
      if (n > ranges[row].length / 2) {
        ranges[row] = Arrays.copyOf(ranges[row], 2 * ranges[row].length);
      }
    }
    ranges[row][n] = range(first, end);
    counts[row] = n + 1;
  }

  /** Merges touching ranges; call once after the last range. */
  void join() {
    for (int row = 0; row < counts.length; row++) {
      join(row);
      ranges[row] = counts[row] == 0 ? null : Arrays.copyOf(ranges[row], counts[row]);
    }
  }

  private void join(int row) {
    long[] r = ranges[row];
    int n = counts[row];
    if (n < 2) {
      return;
    }
    Arrays.sort(r, 0, n);
    int last = 0;
    for (int k = 1; k < n; k++) {
      if (first(r[k]) <= end(r[last])) {
        r[last] = range(first(r[last]), Math.max(end(r[last]), end(r[k])));
      } else {
        r[++last] = r[k];
      }
    }
    counts[row] = last + 1;
  }

  /** Combines {@code mark} by OR into the cells of one row from {@code firstCol} on. */
  void mark(int row, int firstCol, int cols, int at, byte[] mask, int mark) {
    for (int k = 0; k < counts[row]; k++) {
      int from = Math.max(firstCol, first(ranges[row][k]));
      int end = Math.min(firstCol + cols, end(ranges[row][k]));
      for (int i = at + from - firstCol; i < at + end - firstCol; i++) {
        mask[i] |= (byte) mark;
      }
    }
  }

  private static long range(int first, int end) {
    return (long) first << 32 | end;
  }

  private static int first(long range) {
    return (int) (range >>> 32);
  }

  private static int end(long range) {
    return (int) range;
  }
}

package org.scarpway.reach;

import java.util.Arrays;

/**
 * Cells waiting in order of key, in buckets of equal width that are used again and again (Dial
 * 1969, <i>Algorithm 360: shortest-path forest with topological ordering</i>, Comm. ACM
 * 12(11):632-633; from memory). Inside a bucket the last comes first, so the order is only as fine
 * as the width. A cell may wait more than once; who takes it out decides whether it still matters.
 */
final class BucketQueue {
  private static final int BUCKETS = 1 << 12;

  private final double perWidth;
  private final int[][] cells = new int[BUCKETS][];
  private final int[] count = new int[BUCKETS];
  private long current;
  private long waiting;

  BucketQueue(double width) {
    if (!(width > 0) || Double.isInfinite(width)) {
      throw new IllegalArgumentException("bucket width must be positive and finite, got " + width);
    }
    this.perWidth = 1 / width;
    Arrays.fill(cells, new int[0]);
  }

  /**
   * Keys too far ahead wait in the last bucket; {@link #isEarly} tells when they come out of it.
   */
  void add(int cell, double key) {
    long bucket = Math.min(Math.max(bucketOf(key), current), current + BUCKETS - 1);
    int slot = (int) (bucket & (BUCKETS - 1));
    int n = count[slot];
    if (n == cells[slot].length) {
      cells[slot] = Arrays.copyOf(cells[slot], Math.max(16, 2 * n));
    }
    cells[slot][n] = cell;
    count[slot] = n + 1;
    waiting++;
  }

  /** The next cell, or -1 when none waits. */
  int poll() {
    if (waiting == 0) {
      return -1;
    }
    int slot = (int) (current & (BUCKETS - 1));
    while (count[slot] == 0) {
      current++;
      slot = (int) (current & (BUCKETS - 1));
    }
    waiting--;
    return cells[slot][--count[slot]];
  }

  /** The key belongs to a bucket that has not come yet. */
  boolean isEarly(double key) {
    return bucketOf(key) > current;
  }

  long bucketOf(double key) {
    return (long) (key * perWidth);
  }
}

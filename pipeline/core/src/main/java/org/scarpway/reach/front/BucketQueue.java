package org.scarpway.reach.front;

import java.util.Arrays;

/**
 * Bucket queue of cells by key, with buckets of equal width in a circular buffer (Dial 1969,
 * <i>Algorithm 360: shortest-path forest with topological ordering</i>, Comm. ACM 12(11):632-633).
 * Inside a bucket the order is last in, first out, so the order of keys is only as fine as the
 * bucket width. A cell may be queued more than once, each time with its key at that moment; the
 * caller must check whether a polled entry is still current. Keys far ahead are stored in an
 * overflow list, so that a wide range of keys costs little.
 */
public final class BucketQueue {
  private static final int BUCKETS = 1 << 12;
  private static final long LAST = 1L << 60;

  private final double[] key;
  private final double perWidth;
  private final int[][] cells = new int[BUCKETS][];
  private final int[] count = new int[BUCKETS];
  private long current;
  private long near;
  private int[] aside = new int[64];
  private int asideCount;
  private long firstAside = Long.MAX_VALUE;

  /**
   * @param key key of every cell; the caller updates it before it adds the cell
   */
  public BucketQueue(double[] key, double width) {
    if (!(width > 0) || Double.isInfinite(width)) {
      throw new IllegalArgumentException("bucket width must be positive and finite, got " + width);
    }
    this.key = key;
    this.perWidth = 1 / width;
    Arrays.fill(cells, new int[0]);
  }

  /** Restarts at another key; the queue must be empty. */
  void restart(double from) {
    current = bucketOf(from);
  }

  public void add(int cell) {
    long bucket = Math.max(bucketOf(key[cell]), current);
    if (bucket < current + BUCKETS) {
      push((int) (bucket & (BUCKETS - 1)), cell);
      return;
    }
    if (asideCount == aside.length) {
      aside = Arrays.copyOf(aside, 2 * asideCount);
    }
    aside[asideCount++] = cell;
    firstAside = Math.min(firstAside, bucket);
  }

  private void push(int slot, int cell) {
    int n = count[slot];
    if (n == cells[slot].length) {
      cells[slot] = Arrays.copyOf(cells[slot], Math.max(16, 2 * n));
    }
    cells[slot][n] = cell;
    count[slot] = n + 1;
    near++;
  }

  /** Removes and returns the next cell, -1 if the queue is empty. */
  public int poll() {
    while (near > 0 || asideCount > 0) {
      if (near == 0) {
        current = Math.max(current, firstAside);
      }
      if (firstAside <= current) {
        takeIn();
      }
      int slot = (int) (current & (BUCKETS - 1));
      if (count[slot] > 0) {
        near--;
        return cells[slot][--count[slot]];
      }
      current++;
    }
    return -1;
  }

  /** Moves entries that are no longer far ahead from the overflow list into their buckets. */
  private void takeIn() {
    int n = asideCount;
    asideCount = 0;
    firstAside = Long.MAX_VALUE;
    for (int i = 0; i < n; i++) {
      add(aside[i]);
    }
  }

  /** True if two keys fall into the same bucket, within which there is no order. */
  boolean sameBucket(double a, double b) {
    return bucketOf(a) == bucketOf(b);
  }

  private long bucketOf(double k) {
    return (long) Math.min(k * perWidth, LAST);
  }
}

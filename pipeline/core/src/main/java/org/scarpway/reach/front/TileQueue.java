package org.scarpway.reach.front;

import java.util.Arrays;
import org.scarpway.stage.StageFailure;

/**
 * Tiles that have something to do, the one with the least waiting label first, shared by the
 * threads of one front. A tile is with one thread at a time.
 */
final class TileQueue {
  private final double[] from;
  private final boolean[] running;
  private final BucketQueue waiting;
  private double budget;
  private int runningTiles;
  private boolean failed;

  TileQueue(int tiles, double bucketWidth, double budget) {
    this.from = new double[tiles];
    Arrays.fill(from, Double.POSITIVE_INFINITY);
    this.running = new boolean[tiles];
    this.waiting = new BucketQueue(from, bucketWidth);
    this.budget = budget;
  }

  /** The tile has a cell, or in its margin a change, of this label to attend to. */
  synchronized void wake(int tile, double label) {
    if (label < from[tile]) {
      from[tile] = label;
      if (!running[tile] && label <= budget) {
        waiting.add(tile);
        notifyAll();
      }
    }
  }

  /** The next tile, or -1 when there is nothing left to do for anybody. */
  synchronized int take() {
    int tile = poll();
    while (tile < 0 && runningTiles > 0 && !failed) {
      try {
        wait();
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new StageFailure("interrupted", e);
      }
      tile = poll();
    }
    if (tile >= 0) {
      running[tile] = true;
      runningTiles++;
    }
    return tile;
  }

  private int poll() {
    int tile = failed ? -1 : waiting.poll();
    while (tile >= 0 && (running[tile] || !due(tile))) {
      tile = waiting.poll();
    }
    return tile;
  }

  private boolean due(int tile) {
    return from[tile] <= budget && from[tile] < Double.POSITIVE_INFINITY;
  }

  /** Changes the budget; nobody is at work. */
  synchronized void allow(double more) {
    budget = more;
    for (int tile = 0; tile < from.length; tile++) {
      if (due(tile)) {
        waiting.add(tile);
      }
    }
  }

  /** Least label to attend to in a tile just taken; attended to from now on. */
  synchronized double attend(int tile) {
    double label = from[tile];
    from[tile] = Double.POSITIVE_INFINITY;
    return label;
  }

  /** The tile is no longer with its thread. */
  synchronized void release(int tile) {
    running[tile] = false;
    runningTiles--;
    if (due(tile)) {
      waiting.add(tile);
    }
    notifyAll();
  }

  /** Least label that anything waits with, within the budget or beyond. */
  synchronized double least() {
    double least = Double.POSITIVE_INFINITY;
    for (double label : from) {
      least = Math.min(least, label);
    }
    return least;
  }

  /** Lets everybody go, since one thread has failed. */
  synchronized void fail() {
    failed = true;
    notifyAll();
  }
}

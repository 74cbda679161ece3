package org.scarpway.reach.front;

import java.util.Arrays;
import org.scarpway.stage.StageFailure;

/**
 * Priority queue of the tiles with work, by least queued label, shared by the threads of one front.
 * A tile is processed by one thread at a time.
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

  /** Queues a tile that has a cell to expand, or a change in its halo, with this label. */
  synchronized void wake(int tile, double label) {
    if (label < from[tile]) {
      from[tile] = label;
      if (!running[tile] && label <= budget) {
        waiting.add(tile);
        notifyAll();
      }
    }
  }

  /** Removes and returns the next tile; -1 if no thread has any work left. */
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

  /** Changes the budget; no thread may be running. */
  synchronized void allow(double more) {
    budget = more;
    for (int tile = 0; tile < from.length; tile++) {
      if (due(tile)) {
        waiting.add(tile);
      }
    }
  }

  /** Least label to process in a tile just taken; it is marked as processed. */
  synchronized double attend(int tile) {
    double label = from[tile];
    from[tile] = Double.POSITIVE_INFINITY;
    return label;
  }

  /** Releases the tile from its thread. */
  synchronized void release(int tile) {
    running[tile] = false;
    runningTiles--;
    if (due(tile)) {
      waiting.add(tile);
    }
    notifyAll();
  }

  /** Least queued label, within the budget or beyond. */
  synchronized double least() {
    double least = Double.POSITIVE_INFINITY;
    for (double label : from) {
      least = Math.min(least, label);
    }
    return least;
  }

  /** Ends the work of all threads because one has failed. */
  synchronized void fail() {
    failed = true;
    notifyAll();
  }
}

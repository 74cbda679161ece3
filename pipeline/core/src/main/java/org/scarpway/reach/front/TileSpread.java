package org.scarpway.reach.front;

import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Supplier;
import org.scarpway.stage.Progress;

/** Runs tiles, the one with the least label first, until no tile has work left. */
final class TileSpread {
  private final Tiling tiling;
  private final TileQueue queue;
  private final AtomicLong runs = new AtomicLong();
  private final AtomicLong worked = new AtomicLong();

  TileSpread(Tiling tiling, TileQueue queue) {
    this.tiling = tiling;
    this.queue = queue;
  }

  /** Any number of threads may help at the same time, each with a runner of its own. */
  void work(Supplier<TileRunner> runners, Progress progress) {
    try {
      TileRunner runner = null;
      for (int tile = queue.take(); tile >= 0; tile = queue.take()) {
        if (runner == null) {
          runner = runners.get();
        }
        long cells = runner.run(tile, queue.attend(tile));
        tell(runner, tile);
        queue.release(tile);
        runs.getAndIncrement();
        report(progress, cells);
      }
    } catch (RuntimeException | Error e) {
      queue.fail();
      throw e;
    }
  }

  private void tell(TileRunner runner, int tile) {
    for (int dr = -1; dr <= 1; dr++) {
      for (int dc = -1; dc <= 1; dc++) {
        int beside = tiling.beside(tile, dr, dc);
        if (beside >= 0 && beside != tile) {
          queue.wake(beside, runner.changed(dr, dc));
        }
      }
    }
    queue.wake(tile, runner.left());
  }

  /**
   * Reports progress. Cells are processed more than once each, so the count is capped at the number
   * of cells.
   */
  private void report(Progress progress, long cells) {
    long before = worked.getAndAdd(cells);
    long news = Math.min(cells, (long) tiling.rows() * tiling.cols() - before);
    if (news > 0) {
      progress.advance(news);
    }
  }

  /** Number of tile runs, repeats included. */
  long runs() {
    return runs.get();
  }

  /** Number of cells processed, repeats included. */
  long worked() {
    return worked.get();
  }
}

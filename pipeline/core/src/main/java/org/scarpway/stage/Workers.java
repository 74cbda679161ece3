package org.scarpway.stage;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicBoolean;

/**
 * Thread pool that runs independent bands of rows in parallel. The bands do not depend on the
 * number of threads and never share an output cell, so neither do the results. A task may ask for
 * further tasks: its own thread then runs them, since waiting for the others, which may wait as
 * well, could last forever.
 */
public final class Workers implements AutoCloseable {
  private static final int BAND_ROWS = 64;

  private final int threads;
  private final ExecutorService pool;
  private final Memory memory = new Memory();

  /**
   * Starts the threads; they are daemons and end with {@link #close}.
   *
   * @param threads number of threads, at least 1
   * @throws IllegalArgumentException if the number is below 1
   */
  public Workers(int threads) {
    if (threads < 1) {
      throw new IllegalArgumentException("threads must be at least 1, got " + threads);
    }
    this.threads = threads;
    this.pool =
        Executors.newFixedThreadPool(
            threads,
            task -> {
              Thread t = new Own(this, task);
              t.setDaemon(true);
              return t;
            });
  }

  private static final class Own extends Thread {
    private final Workers workers;

    private Own(Workers workers, Runnable task) {
      super(task, "scarpway-worker");
      this.workers = workers;
    }
  }

  /** True if one of these threads asks. */
  private boolean isOneOfUs() {
    return Thread.currentThread() instanceof Own own && own.workers == this;
  }

  /** The memory shared by all work on these threads. */
  public Memory memory() {
    return memory;
  }

  /** Number of threads. */
  public int threads() {
    return threads;
  }

  /** A task on the rows {@code fromRow} (inclusive) to {@code toRow} (exclusive). */
  @FunctionalInterface
  public interface BandTask {
    /**
     * Processes the rows of one band; called once per band, by any thread.
     *
     * @param fromRow first row, inclusive
     * @param toRow last row, exclusive
     */
    void run(int fromRow, int toRow);
  }

  /**
   * Runs the task on all rows, in bands, and returns when every band is done.
   *
   * @param rows number of rows, 0 or more
   * @param task called for bands of rows that do not overlap, by several threads at once
   * @throws StageFailure if the calling thread is interrupted; a failure of the task is thrown as
   *     it is
   */
  public void overRows(int rows, BandTask task) {
    List<Runnable> bands = new ArrayList<>();
    for (int from = 0; from < rows; from += BAND_ROWS) {
      int first = from;
      int end = Math.min(rows, from + BAND_ROWS);
      bands.add(() -> task.run(first, end));
    }
    all(bands);
  }

  /**
   * Runs all tasks, in any order, and returns when every one is done. After a failure no further
   * task is started; the first failure is thrown when the running tasks have ended.
   */
  public void all(List<Runnable> tasks) {
    if (isOneOfUs()) {
      tasks.forEach(Runnable::run);
      return;
    }
    AtomicBoolean failed = new AtomicBoolean();
    List<Future<?>> running = new ArrayList<>();
    for (Runnable task : tasks) {
      running.add(pool.submit(() -> unlessFailed(failed, task)));
    }
    Throwable first = null;
    for (Future<?> f : running) {
      try {
        f.get();
      } catch (ExecutionException e) {
        if (first == null) {
          first = e.getCause();
        }
      } catch (InterruptedException e) {
        running.forEach(other -> other.cancel(true));
        Thread.currentThread().interrupt();
        throw new StageFailure("interrupted", e);
      }
    }
    if (first != null) {
      throw unwrap(first);
    }
  }

  private static void unlessFailed(AtomicBoolean failed, Runnable task) {
    if (failed.get()) {
      return;
    }
    boolean done = false;
    try {
      task.run();
      done = true;
    } finally {
      if (!done) {
        failed.set(true);
      }
    }
  }

  private static RuntimeException unwrap(Throwable cause) {
    if (cause instanceof RuntimeException r) {
      return r;
    }
    if (cause instanceof Error e) {
      throw e;
    }
    return new StageFailure(Reason.of(cause), cause);
  }

  /** Stops the threads; running tasks are interrupted. */
  @Override
  public void close() {
    pool.shutdownNow();
  }
}

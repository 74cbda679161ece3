package org.scarpway.run.progress;

import java.io.PrintStream;
import java.util.Locale;
import org.scarpway.run.plan.JobPlan;
import org.scarpway.run.plan.ProgressStyle;
import org.scarpway.run.product.Durations;

/**
 * Progress on stderr: the current work, how much of it is done, the rate, the time left and the
 * memory in use. On a terminal this is one line that is overwritten, elsewhere a line every few
 * seconds.
 */
public final class ConsoleLog implements RunLog {
  private static final long BAR_INTERVAL_NS = 200_000_000L;
  private static final long PLAIN_INTERVAL_NS = 10_000_000_000L;
  private static final int BAR_WIDTH = 24;

  private final PrintStream err;
  private final ProgressStyle mode;
  private String stage = "";
  private final Pace pace;
  private boolean lineOpen;

  public ConsoleLog(PrintStream err, ProgressStyle mode) {
    this.err = err;
    this.mode = mode;
    this.pace = new Pace(mode == ProgressStyle.bar ? BAR_INTERVAL_NS : PLAIN_INTERVAL_NS);
  }

  @Override
  public void job(String name) {
    note("[" + name + "]");
  }

  @Override
  public void plan(JobPlan plan) {
    plan.lines().forEach(this::note);
  }

  @Override
  public synchronized void stage(String id) {
    stage = id;
  }

  @Override
  public void done(String id, StageDone done) {
    note(
        switch (done.from()) {
          case HERE -> "[" + id + "] unchanged, reused";
          case STORE -> "[" + id + "] unchanged, taken from the store";
          case COMPUTED ->
              String.format(
                  Locale.ROOT,
                  "[%s] done in %.1f s%s, heap up to %,d MB",
                  id,
                  done.wallS(),
                  rate(done.cells() / Math.max(1e-9, done.wallS())),
                  done.peakHeapMb());
        });
  }

  /** Returns an empty text if too little was done for a rate. */
  private static String rate(double perS) {
    return perS < 1e5 ? "" : String.format(Locale.ROOT, " (%.1f Mcell/s)", perS / 1e6);
  }

  @Override
  public synchronized void failed(String job, int code, String line) {
    clearLine();
    err.println(line);
  }

  @Override
  public void finished(String job, double wallS) {
    note("[" + job + "] finished in " + Durations.text(wallS));
  }

  @Override
  public synchronized void note(String line) {
    if (mode != ProgressStyle.quiet) {
      clearLine();
      err.println(line);
    }
  }

  @Override
  public synchronized void begin(String newWhat, long newTotal) {
    pace.begin(newWhat, newTotal);
  }

  @Override
  public synchronized void advance(long more) {
    if (!pace.advance(more) || mode == ProgressStyle.quiet) {
      return;
    }
    String line = line();
    if (mode == ProgressStyle.bar) {
      err.print("\r\033[K" + line);
      err.flush();
      lineOpen = true;
    } else {
      err.println(line);
    }
  }

  @Override
  public synchronized void end() {
    clearLine();
  }

  private void clearLine() {
    if (lineOpen) {
      err.print("\r\033[K");
      err.flush();
      lineOpen = false;
    }
  }

  private String line() {
    StringBuilder s = new StringBuilder("[").append(stage).append("] ");
    s.append(pace.what()).append(' ');
    long total = pace.total();
    long done = pace.done();
    if (total > 0) {
      double share = Math.min(1, (double) done / total);
      if (mode == ProgressStyle.bar) {
        int full = (int) Math.round(share * BAR_WIDTH);
        s.append("=".repeat(full)).append(".".repeat(BAR_WIDTH - full)).append(' ');
      }
      s.append(String.format(Locale.ROOT, "%,d/%,d %.0f %%", done, total, 100 * share));
    } else {
      s.append(String.format(Locale.ROOT, "%,d", done));
    }
    s.append(String.format(Locale.ROOT, ", %s/s", count(pace.perS())));
    if (!Double.isNaN(pace.leftS())) {
      s.append(", ").append(Durations.text(pace.leftS())).append(" left");
    }
    Runtime r = Runtime.getRuntime();
    long usedMb = (r.totalMemory() - r.freeMemory()) >> 20;
    return s.append(String.format(Locale.ROOT, ", heap %,d of %,d MB", usedMb, r.maxMemory() >> 20))
        .toString();
  }

  private static String count(double v) {
    if (v >= 1e6) {
      return String.format(Locale.ROOT, "%.1f M", v / 1e6);
    }
    return v >= 1e3
        ? String.format(Locale.ROOT, "%.1f k", v / 1e3)
        : String.format(Locale.ROOT, "%.0f", v);
  }
}

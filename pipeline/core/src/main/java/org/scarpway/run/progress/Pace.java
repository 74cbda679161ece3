package org.scarpway.run.progress;

/** The progress and rate of a piece of work, reported no more often than once per interval. */
final class Pace {
  private final long intervalNs;
  private String what = "";
  private long total;
  private long done;
  private long startNs;
  private long toldNs;

  Pace(long intervalNs) {
    this.intervalNs = intervalNs;
  }

  void begin(String newWhat, long newTotal) {
    what = newWhat;
    total = newTotal;
    done = 0;
    startNs = System.nanoTime();
    toldNs = startNs;
  }

  /** True if progress is to be reported now. */
  boolean advance(long more) {
    done += more;
    long now = System.nanoTime();
    if (now - toldNs < intervalNs) {
      return false;
    }
    toldNs = now;
    return true;
  }

  String what() {
    return what;
  }

  /** 0 if unknown. */
  long total() {
    return total;
  }

  long done() {
    return done;
  }

  /** Units per second up to the last report. */
  double perS() {
    double seconds = (toldNs - startNs) * 1e-9;
    return seconds > 0 ? done / seconds : 0;
  }

  /** Time left (s) at this rate, NaN if unknown. */
  double leftS() {
    return total > done && perS() > 0 ? (total - done) / perS() : Double.NaN;
  }
}

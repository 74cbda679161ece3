package org.scarpway.run.progress;

/** How far a piece of work is and how fast it goes, told no more often than an interval. */
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

  /** Whether it is time to tell of it. */
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

  /** Up to when it was told last. */
  double perS() {
    double seconds = (toldNs - startNs) * 1e-9;
    return seconds > 0 ? done / seconds : 0;
  }

  /** Time left at this pace, NaN where it cannot be told. */
  double leftS() {
    return total > done && perS() > 0 ? (total - done) / perS() : Double.NaN;
  }
}

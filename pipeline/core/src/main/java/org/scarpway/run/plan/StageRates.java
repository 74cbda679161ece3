package org.scarpway.run.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.scarpway.run.ground.StageNeeds;
import org.scarpway.run.store.StageTimes;
import org.scarpway.run.store.StageTimes.Sample;
import org.scarpway.stage.Workers;

/**
 * Estimated times and sizes of stages. The shipped figures of {@link StageNeeds} give how time
 * grows with work; how much longer or shorter stages took on this machine than they say is the
 * median over the own runs that are most alike: of the same stage where it ran on as much work
 * before, else of the nearest in size of its kind, else over all kinds. Before the first run a
 * short probe gives the machine's speed.
 */
final class StageRates {
  /** Own samples that an estimate is taken from. */
  private static final int NEAREST = 5;

  /** Work that counts as the same (ratio). */
  private static final double SAME = 1.05;

  /** Share of a run that one thread does alone. */
  private static final double ALONE = 0.15;

  private final StageTimes times;
  private final int threads;
  private final double elsewhere;
  private final String source;

  private StageRates(StageTimes times, int threads, double elsewhere, String source) {
    this.times = times;
    this.threads = threads;
    this.elsewhere = elsewhere;
    this.source = source;
  }

  /** Learns from earlier runs, or where there are none from the machine's speed. */
  static StageRates of(StageTimes times, Workers workers) {
    int threads = workers.threads();
    if (times.isEmpty()) {
      double speed =
          SpeedProbe.relativeSpeed(workers) / threadShare(SpeedProbe.REFERENCE_THREADS, threads);
      String source =
          String.format(
              Locale.ROOT, "from rates of another machine, this one's speed is %.2f of it", speed);
      return new StageRates(times, threads, 1 / speed, source);
    }
    return learnt(times, threads);
  }

  /** Learns from earlier runs alone. */
  static StageRates learnt(StageTimes times, int threads) {
    StageRates alone = new StageRates(times, threads, 1, "");
    List<Double> kinds = new ArrayList<>();
    for (String kind : times.kinds()) {
      kinds.add(median(times.of(kind).stream().map(s -> alone.timeRatio(kind, s)).toList()));
    }
    return new StageRates(
        times, threads, kinds.isEmpty() ? 1 : median(kinds), "from earlier runs beside it");
  }

  /** Returns how long a run takes on this many threads, as a multiple of that on others. */
  private static double threadShare(int then, int now) {
    return ALONE + (1 - ALONE) * then / now;
  }

  /**
   * @param first true if it is the first of its kind in the run, so that its code is still to be
   *     compiled
   */
  double seconds(StageWork w, boolean first) {
    List<Sample> like = alike(w);
    double ratio =
        like.isEmpty()
            ? elsewhere
            : median(like.stream().map(s -> timeRatio(w.kind(), s)).toList());
    return ratio * StageNeeds.of(w.kind()).seconds(w.work(), first);
  }

  private double timeRatio(String kind, Sample s) {
    double shipped = StageNeeds.of(kind).seconds(s.work(), s.first());
    return s.wallS() * threadShare(s.threads(), threads) / shipped;
  }

  /** Returns the size (MB) of the stage's products. */
  double diskMb(StageWork w) {
    List<Sample> like = alike(w).stream().filter(s -> s.bytes() > 0).toList();
    double bytesPerWork = StageNeeds.of(w.kind()).diskBytes() * w.diskCells() / w.work();
    double ratio =
        like.isEmpty()
            ? 1
            : median(
                like.stream().map(s -> (double) s.bytes() / (bytesPerWork * s.work())).toList());
    return ratio * bytesPerWork * w.work() / (1 << 20);
  }

  /** Returns the samples that tell most of the stage. */
  private List<Sample> alike(StageWork w) {
    List<Sample> same = new ArrayList<>();
    List<Sample> kind = new ArrayList<>();
    for (Sample s : times.of(w.kind())) {
      // The newest first, which a stable sort keeps.
      kind.add(0, s);
      if (s.stage().equals(w.stage()) && distance(s, w) <= Math.log(SAME)) {
        same.add(0, s);
      }
    }
    List<Sample> best = same.isEmpty() ? kind : same;
    best.sort(Comparator.comparingDouble(s -> distance(s, w)));
    return best.subList(0, Math.min(NEAREST, best.size()));
  }

  private static double distance(Sample s, StageWork w) {
    return Math.abs(Math.log(s.work() / w.work()));
  }

  /** Returns the middle ratio, between two the one of equal distance from both. */
  static double median(List<Double> ratios) {
    List<Double> sorted = ratios.stream().sorted().toList();
    int n = sorted.size();
    double low = sorted.get((n - 1) / 2);
    double high = sorted.get(n / 2);
    return low == high ? low : Math.sqrt(low * high);
  }

  String source() {
    return source;
  }
}

package org.scarpway.sortie;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * Finds the best plan by labels over sets of stops (Righini &amp; Salani 2008, Networks
 * 51:155-170), set by set in the order of their size. Every state that can be part of a better plan
 * than the known one is looked at, so what is found when nothing is left is proven best. It ends
 * early when a given number of labels was kept.
 */
final class LabelSearch {
  /** Most stops: a set and the last place share the bits of a long. */
  static final int MOST_STOPS = 64 - Labels.PLACE_BITS - 1;

  private final Sortie sortie;
  private final ToGo toGo;
  private final long mostLabels;
  private final DayClock clock;
  private final DayClock probe;
  private final Waiting waiting;
  private final long[] after;
  private final long must;

  private List<Visit> best;
  private double bestValue;
  private double bestHomeS = Double.POSITIVE_INFINITY;
  private int bestLevel = -1;
  private int bestLabel;
  private long labels;
  private boolean complete = true;
  private double open = Double.NEGATIVE_INFINITY;

  /**
   * @param known value of a known plan, negative infinity for none: only better ones are looked for
   */
  LabelSearch(Sortie sortie, ToGo toGo, double known, long mostLabels) {
    int n = sortie.stops().size();
    if (n > MOST_STOPS) {
      throw new IllegalArgumentException("too many stops for sets: " + n);
    }
    this.sortie = sortie;
    this.toGo = toGo;
    this.mostLabels = mostLabels;
    this.clock = new DayClock(sortie.rules(), sortie.home());
    this.probe = new DayClock(sortie.rules(), sortie.home());
    this.waiting = new Waiting(sortie);
    this.after = new long[n + 1];
    this.bestValue = known;
    long all = 0;
    for (int j = 1; j <= n; j++) {
      for (int a : sortie.at(j).after()) {
        after[j] |= bit(a);
      }
      all |= sortie.at(j).must() ? bit(j) : 0;
    }
    this.must = all;
  }

  /** Visits of the best plan, the way home included; null if none is better than the known one. */
  List<Visit> best() {
    return best;
  }

  /** Value of the best plan, or of the known one. */
  double bestValue() {
    return bestValue;
  }

  /** Labels kept. */
  long labels() {
    return labels;
  }

  /** Whether every state was looked at, so that the best plan is proven best. */
  boolean isComplete() {
    return complete;
  }

  /** Upper bound on the value of any plan, from what was left open. */
  double atMost() {
    return Math.max(bestValue, open);
  }

  void run() {
    List<Labels> levels = new ArrayList<>();
    Labels level = new Labels();
    expand(0, 0, -1, 0, level);
    if (must == 0) {
      offer(-1, -1, 0, 0);
    }
    while (level.count() > 0) {
      levels.add(level);
      Labels longer = new Labels();
      int at = levels.size() - 1;
      for (int k = 0; k < level.count(); k++) {
        if (level.isGone(k)) {
          continue;
        }
        if (labels >= mostLabels) {
          leaveOpen(level, k);
          leaveOpen(longer, 0);
          trace(levels);
          return;
        }
        stand(level, k);
        if ((level.set(k) & must) == must) {
          offer(at, k, level.value(k), homeS(level.last(k)));
        }
        expandFrom(level, k, longer);
      }
      if (bestLevel == at) {
        trace(levels);
      }
      level.close();
      level = longer;
    }
    trace(levels);
  }

  private void leaveOpen(Labels level, int from) {
    complete = false;
    for (int k = from; k < level.count(); k++) {
      if (!level.isGone(k)) {
        stand(level, k);
        open = Math.max(open, level.value(k) + toGo.mostValue(level.set(k), level.last(k), clock));
      }
    }
  }

  private void stand(Labels level, int label) {
    level.into(clock, label);
    SortieStop s = sortie.at(level.last(label));
    clock.standAt(s.camp(), s.ways());
  }

  private void offer(int level, int label, double value, double homeS) {
    if (value > bestValue || (value == bestValue && homeS < bestHomeS)) {
      bestValue = value;
      bestHomeS = homeS;
      bestLevel = level;
      bestLabel = label;
      best = level < 0 ? List.of() : null;
    }
  }

  private void expandFrom(Labels level, int k, Labels longer) {
    long set = level.set(k);
    int i = level.last(k);
    double value = level.value(k);
    if (value + toGo.mostValue(set, i, clock) <= bestValue) {
      return;
    }
    expand(set, i, k, value, level, longer);
  }

  private void expand(long set, int i, int label, double value, Labels longer) {
    expand(set, i, label, value, null, longer);
  }

  private void expand(long set, int i, int label, double value, Labels level, Labels longer) {
    int n = sortie.stops().size();
    for (int j = 1; j <= n; j++) {
      if ((set & bit(j)) != 0 || (after[j] & ~set) != 0) {
        continue;
      }
      for (int way = 0; way < sortie.legs().count(i, j); way++) {
        boolean more = true;
        for (int rests = 0; more; rests++) {
          if (level == null) {
            clock.set(0, 0, 0, 0, 0);
            clock.standAt(true, WaysHome.AT_HOME);
          } else {
            stand(level, label);
          }
          more = step(set, i, label, value, new Visit(j, way, rests), longer);
        }
      }
    }
  }

  /**
   * Drives on to a stop and keeps the label. Returns whether one more night before the stop may
   * bring another one, since the crew cannot wait there.
   */
  private boolean step(long set, int i, int label, double value, Visit v, Labels longer) {
    int j = v.place();
    SortieStop s = sortie.at(j);
    if (!clock.drive(sortie.legs().way(i, j, v.way()), v.restNights())) {
      return false;
    }
    clock.standAt(s.camp(), s.ways());
    boolean canWait = clock.canWait();
    if (!clock.stop(s)) {
      return !canWait;
    }
    boolean canStay = clock.canWait();
    long with = set | bit(j);
    double worth = value + s.value();
    if (homeS(j) < Double.POSITIVE_INFINITY && worth + toGo.mostValue(with, j, clock) > bestValue) {
      waiting.at(s);
      labels += longer.add(Labels.key(with, j), label, v, clock, worth, waiting) ? 1 : 0;
    }
    return !canStay;
  }

  /** When the crew is home if it drives home from here (s), infinite if it cannot. */
  private double homeS(int place) {
    double least = Double.POSITIVE_INFINITY;
    for (int way = 0; way < sortie.legs().count(place, 0); way++) {
      if (home(place, way)) {
        least = Math.min(least, probe.clockS());
      }
    }
    return least;
  }

  private boolean home(int place, int way) {
    SortieStop s = sortie.at(place);
    probe.set(clock.day(), clock.usedS(), clock.drivenS(), clock.walks(), clock.drawnJ());
    probe.standAt(s.camp(), s.ways());
    return probe.drive(sortie.legs().way(place, 0, way));
  }

  private void trace(List<Labels> levels) {
    if (best != null || bestLevel < 0) {
      return;
    }
    List<Visit> visits = new ArrayList<>();
    Labels end = levels.get(bestLevel);
    stand(end, bestLabel);
    int last = end.last(bestLabel);
    double least = Double.POSITIVE_INFINITY;
    Visit home = null;
    for (int way = 0; way < sortie.legs().count(last, 0); way++) {
      if (home(last, way) && probe.clockS() < least) {
        least = probe.clockS();
        home = new Visit(0, way, 0);
      }
    }
    visits.add(home);
    for (int at = bestLevel, label = bestLabel; at >= 0; at--) {
      visits.add(levels.get(at).visit(label));
      label = levels.get(at).from(label);
    }
    Collections.reverse(visits);
    best = visits;
  }

  private static long bit(int place) {
    return 1L << place - 1;
  }
}

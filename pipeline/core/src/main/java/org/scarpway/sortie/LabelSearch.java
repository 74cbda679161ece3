package org.scarpway.sortie;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * Finds the best plan by labels over sets of stops (Righini &amp; Salani 2008, Networks
 * 51:155-170), set by set in the order of their size. Every state that can be part of a better plan
 * than the known one is looked at, so what is found when nothing is left is proven best. It ends
 * early when a given number of labels was kept. With a width, it keeps the most promising labels of
 * each size only (beam search) and proves nothing.
 */
final class LabelSearch {
  private final Sortie sortie;
  private final int n;
  private final ToGo toGo;
  private final double unit;
  private final DayClock clock;
  private final WaysBack back;
  private final Waiting waiting;
  private final long[] afterLow;
  private final long[] afterHigh;
  private long mustLow;
  private long mustHigh;

  private List<Visit> best;
  private double bestValue;
  private double bestHomeS = Double.POSITIVE_INFINITY;
  private int bestLevel = -1;
  private int bestLabel;
  private long labels;
  private boolean complete = true;
  private double open = Double.NEGATIVE_INFINITY;

  // The label that is being extended.
  private Labels level;
  private int label;
  private int last;

  /**
   * @param known value of a known plan, negative infinity for none: only better ones are looked for
   */
  LabelSearch(Sortie sortie, ToGo toGo, double known) {
    this.sortie = sortie;
    this.n = sortie.stops().size();
    if (n > Labels.MOST_STOPS) {
      throw new IllegalArgumentException("too many stops for sets: " + n);
    }
    this.toGo = toGo;
    this.unit = Unit.of(sortie.stops());
    this.clock = new DayClock(sortie.rules(), sortie.home());
    this.back = new WaysBack(sortie);
    this.waiting = new Waiting(sortie);
    this.afterLow = new long[n + 1];
    this.afterHigh = new long[n + 1];
    this.bestValue = known;
    for (int j = 1; j <= n; j++) {
      for (int a : sortie.at(j).after()) {
        afterLow[j] |= low(a);
        afterHigh[j] |= high(a);
      }
      mustLow |= sortie.at(j).must() ? low(j) : 0;
      mustHigh |= sortie.at(j).must() ? high(j) : 0;
    }
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

  /**
   * Searches.
   *
   * @param mostLabels labels after which the search ends
   * @param width labels of each number of stops that are extended
   */
  void run(long mostLabels, int width) {
    List<Labels> levels = new ArrayList<>();
    Labels next = new Labels();
    label = -1;
    last = 0;
    if (mustLow == 0 && mustHigh == 0) {
      offer(-1, 0, 0);
    }
    expand(next);
    while (next.count() > 0) {
      level = next;
      next = new Labels();
      levels.add(level);
      if (width < level.count()) {
        keepBest(width);
      }
      for (int k = 0; k < level.count(); k++) {
        if (level.isGone(k)) {
          continue;
        }
        if (labels >= mostLabels) {
          leaveOpen(level, k);
          leaveOpen(next, 0);
          trace(levels);
          return;
        }
        label = k;
        last = level.last(k);
        stand();
        if ((level.low(k) & mustLow) == mustLow && (level.high(k) & mustHigh) == mustHigh) {
          offer(levels.size() - 1, level.value(k), back.straightS(clock, last));
        }
        if (canBeBetter(bound(level, k))) {
          expand(next);
        }
      }
      trace(levels);
      level.close();
    }
  }

  private void keepBest(int width) {
    double[] bound = new double[level.count()];
    for (int k = 0; k < bound.length; k++) {
      level.into(clock, k);
      bound[k] = level.isGone(k) ? 0 : bound(level, k);
    }
    complete &= !level.keepBest(width, bound);
  }

  /** Values are multiples of a unit, so what is better is so by a unit at least. */
  private boolean canBeBetter(double bound) {
    return bound > bestValue && bound >= bestValue + unit;
  }

  /** Of a label that the clock stands at. */
  private double bound(Labels of, int k) {
    return of.value(k) + of.prices(k) + toGo.most(of.last(k), clock);
  }

  private void leaveOpen(Labels of, int from) {
    complete = false;
    for (int k = from; k < of.count(); k++) {
      if (!of.isGone(k)) {
        of.into(clock, k);
        open = Math.max(open, bound(of, k));
      }
    }
  }

  /** Sets the clock to the label that is being extended. */
  private void stand() {
    if (label < 0) {
      clock.set(0, 0, 0, 0, 0);
      clock.standAt(true, WaysHome.AT_HOME);
      return;
    }
    level.into(clock, label);
    SortieStop s = sortie.at(last);
    clock.standAt(s.camp(), s.ways());
  }

  private void offer(int depth, double value, double homeS) {
    boolean better = value > bestValue || (value == bestValue && homeS < bestHomeS);
    if (better && homeS < Double.POSITIVE_INFINITY) {
      bestValue = value;
      bestHomeS = homeS;
      bestLevel = depth;
      bestLabel = label;
      best = depth < 0 ? List.of() : null;
    }
  }

  private void expand(Labels longer) {
    long doneLow = label < 0 ? 0 : level.low(label);
    long doneHigh = label < 0 ? 0 : level.high(label);
    for (int j = 1; j <= n; j++) {
      boolean done = (doneLow & low(j)) != 0 || (doneHigh & high(j)) != 0;
      boolean early = (afterLow[j] & ~doneLow) != 0 || (afterHigh[j] & ~doneHigh) != 0;
      for (int way = 0; !done && !early && way < sortie.legs().count(last, j); way++) {
        int rests = 0;
        while (step(j, way, rests, doneLow | low(j), doneHigh | high(j), longer)) {
          rests++;
        }
      }
    }
  }

  /**
   * Drives on to a stop and keeps the label. Returns whether one more night before the stop may
   * bring another one, since the crew cannot wait there.
   */
  private boolean step(int j, int way, int rests, long withLow, long withHigh, Labels longer) {
    stand();
    if (!clock.drive(sortie.legs().way(last, j, way), rests)) {
      return false;
    }
    SortieStop s = sortie.at(j);
    clock.standAt(s.camp(), s.ways());
    boolean canWait = clock.canWait();
    if (!clock.stop(s)) {
      return !canWait;
    }
    boolean canStay = clock.canWait();
    double value = (label < 0 ? 0 : level.value(label)) + s.value();
    double prices = (label < 0 ? allPrices() : level.prices(label)) - toGo.price(j);
    if (canBeBetter(value + prices + toGo.most(j, clock)) && back.exist(clock, j)) {
      waiting.at(s);
      Visit v = new Visit(j, way, rests);
      boolean kept = longer.add(withLow, withHigh, label, v, clock, value, prices, waiting);
      labels += kept ? 1 : 0;
    }
    return !canStay;
  }

  private double allPrices() {
    double sum = 0;
    for (int j = 1; j <= n; j++) {
      sum += toGo.price(j);
    }
    return sum;
  }

  /** Writes down the best plan if its last label is of the newest level. */
  private void trace(List<Labels> levels) {
    if (best != null || bestLevel < 0) {
      return;
    }
    level = levels.get(bestLevel);
    label = bestLabel;
    last = level.last(label);
    stand();
    List<Visit> visits = new ArrayList<>();
    double least = Double.POSITIVE_INFINITY;
    Visit home = null;
    for (int way = 0; way < sortie.legs().count(last, 0); way++) {
      double homeS = back.straightS(clock, last, way);
      if (homeS < least) {
        least = homeS;
        home = new Visit(0, way, 0);
      }
    }
    visits.add(home);
    for (int at = bestLevel, k = bestLabel; at >= 0; at--) {
      visits.add(levels.get(at).visit(k));
      k = levels.get(at).from(k);
    }
    Collections.reverse(visits);
    best = visits;
  }

  private static long low(int place) {
    return place <= 64 ? 1L << (place - 1) : 0;
  }

  private static long high(int place) {
    return place <= 64 ? 0 : 1L << (place - 65);
  }
}

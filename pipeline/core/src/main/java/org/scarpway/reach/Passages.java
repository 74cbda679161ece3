package org.scarpway.reach;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.Closing.Across;
import org.scarpway.reach.ReachResult.Passage;
import org.scarpway.reach.ReachResult.TargetReach;
import org.scarpway.reach.WidestWays.Necks;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Ints;

/**
 * Passages that much of a reach hangs on. Necks are candidates where the widest ways to much of the
 * reach lead through them; each is then closed, and what is really lost without it is counted. Of
 * several necks in one funnel the narrowest stands for all.
 */
final class Passages {
  private static final int MOST = 10;
  private static final int MOST_TRIED = 20;

  /** Less of the reach than this is no news. */
  private static final double LEAST_SHARE = 0.01;

  /** A neck with nearly everything behind another one before it is the same passage. */
  private static final double SAME_SHARE = 0.9;

  private Passages() {}

  static List<Passage> of(
      Closing closing,
      Clearance clearance,
      Necks necks,
      Ints neckOf,
      Bytes state,
      List<TargetReach> targets) {
    long[] behind = new long[necks.count()];
    long all = 0;
    for (int cell = 0; cell < state.size(); cell++) {
      int neck = state.get(cell) == ReachResult.SURELY ? neckOf.get(cell) : -1;
      if (neck >= 0) {
        behind[neck]++;
        all++;
      }
    }
    long[] mostBehindNext = new long[behind.length];
    for (int i = behind.length - 1; i >= 0; i--) {
      int before = necks.before(i);
      if (before >= 0) {
        behind[before] += behind[i];
        mostBehindNext[before] = Math.max(mostBehindNext[before], behind[i]);
      }
    }
    double least = Math.max(1, LEAST_SHARE * all);
    List<Integer> tried = new ArrayList<>();
    for (int i = 0; i < behind.length; i++) {
      if (necks.before(i) >= 0
          && behind[i] >= least
          && mostBehindNext[i] < SAME_SHARE * behind[i]) {
        tried.add(i);
      }
    }
    tried.sort(Comparator.<Integer>comparingLong(i -> -behind[i]).thenComparing(i -> i));
    List<Passage> found = new ArrayList<>();
    for (int i : tried.subList(0, Math.min(MOST_TRIED, tried.size()))) {
      Across across = closing.across(necks.point(i));
      BitSet lost = across == null ? null : closing.behind(across);
      long n = lost == null ? 0 : surely(lost, state);
      if (n >= least) {
        found.add(passage(clearance, necks.point(i), across.widthM(), lost, n, all, targets));
      }
    }
    found.sort(Comparator.comparingDouble(p -> -p.behindM2()));
    return List.copyOf(found.subList(0, Math.min(MOST, found.size())));
  }

  private static long surely(BitSet cells, Bytes state) {
    long n = 0;
    for (int cell = cells.nextSetBit(0); cell >= 0; cell = cells.nextSetBit(cell + 1)) {
      n += state.get(cell) == ReachResult.SURELY ? 1 : 0;
    }
    return n;
  }

  private static Passage passage(
      Clearance clearance,
      int point,
      double widthM,
      BitSet lost,
      long n,
      long all,
      List<TargetReach> targets) {
    GridSpec spec = clearance.spec();
    List<String> cutOff =
        targets.stream()
            .filter(t -> t.reached() && lost.get(spec.cellOf(t.target().xM(), t.target().yM())))
            .map(t -> t.target().name())
            .toList();
    return new Passage(
        clearance.xM(point),
        clearance.yM(point),
        widthM,
        n * spec.cellAreaM2(),
        100.0 * n / all,
        cutOff);
  }
}

package org.scarpway.reach.clearance;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachResult.PinchPoint;
import org.scarpway.reach.question.ReachResult.TargetReach;
import org.scarpway.reach.question.ReachState;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Ints;
import org.scarpway.vehicle.TraversalCost;

/**
 * Finds the pinch points that much of a reach depends on: every place where a connected barrier
 * faces itself is closed by itself, and the area actually lost is computed. Several such places in
 * one funnel are represented by the narrowest.
 */
public final class ReachPinchPoints {
  private static final int MOST = 10;

  /** Smallest lost share of the reach that is reported. */
  private static final double LEAST_SHARE = 0.01;

  /**
   * Share of the ground behind a place above which a nearby place in front of it counts as the same
   * passage.
   */
  private static final double SAME_SHARE = 0.9;

  /** A passage lies between two areas that are wider by at least this factor ... */
  private static final double WIDER = 1.5;

  /** ... or is no wider than this share of the side of a square as large as what is lost. */
  private static final double NARROW = 0.25;

  /**
   * Number of rounds. Lines that cross others are deferred to the next round, the widest to the
   * last.
   */
  private static final int ROUNDS = 4;

  private final BottleneckImpact closing;
  private final Clearance clearance;
  private final GridSpec spec;
  private final int base;
  private final Bytes state;
  private final Narrows narrows;
  private final List<Cut> found = new ArrayList<>();

  /** A place whose closure disconnects something, with the cells that are closed there. */
  private static final class Cut {
    private final int narrow;
    private final double widthM;
    private final int[] cells;
    private final long surely;

    private Cut(int narrow, double widthM, int[] cells, long surely) {
      this.narrow = narrow;
      this.widthM = widthM;
      this.cells = cells;
      this.surely = surely;
    }
  }

  private ReachPinchPoints(
      BottleneckImpact closing, Clearance clearance, int base, Bytes state, Narrows narrows) {
    this.closing = closing;
    this.clearance = clearance;
    this.spec = clearance.spec();
    this.base = base;
    this.state = state;
    this.narrows = narrows;
  }

  public static List<PinchPoint> of(
      TraversalCost field, Clearance clearance, int base, Bytes state, List<TargetReach> targets) {
    int cells = field.spec().cells();
    Ints work = Ints.of(cells + 1, field.scratch((long) Integer.BYTES * (cells + 1)));
    BottleneckImpact closing = new BottleneckImpact(field, clearance, base);
    Narrows narrows = Narrows.of(field, clearance, work);
    ReachPinchPoints p = new ReachPinchPoints(closing, clearance, base, state, narrows);
    long all = p.surely(closing.joined());
    p.cut(Math.max(1, LEAST_SHARE * all), work);
    return p.reported(all, targets);
  }

  /** Closes all places, in rounds of places that do not cross. */
  private void cut(double least, Ints work) {
    int[][] across = new int[narrows.count()][];
    List<Integer> waiting = new ArrayList<>();
    for (int i = 0; i < across.length; i++) {
      across[i] = across(i);
      if (across[i].length > 0 && Arrays.stream(across[i]).noneMatch(cell -> cell == base)) {
        waiting.add(i);
      }
    }
    waiting.sort(
        Comparator.<Integer>comparingDouble(narrows::widthM)
            .thenComparing(i -> across[i].length)
            .thenComparing(i -> fromBaseM(narrows.point(i)))
            .thenComparing(i -> i));
    List<Integer> tried = new ArrayList<>();
    for (int round = 0; round < ROUNDS && !waiting.isEmpty(); round++) {
      BitSet used = new BitSet();
      List<Integer> chosen = new ArrayList<>();
      List<Integer> later = new ArrayList<>();
      choose(waiting, across, used, chosen, later);
      int fresh = chosen.size();
      // Places of earlier rounds only bound areas and are not evaluated again.
      choose(tried, across, used, chosen, new ArrayList<>());
      tried.addAll(chosen.subList(0, fresh));
      int[][] lines = chosen.stream().map(i -> across[i]).toArray(int[][]::new);
      double[] widthM = chosen.stream().mapToDouble(narrows::widthM).toArray();
      Cuts cuts = new Cuts(clearance, closing.joined(), base, lines, state, work);
      for (int k = 0; k < fresh; k++) {
        if (cuts.lostSurely(k) >= least && narrow(cuts, k, widthM)) {
          found.add(new Cut(chosen.get(k), widthM[k], lines[k], cuts.lostSurely(k)));
        }
      }
      waiting = later;
    }
  }

  /** Chooses places that cross neither used cells nor each other. */
  private static void choose(
      List<Integer> from, int[][] across, BitSet used, List<Integer> chosen, List<Integer> later) {
    for (int i : from) {
      if (meets(across[i], used)) {
        later.add(i);
      } else {
        mark(across[i], used);
        chosen.add(i);
      }
    }
  }

  private boolean narrow(Cuts cuts, int line, double[] widthM) {
    double sideM = Math.sqrt(cuts.lost(line) * spec.cellAreaM2());
    return widthM[line] <= NARROW * sideM || cuts.betweenRooms(line, widthM, WIDER * widthM[line]);
  }

  /** Cells across a place that are connected to the base, without duplicates. */
  private int[] across(int i) {
    int step = narrows.step(i);
    int[] cells = closing.between(narrows.point(i) - step, narrows.point(i) + step);
    return Arrays.stream(cells).filter(closing.joined()::get).distinct().toArray();
  }

  private double fromBaseM(int point) {
    int centre = clearance.centre(base);
    return Math.hypot(
        clearance.xM(point) - clearance.xM(centre), clearance.yM(point) - clearance.yM(centre));
  }

  private static boolean meets(int[] cells, BitSet set) {
    for (int cell : cells) {
      if (set.get(cell)) {
        return true;
      }
    }
    return false;
  }

  private List<PinchPoint> reported(long all, List<TargetReach> targets) {
    found.sort(
        Comparator.<Cut>comparingLong(c -> -c.surely)
            .thenComparingDouble(c -> c.widthM)
            .thenComparingInt(c -> c.narrow));
    List<PinchPoint> passages = new ArrayList<>();
    boolean[] reported = new boolean[found.size()];
    for (int i = 0; i < reported.length && passages.size() < MOST; i++) {
      if (reported[i]) {
        continue;
      }
      BitSet behind = closing.behind(found.get(i).cells);
      mark(found.get(i).cells, behind);
      double least = SAME_SHARE * found.get(i).surely;
      Cut narrowest = null;
      double widthM = Double.POSITIVE_INFINITY;
      for (Cut c : together(i, least, behind, reported)) {
        double passableM = narrows.passableM(c.narrow);
        if (passableM < widthM) {
          widthM = passableM;
          narrowest = c;
        }
      }
      passages.add(passage(narrowest, widthM, all, targets));
    }
    passages.sort(Comparator.comparingDouble(p -> -p.behindM2()));
    return List.copyOf(passages);
  }

  /** The places of one passage: each close to another, with nearly the same ground behind them. */
  private List<Cut> together(int first, double least, BitSet behind, boolean[] reported) {
    List<Cut> group = new ArrayList<>(List.of(found.get(first)));
    reported[first] = true;
    for (int n = 0; n < group.size(); n++) {
      for (int k = first; k < reported.length && found.get(k).surely >= least; k++) {
        Cut c = found.get(k);
        if (!reported[k] && close(c, group.get(n)) && meets(c.cells, behind)) {
          reported[k] = true;
          group.add(c);
        }
      }
    }
    return group;
  }

  /** True if two places are no further apart than the sum of their widths. */
  private boolean close(Cut a, Cut b) {
    int p = narrows.point(a.narrow);
    int q = narrows.point(b.narrow);
    double apartM =
        Math.hypot(clearance.xM(p) - clearance.xM(q), clearance.yM(p) - clearance.yM(q));
    return apartM <= a.widthM + b.widthM;
  }

  private static void mark(int[] cells, BitSet set) {
    for (int cell : cells) {
      set.set(cell);
    }
  }

  private long surely(BitSet cells) {
    long n = 0;
    for (int cell = cells.nextSetBit(0); cell >= 0; cell = cells.nextSetBit(cell + 1)) {
      n += state.get(cell) == ReachState.SURELY ? 1 : 0;
    }
    return n;
  }

  private PinchPoint passage(Cut cut, double widthM, long all, List<TargetReach> targets) {
    int point = narrows.point(cut.narrow);
    BitSet lost = closing.behind(cut.cells);
    long n = surely(lost);
    List<String> cutOff =
        targets.stream()
            .filter(t -> t.reached() && lost.get(spec.cellOf(t.target().xM(), t.target().yM())))
            .map(t -> t.target().name())
            .toList();
    return new PinchPoint(
        clearance.xM(point),
        clearance.yM(point),
        widthM,
        n * spec.cellAreaM2(),
        100.0 * n / all,
        cutOff);
  }
}

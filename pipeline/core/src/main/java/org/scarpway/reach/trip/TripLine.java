package org.scarpway.reach.trip;

import java.util.function.IntPredicate;
import org.scarpway.reach.front.Trace;

/**
 * A trip as it can be driven: straight lines between cell centres, over cells and headings that are
 * allowed, or made good in tacks. It keeps to places where a stop leaves what getting home takes.
 */
final class TripLine {
  /** Of the time: what lies this near to too late is rounding of sums. */
  private static final double CLOSE = 1e-5;

  private final int cell;
  private final int[] out;
  private final int[] home;

  private TripLine(int cell, int[] out, int[] home) {
    this.cell = cell;
    this.out = out;
    this.home = home;
  }

  /** The far end. */
  int cell() {
    return cell;
  }

  /** Corners from the base to the far end. */
  int[] out() {
    return out.clone();
  }

  /**
   * Corners from the far end to the base, in the loaded vehicle by the rule pair; none where nobody
   * has to come home.
   */
  int[] home() {
    return home.clone();
  }

  /**
   * @param stayS time at the far end (s)
   * @param judge that has just been asked about the cell, and that it is surely reached
   */
  static TripLine of(int cell, double stayS, BudgetCheck judge, Stops stops, Trace.Drawn drawn) {
    PathSums out = judge.keptOut;
    PathSums home = judge.keptHome;
    boolean asked = stops.asked();
    boolean askedHome = asked && stops.rides().isEmpty();
    double closeS = CLOSE * judge.neededTimeS;
    double leaveS = out.timeS(cell) + stayS - closeS;
    IntPredicate onTheWayOut =
        c -> !asked || (!out.broken(c) && stops.inTime(c, out.timeS(c) - closeS));
    IntPredicate onTheWayHome =
        c -> !askedHome || stops.inTime(c, leaveS + home.timeS(cell) - home.timeS(c));
    int[] there = Trace.toSource(out.labels(), cell, onTheWayOut, drawn).cells();
    for (int i = 0; i < there.length / 2; i++) {
      int swapped = there[i];
      there[i] = there[there.length - 1 - i];
      there[there.length - 1 - i] = swapped;
    }
    int[] back =
        home == null
            ? new int[0]
            : Trace.toSource(home.labels(), cell, onTheWayHome, drawn).cells();
    return new TripLine(cell, there, back);
  }
}

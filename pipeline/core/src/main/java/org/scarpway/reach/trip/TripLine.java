package org.scarpway.reach.trip;

import java.util.function.IntPredicate;
import org.scarpway.reach.front.Trace;

/**
 * A trip as it can be driven: straight lines between cell centres over allowed cells and headings,
 * or over barred headings by tacking. It uses only cells where a stop leaves enough time to get
 * home.
 */
final class TripLine {
  /** Relative tolerance on times, which covers the rounding of sums. */
  private static final double CLOSE = 1e-5;

  private final int cell;
  private final int[] out;
  private final int[] home;

  private TripLine(int cell, int[] out, int[] home) {
    this.cell = cell;
    this.out = out;
    this.home = home;
  }

  /** Cell of the far end. */
  int cell() {
    return cell;
  }

  /** Corners from the base to the far end. */
  int[] out() {
    return out.clone();
  }

  /**
   * Corners from the far end to the base, in the loaded vehicle by the rule pair; empty if nobody
   * has to come home.
   */
  int[] home() {
    return home.clone();
  }

  /**
   * @param stayS length of the stay at the far end (s)
   * @param judge check whose last call of {@link BudgetCheck#evaluate} was for this cell and found
   *     it surely reached
   */
  static TripLine of(int cell, double stayS, BudgetCheck judge, Stops stops, Trace.Drawn drawn) {
    PathSums out = judge.keptOut;
    PathSums home = judge.keptHome;
    boolean asked = stops.asked();
    double closeS = CLOSE * judge.neededTimeS;
    IntPredicate onTheWayOut =
        c -> !asked || (!out.broken(c) && stops.inTime(c, out.timeS(c) - closeS));
    int[] there = Trace.toSource(out.labels(), cell, onTheWayOut, drawn).cells();
    for (int i = 0; i < there.length / 2; i++) {
      int swapped = there[i];
      there[i] = there[there.length - 1 - i];
      there[there.length - 1 - i] = swapped;
    }
    int[] back =
        home == null ? new int[0] : home(cell, out.timeS(cell) + stayS, judge, stops, drawn);
    return new TripLine(cell, there, back);
  }

  /**
   * The corners of a way home.
   *
   * @param leaveS time at which the cell is left (s)
   * @param judge check whose last call was for this cell and found a way home
   */
  static int[] home(int cell, double leaveS, BudgetCheck judge, Stops stops, Trace.Drawn drawn) {
    PathSums home = judge.keptHome;
    boolean asked = stops.asked() && stops.rides().isEmpty();
    double earlyS = leaveS - CLOSE * judge.neededTimeS;
    IntPredicate inTime = c -> !asked || stops.inTime(c, earlyS + home.timeS(cell) - home.timeS(c));
    return Trace.toSource(home.labels(), cell, inTime, drawn).cells();
  }
}

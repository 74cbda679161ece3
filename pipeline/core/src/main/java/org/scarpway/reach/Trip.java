package org.scarpway.reach;

import java.util.function.IntPredicate;

/**
 * A trip as it can be driven: straight lines between cell centres, over cells and headings that are
 * allowed, or made good in tacks. It keeps to places where a stop leaves what getting home takes.
 *
 * @param cell the far end
 * @param stayS time there (s)
 * @param out corners from the base to the far end
 * @param home corners from there to the base, in the loaded vehicle by the rule pair; none where
 *     nobody has to come home
 * @param outTimeS of the ways that the verdict rests on, as the other sums are
 * @param energyJ NaN without an energy model
 */
public record Trip(
    int cell,
    double stayS,
    int[] out,
    int[] home,
    double outTimeS,
    double homeTimeS,
    double energyJ,
    double distanceM) {

  /** Of the time: what lies this near to too late is rounding of sums. */
  private static final double CLOSE = 1e-5;

  /**
   * @param judge that has just been asked about the cell
   */
  static Trip of(int cell, double stayS, Judge judge, Stops stops) {
    Ways out = judge.keptOut;
    Ways home = judge.keptHome;
    boolean asked = stops.asked();
    boolean askedHome = asked && stops.rides().isEmpty();
    double closeS = CLOSE * judge.neededTimeS;
    double leaveS = out.timeS(cell) + stayS - closeS;
    IntPredicate onTheWayOut =
        c -> !asked || (!out.broken(c) && stops.inTime(c, out.timeS(c) - closeS));
    IntPredicate onTheWayHome =
        c -> !askedHome || stops.inTime(c, leaveS + home.timeS(cell) - home.timeS(c));
    int[] there =
        Trace.toSource(out.labels(), cell, onTheWayOut, Trace.Drawn.AS_STRAIGHT_AS_CAN_BE).cells();
    int[] back =
        home == null
            ? new int[0]
            : Trace.toSource(home.labels(), cell, onTheWayHome, Trace.Drawn.AS_STRAIGHT_AS_CAN_BE)
                .cells();
    for (int i = 0; i < there.length / 2; i++) {
      int swapped = there[i];
      there[i] = there[there.length - 1 - i];
      there[there.length - 1 - i] = swapped;
    }
    return new Trip(
        cell,
        stayS,
        there,
        back,
        out.timeS(cell),
        home == null ? 0 : home.timeS(cell),
        judge.totalEnergyJ,
        judge.totalDistanceM);
  }
}

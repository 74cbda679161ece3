package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.scarpway.reach.question.WhyNot.Shortfall;
import org.scarpway.reach.question.WhyNot.Supply;

/** What the known trips to one place need, held against the limits. */
final class TripNeeds {
  private static final List<Supply> SUPPLIES =
      List.of(Supply.TIME, Supply.ENERGY, Supply.DISTANCE, Supply.LIFE_SUPPORT);

  private static final double SAME = 1 + 1e-6;

  private final ReachLimits limits;
  private final double[] planned;

  /** Needs of the trip that exceeds the limits least; null if no trip is known. */
  private double[] best;

  private double bestUse = Double.POSITIVE_INFINITY;

  /** Least need of each supply over trips that meet the limits on all others. */
  private final double[] alone = new double[SUPPLIES.size()];

  /** Least need of each supply over all trips. */
  private final double[] least = new double[SUPPLIES.size()];

  private TripNeeds(ReachLimits limits) {
    this.limits = limits;
    planned =
        new double[] {limits.timeS(), limits.energyJ(), limits.distanceM(), limits.lifeSupportS()};
    Arrays.fill(alone, Double.POSITIVE_INFINITY);
    Arrays.fill(least, Double.POSITIVE_INFINITY);
  }

  /**
   * @param limits limits in force; ways may have been computed without them
   */
  static TripNeeds of(ReachLimits limits, TripFronts ways, int cell, double stayS) {
    TripNeeds needs = new TripNeeds(limits);
    BudgetCheck check = new BudgetCheck(limits, ways);
    for (PathSums out : ways.outWays()) {
      for (PathSums home : ways.homeWays()) {
        needs.add(check.needs(out, home, cell, stayS));
      }
    }
    return needs;
  }

  private void add(double[] needed) {
    double worst = 0;
    int over = -1;
    int count = 0;
    for (int i = 0; i < needed.length; i++) {
      // Without an energy model the energy is NaN, and no limit.
      if (needed[i] > planned[i]) {
        over = i;
        count++;
      }
      double use = needed[i] / planned[i];
      worst = use > worst ? use : worst;
    }
    if (!(needed[0] < Double.POSITIVE_INFINITY) || worst == Double.POSITIVE_INFINITY) {
      return;
    }
    for (int i = 0; i < needed.length; i++) {
      least[i] = needed[i] < least[i] ? needed[i] : least[i];
    }
    if (worst < bestUse) {
      bestUse = worst;
      best = needed;
    }
    if (count == 1 && needed[over] < alone[over]) {
      alone[over] = needed[over];
    }
  }

  /** True if a trip is known on which everybody comes home from every stop, however late. */
  boolean known() {
    return best != null;
  }

  /** True if a trip meets every limit. */
  boolean holds() {
    return bestUse <= 1;
  }

  /**
   * The limits that no trip keeps, each with its least need; if each alone is kept by some trip,
   * those that the trip exceeds which exceeds them least.
   */
  List<Shortfall> shortfalls() {
    List<Shortfall> all = new ArrayList<>();
    for (int i = 0; best != null && i < planned.length; i++) {
      if (least[i] > planned[i]) {
        all.add(new Shortfall(SUPPLIES.get(i), least[i], planned[i], leastBy(SUPPLIES.get(i))));
      }
    }
    return all.isEmpty() ? ofBest("by one way (other ways keep this limit, but not all)") : all;
  }

  private String leastBy(Supply of) {
    return switch (of) {
      case ENERGY -> "by the way of least energy";
      case DISTANCE -> "by the shortest way";
      default ->
          switch (limits.home()) {
            case WALK_BACK -> "by the quickest way, walk home from its worst place included";
            case BASE_RESCUE -> "by the quickest way, rescue from its worst place included";
            default -> "by the quickest way";
          };
    };
  }

  /** The limits that the trip exceeds which exceeds them least. */
  private List<Shortfall> ofBest(String by) {
    List<Shortfall> all = new ArrayList<>();
    for (int i = 0; best != null && i < planned.length; i++) {
      if (best[i] > planned[i]) {
        all.add(new Shortfall(SUPPLIES.get(i), best[i], planned[i], by));
      }
    }
    return all;
  }

  /**
   * The single supply whose raise suffices by the least share, else all supplies that the trip
   * exceeds which exceeds the limits least.
   */
  List<Shortfall> cheapest() {
    int first = -1;
    for (int i = 0; i < alone.length; i++) {
      boolean known = alone[i] < Double.POSITIVE_INFINITY;
      if (known && (first < 0 || alone[i] / planned[i] < alone[first] / planned[first])) {
        first = i;
      }
    }
    if (first < 0) {
      return ofBest("");
    }
    boolean more = alone[first] > SAME * least[first];
    String by = more ? "by a way within the other limits" : "";
    return List.of(new Shortfall(SUPPLIES.get(first), alone[first], planned[first], by));
  }
}

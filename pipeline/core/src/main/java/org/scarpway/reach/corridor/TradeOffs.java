package org.scarpway.reach.corridor;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.scarpway.reach.front.Weightings;
import org.scarpway.reach.question.CorridorResult.TradeOff;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.stage.Bytes;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * Computes routes on the Pareto front of time, energy and hazard by weighted sums. For each of a
 * few weightings the route of least weighted sum is computed; no other route is better than it in
 * all three (Geoffrion 1968, <i>Proper efficiency and the theory of vector maximization</i>, J.
 * Math. Anal. Appl. 22:618-630). Pareto-optimal routes that no weighting favours (off the convex
 * hull) are not found.
 *
 * <p>The hazard of a route is the hazard of its ground (0 to 1) integrated over the driven length.
 * The search uses hazard rounded to steps; the reported figures use the unrounded layer.
 */
final class TradeOffs {
  private static final int STEPS = 16;
  private static final int MOST_TABLES = 127;

  /** Routes whose figures all differ by less than this share are the same. */
  private static final double SAME = 1e-3;

  /**
   * Reported resolution of time (0.01 min), energy (0.0001 kWh) and hazard. Routes are compared at
   * this resolution, so that no listed route looks dominated in the tables.
   */
  private static final double TIME_S = 0.6;

  private static final double ENERGY_J = 360;
  private static final double HAZARD_M = 0.01;

  private TradeOffs() {}

  /**
   * @param tries number of weightings
   * @param best any route; its figures are the units in which the quantities are weighted
   * @param drive computes the route of least energy on a field
   * @param mostJ largest amount that a route uses from the battery at any moment (J)
   * @return quickest first
   */
  static List<TradeOff> of(
      int tries,
      TraversalInput ground,
      boolean hasEnergy,
      Centreline best,
      Function<TraversalCost, Centreline> drive,
      ToDoubleFunction<Centreline> mostJ) {
    boolean[] counts = {true, hasEnergy, best.hazardM() > 0};
    List<TradeOff> found = new ArrayList<>();
    for (double[] w : Weightings.of(counts, tries)) {
      Centreline way = drive.apply(weighted(ground, hasEnergy, best, w));
      found.add(
          new TradeOff(
              rounded(way.timeS(), 0.1),
              rounded(way.energyJ(), 1),
              mostJ.applyAsDouble(way),
              rounded(way.hazardM(), HAZARD_M),
              way.distanceM(),
              List.of(w[0], w[1], w[2]),
              way.points()));
    }
    return undominated(found);
  }

  /** A field whose energy is the weighted sum, in joules per share of the energy's unit. */
  private static TraversalCost weighted(
      TraversalInput ground, boolean hasEnergy, Centreline best, double[] w) {
    TraversalCost field = ground.field();
    double unitJ = hasEnergy ? Math.max(1, Math.abs(best.energyJ())) : 1e6;
    double perS = w[0] * unitJ / Math.max(1e-9, best.timeS());
    double perHazardM = w[2] > 0 ? w[2] * unitJ / best.hazardM() : 0;
    int steps = w[2] > 0 ? Math.min(STEPS, MOST_TABLES / field.soils() - 1) : 0;
    GradeTable[] tables = new GradeTable[field.soils() * (steps + 1)];
    for (int g = 0; g < field.soils(); g++) {
      for (int s = 0; s <= steps; s++) {
        double perM = steps == 0 ? 0 : perHazardM * s / steps;
        tables[g * (steps + 1) + s] = field.table(g).weighted(w[1], perM, perS);
      }
    }
    int cells = field.spec().cells();
    Bytes soilOf = Bytes.of(cells, field.scratch(cells));
    for (int i = 0; i < cells; i++) {
      int step = (int) Math.round(Math.min(1, ground.hazard01(i)) * steps);
      soilOf.set(i, (byte) (field.soil(i) * (steps + 1) + step));
    }
    return field.withTables(soilOf, tables);
  }

  /** Returns the routes that no other dominates, without duplicates. */
  static List<TradeOff> undominated(List<TradeOff> ways) {
    List<TradeOff> kept = new ArrayList<>();
    for (TradeOff a : ways) {
      boolean beaten = kept.stream().anyMatch(b -> same(a, b));
      for (TradeOff b : ways) {
        beaten |= better(b, a);
      }
      if (!beaten) {
        kept.add(a);
      }
    }
    kept.sort(Comparator.comparingDouble(TradeOff::timeS));
    return List.copyOf(kept);
  }

  private static double rounded(double value, double unit) {
    return Double.isNaN(value) ? value : unit * Math.rint(value / unit);
  }

  private static long times(double value, double unit) {
    return Double.isNaN(value) ? 0 : Math.round(value / unit);
  }

  /** True if a dominates b at the reported resolution: nowhere worse and somewhere better. */
  static boolean better(TradeOff a, TradeOff b) {
    long timeS = times(a.timeS(), TIME_S) - times(b.timeS(), TIME_S);
    long energyJ = times(a.energyJ(), ENERGY_J) - times(b.energyJ(), ENERGY_J);
    long hazardM = times(a.hazardM(), HAZARD_M) - times(b.hazardM(), HAZARD_M);
    return timeS <= 0 && energyJ <= 0 && hazardM <= 0 && (timeS < 0 || energyJ < 0 || hazardM < 0);
  }

  private static boolean same(TradeOff a, TradeOff b) {
    return close(a.timeS(), b.timeS(), TIME_S)
        && close(a.energyJ(), b.energyJ(), ENERGY_J)
        && close(a.hazardM(), b.hazardM(), HAZARD_M);
  }

  private static boolean close(double a, double b, double unit) {
    return times(a, unit) == times(b, unit)
        || Math.abs(a - b) <= SAME * Math.max(Math.abs(a), Math.abs(b));
  }
}

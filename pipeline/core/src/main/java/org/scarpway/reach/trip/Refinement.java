package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.front.Weightings;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * Decides cells for which each limit can be met by itself but no known trip meets all of them
 * (resource-constrained shortest path). Time, energy and distance are combined in weighted sums, as
 * shares of their limits (Lagrangian relaxation: Handler &amp; Zang 1980, <i>A dual algorithm for
 * the constrained shortest path problem</i>, Networks 10:293-309). The ways of least weighted sum
 * are further feasible candidates and are tried in every pair. Where even the least weighted sum
 * exceeds the weighted sum of the limits, no trip meets all of them.
 */
final class Refinement {
  private static final int ROUNDS = 4;

  /** Scale that keeps weighted sums well above the smallest cost that a front can represent. */
  private static final double SCALE = 1e6;

  private final ReachLimits limits;
  private final TraversalCost field;
  private final TraversalCost homeField;
  private final boolean hasEnergy;
  private final Floats heightM;
  private final int base;
  private final Stops stops;
  private final BitSet within;
  private final double[] limitOf;
  private final List<PathSums> out = new ArrayList<>();
  private final List<PathSums> home = new ArrayList<>();
  private final List<Bound> bounds = new ArrayList<>();

  /** Least weighted sums and the largest sum that a trip within all limits can have. */
  private record Bound(CostField out, CostField home, double perStayS, double allowed) {}

  /**
   * @param stops as in {@link TripFronts}
   * @param within cells within the time budget, null for all
   */
  Refinement(
      ReachLimits limits,
      TraversalCost field,
      TraversalCost homeField,
      boolean hasEnergy,
      Floats heightM,
      int base,
      Stops stops,
      BitSet within) {
    this.limits = limits;
    this.field = field;
    this.homeField = homeField;
    this.hasEnergy = hasEnergy;
    this.heightM = heightM;
    this.base = base;
    this.stops = stops;
    this.within = within;
    this.limitOf =
        new double[] {
          Math.min(limits.timeS(), limits.lifeSupportS()),
          hasEnergy ? limits.energyJ() : Double.POSITIVE_INFINITY,
          limits.distanceM()
        };
  }

  /** Weightings of the limits to try in turn; empty if fewer than two quantities are limited. */
  List<double[]> rounds() {
    boolean[] counts = new boolean[3];
    int limited = 0;
    for (int i = 0; i < 3; i++) {
      counts[i] = limitOf[i] < Double.POSITIVE_INFINITY;
      limited += counts[i] ? 1 : 0;
    }
    // The first weightings are those of single limits, which have been solved already.
    return limited < 2
        ? List.of()
        : Weightings.of(counts, ROUNDS + limited).subList(limited, ROUNDS + limited);
  }

  /** Computes the ways of least weighted sum. */
  void weigh(double[] weights, Workers workers, Progress progress) {
    double[] per = new double[3];
    double allowed = 0;
    for (int i = 0; i < 3; i++) {
      per[i] = weights[i] > 0 ? SCALE * weights[i] / limitOf[i] : 0;
      allowed += SCALE * weights[i];
    }
    boolean oneWay = limits.home() == HomeRule.NONE;
    List<Front> fronts = new ArrayList<>();
    // On a round trip neither way may cost more than the total; one way, the height term adds to
    // it.
    double most = oneWay ? Double.POSITIVE_INFINITY : allowed;
    TraversalCost thereField = weighted(field, per);
    fronts.add(front(thereField, Direction.OUT, most));
    if (!oneWay) {
      // The same field, so that both fronts share the costs of cells.
      TraversalCost backField = homeField == field ? thereField : weighted(homeField, per);
      fronts.add(front(backField, Direction.HOME, most));
    }
    List<Runnable> work = new ArrayList<>();
    for (int i = 0; i < workers.threads(); i++) {
      fronts.forEach(f -> work.add(() -> f.work(progress)));
    }
    progress.begin("weighing limits", (long) fronts.size() * field.spec().cells());
    workers.all(work);
    progress.end();
    CostField there = fronts.get(0).labels();
    CostField back = oneWay ? null : fronts.get(1).labels();
    // Ways home first: by the rule pair, a stop on the way out may use them as rides.

    Stops known = stops;
    if (!oneWay) {
      Stops ofHome = stops.rides().isEmpty() ? stops : null;
      home.add(PathSums.along(back, homeField, Direction.HOME, heightM, hasEnergy, ofHome));
      if (ofHome == null) {
        List<Ride> rides = new ArrayList<>(stops.rides());
        rides.addAll(home);
        known = new Stops(limits, stops.homeS(), null, rides);
      }
    }
    out.add(PathSums.along(there, field, Direction.OUT, heightM, hasEnergy, known));
    double perStayS = per[0] + per[1] * limits.hotelW();
    bounds.add(new Bound(there, back, perStayS, allowed));
  }

  private static TraversalCost weighted(TraversalCost field, double[] per) {
    GradeTable[] tables = new GradeTable[field.soils()];
    for (int g = 0; g < tables.length; g++) {
      tables[g] = field.table(g).weighted(per[1], per[2], per[0]);
    }
    return field.withTables(tables);
  }

  private Front front(TraversalCost weighted, Direction direction, double most) {
    Costs costs = new Costs(weighted, Quantity.ENERGY_J, direction);
    Front front = Front.from(costs, most, base);
    if (within != null) {
      front.keepTo(within);
    }
    return front;
  }

  /** Additional ways out that were found. */
  List<PathSums> out() {
    return out;
  }

  /** Additional ways home that were found, empty if nobody has to come home. */
  List<PathSums> home() {
    return home;
  }

  /** True if no trip to a cell can meet all limits together. */
  boolean ruledOut(int cell, double stayS) {
    float baseM = heightM.get(base);
    float cellM = heightM.get(cell);
    for (Bound b : bounds) {
      double least = b.out.value(cell) + b.out.costs().heightTermJ(baseM, cellM);
      if (b.home != null) {
        least += b.home.value(cell) + b.home.costs().heightTermJ(baseM, cellM);
      }
      if (least + b.perStayS * (stayS + limits.changeS()) > b.allowed) {
        return true;
      }
    }
    return false;
  }
}

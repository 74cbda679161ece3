package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Weightings;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
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
  private final int from;
  private final int base;
  private final Stops stops;
  private final BitSet within;
  private final double[] limitOf;
  private final List<Weighing> weighings = new ArrayList<>();

  /** Cells whose ways were asked for. */
  private final BitSet asked = new BitSet();

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
    this(limits, field, homeField, hasEnergy, heightM, base, base, stops, within);
  }

  /**
   * @param from cell where the ways out begin
   */
  Refinement(
      ReachLimits limits,
      TraversalCost field,
      TraversalCost homeField,
      boolean hasEnergy,
      Floats heightM,
      int from,
      int base,
      Stops stops,
      BitSet within) {
    this.limits = limits;
    this.field = field;
    this.homeField = homeField;
    this.hasEnergy = hasEnergy;
    this.heightM = heightM;
    this.from = from;
    this.base = base;
    this.stops = stops;
    this.within = within;
    this.limitOf =
        new double[] {
          Math.min(limits.timeS(), limits.lifeSupportS()),
          hasEnergy ? limits.energyJ() - limits.usedJ() : Double.POSITIVE_INFINITY,
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
      if (!(limitOf[i] > 0)) {
        return List.of();
      }
    }
    // The first weightings are those of single limits, which have been solved already.
    return limited < 2
        ? List.of()
        : Weightings.of(counts, ROUNDS + limited).subList(limited, ROUNDS + limited);
  }

  /**
   * Computes the ways of least weighted sum from and to some cells. The fronts end where those are
   * known: the ways do not depend on any cell of larger cost.
   *
   * @param cells cells that are answered, within the time budget
   * @param known ways whose sums tell about how far the fronts have to go; null for none
   */
  void weigh(double[] weights, BitSet cells, FoundWays known, Workers workers, Progress progress) {
    // A bound found for other cells only would rule these out.
    ask(cells, workers);
    Weighing next = new Weighing(weights);
    weighings.add(next);
    progress.begin("weighing limits", (long) (next.home == null ? 1 : 2) * field.spec().cells());
    next.solve(known, workers, progress);
    progress.end();
  }

  /** Computes the same ways for further cells, which are answered as well. */
  void ask(BitSet cells, Workers workers) {
    BitSet more = (BitSet) cells.clone();
    more.andNot(asked);
    if (!more.isEmpty()) {
      asked.or(more);
      weighings.forEach(w -> w.solve(null, workers, Progress.NONE));
    }
  }

  /** One weighting of the limits, with its fronts and ways. */
  private final class Weighing {
    private final double[] per = new double[3];
    private final double perStayS;
    private final double allowed;
    private final WeightedWays out;

    /** Null if nobody has to come home. */
    private final WeightedWays home;

    private Weighing(double[] weights) {
      double sum = 0;
      for (int i = 0; i < 3; i++) {
        per[i] = weights[i] > 0 ? SCALE * weights[i] / limitOf[i] : 0;
        sum += SCALE * weights[i];
      }
      boolean oneWay = limits.home() == HomeRule.NONE;
      // On a round trip neither way may cost more than the total; one way, the height term adds to
      // it.
      double most = oneWay || from != base ? Double.POSITIVE_INFINITY : sum;
      allowed = sum;
      perStayS = per[0] + per[1] * limits.hotelW();
      TraversalCost there = WeightedWays.weighted(field, per);
      out = new WeightedWays(there, Direction.OUT, per, most, from, within);
      // The same field, so that both fronts share the costs of cells.
      TraversalCost back = homeField == field ? there : WeightedWays.weighted(homeField, per);
      home = oneWay ? null : new WeightedWays(back, Direction.HOME, per, most, base, within);
    }

    private void solve(FoundWays known, Workers workers, Progress progress) {
      out.ask(asked, known == null ? List.of() : known.outWays(), heightM);
      if (home != null) {
        home.ask(asked, known == null ? List.of() : known.homeWays(), heightM);
      }
      List<WeightedWays> ways = new ArrayList<>(home == null ? List.of(out) : List.of(out, home));
      WeightedWays.spread(ways, workers, progress);
      boolean pair = !stops.rides().isEmpty();
      if (pair || stops.waitS() != null) {
        // Whether a cell beside a way is reached decides whether a stop there counts.
        out.ask(out.beside(asked));
        home.ask(home.beside(asked));
        if (pair) {
          BitSet begins = out.beside(asked);
          upToThis().forEach(w -> w.home.ask(begins));
          weighings.subList(0, weighings.indexOf(this)).forEach(w -> ways.add(w.home));
        }
        WeightedWays.spread(ways, workers, progress);
      }
      sum(pair);
    }

    private List<Weighing> upToThis() {
      return weighings.subList(0, weighings.indexOf(this) + 1);
    }

    private void sum(boolean pair) {
      Stops onTheWay = stops;
      if (pair) {
        // A stop on the way out may use the ways home as rides.
        List<Ride> rides = new ArrayList<>(stops.rides());
        for (Weighing w : upToThis()) {
          w.home.sum(homeField, heightM, hasEnergy, null, null, 0);
          rides.add(w.home.sums());
        }
        onTheWay = new Stops(limits, stops.homeS(), null, rides);
      } else if (home != null) {
        home.sum(homeField, heightM, hasEnergy, stops, asked, 0);
      }
      out.sum(field, heightM, hasEnergy, onTheWay, asked, limits.usedJ());
    }
  }

  /** Additional ways out that were found. */
  List<PathSums> out() {
    return weighings.stream().map(w -> w.out.sums()).toList();
  }

  /** Additional ways home that were found, empty if nobody has to come home. */
  List<PathSums> home() {
    return weighings.stream().filter(w -> w.home != null).map(w -> w.home.sums()).toList();
  }

  /** True if no trip to a cell, whose ways were asked for, can meet all limits together. */
  boolean ruledOut(int cell, double stayS) {
    if (!asked.get(cell)) {
      return false;
    }
    float fromM = heightM.get(from);
    float baseM = heightM.get(base);
    float cellM = heightM.get(cell);
    for (Weighing w : weighings) {
      double least = w.out.least(cell, fromM, cellM);
      if (w.home != null) {
        least += w.home.least(cell, baseM, cellM);
      }
      if (least + w.perStayS * (stayS + limits.changeS()) > w.allowed) {
        return true;
      }
    }
    return false;
  }
}

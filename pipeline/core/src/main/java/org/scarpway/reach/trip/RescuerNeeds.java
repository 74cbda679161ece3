package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fronts;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WhyNot.Shortfall;
import org.scarpway.reach.question.WhyNot.Supply;
import org.scarpway.stage.Digits;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * What a vehicle from the base must have so that a way leads to a place, from every point of which
 * it can fetch the crew: life support, energy and distance, each by the ways that need least of it.
 */
final class RescuerNeeds {
  private final ReachLimits limits;
  private final TraversalInput ground;
  private final int base;
  private final Workers workers;
  private final Progress progress;
  private final Map<Supply, Floats> least = new EnumMap<>(Supply.class);

  /**
   * @param limits limits of both vehicles
   */
  RescuerNeeds(
      ReachLimits limits, TraversalInput ground, int base, Workers workers, Progress progress) {
    this.limits = limits;
    this.ground = ground;
    this.base = base;
    this.workers = workers;
    this.progress = progress;
  }

  /** Ways out of the empty and home of the loaded vehicle. */
  private record Ways(CostField out, CostField home) {
    boolean lead(int cell) {
      return out.reached(cell) && home.reached(cell);
    }

    double sum(int cell) {
      return out.value(cell) + home.value(cell);
    }
  }

  private Ways ways(Quantity q) {
    double far = Double.POSITIVE_INFINITY;
    Fronts.Spread out = Fronts.begin(ground.field(), q, Direction.OUT, far, progress, base);
    Fronts.Spread home = Fronts.begin(ground.loaded(), q, Direction.HOME, far, progress, base);
    workers.all(Collections.nCopies(workers.threads(), out::work));
    workers.all(Collections.nCopies(workers.threads(), home::work));
    return new Ways(out.labels(), home.labels());
  }

  /** The limits of the rescuer that no way to a place keeps, each with the least that is needed. */
  List<Shortfall> shortfalls(int place) {
    return above(
        " to the worst place of the way",
        of -> NeededOnTheWay.to(place, base, ground.field(), amounts(of)));
  }

  /**
   * The limits that no rescue from a cell keeps, each with the least that is needed.
   *
   * @param crew limits of the crew that is fetched
   */
  List<Shortfall> at(int cell, ReachLimits crew) {
    List<Shortfall> all = above(" to the crew and home", of -> amounts(of).get(cell));
    Ways ways = ways(Quantity.TIME_S);
    if (ways.lead(cell)) {
      double onS = limits.rescue().alarmS() + limits.rescue().loadS() + ways.sum(cell);
      String by = "by the quickest rescue from here";
      if (onS > crew.timeS()) {
        all.add(new Shortfall(Supply.TIME, onS, crew.timeS(), by));
      }
      if (onS > crew.lifeSupportS()) {
        all.add(new Shortfall(Supply.LIFE_SUPPORT, onS, crew.lifeSupportS(), by));
      }
    }
    return all;
  }

  private List<Shortfall> above(String where, ToDoubleFunction<Supply> needed) {
    List<Shortfall> all = new ArrayList<>();
    if (limits.lifeSupportS() < Double.POSITIVE_INFINITY) {
      add(all, Supply.RESCUER_LIFE, limits.lifeSupportS(), "by the quickest ways" + where, needed);
    }
    if (limits.energyJ() < Double.POSITIVE_INFINITY) {
      String by = "by the ways of least energy" + where;
      add(all, Supply.RESCUER_ENERGY, limits.energyJ(), by, needed);
    }
    if (limits.distanceM() < Double.POSITIVE_INFINITY) {
      String by = "by the shortest ways" + where;
      add(all, Supply.RESCUER_DISTANCE, limits.distanceM(), by, needed);
    }
    return all;
  }

  private static void add(
      List<Shortfall> all, Supply of, double limit, String by, ToDoubleFunction<Supply> amount) {
    double needed = amount.applyAsDouble(of);
    if (needed > limit && needed < Double.POSITIVE_INFINITY) {
      all.add(new Shortfall(of, needed, limit, by));
    }
  }

  private Floats amounts(Supply of) {
    return least.computeIfAbsent(of, this::computed);
  }

  private Floats computed(Supply of) {
    Quantity q =
        switch (of) {
          case RESCUER_LIFE -> Quantity.TIME_S;
          case RESCUER_ENERGY -> Quantity.ENERGY_J;
          default -> Quantity.DISTANCE_M;
        };
    Ways ways = ways(q);
    TraversalCost open = ground.field();
    int n = open.spec().cells();
    Floats amounts = Floats.of(n, Float.NaN, open.scratch((long) Float.BYTES * n));
    for (int cell = 0; cell < n; cell++) {
      if (ways.lead(cell)) {
        amounts.set(cell, (float) amount(of, ways, cell));
      }
    }
    return amounts;
  }

  private double amount(Supply of, Ways ways, int cell) {
    return switch (of) {
      case RESCUER_LIFE -> limits.rescuerS(ways.out.value(cell), ways.home.value(cell));
      case RESCUER_ENERGY -> Fetching.leastJ(ground, limits, ways.out, ways.home, base, cell);
      default -> ways.sum(cell);
    };
  }

  /**
   * How long a rescue from a place takes by the quickest ways, in words; empty if there is none.
   */
  String timesFrom(int place) {
    Ways ways = ways(Quantity.TIME_S);
    if (!ways.lead(place)) {
      return "";
    }
    return Digits.text(
        "a rescue from the place takes %s h of alarm, %s h out, %s h to load and %s h home",
        limits.rescue().alarmS() / 3600,
        ways.out.value(place) / 3600.0,
        limits.rescue().loadS() / 3600,
        ways.home.value(place) / 3600.0);
  }
}

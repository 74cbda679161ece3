package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fronts;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.reach.question.WhyNot.Shortfall;
import org.scarpway.reach.question.WhyNot.Supply;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * What a walker must be able to do so that a way leads to a place, from every point of which the
 * crew can walk home: time, length and metabolic energy, each by the walks that need least of it.
 */
final class WalkNeeds {
  private final WalkHome walker;
  private final TraversalCost open;
  private final Floats heightM;
  private final int base;
  private final Workers workers;
  private final Progress progress;
  private final Map<Supply, Floats> least = new EnumMap<>(Supply.class);

  /** The quickest walks, however long. */
  private final WalksHome quickest;

  /**
   * @param open field of the vehicle
   */
  WalkNeeds(
      WalkHome walker,
      TraversalCost open,
      Floats heightM,
      int base,
      Workers workers,
      Progress progress) {
    this.walker = walker;
    this.open = open;
    this.heightM = heightM;
    this.base = base;
    this.workers = workers;
    this.progress = progress;
    WalkHome free =
        new WalkHome(
            walker.field(),
            Double.POSITIVE_INFINITY,
            0,
            WalkHome.Limits.NONE,
            walker.refuges(),
            List.of());
    this.quickest =
        WalksHome.of(free, heightM, RuleGround.refuges(walker, base), workers, progress);
    least.put(Supply.WALK, quickest.timeS());
  }

  /** Cells that are joined on foot to a place of safety. */
  BitSet joined() {
    return quickest.joined();
  }

  /** True if some way to a place keeps to ground that is joined on foot. */
  boolean leadTo(int cell) {
    return NeededOnTheWay.to(cell, base, open, quickest.timeS()) < Double.POSITIVE_INFINITY;
  }

  /** The limits of a walk that no way to a place keeps, each with the least that is needed. */
  List<Shortfall> shortfalls(int cell) {
    return above(
        " from the worst place of the way", of -> NeededOnTheWay.to(cell, base, open, least(of)));
  }

  /** The limits that no walk from a cell keeps, each with the least that is needed. */
  List<Shortfall> at(int cell) {
    return above(" from here", of -> least(of).get(cell));
  }

  private List<Shortfall> above(String from, ToDoubleFunction<Supply> needed) {
    List<Shortfall> all = new ArrayList<>();
    add(all, Supply.WALK, "by the quickest walk" + from, needed);
    add(all, Supply.WALK_LENGTH, "by the shortest walk" + from, needed);
    add(all, Supply.WALK_ENERGY, "by the walk of least energy" + from, needed);
    return all;
  }

  private void add(List<Shortfall> all, Supply of, String by, ToDoubleFunction<Supply> amount) {
    double limit = limit(of);
    if (limit < Double.POSITIVE_INFINITY) {
      double needed = amount.applyAsDouble(of);
      if (needed > limit && needed < Double.POSITIVE_INFINITY) {
        all.add(new Shortfall(of, needed, limit, by));
      }
    }
  }

  /** The limits that the quickest walks exceed on the way where they take least time. */
  List<Shortfall> byQuickest(int cell) {
    List<Shortfall> all = new ArrayList<>();
    Map<Supply, Floats> amounts =
        Map.of(
            Supply.WALK, quickest.timeS(),
            Supply.WALK_LENGTH, quickest.distanceM(),
            Supply.WALK_ENERGY, quickest.energyJ());
    for (Supply of : List.of(Supply.WALK, Supply.WALK_LENGTH, Supply.WALK_ENERGY)) {
      double needed = NeededOnTheWay.to(cell, base, open, amounts.get(of));
      if (needed > limit(of) && needed < Double.POSITIVE_INFINITY) {
        all.add(new Shortfall(of, needed, limit(of), ""));
      }
    }
    return all;
  }

  private double limit(Supply of) {
    return switch (of) {
      case WALK -> walker.limitS();
      case WALK_LENGTH -> walker.limits().distanceM();
      default -> walker.limits().energyJ();
    };
  }

  private Floats least(Supply of) {
    return least.computeIfAbsent(
        of, s -> front(s == Supply.WALK_LENGTH ? Quantity.DISTANCE_M : Quantity.ENERGY_J));
  }

  private Floats front(Quantity quantity) {
    int[] refuges = RuleGround.refuges(walker, base);
    Fronts.Spread front =
        Fronts.begin(
            walker.field(), quantity, Direction.HOME, Double.POSITIVE_INFINITY, progress, refuges);
    workers.all(Collections.nCopies(workers.threads(), front::work));
    PathSums ways =
        KeptSums.along(quantity, front.labels(), heightM, Costs.hasEnergy(walker.field()));
    int n = open.spec().cells();
    Floats amounts = Floats.of(n, Float.NaN, open.scratch((long) Float.BYTES * n));
    for (int cell = 0; cell < n; cell++) {
      if (front.labels().reached(cell)) {
        boolean length = quantity == Quantity.DISTANCE_M;
        amounts.set(cell, (float) (length ? ways.distanceM(cell) : ways.energyJ(cell)));
      }
    }
    return amounts;
  }
}

package org.scarpway.reach.front;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.List;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Cells that lie on some out-and-back trip within the time budget, and the least times on them,
 * found by bidirectional search: each front first covers half the budget, then continues only in
 * cells that the other front has reached. If these are most of the ground, the fronts are completed
 * over all of it, which costs little more and makes them reusable for other requests.
 */
public final class TimeBudgetDomain {
  /** Share of the drivable ground above which the fronts are completed over all ground. */
  private static final double MOST = 0.5;

  private final TraversalCost field;
  private final TraversalCost homeField;
  private final int base;
  private final boolean oneWay;
  private final double tripS;
  private final Workers workers;
  private final Progress progress;
  private final BitSet within = new BitSet();
  private CostField out;
  private CostField home;
  private boolean whole;

  private TimeBudgetDomain(
      TraversalCost field,
      TraversalCost homeField,
      int base,
      boolean oneWay,
      double tripS,
      Workers workers,
      Progress progress) {
    this.field = field;
    this.homeField = homeField;
    this.base = base;
    this.oneWay = oneWay;
    this.tripS = tripS;
    this.workers = workers;
    this.progress = progress;
  }

  /**
   * @param homeField field of the way home, usually the same
   * @param oneWay true if nobody has to come home
   * @param tripS time budget for out and home together, or for out alone if one way (s)
   */
  public static TimeBudgetDomain of(
      TraversalCost field,
      TraversalCost homeField,
      int base,
      boolean oneWay,
      double tripS,
      Workers workers,
      Progress progress) {
    TimeBudgetDomain ground =
        new TimeBudgetDomain(field, homeField, base, oneWay, tripS, workers, progress);
    progress.begin("ground within the time", 2L * field.spec().cells());
    ground.find();
    progress.end();
    return ground;
  }

  TraversalCost field(Direction direction) {
    return direction == Direction.OUT ? field : homeField;
  }

  int base() {
    return base;
  }

  boolean oneWay() {
    return oneWay;
  }

  double tripS() {
    return tripS;
  }

  /** Cells within the time budget plus its margin. */
  public BitSet within() {
    return within;
  }

  /** True if the fronts were completed over all ground. */
  public boolean whole() {
    return whole;
  }

  /** Least times out, complete at least on those cells. */
  public CostField out() {
    return out;
  }

  /** Least times home, complete at least on those cells; null if nobody has to come home. */
  public CostField home() {
    return home;
  }

  private void find() {
    Costs outCosts = new Costs(field, Quantity.TIME_S, Direction.OUT);
    KeptFronts kept = KeptFronts.of(outCosts);
    KeptFronts.Key outKey = KeptFronts.key(outCosts, Quantity.TIME_S, base);
    out = whole(kept, outKey);
    if (oneWay) {
      findOut(kept, outKey);
      return;
    }
    Costs homeCosts = new Costs(homeField, Quantity.TIME_S, Direction.HOME);
    KeptFronts.Key homeKey = KeptFronts.key(homeCosts, Quantity.TIME_S, base);
    home = whole(kept, homeKey);
    String where = "met in " + tripS + " " + outKey.digest() + " " + homeKey.digest();
    KeptFronts.Key metOut = KeptFronts.key(outCosts, Quantity.TIME_S, where, base);
    KeptFronts.Key metHome = KeptFronts.key(homeCosts, Quantity.TIME_S, where, base);
    boolean none = out == null && home == null;
    out = none ? kept.any(metOut) : out;
    home = none ? kept.any(metHome) : home;
    if (out != null && home != null) {
      choose(out.tiles(), home.tiles(), out.withMargin(tripS));
    } else {
      meet(none ? null : out, none ? null : home, outKey, homeKey);
      kept.keep(whole ? outKey : metOut, out);
      kept.keep(whole ? homeKey : metHome, home);
    }
  }

  /** The front over all ground if it was kept, or one that can be repaired; else null. */
  private CostField whole(KeptFronts kept, KeptFronts.Key key) {
    CostField found = kept.found(key, Double.POSITIVE_INFINITY);
    Front repaired = found == null ? kept.repaired(key, Double.POSITIVE_INFINITY) : null;
    if (repaired == null) {
      return found;
    }
    workers.all(Collections.nCopies(workers.threads(), () -> repaired.work(progress)));
    CostField labels = repaired.labels();
    kept.keep(key, labels);
    return labels;
  }

  private void findOut(KeptFronts kept, KeptFronts.Key key) {
    if (out != null) {
      choose(out.tiles(), null, out.withMargin(tripS));
      return;
    }
    Front there = kept.front(key, Double.POSITIVE_INFINITY);
    spread(there, null, there.withMargin(there.withMargin(tripS)), null, null);
    choose(there.tiles(), null, there.withMargin(tripS));
    if (whole) {
      spread(there, null, Double.POSITIVE_INFINITY, null, null);
    }
    out = there.labels();
    kept.keep(key, out);
  }

  /** Computes the front out or home, or both, unless kept over all ground. */
  private void meet(
      CostField keptOut, CostField keptHome, KeptFronts.Key outKey, KeptFronts.Key homeKey) {
    double all = Double.POSITIVE_INFINITY;
    Front there = keptOut == null ? Front.from(outKey.costs(), all, base) : null;
    Front back = keptHome == null ? Front.from(homeKey.costs(), all, base) : null;
    CostTiles outTiles = there == null ? keptOut.tiles() : there.tiles();
    CostTiles homeTiles = back == null ? keptHome.tiles() : back.tiles();
    CostField scale = there == null ? keptOut : there.soFar();
    // Twice the margin, so that all labels within one margin equal those of fronts over all ground.
    double most = scale.withMargin(scale.withMargin(tripS));
    spread(there, back, 0.5 * most, null, null);
    MeetHalfway outMeets = new MeetHalfway(homeTiles, 0.5 * most, most);
    MeetHalfway homeMeets = new MeetHalfway(outTiles, 0.5 * most, most);
    spread(there, back, most, outMeets, homeMeets);
    choose(outTiles, homeTiles, scale.withMargin(tripS));
    if (whole) {
      spread(there, back, all, null, null);
    }
    out = there == null ? keptOut : there.labels();
    home = back == null ? keptHome : back.labels();
  }

  private void spread(
      Front there, Front back, double budget, ExpansionBound outFrom, ExpansionBound homeFrom) {
    List<Runnable> help = new ArrayList<>();
    if (there != null) {
      there.allow(budget, outFrom);
      help.addAll(Collections.nCopies(workers.threads(), () -> there.work(progress)));
    }
    if (back != null) {
      back.allow(budget, homeFrom);
      help.addAll(Collections.nCopies(workers.threads(), () -> back.work(progress)));
    }
    workers.all(help);
  }

  /** Marks the cells within the time budget. */
  private void choose(CostTiles there, CostTiles back, double most) {
    int driveable = 0;
    for (int cell = 0; cell < field.spec().cells(); cell++) {
      driveable += field.allowed(cell) == 0 ? 0 : 1;
      if (there.value(cell) + (back == null ? 0 : back.value(cell)) <= most) {
        within.set(cell);
      }
    }
    whole = within.cardinality() > MOST * driveable;
  }
}

package org.scarpway.reach.front;

import java.util.ArrayList;
import java.util.BitSet;
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
    KeptFronts.Key wholeOut = KeptFronts.Key.whole(Quantity.TIME_S, Direction.OUT, base);
    KeptFronts.Key wholeHome = KeptFronts.Key.whole(Quantity.TIME_S, Direction.HOME, base);
    CostField keptOut = KeptFronts.of(field).found(wholeOut);
    CostField keptHome = oneWay ? null : KeptFronts.of(homeField).found(wholeHome);
    if (keptOut != null && (oneWay || keptHome != null)) {
      out = keptOut;
      home = keptHome;
      choose(keptOut.tiles(), oneWay ? null : keptHome.tiles(), keptOut.withMargin(tripS));
      return;
    }
    Front there = front(Direction.OUT);
    if (oneWay) {
      spread(there, null, there.withMargin(there.withMargin(tripS)), null, null);
      choose(there.tiles(), null, there.withMargin(tripS));
      if (whole) {
        spread(there, null, Double.POSITIVE_INFINITY, null, null);
      }
    } else {
      Front back = front(Direction.HOME);
      // Twice the margin, so that all labels within one margin equal those of fronts over all
      // ground.
      double most = there.withMargin(there.withMargin(tripS));
      spread(there, back, 0.5 * most, null, null);
      MeetHalfway outMeets = new MeetHalfway(back.tiles(), 0.5 * most, most);
      MeetHalfway homeMeets = new MeetHalfway(there.tiles(), 0.5 * most, most);
      spread(there, back, most, outMeets, homeMeets);
      choose(there.tiles(), back.tiles(), there.withMargin(tripS));
      if (whole) {
        spread(there, back, Double.POSITIVE_INFINITY, null, null);
      }
      home = back.labels();
    }
    out = there.labels();
    if (whole) {
      KeptFronts.of(field).keep(wholeOut, out);
      if (!oneWay) {
        KeptFronts.of(homeField).keep(wholeHome, home);
      }
    }
  }

  private Front front(Direction direction) {
    Costs costs = new Costs(field(direction), Quantity.TIME_S, direction);
    return Front.from(costs, Double.POSITIVE_INFINITY, base);
  }

  private void spread(
      Front there, Front back, double budget, ExpansionBound outFrom, ExpansionBound homeFrom) {
    there.allow(budget, outFrom);
    if (back != null) {
      back.allow(budget, homeFrom);
    }
    List<Runnable> help = new ArrayList<>();
    for (int i = 0; i < workers.threads(); i++) {
      help.add(() -> there.work(progress));
      if (back != null) {
        help.add(() -> back.work(progress));
      }
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

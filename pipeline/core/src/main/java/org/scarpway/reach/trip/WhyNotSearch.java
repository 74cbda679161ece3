package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.reach.question.WhyNot;
import org.scarpway.reach.question.WhyNot.Crossing;
import org.scarpway.reach.question.WhyNot.Nearest;
import org.scarpway.reach.question.WhyNot.Raise;
import org.scarpway.reach.question.WhyNot.Shortfall;
import org.scarpway.reach.question.WhyNot.Supply;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Finds why places are not surely reached, and what would reach them. Trips are searched for with
 * all budgets lifted but time, which is doubled until the place is among the cells within it; their
 * needs are then held against the limits in force. What is said to suffice was met by a trip that
 * was found; another trip may need less.
 */
public final class WhyNotSearch {
  private static final double FURTHER = 2;
  private static final int MOST_ROUNDS = 10;

  /** Stands for a limit that never binds; finite, so that its quantity is computed (J, m, s). */
  private static final double PLENTY = 1e18;

  /** Stays are shortened to whole minutes. */
  private static final double MINUTE_S = 60;

  /** Share by which a limit is raised above the need, for rounding. */
  private static final double ROUNDING = 1e-9;

  /**
   * Factors of what is needed that are tried: a trip with a stop anywhere on the way may need a
   * little more than its own amounts.
   */
  private static final double[] MORE = {1, 1.02, 1.1, 1.3};

  private final ReachRequest request;
  private final TraversalInput ground;
  private final WalkHome walkHome;
  private final BitSet surely;
  private final Workers workers;
  private final Progress progress;
  private final TraversalCost open;
  private final GridSpec spec;
  private final boolean hasEnergy;
  private final int base;
  private final ReachLimits limits;
  private final boolean thorough;

  /** Null until it is needed. */
  private WalkNeeds walks;

  private RescuerNeeds rescuer;

  /**
   * @param walkHome walker and refuges, null unless the home rule is walk-back
   * @param surely cells that the question surely reaches
   * @param thorough true to find what would reach a place by rules that ask something of every stop
   *     too, which takes about as long as the question itself for each place
   */
  public WhyNotSearch(
      ReachRequest request,
      TraversalInput ground,
      WalkHome walkHome,
      BitSet surely,
      boolean thorough,
      Workers workers,
      Progress progress) {
    this.request = request.plain();
    this.ground = ground;
    this.walkHome = walkHome;
    this.surely = surely;
    this.thorough = thorough;
    this.workers = workers;
    this.progress = progress;
    this.open = ground.field();
    this.spec = open.spec();
    this.hasEnergy = Costs.hasEnergy(open);
    this.base = spec.cellOf(request.baseXM(), request.baseYM());
    this.limits = ReachLimits.of(request, ground.vehicle(), hasEnergy, new ArrayList<>());
  }

  /** Trips within some limits, and why there are none to other cells. */
  private final class Trips {
    private final ReachLimits limits;
    private final TripFronts ways;
    private final BeyondReach beyond;

    Trips(ReachLimits limits, TripFronts ways, BeyondReach beyond) {
      this.limits = limits;
      this.ways = ways;
      this.beyond = beyond;
    }

    /** True if a stop on every way that was found leaves too little time even so. */
    boolean endLate(Target t) {
      return leadTo(cell(t)) && !TripNeeds.of(limits, ways, cell(t), t.stayS()).known();
    }

    boolean leadTo(int cell) {
      return ways.answers(cell);
    }

    boolean wantTimeTo(int cell) {
      if (leadTo(cell)) {
        return false;
      }
      ReachEnd end = beyond.end(cell);
      return end == limits.tripEnd() || end == limits.lateEnd(0) || end == ReachEnd.RESCUE;
    }
  }

  /**
   * Answers for places that are not surely reached with their stay, in their order; null for a
   * place outside the grid.
   *
   * @param places each with the stay that applies there
   */
  public List<WhyNot> of(List<Target> places) {
    List<Target> reachable =
        places.stream().filter(t -> cell(t) >= 0 && open.allowed(cell(t)) != 0).toList();
    Trips trips = reachable.isEmpty() ? null : lifted(walkHome, reachable);
    List<WhyNot> all = new ArrayList<>();
    for (Target t : places) {
      all.add(cell(t) < 0 ? null : of(t, trips));
    }
    return all;
  }

  private int cell(Target t) {
    return spec.cellOf(t.xM(), t.yM());
  }

  private WhyNot of(Target t, Trips trips) {
    int cell = cell(t);
    Nearest nearest = NearestReached.of(spec, surely, cell);
    boolean closed = open.allowed(cell) == 0;
    if (!closed && trips.leadTo(cell)) {
      return judged(t, trips, walkHome, nearest, List.of(), List.of());
    }
    ReachEnd end = closed ? ReachEnd.NO_GO : trips.beyond.end(cell);
    return switch (end) {
      case WALK_BACK, NO_WAY_ON_FOOT, WALK_LENGTH, WALK_TIME, WALK_EFFORT -> walkShort(t, nearest);
      case NO_GO, CUT_OFF, NO_WAY_HOME ->
          new WhyNot(
              List.of(),
              nearest,
              new ClosedCrossing(ground, surely, null).from(cell),
              List.of(),
              Double.NaN,
              false,
              "");
      default -> new WhyNot(List.of(), nearest, null, List.of(), Double.NaN, false, "");
    };
  }

  /**
   * Holds the trips to a place against the limits.
   *
   * @param walks walker and refuges by which the trips were found
   * @param walkShort limits of the walker that the question has below what is needed
   * @param walker what the walker has more than in the question
   */
  private WhyNot judged(
      Target t,
      Trips trips,
      WalkHome walks,
      Nearest nearest,
      List<Shortfall> walkShort,
      List<Raise> walker) {
    int cell = cell(t);
    TripNeeds needs = TripNeeds.of(limits, trips.ways, cell, t.stayS());
    List<Shortfall> shortfalls = new ArrayList<>(walkShort);
    shortfalls.addAll(needs.shortfalls());
    List<Shortfall> asked = needs.cheapest();
    String rescue = "";
    if (request.home() == HomeRule.BASE_RESCUE) {
      if (rescuer == null) {
        rescuer = new RescuerNeeds(limits, ground, base, workers, progress);
      }
      List<Shortfall> ofRescuer = rescuer.shortfalls(cell);
      shortfalls.addAll(ofRescuer);
      asked = EnoughSupplies.both(asked, ofRescuer);
      rescue = rescuer.timesFrom(cell);
    }
    List<Raise> enough = enough(t, asked, walks, walker);
    boolean refuge = walks != null && thorough && refugeHelps(t);
    double stayS = walkShort.isEmpty() ? shorter(t, trips, walks) : Double.NaN;
    return new WhyNot(shortfalls, nearest, null, enough, stayS, refuge, rescue);
  }

  /** Supplies that were found to suffice, first those that are just needed; empty if none is. */
  private List<Raise> enough(Target t, List<Shortfall> asked, WalkHome walks, List<Raise> walker) {
    for (double more : MORE) {
      List<Shortfall> some = asked.stream().map(s -> s.times(more)).toList();
      List<Raise> enough = new ArrayList<>(walker);
      enough.addAll(EnoughSupplies.of(request, ground.vehicle(), some));
      if (!enough.isEmpty() && suffices(raised(some), walks, t)) {
        return enough;
      }
      if (!thorough || asked.isEmpty()) {
        break;
      }
    }
    return List.of();
  }

  private WhyNot walkShort(Target t, Nearest nearest) {
    if (walks == null) {
      walks = new WalkNeeds(walkHome, open, ground.heightM(), base, workers, progress);
    }
    int cell = cell(t);
    boolean refuge = thorough && refugeHelps(t);
    if (!walks.leadTo(cell)) {
      Crossing crossing = new ClosedCrossing(ground, surely, walks.joined()).from(cell);
      return new WhyNot(List.of(), nearest, crossing, List.of(), Double.NaN, refuge, "");
    }
    List<Shortfall> needed = walks.shortfalls(cell);
    if (thorough) {
      // The walks that need least of each may not be the same; the quickest ones need enough of
      // all.
      for (List<Shortfall> some : List.of(needed, walks.byQuickest(cell))) {
        List<Raise> raises = EnoughSupplies.ofWalker(walkHome, some);
        WalkHome able = EnoughSupplies.with(walkHome, raises);
        Trips trips = lifted(able, List.of(t));
        if (!raises.isEmpty() && trips.leadTo(cell)) {
          WhyNot why = judged(t, trips, able, nearest, needed, raises);
          if (!why.enough().isEmpty()) {
            return why;
          }
        }
      }
    }
    return new WhyNot(needed, nearest, null, List.of(), Double.NaN, refuge, "");
  }

  /** True if a refuge at the place makes the question surely reach it. */
  private boolean refugeHelps(Target t) {
    if (walkHome.field().allowed(cell(t)) == 0) {
      return false;
    }
    List<WalkHome.Refuge> refuges = new ArrayList<>(walkHome.refuges());
    refuges.add(new WalkHome.Refuge(t.name(), t.xM(), t.yM()));
    return holds(limits, walkHome.with(refuges), t);
  }

  /** The longest stay in whole minutes by which a trip meets every limit (s), NaN for none. */
  private double shorter(Target t, Trips trips, WalkHome walks) {
    int enough = 0;
    int tooLong = (int) Math.ceil(t.stayS() / MINUTE_S);
    while (tooLong - enough > 1) {
      int half = (enough + tooLong) / 2;
      boolean holds = TripNeeds.of(limits, trips.ways, cell(t), half * MINUTE_S).holds();
      enough = holds ? half : enough;
      tooLong = holds ? tooLong : half;
    }
    boolean sure = enough > 0 && suffices(limits, walks, t.withStay(enough * MINUTE_S));
    return sure ? enough * MINUTE_S : Double.NaN;
  }

  /**
   * True if the question surely reaches the place with other limits. By rules that ask nothing of a
   * stop the trip that was found proves it.
   */
  private boolean suffices(ReachLimits other, WalkHome walks, Target t) {
    boolean proven = request.home() == HomeRule.NONE || request.home() == HomeRule.DRIVE_BACK;
    return proven || (thorough && holds(other, walks, t));
  }

  private boolean holds(ReachLimits other, WalkHome walks, Target t) {
    Trips trips = trips(other, walks, List.of(t));
    if (!trips.leadTo(cell(t))) {
      return false;
    }
    if (energyMatters()) {
      trips.ways.addLeastEnergy(workers, progress);
    }
    BudgetCheck check = new BudgetCheck(other, trips.ways);
    check.evaluate(cell(t), t.stayS(), null);
    return check.state == ReachState.SURELY;
  }

  private ReachLimits raised(List<Shortfall> shortfalls) {
    double timeS = limits.timeS();
    double energyJ = limits.energyJ();
    double distanceM = limits.distanceM();
    double lifeS = limits.lifeSupportS();
    for (Shortfall s : shortfalls) {
      double needed = s.needed() * (1 + ROUNDING);
      timeS = s.of() == Supply.TIME ? needed : timeS;
      energyJ = s.of() == Supply.ENERGY ? needed : energyJ;
      distanceM = s.of() == Supply.DISTANCE ? needed : distanceM;
      lifeS = s.of() == Supply.LIFE_SUPPORT ? needed : lifeS;
    }
    return with(timeS, energyJ, distanceM, lifeS);
  }

  private ReachLimits with(double timeS, double energyJ, double distanceM, double lifeS) {
    return new ReachLimits(
        limits.home(),
        timeS,
        energyJ,
        distanceM,
        lifeS,
        limits.hotelW(),
        limits.rescue(),
        limits.reserves());
  }

  private boolean energyMatters() {
    return hasEnergy
        && limits.energyJ() < Double.POSITIVE_INFINITY
        && request.home() != HomeRule.NONE;
  }

  /** Trips with all limits lifted but time, which is as long as the places need it. */
  private Trips lifted(WalkHome walks, List<Target> places) {
    double timeS = limits.tripS();
    Trips trips = trips(lifted(timeS), walks, places);
    for (int i = 0; i < MOST_ROUNDS; i++) {
      Trips last = trips;
      if (places.stream().noneMatch(t -> last.wantTimeTo(cell(t)) || last.endLate(t))) {
        break;
      }
      timeS *= FURTHER;
      trips = trips(lifted(timeS), walks, places);
    }
    Trips found = trips;
    boolean dear =
        places.stream()
            .filter(t -> found.leadTo(cell(t)))
            .map(t -> TripNeeds.of(limits, found.ways, cell(t), t.stayS()))
            .anyMatch(n -> n.shortfalls().stream().anyMatch(s -> s.of() == Supply.ENERGY));
    if (dear && energyMatters()) {
      trips.ways.addLeastEnergy(workers, progress);
    }
    return trips;
  }

  private ReachLimits lifted(double timeS) {
    return with(timeS, plenty(limits.energyJ()), plenty(limits.distanceM()), PLENTY);
  }

  private static double plenty(double limit) {
    return limit < Double.POSITIVE_INFINITY ? PLENTY : limit;
  }

  private Trips trips(ReachLimits some, WalkHome walks, List<Target> places) {
    RuleGround rule =
        RuleGround.of(request, some, some, ground, walks, hasEnergy, base, workers, progress);
    BitSet asked = new BitSet();
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    for (Target t : places) {
      asked.set(cell(t));
      least = Math.min(least, t.stayS());
      most = Math.max(most, t.stayS());
    }
    TripFronts ways =
        new TripFronts(
            request,
            some,
            rule.field(),
            rule.homeField(),
            hasEnergy,
            ground.heightM(),
            base,
            base,
            asked,
            new double[] {least, most},
            rule.stops(),
            workers,
            progress);
    return new Trips(some, ways, BeyondReach.of(open, base, some, ways, rule.stopEnds(), workers));
  }
}

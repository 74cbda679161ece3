package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicBoolean;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.front.Fronts;
import org.scarpway.reach.front.Fronts.Spread;
import org.scarpway.reach.front.KeptFronts;
import org.scarpway.reach.front.TimeBudgetDomain;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Computes the fronts from the base, out and home, for every limited quantity, and the sums along
 * their ways.
 */
final class TripFronts implements FoundWays {
  /**
   * Energy fronts take longest; starting them first makes all cores finish at about the same time.
   */
  private static final List<Quantity> LONGEST_FIRST =
      List.of(Quantity.ENERGY_J, Quantity.TIME_S, Quantity.DISTANCE_M);

  /** Margin on the budget of a single way, so that rounding never excludes one. */
  private static final double MARGIN = 1.05;

  private final boolean hasEnergy;
  private final Floats heightM;
  private final ReachLimits limits;
  private Stops stops;
  private final Map<Quantity, CostField> out = new EnumMap<>(Quantity.class);
  private final Map<Quantity, CostField> home = new EnumMap<>(Quantity.class);
  private final Map<Quantity, PathSums> outWays = new EnumMap<>(Quantity.class);
  private final Map<Quantity, PathSums> homeWays = new EnumMap<>(Quantity.class);
  private final String name;
  private final boolean oneWay;
  private final TraversalCost field;
  private final TraversalCost homeField;

  /** Cell where the ways out begin. */
  private final int from;

  /** Cell where the ways home end. */
  private final int base;

  /** Cells along whose ways sums are computed, null for all. */
  private final BitSet summed;

  /** Shortest stay at a far end that will be checked (s); 0 by the rule pair. */
  private final double leastStayS;

  /** Null if the request covers more than the ground within the time budget. */
  private TimeBudgetDomain timed;

  /** Quickest ways out on which a stop always leaves time to get home; null if not needed. */
  private CostField inTime;

  private PathSums inTimeWays;

  /** Ways home that require the least time, stops included; null if the quickest ones suffice. */
  private CostField need;

  private PathSums needWays;

  private List<PathSums> outList = List.of();
  private List<PathSums> homeList = List.of();

  /**
   * Computes all fronts. Least-energy ways home are computed only if the quickest ones leave a cell
   * undecided, because energy fronts take longest.
   *
   * @param field field of the way out
   * @param homeField field of the way home
   * @param base cell of the base, where ways out begin and ways home end
   * @param stays shortest and longest stay at a far end that will be checked (s)
   * @param stops requirements of a stop in each cell; those of a pair are computed here
   */
  TripFronts(
      ReachRequest request,
      ReachLimits limits,
      TraversalCost field,
      TraversalCost homeField,
      boolean hasEnergy,
      Floats heightM,
      int base,
      double[] stays,
      Stops stops,
      Workers workers,
      Progress progress) {
    this(
        request, limits, field, homeField, hasEnergy, heightM, base, base, null, stays, stops,
        workers, progress);
    if (energyLater(request)
        && wanted(Quantity.ENERGY_J, request, limits)
        && !quickestSettle(limits, stays[1], field.spec(), workers)) {
      addLeastEnergy(workers, progress);
    }
  }

  /**
   * Computes the fronts of trips that begin at {@code from} and end at the base, without those of
   * least energy ({@link #addLeastEnergy}). If the two are different places, fronts home cover all
   * ground, so that they serve every place to begin at.
   *
   * @param asked cells to which trips will be checked, null for all
   */
  TripFronts(
      ReachRequest request,
      ReachLimits limits,
      TraversalCost field,
      TraversalCost homeField,
      boolean hasEnergy,
      Floats heightM,
      int from,
      int base,
      BitSet asked,
      double[] stays,
      Stops stops,
      Workers workers,
      Progress progress) {
    this.name = request.name();
    this.hasEnergy = hasEnergy;
    this.heightM = heightM;
    this.limits = limits;
    this.stops = stops;
    this.field = field;
    this.homeField = homeField;
    this.from = from;
    this.base = base;
    // Other rules look at a stop in every cell.
    this.summed = request.home() == HomeRule.DRIVE_BACK ? asked : null;
    this.oneWay = request.home() == HomeRule.NONE;
    boolean pair = request.home() == HomeRule.PAIR;
    this.leastStayS = pair ? 0 : stays[0];
    // Cells from which a pair may have to ride home are needed before the stay as well.
    double stillS = pair ? limits.changeS() : stays[0];
    double tripS =
        request.beyondBudget() || underway()
            ? Double.POSITIVE_INFINITY
            : Math.max(0, limits.tripS() - stillS);
    boolean energyLater = energyLater(request);
    if (tripS < Double.POSITIVE_INFINITY) {
      timed = TimeBudgetDomain.of(field, homeField, base, oneWay, tripS, workers, progress);
      out.put(Quantity.TIME_S, timed.out());
      if (!oneWay) {
        home.put(Quantity.TIME_S, timed.home());
      }
    }
    List<Runnable> work = new ArrayList<>();
    List<Runnable> help = new ArrayList<>();
    List<Quantity> outAsked = new ArrayList<>();
    for (Quantity q : LONGEST_FIRST) {
      boolean wanted = wanted(q, request, limits) && !(q == Quantity.ENERGY_J && energyLater);
      double budget = mostOneWay(q, limits);
      if (out.containsKey(q)) {
        outAsked.add(q);
      } else if (wanted || (q == Quantity.ENERGY_J && hasEnergy && !underway())) {
        Spread front = begin(field, q, Direction.OUT, budget, progress);
        work.add(() -> keepLabels(front, q, Direction.OUT));
        if (oneWay || wanted) {
          outAsked.add(q);
        }
        help.add(front::work);
      }
      if (home.containsKey(q)) {
        work.add(() -> keepWays(home.get(q), q, Direction.HOME));
      } else if (wanted) {
        Spread front = begin(homeField, q, Direction.HOME, budget, progress);
        work.add(() -> solveHome(front, q));
        help.add(front::work);
      }
    }
    progress.begin(
        "ways of reach '" + request.name() + "'", (long) work.size() * field.spec().cells());
    // Threads without work of their own help with unfinished fronts.
    work.addAll(help);
    workers.all(work);
    listWays();
    if (pair) {
      this.stops = Stops.riding(limits, field, homeList);
    }
    workers.all(
        outAsked.stream()
            .<Runnable>map(q -> () -> keepWays(out.get(q), q, Direction.OUT))
            .toList());
    listWays();
    if (this.stops.asked() && tooLateToStop()) {
      findInTime(request, workers, progress);
    }
    if (this.stops.asked() && !pair && homeAsksForMore(stays)) {
      progress.begin("ways home in time of reach '" + request.name() + "'", field.spec().cells());
      need = NeedFront.spread(homeField, this.stops, base, workers, progress);
      needWays = KeptSums.along("need", need, heightM, hasEnergy, this.stops);
      listWays();
      progress.end();
    }
    progress.end();
  }

  /** Lets the ways home from further cells be checked too. */
  void ask(List<Integer> cells) {
    if (summed != null) {
      cells.forEach(summed::set);
      List.copyOf(homeWays.keySet()).forEach(q -> keepWays(home.get(q), q, Direction.HOME));
      listWays();
    }
  }

  /** Adds the ways of least energy, out and home. */
  void addLeastEnergy(Workers workers, Progress progress) {
    addLeastEnergy(true, workers, progress);
  }

  /** Adds the ways home of least energy if energy is limited. */
  void addLeastEnergyHome(Workers workers, Progress progress) {
    addLeastEnergy(false, workers, progress);
  }

  /** True if the ways home of least energy are known, or no limit asks for them. */
  boolean knowsLeastEnergyHome() {
    return homeWays.containsKey(Quantity.ENERGY_J)
        || !hasEnergy
        || limits.energyJ() == Double.POSITIVE_INFINITY;
  }

  private void addLeastEnergy(boolean outToo, Workers workers, Progress progress) {
    progress.begin("least energy of reach '" + name + "'", field.spec().cells());
    double budget = mostOneWay(Quantity.ENERGY_J, limits);
    List<Runnable> work = new ArrayList<>();
    if (outToo && out.containsKey(Quantity.ENERGY_J)) {
      CostField known = out.get(Quantity.ENERGY_J);
      work.add(() -> keepWays(known, Quantity.ENERGY_J, Direction.OUT));
    } else if (outToo) {
      Spread there = begin(field, Quantity.ENERGY_J, Direction.OUT, budget, progress);
      work.add(
          () ->
              keepWays(
                  keepLabels(there, Quantity.ENERGY_J, Direction.OUT),
                  Quantity.ENERGY_J,
                  Direction.OUT));
    }
    Spread back = begin(homeField, Quantity.ENERGY_J, Direction.HOME, budget, progress);
    work.add(() -> solveHome(back, Quantity.ENERGY_J));
    work.add(back::work);
    workers.all(work);
    listWays();
    if (limits.home() == HomeRule.PAIR) {
      // The least-energy ways home may serve as rides after a stop on the way out.
      stops = new Stops(limits, stops.homeS(), null, homeList);
      workers.all(outList.stream().<Runnable>map(w -> () -> w.holdStops(stops)).toList());
    }
    progress.end();
  }

  private boolean energyLater(ReachRequest request) {
    return !oneWay && request.bands().stream().noneMatch(b -> b.quantity() == Quantity.ENERGY_J);
  }

  private Spread begin(
      TraversalCost ground, Quantity q, Direction d, double budget, Progress progress) {
    if (timed != null && !timed.whole()) {
      return Fronts.begin(q, d, budget, timed, progress);
    }
    return d == Direction.OUT && underway()
        ? Fronts.begin(ground, q, d, mostFromHere(ground, q), progress, from)
        : Fronts.begin(
            ground, q, d, Double.POSITIVE_INFINITY, progress, d == Direction.OUT ? from : base);
  }

  /** Upper bound on the label of a way out with what a crew underway has left. */
  private double mostFromHere(TraversalCost ground, Quantity q) {
    double left =
        switch (q) {
          case TIME_S -> limits.tripS();
          case ENERGY_J -> limits.energyJ() - limits.usedJ();
          case DISTANCE_M -> limits.distanceM();
        };
    double downM = 0;
    for (int cell = 0; q == Quantity.ENERGY_J && cell < heightM.size(); cell++) {
      double below = heightM.get(from) - heightM.get(cell);
      downM = below > downM ? below : downM;
    }
    // The label of a way down is larger than its energy by the height term.
    return MARGIN * Math.max(0, left) + downM * ground.potentialJPerM();
  }

  /** True if the ways out do not begin at the base. */
  private boolean underway() {
    return from != base;
  }

  /**
   * Upper bound on the cost of the way out or the way home by itself; infinite one way, where the
   * height term adds to the label.
   */
  private double mostOneWay(Quantity q, ReachLimits limits) {
    if (oneWay || q == Quantity.TIME_S) {
      return Double.POSITIVE_INFINITY;
    }
    double most =
        q == Quantity.ENERGY_J
            ? limits.energyJ() - limits.hotelW() * leastStayS
            : limits.distanceM();
    return MARGIN * Math.max(0, most);
  }

  /**
   * True if the quickest way out breaks the rule for stops in a cell where another way might not.
   */
  private boolean tooLateToStop() {
    PathSums quickest = outWays.get(Quantity.TIME_S);
    for (int cell = 0; cell < stops.homeS().size(); cell++) {
      if (answers(cell)
          && stops.inTime(cell, quickest.timeS(cell))
          && !(quickest.latestS(cell) <= limits.tripS()
              && quickest.latestS(cell) < Float.POSITIVE_INFINITY)) {
        return true;
      }
    }
    return false;
  }

  private void findInTime(ReachRequest request, Workers workers, Progress progress) {
    progress.begin("ways in time of reach '" + request.name() + "'", field.spec().cells());
    // Cells where even the quickest arrival is too late for a stop are excluded.
    BitSet early = new BitSet(field.spec().cells());
    for (int cell = 0; cell < field.spec().cells(); cell++) {
      if (answers(cell) && stops.inTime(cell, out.get(Quantity.TIME_S).value(cell))) {
        early.set(cell);
      }
    }
    Costs costs = new Costs(field.within(early), Quantity.TIME_S, Direction.OUT);
    KeptFronts kept = KeptFronts.of(costs);
    String bound = "in time " + limits.tripS() + " " + KeptFronts.digest(stops.homeS());
    KeptFronts.Key key = KeptFronts.key(costs, Quantity.TIME_S, bound, from);
    inTime = kept.any(key);
    if (inTime == null) {
      Front front = Front.from(costs, Double.POSITIVE_INFINITY, from);
      front.keepTo(stops.homeS(), limits.tripS());
      workers.all(Collections.nCopies(workers.threads(), () -> front.work(progress)));
      inTime = front.labels();
      kept.keep(key, inTime);
    }
    inTimeWays =
        limits.usedJ() == 0
            ? KeptSums.along("in time", inTime, heightM, hasEnergy, stops)
            : PathSums.along(inTime, heightM, hasEnergy, stops, limits.usedJ());
    listWays();
    progress.end();
  }

  /** True if the quickest way home requires too much time in a cell where another way might not. */
  private boolean homeAsksForMore(double[] stays) {
    PathSums quickest = homeWays.get(Quantity.TIME_S);
    for (int cell = 0; cell < stops.homeS().size(); cell++) {
      if (answers(cell) && home.get(Quantity.TIME_S).reached(cell)) {
        double leastS = Math.max(stops.homeS().get(cell), quickest.timeS(cell));
        double arrivedS = earliestS(cell);
        if (arrivedS + stays[0] + leastS <= limits.tripS()
            && arrivedS + stays[1] + quickest.needS(cell) > limits.tripS()) {
          return true;
        }
      }
    }
    return false;
  }

  /** Earliest arrival by a way on which a stop anywhere leaves time to get home (s). */
  private double earliestS(int cell) {
    return (inTime == null ? out.get(Quantity.TIME_S) : inTime).value(cell);
  }

  @Override
  public boolean neverInTime(int cell, double stayS) {
    if (!stops.asked()) {
      return false;
    }
    double leaveS = earliestS(cell) + stayS;
    return (inTime != null && !stops.inTime(cell, leaveS))
        || (need != null && !(leaveS + need.value(cell) <= limits.tripS()));
  }

  private void listWays() {
    List<PathSums> all = new ArrayList<>(outWays.values());
    if (inTimeWays != null) {
      all.add(inTimeWays);
    }
    outList = List.copyOf(all);
    List<PathSums> back = new ArrayList<>(homeWays.values());
    if (needWays != null) {
      back.add(needWays);
    }
    homeList = oneWay ? Collections.singletonList(null) : List.copyOf(back);
  }

  /** True if the quickest ways decide every cell. */
  private boolean quickestSettle(
      ReachLimits limits, double longestStayS, GridSpec spec, Workers workers) {
    AtomicBoolean all = new AtomicBoolean(true);
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          BudgetCheck judge = new BudgetCheck(limits, this);
          for (int cell = from * spec.cols(); all.get() && cell < to * spec.cols(); cell++) {
            if (answers(cell) && !judge.settledByQuickest(cell, longestStayS)) {
              all.set(false);
            }
          }
        });
    return all.get();
  }

  private boolean wanted(Quantity q, ReachRequest request, ReachLimits limits) {
    boolean banded = request.bands().stream().anyMatch(b -> b.quantity() == q);
    return switch (q) {
      case TIME_S -> true;
      case ENERGY_J -> hasEnergy && (banded || limits.energyJ() < Double.POSITIVE_INFINITY);
      case DISTANCE_M -> banded || limits.distanceM() < Double.POSITIVE_INFINITY;
    };
  }

  private CostField keepLabels(Spread front, Quantity q, Direction d) {
    CostField labels = front.labels();
    synchronized (this) {
      (d == Direction.OUT ? out : home).put(q, labels);
    }
    return labels;
  }

  private void solveHome(Spread front, Quantity q) {
    CostField labels = keepLabels(front, q, Direction.HOME);
    if (!oneWay) {
      keepWays(labels, q, Direction.HOME);
    }
  }

  private void keepWays(CostField labels, Quantity q, Direction d) {
    boolean isOut = d == Direction.OUT;
    // On the way home a pair is already evaluated as riding in one vehicle.
    boolean asked = stops.asked() && (isOut || stops.rides().isEmpty());
    boolean usual = !asked && (!isOut || limits.usedJ() == 0);
    PathSums ways;
    if (summed != null) {
      TraversalCost ground = isOut ? field : homeField;
      ways = PathSums.of(summed, labels, ground, d, heightM, hasEnergy, null, limits.usedJ());
    } else if (usual) {
      ways = KeptSums.along(q, labels, heightM, hasEnergy);
    } else if (!isOut || limits.usedJ() == 0) {
      ways = KeptSums.along(q, labels, heightM, hasEnergy, stops);
    } else {
      ways = PathSums.along(labels, heightM, hasEnergy, asked ? stops : null, limits.usedJ());
    }
    synchronized (this) {
      (isOut ? outWays : homeWays).put(q, ways);
    }
  }

  @Override
  public Stops stops() {
    return stops;
  }

  /** True if results end at the time budget. */
  boolean ended() {
    return timed != null;
  }

  /** Cells within the time budget plus its margin; null for all. */
  BitSet within() {
    return timed == null ? null : timed.within();
  }

  /** True if trips to a cell are evaluated. */
  boolean answers(int cell) {
    return timed == null ? out.get(Quantity.TIME_S).reached(cell) : timed.within().get(cell);
  }

  @Override
  public CostField out(Quantity q) {
    return out.get(q);
  }

  @Override
  public CostField home(Quantity q) {
    return home.get(q);
  }

  @Override
  public List<PathSums> outWays() {
    return outList;
  }

  @Override
  public List<PathSums> homeWays() {
    return homeList;
  }

  @Override
  public double stopS(int cell) {
    return stops.homeS().get(cell);
  }

  @Override
  public double leastEnergyJ(int cell, boolean oneWay) {
    if (!hasEnergy) {
      return Double.NaN;
    }
    if (!out.containsKey(Quantity.ENERGY_J)) {
      return Double.NEGATIVE_INFINITY;
    }
    double outJ = leastOutJ(cell);
    if (oneWay || !home.containsKey(Quantity.ENERGY_J)) {
      return outJ;
    }
    return outJ + withHeight(home.get(Quantity.ENERGY_J), cell);
  }

  /** Least energy of the way out (J). */
  double leastOutJ(int cell) {
    return withHeight(out.get(Quantity.ENERGY_J), cell);
  }

  private double withHeight(CostField labels, int cell) {
    float baseM = heightM.get(labels.sources()[0]);
    return labels.value(cell) + labels.costs().heightTermJ(baseM, heightM.get(cell));
  }

  @Override
  public double leastDistanceM(int cell, boolean oneWay) {
    if (!out.containsKey(Quantity.DISTANCE_M)) {
      return Double.NaN;
    }
    double outM = out.get(Quantity.DISTANCE_M).value(cell);
    return oneWay ? outM : outM + home.get(Quantity.DISTANCE_M).value(cell);
  }
}

package org.scarpway.reach.corridor;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Supplier;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.clearance.BottleneckImpact;
import org.scarpway.reach.clearance.Clearance;
import org.scarpway.reach.corridor.Legs.Leg;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.LegLine;
import org.scarpway.reach.front.StartCell;
import org.scarpway.reach.question.CorridorRequest;
import org.scarpway.reach.question.CorridorRequest.Stop;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.Alternative;
import org.scarpway.reach.question.CorridorResult.Order;
import org.scarpway.reach.question.CorridorResult.Place;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.CorridorResult.TradeOff;
import org.scarpway.reach.question.CorridorResult.Turning;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.Supplies;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Computes the least-cost corridor of a route between stops. For every leg two accumulated cost
 * surfaces are computed, from its start (A) and to its end (B); A + B minus the cost of the best
 * path of the leg is the cost that a detour through the cell adds. The result per cell is the least
 * of these over the legs, as a percentage of the whole route. If the stops may be visited in any
 * order, the order is optimised first.
 */
public final class CorridorSolver {
  /** Largest excess cost of a path with the turning radius over the best path, as a share. */
  private static final double ROOM_TO_TURN = 0.5;

  private final CorridorRequest request;
  private final TraversalInput ground;
  private final TraversalCost field;
  private final GridSpec spec;
  private final Quantity quantity;
  private final boolean hasEnergy;
  private final List<Stop> stops;
  private final int[] cells;
  private final Legs legs;
  private final Workers workers;
  private final List<String> warnings = new ArrayList<>();

  private CorridorSolver(
      CorridorRequest request, TraversalInput ground, Workers workers, Progress progress) {
    this.request = request;
    this.ground = ground;
    this.field = ground.field();
    this.spec = field.spec();
    this.workers = workers;
    this.quantity =
        switch (request.cost()) {
          case TIME -> Quantity.TIME_S;
          case ENERGY -> Quantity.ENERGY_J;
          case DISTANCE -> Quantity.DISTANCE_M;
        };
    this.hasEnergy = Costs.hasEnergy(field);
    String vehicle = ground.vehicle().name();
    this.legs = new Legs(where(), vehicle, spec, workers, progress);
    if (quantity == Quantity.ENERGY_J && !hasEnergy) {
      throw UserError.of(
          where(),
          "cost energy for vehicle '" + vehicle + "', which has no energy model",
          "time or distance",
          "change the cost or complete the vehicle file");
    }
    if (request.via().size() < 2) {
      throw UserError.of(
          where(), request.via().size() + " stop(s)", "two or more stops", "name them in via");
    }
    this.stops = new ArrayList<>(request.via());
    this.cells = new int[stops.size()];
    for (int i = 0; i < cells.length; i++) {
      Stop s = stops.get(i);
      cells[i] =
          StartCell.require(
              where() + ", stop '" + s.name() + "'",
              s.xM(),
              s.yM(),
              ground.vehicle().name(),
              field,
              ground.limit());
    }
  }

  /**
   * Solves a request and returns the whole layer in memory.
   *
   * @throws UserError if a stop is outside the grid or on ground that cannot be used, or if there
   *     is no path between two stops
   */
  public static CorridorResult solve(
      CorridorRequest request, TraversalInput ground, Workers workers, Progress progress) {
    int rows = ground.field().spec().rows();
    return answer(request, ground, workers, progress).rows(0, rows);
  }

  /** Like solve, but the layer is produced on request, row by row, so it need not fit in memory. */
  public static CorridorAnswer answer(
      CorridorRequest request, TraversalInput ground, Workers workers, Progress progress) {
    return new CorridorSolver(request, ground, workers, progress).run();
  }

  private String where() {
    return "corridor '" + request.name() + "'";
  }

  private CorridorAnswer run() {
    Order order = request.anyOrder() ? putInOrder() : null;
    List<Leg> found = legs.between(stops, cells, field, quantity);
    Centreline best = drive(found);
    double bestCost = best.amount(quantity);
    double reference = reference(found, bestCost, best);
    double turnM = ground.vehicle().drive().turnRadiusM();
    double mostPct = request.withinPct().get(request.withinPct().size() - 1);
    double[] extra = new double[found.size()];
    for (int i = 0; i < extra.length; i++) {
      double roomToTurn = turnM > 0 ? ROOM_TO_TURN * found.get(i).cost() : 0;
      extra[i] = Math.max(mostPct / 100 * reference, roomToTurn);
    }
    List<Detours> detours = legs.detours(found, extra, field, quantity);
    List<Place> tooTight = new ArrayList<>();
    Centreline line = turnM > 0 ? bend(found, detours, turnM, tooTight) : best;
    Excess excess = Excess.of(detours, best, quantity, reference, mostPct, field, workers);
    excess.lowerAlong(best);
    excess.lowerAlong(line);
    if (!(line.distanceM() > 0)) {
      warnings.add("all stops lie in one cell, so there is no line to draw");
    }
    Clearance clearance = Clearance.of(field, workers);
    List<Visit> visits = visits(line);
    List<Alternative> alternatives = alternatives(best, bestCost, clearance);
    List<TradeOff> tradeOffs = tradeOffs(best);
    List<String> beyond =
        Supplies.beyond(request, ground.vehicle(), visits, mostJ(line), alternatives, tradeOffs);
    warnings.addAll(beyond);
    return new CorridorAnswer(
        excess.pct(),
        new CorridorResult(
            request,
            ground.vehicle().name(),
            null,
            bestCost,
            visits,
            order,
            line.points(),
            turnM > 0 ? turning(turnM, line, bestCost, tooTight) : null,
            CorridorPinchPoints.along(
                line, clearance, new BottleneckImpact(field, clearance, cells[0]), workers),
            Alternatives.besideM(spec, best),
            alternatives,
            tradeOffs,
            beyond,
            warnings),
        spec);
  }

  private Centreline drive(List<Leg> found) {
    List<LegLine> ways = new ArrayList<>();
    for (int i = 0; i < found.size(); i++) {
      Leg leg = found.get(i);
      ways.add(onLeg(i, leg::way));
    }
    return Centreline.drive(ground, hasEnergy, ways);
  }

  /** Runs work on a leg and adds the leg to the message of a failure. */
  private <T> T onLeg(int leg, Supplier<T> work) {
    try {
      return work.get();
    } catch (UserError | StageFailure e) {
      throw e;
    } catch (RuntimeException e) {
      String names = "'" + stops.get(leg).name() + "' to '" + stops.get(leg + 1).name() + "'";
      throw StageFailure.bug("leg from " + names, e);
    }
  }

  /**
   * The legs fitted to the turning circle, with wider curves where these cost hardly more. Legs
   * without such a path remain unchanged.
   */
  private Centreline bend(
      List<Leg> found, List<Detours> detours, double turnM, List<Place> tooTight) {
    Costs costs = new Costs(field, quantity, Direction.HOME).withoutTacks();
    TurnSearch.Found[] bent = new TurnSearch.Found[found.size()];
    List<Runnable> work = new ArrayList<>();
    for (int i = 0; i < bent.length; i++) {
      int leg = i;
      work.add(
          () -> bent[leg] = onLeg(leg, () -> WideCurves.along(detours.get(leg), costs, turnM)));
    }
    workers.all(work);
    List<LegLine> ways = new ArrayList<>();
    for (int i = 0; i < bent.length; i++) {
      int stuck = bent[i].stuck();
      if (stuck < 0) {
        ways.add(bent[i].way());
        continue;
      }
      ways.add(found.get(i).way());
      double x = spec.xM(stuck % spec.cols());
      double y = spec.yM(stuck / spec.cols());
      tooTight.add(new Place(x, y));
      warnings.add(
          String.format(
              Locale.ROOT,
              "no way from '%s' to '%s' with a turning radius of %.1f m was found; it ends at"
                  + " (%.1f, %.1f), and the centreline of this leg turns more tightly",
              stops.get(i).name(),
              stops.get(i + 1).name(),
              turnM,
              x,
              y));
    }
    return Centreline.drive(ground, hasEnergy, ways);
  }

  private Turning turning(double turnM, Centreline line, double bestCost, List<Place> tooTight) {
    double extraPct = bestCost > 0 ? 100 * (line.amount(quantity) / bestCost - 1) : Double.NaN;
    return new Turning(turnM, extraPct, tooTight);
  }

  /** Sorts the intermediate stops into the best order found. */
  private Order putInOrder() {
    double[][] costs = legs.costs(cells, field, quantity);
    VisitOrder best = VisitOrder.of(costs);
    if (best == null) {
      throw noOrder(costs);
    }
    List<Stop> given = List.copyOf(stops);
    int[] givenCells = cells.clone();
    for (int i = 0; i < cells.length; i++) {
      stops.set(i, given.get(best.order()[i]));
      cells[i] = givenCells[best.order()[i]];
    }
    double heightJ = 0;
    if (quantity == Quantity.ENERGY_J) {
      Floats h = ground.heightM();
      heightJ = field.potentialJPerM() * (h.get(cells[cells.length - 1]) - h.get(cells[0]));
    }
    double cost = best.cost() + heightJ;
    double atLeast = best.atLeast() + heightJ;
    boolean proven = best.cost() == best.atLeast();
    return new Order(proven, atLeast, atLeast > 0 ? 100 * (cost / atLeast - 1) : best.gapPct());
  }

  private UserError noWay(int from, int to) {
    return legs.noWay(stops.get(from), cells[from], stops.get(to), cells[to], field, quantity);
  }

  private UserError noOrder(double[][] costs) {
    int last = cells.length - 1;
    for (int i = 1; i < last; i++) {
      if (costs[0][i] == Double.POSITIVE_INFINITY) {
        return noWay(0, i);
      }
      if (costs[i][last] == Double.POSITIVE_INFINITY) {
        return noWay(i, last);
      }
    }
    return UserError.of(
        where(),
        String.format(Locale.ROOT, "no order of the %d stops that can be driven", last - 1),
        "stops that are joined by driveable ground",
        "leave one out or choose a vehicle with wider limits");
  }

  private List<Visit> visits(Centreline way) {
    List<Visit> visits = new ArrayList<>();
    Double load = ground.vehicle().drive().hotelW();
    double hotelW = load == null ? 0 : load;
    double stoodS = 0;
    for (int i = 0; i < cells.length; i++) {
      ProfilePoint p = way.points().get(i == 0 ? 0 : way.legTo(i - 1));
      Stop s = stops.get(i);
      double stayS = i == 0 ? 0 : s.stayS();
      visits.add(
          new Visit(
              s.name(),
              s.xM(),
              s.yM(),
              p.timeS() + stoodS,
              p.energyJ() + hotelW * stoodS,
              p.distanceM(),
              stayS,
              hotelW * stayS));
      stoodS += stayS;
    }
    return visits;
  }

  /**
   * Largest amount used from the battery at any moment (J); energy returned to a full battery is
   * lost.
   */
  private double mostJ(Centreline line) {
    List<Visit> visits = visits(line);
    double usedJ = 0;
    double mostJ = 0;
    int at = 0;
    for (int i = 1; i < visits.size(); i++) {
      for (; at < line.legTo(i - 1); at++) {
        double moreJ = line.points().get(at + 1).energyJ() - line.points().get(at).energyJ();
        usedJ = Math.max(0, usedJ + moreJ);
        mostJ = Math.max(mostJ, usedJ);
      }
      usedJ += visits.get(i).stayJ();
      mostJ = Math.max(mostJ, usedJ);
    }
    return mostJ;
  }

  /** The cost to which excess percentages refer (s, J or m). */
  private double reference(List<Leg> found, double bestCost, Centreline best) {
    double reference = bestCost;
    if (!(reference > 0)) {
      // Downhill all the way, so the net energy is no reference; the losses on the way are used
      // instead.
      reference = found.stream().mapToDouble(Leg::cost).sum();
      if (best.distanceM() > 0) {
        warnings.add(
            "gains energy on the whole; excess is a percentage of the energy lost on the way");
      }
    }
    return reference;
  }

  private List<Alternative> alternatives(Centreline best, double bestCost, Clearance clearance) {
    List<Alternative> found =
        Alternatives.of(
            request,
            best,
            bestCost,
            quantity,
            clearance,
            factor ->
                drive(
                    legs.between(stops, cells, new Costs(field, quantity, Direction.OUT, factor))),
            this::mostJ);
    if (found.size() < request.alternatives()) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "%d of %d alternatives differ enough (at most %.0f %% of the ground shared)",
              found.size(),
              request.alternatives(),
              request.mostSharedPct()));
    }
    return found;
  }

  private List<TradeOff> tradeOffs(Centreline best) {
    return TradeOffs.of(
        request.tradeOffs(),
        ground,
        hasEnergy,
        best,
        weighted ->
            drive(
                legs.between(stops, cells, new Costs(weighted, Quantity.ENERGY_J, Direction.OUT))),
        this::mostJ);
  }
}

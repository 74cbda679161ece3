package org.scarpway.reach.corridor;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.IntFunction;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.ExpansionBound;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.front.KeptFronts;
import org.scarpway.reach.front.LegLine;
import org.scarpway.reach.front.MeetHalfway;
import org.scarpway.reach.front.Tacking;
import org.scarpway.reach.front.Trace;
import org.scarpway.reach.question.CorridorRequest.Stop;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.NoWay;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** Computes the best paths from stop to stop of one corridor. */
final class Legs {
  private final String where;
  private final String vehicle;
  private final GridSpec spec;
  private final Workers workers;
  private final Progress progress;

  /**
   * @param where name of the corridor, for messages
   */
  Legs(String where, String vehicle, GridSpec spec, Workers workers, Progress progress) {
    this.where = where;
    this.spec = spec;
    this.vehicle = vehicle;
    this.workers = workers;
    this.progress = progress;
  }

  /**
   * The best path of one leg.
   *
   * @param from accumulated cost from the start, computed at least as far as the end
   * @param front the front if it can still be continued, else null
   */
  record Leg(CostField from, Front front, int start, int end) {
    /** The best path in the order of travel, with its tacks drawn. */
    LegLine way() {
      int[] back = Trace.toSource(from, end).cells();
      int[] there = new int[back.length];
      for (int k = 0; k < back.length; k++) {
        there[k] = back[back.length - 1 - k];
      }
      Costs costs = from.costs().alongTravel();
      return Tacking.along(LegLine.of(costs.field().spec(), there), costs);
    }

    double cost() {
      return from.value(end);
    }
  }

  /**
   * @param cells cells of the stops in the order of travel
   * @param quantity quantity to minimise
   */
  List<Leg> between(List<Stop> stops, int[] cells, TraversalCost field, Quantity quantity) {
    Begun[] begun = new Begun[cells.length - 1];
    for (int i = 0; i < begun.length; i++) {
      begun[i] = begin(field, quantity, Direction.OUT, cells[i]);
    }
    return legs(stops, cells, begun, true);
  }

  /**
   * @param costs costs for this call only; the fronts are neither cached nor continued
   */
  List<Leg> between(List<Stop> stops, int[] cells, Costs costs) {
    if (costs.field().beyondHeap()) {
      // Such calls follow one another, each with fronts of its own.
      costs.field().memory().freeScratch();
    }
    Begun[] begun = new Begun[cells.length - 1];
    for (int i = 0; i < begun.length; i++) {
      begun[i] = new Begun(Front.from(costs, Double.POSITIVE_INFINITY, cells[i]), null);
    }
    return legs(stops, cells, begun, false);
  }

  /**
   * @param continued true if the fronts will be continued later
   */
  private List<Leg> legs(List<Stop> stops, int[] cells, Begun[] begun, boolean continued) {
    reach("ways of " + where, begun, leg -> new int[] {cells[leg + 1]});
    List<Leg> legs = new ArrayList<>();
    for (int i = 0; i < begun.length; i++) {
      CostField from = continued ? begun[i].labels() : begun[i].end();
      Leg leg = new Leg(from, continued ? begun[i].front() : null, cells[i], cells[i + 1]);
      if (!leg.from().reached(leg.end())) {
        throw noWay(stops.get(i).name(), stops.get(i + 1).name(), nearest(leg.from(), leg.end()));
      }
      legs.add(leg);
    }
    return legs;
  }

  /** A front in progress, or the cached labels of one over all ground. */
  private record Begun(Front front, CostField kept) {
    CostField labels() {
      return front == null ? kept : front.soFar();
    }

    /** Returns the labels and releases the working memory of the front. */
    CostField end() {
      return front == null ? kept : front.labels();
    }
  }

  private static Begun begin(
      TraversalCost field, Quantity quantity, Direction direction, int source) {
    Costs costs = new Costs(field, quantity, direction);
    KeptFronts.Key key = KeptFronts.key(costs, quantity, source);
    CostField kept = KeptFronts.of(costs).found(key, Double.POSITIVE_INFINITY);
    return new Begun(
        kept == null ? Front.from(costs, Double.POSITIVE_INFINITY, source) : null, kept);
  }

  /**
   * Continues the fronts until each has final labels at its end cells.
   *
   * @param ends end cells of each front, by its index
   */
  private void reach(String what, Begun[] begun, IntFunction<int[]> ends) {
    progress.begin(what, cells(begun.length));
    List<Front> unfinished = new ArrayList<>();
    for (int i = 0; i < begun.length; i++) {
      Front front = begun[i].front();
      if (front != null) {
        front.raiseBudget(
            Arrays.stream(ends.apply(i)).mapToDouble(front::straight).max().orElse(0));
        unfinished.add(front);
      }
    }
    while (!unfinished.isEmpty()) {
      work(unfinished);
      unfinished.clear();
      for (int i = 0; i < begun.length; i++) {
        Front front = begun[i].front();
        if (front != null && !Arrays.stream(ends.apply(i)).allMatch(front::isFinal)) {
          front.raiseBudget(0);
          unfinished.add(front);
        }
      }
    }
    progress.end();
  }

  private void work(List<Front> fronts) {
    List<Runnable> work = new ArrayList<>();
    for (int i = 0; i < workers.threads(); i++) {
      fronts.forEach(f -> work.add(() -> f.work(progress)));
    }
    workers.all(work);
  }

  /**
   * Computes the cells through which the paths of the legs may lead.
   *
   * @param extra largest excess cost over the best path, for each leg (in the unit of the quantity)
   */
  List<Detours> detours(List<Leg> legs, double[] extra, TraversalCost field, Quantity quantity) {
    progress.begin("detours of " + where, cells(legs.size()));
    Begun[] to = new Begun[legs.size()];
    double[] most = new double[to.length];
    List<Front> fronts = new ArrayList<>();
    for (int i = 0; i < to.length; i++) {
      Leg leg = legs.get(i);
      to[i] = begin(field, quantity, Direction.HOME, leg.end());
      most[i] = leg.from().withMargin(leg.cost() + extra[i]);
      if (leg.front() != null) {
        leg.front().allow(most[i], null);
        fronts.add(leg.front());
      }
    }
    work(fronts);
    fronts.clear();
    for (int i = 0; i < to.length; i++) {
      if (to[i].front() != null) {
        ExpansionBound meets = new MeetHalfway(legs.get(i).from().tiles(), most[i], most[i]);
        to[i].front().allow(most[i], meets);
        fronts.add(to[i].front());
      }
    }
    work(fronts);
    progress.end();
    List<Detours> found = new ArrayList<>();
    for (int i = 0; i < to.length; i++) {
      Leg leg = legs.get(i);
      found.add(new Detours(leg.from(), to[i].end(), leg.start(), leg.end()));
    }
    for (Leg leg : legs) {
      if (leg.front() != null) {
        leg.front().labels();
      }
    }
    return found;
  }

  /**
   * Costs from every stop (row) to every other (column), infinite where there is no way; energy
   * without the term that depends only on the heights of both ends, whose sum is the same in every
   * order.
   */
  double[][] costs(int[] cells, TraversalCost field, Quantity quantity) {
    Begun[] begun = new Begun[cells.length];
    for (int i = 0; i < cells.length; i++) {
      begun[i] = begin(field, quantity, Direction.OUT, cells[i]);
    }
    reach("ways between all stops of " + where, begun, i -> cells);
    double[][] costs = new double[cells.length][cells.length];
    for (int i = 0; i < cells.length; i++) {
      CostField from = begun[i].end();
      for (int k = 0; k < cells.length; k++) {
        costs[i][k] = from.value(cells[k]);
      }
    }
    return costs;
  }

  private long cells(int fronts) {
    return (long) fronts * spec.cells();
  }

  /** The error for two stops, given with their cells, that no way joins. */
  UserError noWay(
      Stop from, int fromCell, Stop to, int toCell, TraversalCost field, Quantity quantity) {
    Begun[] begun = {begin(field, quantity, Direction.OUT, fromCell)};
    reach("ways of " + where, begun, i -> new int[] {toCell});
    return noWay(from.name(), to.name(), nearest(begun[0].end(), toCell));
  }

  private UserError noWay(String from, String to, String cut) {
    return new NoWay(
        where,
        "no way from '" + from + "' to '" + to + "' for vehicle '" + vehicle + "'" + cut,
        "stops that are joined by driveable ground",
        "move a stop or choose a vehicle with wider limits");
  }

  /** The place nearest to a cell (as the crow flies) to which ways lead, as part of a sentence. */
  private String nearest(CostField from, int end) {
    double leastM = Double.POSITIVE_INFINITY;
    int nearest = -1;
    for (int cell = 0; cell < spec.cells(); cell++) {
      if (from.reached(cell)) {
        double m =
            Math.hypot(
                (cell / spec.cols() - end / spec.cols()) * spec.cellYM(),
                (cell % spec.cols() - end % spec.cols()) * spec.cellXM());
        if (m < leastM) {
          leastM = m;
          nearest = cell;
        }
      }
    }
    return String.format(
        Locale.ROOT,
        ", ways end at x %.1f m, y %.1f m, %.0f m from it (explain the places beyond for what shuts"
            + " them)",
        spec.xM(nearest % spec.cols()),
        spec.yM(nearest / spec.cols()),
        leastM);
  }
}

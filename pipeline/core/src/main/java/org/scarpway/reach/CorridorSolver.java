package org.scarpway.reach;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.CorridorResult.Alternative;
import org.scarpway.reach.Costs.Direction;
import org.scarpway.reach.ReachRequest.Quantity;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.MoveField;

/**
 * Answers in which ground a route between ordered stops should be drawn. For every leg the least
 * cost from its start (A) and to its end (B) is spread over the ground; A + B less the best of the
 * leg is what a detour through a cell adds to the whole. Counted as a percentage of the whole
 * route, and of the legs the least.
 */
public final class CorridorSolver {
  /** What ground of earlier routes costs when looking for others. */
  private static final double AVOIDANCE = 3;

  /** The same where that ground is a narrow passage: a second way through it is hardly another. */
  private static final double MOST_AVOIDANCE = 30;

  private static final float DEAREST = 1000;

  /** Half width of the ground that a route takes, in shares of the whole route's length. */
  private static final double TAKEN_SHARE = 0.05;

  private static final double MOST_SHARED_PCT = 50;

  private final CorridorRequest request;
  private final Ground ground;
  private final MoveField field;
  private final GridSpec spec;
  private final Quantity quantity;
  private final boolean hasEnergy;
  private final int[] stops;
  private final Workers workers;
  private final Progress progress;
  private final List<String> warnings = new ArrayList<>();

  private CorridorSolver(
      CorridorRequest request, Ground ground, Workers workers, Progress progress) {
    this.request = request;
    this.ground = ground;
    this.field = ground.mobility().field();
    this.spec = field.spec();
    this.workers = workers;
    this.progress = progress;
    this.quantity =
        switch (request.cost()) {
          case TIME -> Quantity.TIME_S;
          case ENERGY -> Quantity.ENERGY_J;
          case DISTANCE -> Quantity.DISTANCE_M;
        };
    this.hasEnergy = Costs.hasEnergy(field);
    if (quantity == Quantity.ENERGY_J && !hasEnergy) {
      throw UserError.of(
          where(),
          "cost energy for vehicle '"
              + ground.mobility().vehicle().name()
              + "', which has no energy model",
          "time or distance",
          "change the cost or complete the vehicle file");
    }
    if (request.via().size() < 2) {
      throw UserError.of(
          where(), request.via().size() + " stop(s)", "two or more stops", "name them in via");
    }
    this.stops = new int[request.via().size()];
    for (int i = 0; i < stops.length; i++) {
      CorridorRequest.Stop s = request.via().get(i);
      stops[i] =
          Footing.require(where() + ", stop '" + s.name() + "'", s.xM(), s.yM(), ground.mobility());
    }
  }

  /**
   * @throws UserError a stop outside the grid or on ground that cannot be used, or no way between
   *     two stops
   */
  public static CorridorResult solve(
      CorridorRequest request, Ground ground, Workers workers, Progress progress) {
    return new CorridorSolver(request, ground, workers, progress).run();
  }

  private String where() {
    return "corridor '" + request.name() + "'";
  }

  /** The best of one leg: fronts from its start and to its end. */
  private record Leg(Labels from, Labels to) {}

  private CorridorResult run() {
    List<Leg> legs = legs(null, true);
    Centreline best = Centreline.drive(ground, hasEnergy, corners(legs));
    double wholeCost = wholeCost(best);
    float[] excessPct = excess(legs, wholeCost, best);
    Clearance clearance = Clearance.of(field, workers);
    return new CorridorResult(
        request,
        ground.mobility().vehicle().name(),
        new FloatGrid(spec, excessPct),
        wholeCost,
        best.points(),
        best.pinchPoints(clearance),
        alternatives(best, wholeCost, clearance),
        warnings);
  }

  /**
   * @param factor multiplies the cost of each cell, null for none
   * @param both whether the fronts to the ends are wanted as well
   */
  private List<Leg> legs(float[] factor, boolean both) {
    int n = stops.length - 1;
    Labels[] from = new Labels[n];
    Labels[] to = new Labels[n];
    List<Runnable> work = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      int leg = i;
      work.add(() -> from[leg] = front(Direction.OUT, stops[leg], factor));
      if (both) {
        work.add(() -> to[leg] = front(Direction.HOME, stops[leg + 1], factor));
      }
    }
    progress.begin("ways of " + where(), (long) work.size() * spec.cells());
    workers.all(work);
    progress.end();
    List<Leg> legs = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      if (!from[i].reached(stops[i + 1])) {
        throw UserError.of(
            where(),
            "no way from '"
                + request.via().get(i).name()
                + "' to '"
                + request.via().get(i + 1).name()
                + "' for vehicle '"
                + ground.mobility().vehicle().name()
                + "'",
            "stops that are joined by driveable ground",
            "move a stop or choose a vehicle with wider limits");
      }
      legs.add(new Leg(from[i], to[i]));
    }
    return legs;
  }

  private Labels front(Direction direction, int stop, float[] factor) {
    return factor == null
        ? Fronts.spread(field, quantity, direction, progress, stop)
        : Front.spread(new Costs(field, quantity, direction, factor), progress, stop);
  }

  /** Corners of the whole route in the order of travel. */
  private int[] corners(List<Leg> legs) {
    int[] all = new int[0];
    for (int i = 0; i < legs.size(); i++) {
      int[] back = Trace.toSource(legs.get(i).from(), stops[i + 1]).cells();
      int n = all.length;
      all = Arrays.copyOf(all, n + back.length);
      for (int k = 0; k < back.length; k++) {
        all[n + k] = back[back.length - 1 - k];
      }
    }
    return all;
  }

  private double wholeCost(Centreline route) {
    return switch (quantity) {
      case TIME_S -> route.timeS();
      case ENERGY_J -> route.energyJ();
      case DISTANCE_M -> route.distanceM();
    };
  }

  private float[] excess(List<Leg> legs, double wholeCost, Centreline best) {
    double reference = wholeCost;
    if (!(reference > 0)) {
      // Downhill all the way: a percentage of nothing, so of what is lost on the way instead.
      reference = 0;
      for (int i = 0; i < legs.size(); i++) {
        reference += legs.get(i).from().value(stops[i + 1]);
      }
      if (best.distanceM() > 0) {
        warnings.add(
            where()
                + " gains energy on the whole; excess is a percentage of the energy lost on the way");
      }
    }
    float[] pct = new float[spec.cells()];
    Arrays.fill(pct, Float.NaN);
    for (Leg leg : legs) {
      double least = Double.POSITIVE_INFINITY;
      for (int i = 0; i < pct.length; i++) {
        least = Math.min(least, leg.from().value(i) + leg.to().value(i));
      }
      for (int i = 0; i < pct.length; i++) {
        double sum = leg.from().value(i) + leg.to().value(i);
        if (sum < Double.POSITIVE_INFINITY) {
          float p = reference > 0 ? (float) (100 * (sum - least) / reference) : 0;
          if (!(pct[i] <= p)) {
            pct[i] = p;
          }
        }
      }
    }
    return pct;
  }

  /** Routes found while the ground of earlier ones costs more; kept if they share little of it. */
  private List<Alternative> alternatives(Centreline best, double wholeCost, Clearance clearance) {
    List<Alternative> found = new ArrayList<>();
    boolean[] taken = new boolean[spec.cells()];
    float[] factor = new float[spec.cells()];
    Arrays.fill(factor, 1);
    take(best, best, clearance, taken, factor);
    for (int tries = 0; found.size() < request.alternatives() && tries < maxTries(); tries++) {
      Centreline other = Centreline.drive(ground, hasEnergy, corners(legs(factor, false)));
      double sharedPct = sharedPct(other, taken);
      if (sharedPct <= MOST_SHARED_PCT) {
        found.add(
            new Alternative(
                found.size() + 1,
                other.timeS(),
                other.energyJ(),
                other.distanceM(),
                wholeCost > 0 ? 100 * (wholeCost(other) / wholeCost - 1) : Double.NaN,
                sharedPct,
                other.points()));
      }
      take(other, best, clearance, taken, factor);
    }
    if (found.size() < request.alternatives()) {
      warnings.add(
          where()
              + ": "
              + found.size()
              + " of "
              + request.alternatives()
              + " alternatives differ enough (at most "
              + (int) MOST_SHARED_PCT
              + " % of the ground shared)");
    }
    return found;
  }

  /** Some routes found are not different enough; their ground is dearer for the next. */
  private int maxTries() {
    return request.alternatives() + 3;
  }

  /** Marks the ground of a route and makes it dearer. */
  private void take(
      Centreline route, Centreline best, Clearance clearance, boolean[] taken, float[] factor) {
    double halfM = Math.max(3 * spec.cellM(), TAKEN_SHARE * best.distanceM());
    int rows = (int) (halfM / spec.cellYM());
    int cols = (int) (halfM / spec.cellXM());
    boolean[] now = new boolean[taken.length];
    int stride = Math.max(1, Math.min(rows, cols) / 4);
    for (int i = 0; i < route.cells().size(); i += stride) {
      int row = route.cells().get(i) / spec.cols();
      int col = route.cells().get(i) % spec.cols();
      for (int dr = -rows; dr <= rows; dr++) {
        for (int dc = -cols; dc <= cols; dc++) {
          if (spec.holds(row + dr, col + dc)
              && Math.hypot(dr * spec.cellYM(), dc * spec.cellXM()) <= halfM) {
            now[(row + dr) * spec.cols() + col + dc] = true;
          }
        }
      }
    }
    for (int i = 0; i < now.length; i++) {
      if (now[i]) {
        double narrow = Math.max(1, 2 * halfM / Math.max(clearance.widthM(i), spec.cellM()));
        factor[i] *= (float) Math.min(MOST_AVOIDANCE, AVOIDANCE * narrow);
        factor[i] = Math.min(DEAREST, factor[i]);
        taken[i] = true;
      }
    }
  }

  private static double sharedPct(Centreline route, boolean[] taken) {
    double shared = 0;
    for (int i = 0; i < route.cells().size(); i++) {
      shared += taken[route.cells().get(i)] ? route.crossedM().get(i) : 0;
    }
    return route.distanceM() > 0 ? 100 * shared / route.distanceM() : 100;
  }
}

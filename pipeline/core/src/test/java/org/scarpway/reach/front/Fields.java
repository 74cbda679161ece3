package org.scarpway.reach.front;

import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.function.IntPredicate;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.trip.ReachLimits;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/** Grounds with known answers, for tests. */
public final class Fields {
  private static final int ENTRIES = 4001;

  private Fields() {}

  /**
   * A question without reserves by which a crew is aboard another vehicle at once, or after half an
   * hour's load.
   */
  public static ReachRequest request(
      String name,
      String baseName,
      double baseXM,
      double baseYM,
      ReachRequest.Budget budget,
      ReachRequest.HomeRule home,
      List<ReachRequest.Band> bands,
      double stayS,
      boolean beyondBudget) {
    Rescue rescue = new Rescue(0, 0, 1800, 0);
    return new ReachRequest(
        name,
        baseName,
        baseXM,
        baseYM,
        budget,
        home,
        bands,
        stayS,
        rescue,
        Reserves.NONE,
        beyondBudget);
  }

  /** Limits, whoever is fetched being aboard at once. */
  public static ReachLimits limits(
      ReachRequest.HomeRule home,
      double timeS,
      double energyJ,
      double distanceM,
      double lifeS,
      double hotelW) {
    return new ReachLimits(
        home, timeS, energyJ, distanceM, lifeS, hotelW, new Rescue(0, 0, 0, 0), Reserves.NONE);
  }

  /** Speed in m/s at the point in metres. */
  @FunctionalInterface
  public interface SpeedAt {
    double ms(double xM, double yM);
  }

  /** The same speed at every grade and no energy model. */
  public static GradeTable constant(double speedMs) {
    return new GradeTable(-1, 1, new double[] {speedMs, speedMs}, new double[2], 0, 0);
  }

  /** Square cells, the south-west corner of the grid at the given point. */
  public static GridSpec grid(int rows, int cols, double cellM, double westM, double southM) {
    return new GridSpec(rows, cols, cellM, cellM, westM, southM + rows * cellM, "");
  }

  /** Level ground where the speed depends on the place only; 0 is a barrier. */
  public static TraversalCost level(GridSpec spec, SpeedAt speed) {
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    for (int i = 0; i < n; i++) {
      double ms = speed.ms(spec.xM(i % spec.cols()), spec.yM(i / spec.cols()));
      cap[i] = (float) ms;
      allowed[i] = ms > 0 ? -1 : 0;
    }
    return new TraversalCost(
        spec, allowed, new float[n], new float[n], cap, new byte[n], constant(1e9));
  }

  /**
   * One gradient everywhere.
   *
   * @param surfaceMs speed along the surface against the grade in [-2, 2]
   * @param heading which of the 32 headings are allowed
   */
  public static TraversalCost slope(
      GridSpec spec,
      double gradEast,
      double gradNorth,
      DoubleUnaryOperator surfaceMs,
      IntPredicate heading) {
    double[] speed = new double[ENTRIES];
    for (int i = 0; i < ENTRIES; i++) {
      speed[i] = surfaceMs.applyAsDouble(-2 + 4.0 * i / (ENTRIES - 1));
    }
    int bits = 0;
    for (int k = 0; k < Headings.COUNT; k++) {
      bits |= heading.test(k) ? 1 << k : 0;
    }
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    float[] cap = new float[n];
    Arrays.fill(allowed, bits);
    Arrays.fill(east, (float) gradEast);
    Arrays.fill(north, (float) gradNorth);
    Arrays.fill(cap, Float.POSITIVE_INFINITY);
    return new TraversalCost(
        spec,
        allowed,
        east,
        north,
        cap,
        new byte[n],
        new GradeTable(-2, 2, speed, new double[ENTRIES], 0, 0));
  }

  /**
   * TraversalInput where the mover drifts towards the east at {@code driftMs} while it makes {@code
   * ownMs}: the speed over ground on each heading, made from a gradient of 1 towards the east.
   */
  public static TraversalCost drift(GridSpec spec, double ownMs, double driftMs) {
    return slope(
        spec,
        1,
        0,
        g -> {
          double c = Math.max(-1, Math.min(1, g));
          double over = driftMs * c + Math.sqrt(ownMs * ownMs - driftMs * driftMs * (1 - c * c));
          return over * Math.sqrt(1 + g * g);
        },
        k -> true);
  }

  /** Heights of the uniform slope through 0 at the south-west corner. */
  public static FloatGrid heights(GridSpec spec, double gradEast, double gradNorth) {
    float[] h = new float[spec.cells()];
    for (int i = 0; i < h.length; i++) {
      h[i] =
          (float)
              (gradEast * (spec.xM(i % spec.cols()) - spec.westM())
                  + gradNorth * (spec.yM(i / spec.cols()) - spec.southM()));
    }
    return new FloatGrid(spec, h);
  }

  /** A vehicle without physics on a field. */
  public static TraversalInput ground(TraversalCost field, FloatGrid heightM) {
    return ground(field, heightM, vehicle(null, null));
  }

  public static TraversalInput ground(TraversalCost field, FloatGrid heightM, Vehicle vehicle) {
    return new TraversalInput(mobility(field, vehicle), heightM).withLoaded(field);
  }

  public static Mobility mobility(TraversalCost field, Vehicle vehicle) {
    GridSpec spec = field.spec();
    byte[] cls = new byte[spec.cells()];
    for (int i = 0; i < cls.length; i++) {
      cls[i] = field.allowed(i) == 0 ? Mobility.NO_GO : Mobility.GO;
    }
    return new Mobility(
        vehicle,
        new ByteGrid(spec, cls),
        ByteGrid.empty(spec),
        FloatGrid.empty(spec),
        FloatGrid.empty(spec),
        FloatGrid.empty(spec),
        FloatGrid.empty(spec),
        field);
  }

  public static TraversalInput level(TraversalCost field) {
    return ground(field, FloatGrid.empty(field.spec()));
  }

  public static Vehicle vehicle(Double batteryKwh, Vehicle.Crew crew) {
    return new Vehicle(
        "cart",
        "",
        null,
        null,
        null,
        null,
        null,
        VehicleParts.drive(1, null, null, null, null, null, null),
        null,
        batteryKwh,
        crew);
  }

  /** A cart with power to spare: speed and hotel load; energy per metre is the field's own. */
  public static Vehicle cart(double speedMs, double hotelW, Double batteryKwh, Vehicle.Crew crew) {
    return new Vehicle(
        "cart",
        "",
        null,
        null,
        null,
        null,
        null,
        VehicleParts.drive(speedMs, null, 1e6, null, null, hotelW, 0.1),
        null,
        batteryKwh,
        crew);
  }

  /** Least driving time from a point to the centre of each cell (s). */
  public static double[] timesOut(TraversalCost field, double xM, double yM) {
    return times(field, Direction.OUT, xM, yM);
  }

  /** Least driving time from the centre of each cell to a point (s). */
  public static double[] timesHome(TraversalCost field, double xM, double yM) {
    return times(field, Direction.HOME, xM, yM);
  }

  /** Least driving time from the nearest of several cells to the centre of each cell (s). */
  public static double[] timesOutOfAny(TraversalCost field, int... sources) {
    return values(
        Front.spread(new Costs(field, Quantity.TIME_S, Direction.OUT), Progress.NONE, sources));
  }

  private static double[] times(TraversalCost field, Direction direction, double xM, double yM) {
    return values(
        Front.spread(
            new Costs(field, Quantity.TIME_S, direction),
            Progress.NONE,
            field.spec().cellOf(xM, yM)));
  }

  /** The same over steps between neighbouring cells only. */
  public static double[] timesOverNeighbours(TraversalCost field, double xM, double yM) {
    return values(
        neighbours(new Costs(field, Quantity.TIME_S, Direction.OUT), field.spec().cellOf(xM, yM)));
  }

  static CostField neighbours(Costs costs, int source) {
    Front front = new Front(costs, false, Double.POSITIVE_INFINITY, Front.SIDE, null, source);
    front.work(Progress.NONE);
    return front.labels();
  }

  public static double[] values(CostField labels) {
    double[] v = new double[labels.costs().field().spec().cells()];
    for (int i = 0; i < v.length; i++) {
      v[i] = labels.value(i);
    }
    return v;
  }
}

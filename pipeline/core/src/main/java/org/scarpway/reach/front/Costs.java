package org.scarpway.reach.front;

import org.scarpway.grid.Headings;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * Cost per plan metre of one quantity (s/m, J/m or m/m) for paths that lead out from a source or
 * home to it. Headings point from the given cell to the next cell nearer the source: against the
 * direction of travel for paths out, along it for paths home. Infinite where the travel is not
 * allowed.
 *
 * <p>Energy is the reduced energy: {@link TraversalCost#potentialJPerM} times the height gained is
 * subtracted, so that it is positive even where braking returns energy (Johnson 1977, <i>Efficient
 * algorithms for shortest paths in sparse networks</i>, J. ACM 24(1):1-13). {@link #heightTermJ}
 * returns the subtracted term from the true heights of both ends.
 *
 * <p>A barred heading between two allowed ones less than half a turn apart is travelled by tacking
 * on these two, at the cost of the convex hull of the polar cost curve.
 *
 * <p>Costs are read from tables over the grade in steps of 1/800 with linear interpolation
 * (infinite next to a grade without a speed); beyond a grade of 2 they are computed by the field
 * itself.
 */
public final class Costs {
  /** Smallest energy cost, a joule per kilometre; prevents cycles of zero cost. */
  private static final double LEAST_J_PER_M = 1e-3;

  // A multiple of the resolution of the field's own tables, so that their corners are preserved.
  private static final int STEPS_PER_GRADE = 800;
  private static final int TOP_GRADE = 2;
  private static final int ZERO = TOP_GRADE * STEPS_PER_GRADE;
  private static final int ENTRIES = 2 * ZERO + 1;

  // A row of the table: value and rise to the next row of each column, padded to a cache line.
  private static final int ROW = 8;
  private static final int TIME = 0;
  private static final int LENGTH = 2;
  private static final int REDUCED_J = 4;

  public enum Direction {
    OUT,
    HOME
  }

  private final TraversalCost field;
  private final Direction direction;
  private final int turn;
  private final double potentialJPerM;
  private final Floats factor;
  private final boolean tacking;
  private final boolean countsTime;
  private final boolean countsEnergy;
  private final double[] east = new double[Headings.COUNT];
  private final double[] north = new double[Headings.COUNT];

  /**
   * Points on a ring around the cell to which the headings lead, in the direction of travel (m).
   */
  private final double[] ringEastM = new double[Headings.COUNT];

  private final double[] ringNorthM = new double[Headings.COUNT];
  private final double[] table;
  private final PolarCorner[] timeCorners;

  /** Null if energy is not counted. */
  private final PolarCorner[] tractionCorners;

  private final double[] hotelW;
  private final double[] leastUpToGrade;

  /** Traction energy on level ground (J/m); detours around rocks gain no height. */
  private final double[] levelJ;

  public Costs(TraversalCost field, Quantity quantity, Direction direction) {
    this(field, quantity, direction, null);
  }

  /**
   * @param factor cost factor of each cell, at least 1; null for none
   */
  public Costs(TraversalCost field, Quantity quantity, Direction direction, Floats factor) {
    this(field, quantity, direction, factor, true);
  }

  private Costs(
      TraversalCost field, Quantity quantity, Direction direction, Floats factor, boolean tacking) {
    this.field = field;
    this.tacking = tacking;
    this.direction = direction;
    this.turn = direction == Direction.OUT ? Headings.COUNT / 2 : 0;
    this.factor = factor;
    this.countsTime = quantity == Quantity.TIME_S;
    this.countsEnergy = quantity == Quantity.ENERGY_J;
    this.potentialJPerM = countsEnergy ? field.potentialJPerM() : 0;
    Headings headings = Headings.of(field.spec());
    for (int k = 0; k < Headings.COUNT; k++) {
      east[k] = headings.east((k + turn) % Headings.COUNT);
      north[k] = headings.north((k + turn) % Headings.COUNT);
      ringEastM[k] = Headings.dCol((k + turn) % Headings.COUNT) * field.spec().cellXM();
      ringNorthM[k] = -Headings.dRow((k + turn) % Headings.COUNT) * field.spec().cellYM();
    }
    this.table = new double[field.soils() * ENTRIES * ROW];
    this.hotelW = new double[field.soils()];
    this.levelJ = new double[field.soils()];
    this.timeCorners = new PolarCorner[field.soils()];
    this.tractionCorners = countsEnergy ? new PolarCorner[field.soils()] : null;
    for (int t = 0; t < field.soils(); t++) {
      hotelW[t] = field.table(t).hotelW();
      levelJ[t] = field.table(t).tractionJPerM(0);
      fillTable(t);
    }
    this.leastUpToGrade = leastUpToGrade();
  }

  private void fillTable(int soil) {
    GradeTable source = field.table(soil);
    for (int i = 0; i < ENTRIES; i++) {
      double g = (i - ZERO) / (double) STEPS_PER_GRADE;
      double lengthPerM = Math.sqrt(1 + g * g);
      double speedMs = source.speedMs(g);
      int row = row(soil, i);
      table[row + TIME] = speedMs > 0 ? lengthPerM / speedMs : Double.POSITIVE_INFINITY;
      table[row + LENGTH] = lengthPerM;
      table[row + REDUCED_J] = source.tractionJPerM(g) * lengthPerM - potentialJPerM * g;
    }
    timeCorners[soil] = corners(soil, TIME);
    if (countsEnergy) {
      tractionCorners[soil] = corners(soil, REDUCED_J);
    }
    for (int i = 0; i < ENTRIES - 1; i++) {
      int row = row(soil, i);
      for (int column = 0; column <= REDUCED_J; column += 2) {
        table[row + column + 1] = table[row + ROW + column] - table[row + column];
      }
      if (!(table[row + TIME] + table[row + ROW + TIME] < Double.POSITIVE_INFINITY)) {
        table[row + TIME] = Double.POSITIVE_INFINITY;
        table[row + TIME + 1] = 0;
      }
    }
  }

  private PolarCorner corners(int soil, int column) {
    double[] cost = new double[ENTRIES];
    for (int i = 0; i < ENTRIES; i++) {
      cost[i] = table[row(soil, i) + column];
    }
    return new PolarCorner(cost, -TOP_GRADE, 1.0 / STEPS_PER_GRADE);
  }

  private static int row(int soil, int entry) {
    return (soil * ENTRIES + entry) * ROW;
  }

  public TraversalCost field() {
    return field;
  }

  public Direction direction() {
    return direction;
  }

  /** Returns the costs of the same travel in another quantity. */
  public Costs counting(Quantity other) {
    return new Costs(field, other, direction, null);
  }

  /**
   * Returns the costs of the same travel with headings in its direction, for paths driven from
   * their start.
   */
  public Costs alongTravel() {
    return new Costs(field, quantity(), Direction.HOME, factor);
  }

  /** Returns these costs without tacking: barred headings are not allowed. */
  public Costs withoutTacks() {
    return new Costs(field, quantity(), direction, factor, false);
  }

  private Quantity quantity() {
    return countsTime ? Quantity.TIME_S : countsEnergy ? Quantity.ENERGY_J : Quantity.DISTANCE_M;
  }

  /** True if no heading is allowed. */
  boolean barrier(int cell) {
    return field.allowed(cell) == 0;
  }

  /**
   * Cost per metre on a heading, infinite if it is not allowed; rounded to the stored precision.
   */
  public double perM(int cell, int heading) {
    int travel = (heading + turn) & (Headings.COUNT - 1);
    int allowed = field.allowed(cell);
    if ((allowed >>> travel & 1) == 0) {
      return tacking && allowed != 0
          ? inTacks(cell, heading, allowed, east[heading], north[heading])
          : Float.POSITIVE_INFINITY;
    }
    double g = field.gradEast(cell) * east[heading] + field.gradNorth(cell) * north[heading];
    double at = (g + TOP_GRADE) * STEPS_PER_GRADE;
    int i = (int) at;
    if (!(at >= 0) || i >= ENTRIES - 1) {
      return (float) exact(cell, travel, g);
    }
    double share = at - i;
    int soil = field.soil(cell);
    int row = (soil * ENTRIES + i) * ROW;
    double lengthPerM = table[row + LENGTH] + share * table[row + LENGTH + 1];
    double detour = field.pathRatio(cell, travel);
    // Comparisons instead of Math.max, which took as long as the rest of the method.
    double atGrade = table[row + TIME] + share * table[row + TIME + 1];
    double atCap = lengthPerM / field.speedCapMs(cell);
    double time = (atGrade > atCap ? atGrade : atCap) * detour;
    double cost = time;
    if (!countsTime) {
      if (time == Double.POSITIVE_INFINITY) {
        return Float.POSITIVE_INFINITY;
      }
      if (countsEnergy) {
        cost =
            table[row + REDUCED_J]
                + share * table[row + REDUCED_J + 1]
                + (detour - 1) * levelJ[soil] * lengthPerM
                + hotelW[soil] * time;
        cost = cost > LEAST_J_PER_M ? cost : LEAST_J_PER_M;
      } else {
        cost = lengthPerM * detour;
      }
    }
    return (float) (factor == null ? cost : cost * factor.get(cell));
  }

  private double inTacks(int cell, double heading, int allowed, double toEast, double toNorth) {
    int left = Tack.left(allowed, heading + turn);
    int right = Tack.right(allowed, heading + turn);
    if (!Tack.makesGood(left, right)) {
      return Float.POSITIVE_INFINITY;
    }
    int k1 = (left - turn) & (Headings.COUNT - 1);
    int k2 = (right - turn) & (Headings.COUNT - 1);
    double across = east[k2] * north[k1] - north[k2] * east[k1];
    double on1 = (east[k2] * toNorth - north[k2] * toEast) / across;
    double on2 = (toEast * north[k1] - toNorth * east[k1]) / across;
    return (float) (on1 * perM(cell, k1) + on2 * perM(cell, k2));
  }

  /**
   * Cost per metre on a heading between two of the 32: at the grade of its own direction if both
   * are allowed, by tacking if not.
   *
   * @param heading in [0, 32)
   */
  public double perM(int cell, double heading) {
    int low = (int) heading;
    double share = heading - low;
    if (share == 0) {
      return perM(cell, low);
    }
    int allowed = field.allowed(cell);
    int both = Integer.rotateRight(allowed, low + turn) & 3;
    if (both == 3) {
      return between(cell, low, share);
    }
    if (!tacking || allowed == 0) {
      return Double.POSITIVE_INFINITY;
    }
    double e = eastAt(low, share);
    double n = northAt(low, share);
    double length = Math.sqrt(e * e + n * n);
    return inTacks(cell, heading, allowed, e / length, n / length);
  }

  /**
   * Cost per metre in a direction between two headings that are both allowed, at the grade of that
   * direction.
   *
   * @param share position from heading {@code k} (0) to the next (1)
   */
  private double between(int cell, int k, double share) {
    double e = eastAt(k, share);
    double n = northAt(k, share);
    double length = Math.sqrt(e * e + n * n);
    return along(cell, k, share, e / length, n / length);
  }

  /** Easting of the point on the ring to which a direction between two headings leads (m). */
  double eastAt(int k, double share) {
    return (1 - share) * ringEastM[k] + share * ringEastM[(k + 1) & (Headings.COUNT - 1)];
  }

  double northAt(int k, double share) {
    return (1 - share) * ringNorthM[k] + share * ringNorthM[(k + 1) & (Headings.COUNT - 1)];
  }

  /**
   * Cost per metre in a direction between two headings, given its unit vector. If one of the
   * headings is travelled by tacking, both costs are interpolated; if only one has a finite cost,
   * that one is used.
   */
  double along(int cell, int k, double share, double e, double n) {
    int travel = (k + turn) & (Headings.COUNT - 1);
    int next = (travel + 1) & (Headings.COUNT - 1);
    int bits = field.allowed(cell);
    if (bits == -1 || ((bits >>> travel) & (bits >>> next) & 1) != 0) {
      double way = field.pathRatio(cell, travel);
      if (way == field.pathRatio(cell, next)) {
        return atGrade(cell, travel, field.gradEast(cell) * e + field.gradNorth(cell) * n, way);
      }
    }
    double low = perM(cell, k);
    double high = perM(cell, (k + 1) & (Headings.COUNT - 1));
    return low + high < Double.POSITIVE_INFINITY
        ? (1 - share) * low + share * high
        : low < high ? low : high;
  }

  /**
   * Position of a corner of the cost of a cell between heading {@code k} and the next but one: 0 to
   * 1 along the line between their points on the ring; NaN if there is none.
   */
  double corner(int cell, int k) {
    int to = (k + 2) & (Headings.COUNT - 1);
    double ge = field.gradEast(cell);
    double gn = field.gradNorth(cell);
    double rise = ge * ringEastM[k] + gn * ringNorthM[k];
    double riseTo = ge * ringEastM[to] + gn * ringNorthM[to];
    double a = ge * east[k] + gn * north[k];
    double b = ge * east[to] + gn * north[to];
    double g = cornerGrade(cell, a < b ? a : b, a < b ? b : a);
    return Double.isNaN(g)
        ? g
        : PolarCorner.share(
            g, ringEastM[k], ringNorthM[k], rise, ringEastM[to], ringNorthM[to], riseTo);
  }

  private double cornerGrade(int cell, double low, double high) {
    int soil = field.soil(cell);
    double g = countsEnergy ? tractionCorners[soil].between(low, high) : Double.NaN;
    if (!Double.isNaN(g)) {
      return g;
    }
    double capMs = field.speedCapMs(cell);
    double below = overCap(soil, low, capMs);
    double above = overCap(soil, high, capMs);
    if (below > 0 == above > 0) {
      return below > 0 ? timeCorners[soil].between(low, high) : Double.NaN;
    }
    if (!(Math.abs(below) + Math.abs(above) < Double.POSITIVE_INFINITY)) {
      return Double.NaN;
    }
    // The grade at which the drive becomes slower than the speed cap, by two steps of linear
    // interpolation.
    double middle = low - below * (high - low) / (above - below);
    double at = overCap(soil, middle, capMs);
    return at > 0 == below > 0
        ? middle - at * (high - middle) / (above - at)
        : low - below * (middle - low) / (at - below);
  }

  /** Time per metre of the drive minus that of the speed cap; infinite if unknown. */
  private double overCap(int soil, double g, double capMs) {
    double at = (g + TOP_GRADE) * STEPS_PER_GRADE;
    int i = (int) at;
    if (!(at >= 0) || i >= ENTRIES - 1) {
      return Double.POSITIVE_INFINITY;
    }
    int row = (soil * ENTRIES + i) * ROW;
    double share = at - i;
    return table[row + TIME]
        + share * table[row + TIME + 1]
        - (table[row + LENGTH] + share * table[row + LENGTH + 1]) / capMs;
  }

  /**
   * Same as {@link #perM} on one heading, which has its own copy of this code: sharing it makes
   * fronts a sixth slower.
   */
  private double atGrade(int cell, int travel, double g, double detour) {
    double at = (g + TOP_GRADE) * STEPS_PER_GRADE;
    int i = (int) at;
    if (!(at >= 0) || i >= ENTRIES - 1) {
      return exact(cell, travel, g);
    }
    double share = at - i;
    int soil = field.soil(cell);
    int row = (soil * ENTRIES + i) * ROW;
    double lengthPerM = table[row + LENGTH] + share * table[row + LENGTH + 1];
    // Comparisons instead of Math.max, which took as long as the rest of the method.
    double atGrade = table[row + TIME] + share * table[row + TIME + 1];
    double atCap = lengthPerM / field.speedCapMs(cell);
    double time = (atGrade > atCap ? atGrade : atCap) * detour;
    double cost = time;
    if (!countsTime) {
      if (time == Double.POSITIVE_INFINITY) {
        return Float.POSITIVE_INFINITY;
      }
      if (countsEnergy) {
        cost =
            table[row + REDUCED_J]
                + share * table[row + REDUCED_J + 1]
                + (detour - 1) * levelJ[soil] * lengthPerM
                + hotelW[soil] * time;
        cost = cost > LEAST_J_PER_M ? cost : LEAST_J_PER_M;
      } else {
        cost = lengthPerM * detour;
      }
    }
    return factor == null ? cost : cost * factor.get(cell);
  }

  private double exact(int cell, int travel, double grade) {
    double cost = field.timeSPerM(cell, travel);
    if (cost < Double.POSITIVE_INFINITY && !countsTime) {
      cost =
          countsEnergy
              ? Math.max(LEAST_J_PER_M, field.energyJPerM(cell, travel) - potentialJPerM * grade)
              : field.lengthPerM(cell, travel);
    }
    return factor == null ? cost : cost * factor.get(cell);
  }

  private double[] leastUpToGrade() {
    double[] least = new double[field.soils() * (ZERO + 1)];
    for (int t = 0; t < field.soils(); t++) {
      double low = Double.POSITIVE_INFINITY;
      for (int i = 0; i <= ZERO; i++) {
        low = Math.min(low, Math.min(entry(t, ZERO - i), entry(t, ZERO + i)));
        least[t * (ZERO + 1) + i] = low;
      }
    }
    return least;
  }

  /**
   * Lower bound on the cost per metre on any heading, from the least cost at any grade up to the
   * steepest of the cell; infinite at barriers.
   */
  float leastPerM(int cell) {
    if (barrier(cell)) {
      return Float.POSITIVE_INFINITY;
    }
    double e = field.gradEast(cell);
    double n = field.gradNorth(cell);
    double steps = Math.ceil(Math.sqrt(e * e + n * n) * STEPS_PER_GRADE);
    if (!(steps <= ZERO)) {
      return 0;
    }
    double low = leastUpToGrade[field.soil(cell) * (ZERO + 1) + (int) steps];
    if (countsTime) {
      low = Math.max(low, 1 / (double) field.speedCapMs(cell));
    }
    if (!countsEnergy) {
      low *= field.detour(cell);
    }
    if (factor != null) {
      low *= factor.get(cell);
    }
    // Reduced slightly, so that rounding never raises it above a true cost.
    return (float) Math.max(0, low * (1 - 1e-6));
  }

  private double entry(int soil, int i) {
    int row = row(soil, i);
    double time = table[row + TIME];
    if (countsTime || time == Double.POSITIVE_INFINITY) {
      return time;
    }
    return countsEnergy ? Math.max(LEAST_J_PER_M, table[row + REDUCED_J] + hotelW[soil] * time) : 1;
  }

  /**
   * Energy to add to a reduced energy for the rise between two heights (J); 0 for other quantities.
   */
  public double heightTermJ(double sourceHeightM, double cellHeightM) {
    double outJ = potentialJPerM * (cellHeightM - sourceHeightM);
    return direction == Direction.OUT ? outJ : -outJ;
  }

  /** True if the field has an energy model. */
  public static boolean hasEnergy(TraversalCost field) {
    int cells = field.spec().cells();
    for (int i = 0; i < cells; i++) {
      for (int k = 0; k < Headings.COUNT; k++) {
        if (field.allows(i, k)) {
          double e = field.energyJPerM(i, k);
          if (e != 0 && e < Double.POSITIVE_INFINITY) {
            return true;
          }
        }
      }
    }
    return false;
  }
}

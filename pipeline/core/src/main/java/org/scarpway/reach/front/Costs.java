package org.scarpway.reach.front;

import org.scarpway.grid.Headings;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
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
  static final int LAST = Headings.COUNT - 1;

  /** Grade by which no rounding exceeds the steepest of a cell. */
  private static final double SLACK = 1e-6;

  public enum Direction {
    OUT,
    HOME
  }

  private final TraversalCost field;
  private final Direction direction;
  private final CostTable table;

  /** Heading of travel minus heading, modulo 32. */
  private final int turn;

  private final Floats factor;
  private final boolean tacking;

  // By heading of travel: unit vectors, and points on a ring around the cell (m).
  private final double[] east = new double[Headings.COUNT];
  private final double[] north = new double[Headings.COUNT];
  private final double[] ringEastM = new double[Headings.COUNT];
  private final double[] ringNorthM = new double[Headings.COUNT];

  public Costs(TraversalCost field, Quantity quantity, Direction direction) {
    this(field, quantity, direction, null);
  }

  /**
   * @param factor cost factor of each cell, at least 1; null for none
   */
  public Costs(TraversalCost field, Quantity quantity, Direction direction, Floats factor) {
    this(field, new CostTable(field, quantity), direction, factor, true);
  }

  private Costs(
      TraversalCost field, CostTable table, Direction direction, Floats factor, boolean tacking) {
    this.field = field;
    this.table = table;
    this.tacking = tacking;
    this.direction = direction;
    this.turn = direction == Direction.OUT ? Headings.COUNT / 2 : 0;
    this.factor = factor;
    Headings headings = Headings.of(field.spec());
    for (int k = 0; k < Headings.COUNT; k++) {
      east[k] = headings.east(k);
      north[k] = headings.north(k);
      ringEastM[k] = Headings.dCol(k) * field.spec().cellXM();
      ringNorthM[k] = -Headings.dRow(k) * field.spec().cellYM();
    }
  }

  public TraversalCost field() {
    return field;
  }

  public Direction direction() {
    return direction;
  }

  /**
   * Returns the costs of the same travel with headings in its direction, for paths driven from
   * their start.
   */
  public Costs alongTravel() {
    return new Costs(field, table, Direction.HOME, factor, true);
  }

  /** Returns these costs without tacking: barred headings are not allowed. */
  public Costs withoutTacks() {
    return new Costs(field, table, direction, factor, false);
  }

  /**
   * By what fronts may share these costs: equal for costs of one field that are equal on every
   * heading of travel; null if nothing else has them.
   */
  String sharedAs() {
    return factor == null ? table.quantity() + (tacking ? " with tacks" : "") : null;
  }

  CostTable table() {
    return table;
  }

  /** Cost factor of a cell, 1 if there is none. */
  double factor(int cell) {
    return factor == null ? 1 : factor.get(cell);
  }

  /** True if the table contains the grades of a cell in all directions. */
  boolean tabled(int cell) {
    double e = field.gradEast(cell);
    double n = field.gradNorth(cell);
    return CostTable.contains(Math.sqrt(e * e + n * n) + SLACK);
  }

  /** Unit vector of a heading of travel. */
  double east(int travel) {
    return east[travel];
  }

  double north(int travel) {
    return north[travel];
  }

  /** Heading of travel minus heading: 0 or half a turn, so that it may be exclusive or as well. */
  int turn() {
    return turn;
  }

  /** True if no heading is allowed. */
  boolean barrier(int cell) {
    return field.allowed(cell) == 0;
  }

  /**
   * Cost per metre on a heading, infinite if it is not allowed; rounded to the stored precision.
   */
  public double perM(int cell, int heading) {
    return onHeading(cell, (heading + turn) & LAST);
  }

  /**
   * Reads time, length and energy per metre at once, the last only if these costs count it; each is
   * that of {@link #perM(int, int)} of its own costs, bit for bit.
   *
   * @return false, and nothing is read, if the heading is not allowed, the cell is too steep for
   *     the table, or the costs have a factor
   */
  boolean readPerM(int cell, int heading, double[] into) {
    int travel = (heading + turn) & LAST;
    double grade = field.gradEast(cell) * east[travel] + field.gradNorth(cell) * north[travel];
    if (!field.allows(cell, travel) || !CostTable.contains(grade) || factor != null) {
      return false;
    }
    table.readPerM(
        field.soil(cell), grade, field.speedCapMs(cell), field.pathRatio(cell, travel), into);
    return true;
  }

  /** The same on a heading of travel. */
  double onHeading(int cell, int travel) {
    int allowed = field.allowed(cell);
    if ((allowed >>> travel & 1) != 0) {
      double grade = field.gradEast(cell) * east[travel] + field.gradNorth(cell) * north[travel];
      return (float) atGrade(cell, travel, grade, field.pathRatio(cell, travel));
    }
    return allowed == 0
        ? Float.POSITIVE_INFINITY
        : inTacks(cell, travel, allowed, east[travel], north[travel]);
  }

  /** Cost per metre at a grade, before rounding. */
  private double atGrade(int cell, int travel, double grade, double pathRatio) {
    if (!CostTable.contains(grade)) {
      return exact(cell, travel, grade);
    }
    double cost = table.perM(field.soil(cell), grade, field.speedCapMs(cell), pathRatio);
    return cost * factor(cell);
  }

  private double inTacks(int cell, double travel, int allowed, double toEast, double toNorth) {
    int left = Tack.left(allowed, travel);
    int right = Tack.right(allowed, travel);
    return tacks(left, right)
        ? (float)
            tacked(
                left,
                right,
                onHeading(cell, left & LAST),
                onHeading(cell, right & LAST),
                toEast,
                toNorth)
        : Float.POSITIVE_INFINITY;
  }

  /** True if directions between two allowed headings are travelled on these in turn. */
  boolean tacks(int left, int right) {
    return tacking && Tack.makesGood(left, right);
  }

  /** Cost per metre in a direction travelled on two allowed headings in turn. */
  double tacked(int left, int right, double onLeft, double onRight, double toEast, double toNorth) {
    double leftEast = east[left & LAST];
    double leftNorth = north[left & LAST];
    double rightEast = east[right & LAST];
    double rightNorth = north[right & LAST];
    double across = rightEast * leftNorth - rightNorth * leftEast;
    double leftShare = (rightEast * toNorth - rightNorth * toEast) / across;
    double rightShare = (toEast * leftNorth - toNorth * leftEast) / across;
    return leftShare * onLeft + rightShare * onRight;
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
    double e = eastAt(low, share);
    double n = northAt(low, share);
    double length = Math.sqrt(e * e + n * n);
    return between(cell, heading, e / length, n / length);
  }

  /**
   * The same on a heading that is none of the 32.
   *
   * @param e unit vector of the travel, towards the east
   * @param n towards the north
   */
  double between(int cell, double heading, double e, double n) {
    int low = (int) heading;
    int allowed = field.allowed(cell);
    boolean both = (Integer.rotateRight(allowed, low + turn) & 3) == 3;
    if (!both && (!tacking || allowed == 0)) {
      return Double.POSITIVE_INFINITY;
    }
    return both
        ? along(cell, low, heading - low, e, n)
        : inTacks(cell, heading + turn, allowed, e, n);
  }

  /** Easting of the point on the ring to which a direction between two headings leads (m). */
  double eastAt(int k, double share) {
    return (1 - share) * ringEastM[(k + turn) & LAST] + share * ringEastM[(k + 1 + turn) & LAST];
  }

  double northAt(int k, double share) {
    return (1 - share) * ringNorthM[(k + turn) & LAST] + share * ringNorthM[(k + 1 + turn) & LAST];
  }

  /**
   * Cost per metre in a direction between two headings, given its unit vector. If one of the
   * headings is travelled by tacking, both costs are interpolated; if only one has a finite cost,
   * that one is used.
   */
  double along(int cell, int k, double share, double e, double n) {
    int travel = (k + turn) & LAST;
    int next = (travel + 1) & LAST;
    int bits = field.allowed(cell);
    if (bits == -1 || ((bits >>> travel) & (bits >>> next) & 1) != 0) {
      double pathRatio = field.pathRatio(cell, travel);
      if (pathRatio == field.pathRatio(cell, next)) {
        return atGrade(
            cell, travel, field.gradEast(cell) * e + field.gradNorth(cell) * n, pathRatio);
      }
    }
    double low = perM(cell, k);
    double high = perM(cell, (k + 1) & LAST);
    return low + high < Double.POSITIVE_INFINITY
        ? (1 - share) * low + share * high
        : low < high ? low : high;
  }

  /**
   * Position of a corner of the cost of a cell between heading {@code k} and the next but one: 0 to
   * 1 along the line between their points on the ring; NaN if there is none.
   */
  double corner(int cell, int k) {
    int from = (k + turn) & LAST;
    int to = (from + 2) & LAST;
    double ge = field.gradEast(cell);
    double gn = field.gradNorth(cell);
    double a = ge * east[from] + gn * north[from];
    double b = ge * east[to] + gn * north[to];
    double g =
        table.cornerBetween(field.soil(cell), a < b ? a : b, a < b ? b : a, field.speedCapMs(cell));
    if (Double.isNaN(g)) {
      return g;
    }
    double rise = ge * ringEastM[from] + gn * ringNorthM[from];
    double riseTo = ge * ringEastM[to] + gn * ringNorthM[to];
    return PolarCorner.share(
        g, ringEastM[from], ringNorthM[from], rise, ringEastM[to], ringNorthM[to], riseTo);
  }

  private double exact(int cell, int travel, double grade) {
    double cost = field.timeSPerM(cell, travel);
    if (cost < Double.POSITIVE_INFINITY) {
      cost =
          switch (table.quantity()) {
            case TIME_S -> cost;
            case DISTANCE_M -> field.lengthPerM(cell, travel);
            case ENERGY_J ->
                Math.max(
                    CostTable.LEAST_J_PER_M,
                    field.energyJPerM(cell, travel) - table.potentialJPerM() * grade);
          };
    }
    return cost * factor(cell);
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
    double low =
        table.leastPerM(
            field.soil(cell), Math.sqrt(e * e + n * n), field.speedCapMs(cell), field.detour(cell));
    if (factor != null) {
      low *= factor.get(cell);
    }
    // Reduced slightly, so that rounding never raises it above a true cost.
    return (float) Math.max(0, low * (1 - 1e-6));
  }

  /**
   * Energy to add to a reduced energy for the rise between two heights (J); 0 for other quantities.
   */
  public double heightTermJ(double sourceHeightM, double cellHeightM) {
    double outJ = table.potentialJPerM() * (cellHeightM - sourceHeightM);
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

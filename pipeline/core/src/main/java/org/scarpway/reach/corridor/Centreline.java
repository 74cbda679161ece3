package org.scarpway.reach.corridor;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.audit.RouteAudit;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.LegLine;
import org.scarpway.reach.front.Line;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.CurveLimit;
import org.scarpway.vehicle.DriveModel;
import org.scarpway.vehicle.SlopeGeometry;
import org.scarpway.vehicle.TraversalCost;

/**
 * Simulates the drive along a route, leg by leg, and records the state of the vehicle cell by cell.
 * The speed in curves is at most that of {@link CurveLimit} and at least the vehicle's least useful
 * speed: at a tighter corner the vehicle turns on the spot, in about the time that crawling through
 * it would take. The cost of a leg as counted by fronts, without curves, is recorded separately.
 */
final class Centreline {
  /** Shares of a stretch below this are rounding. */
  private static final double PIECE = 1e-9;

  /** Distance (in cells) from the border of a cell within which a point counts as inside. */
  private static final double BORDER = 1e-6;

  private final TraversalInput ground;
  private final GridSpec spec;
  private final TraversalCost field;
  private final Costs time;
  private final Costs energy;
  private final Costs distance;
  private final Line line;
  private final double leastMs;
  private final List<ProfilePoint> points = new ArrayList<>();
  private final List<Integer> cells = new ArrayList<>();
  private final List<Integer> ends = new ArrayList<>();

  /** Leg and cell of each point that lies outside the cell in which it is driven. */
  private final List<int[]> beside = new ArrayList<>();

  private final List<double[]> used = new ArrayList<>();
  private double timeS;
  private double reducedJ;

  /** Parts of the time (s) and energy (J) that are due to curves. */
  private double curvesS;

  private double curvesJ;
  private double distanceM;
  private double hazardM;
  private double startHeightM;

  private Centreline(TraversalInput ground, boolean hasEnergy) {
    this.ground = ground;
    this.field = ground.field();
    this.spec = field.spec();
    this.time = new Costs(field, Quantity.TIME_S, Direction.HOME).withoutTacks();
    this.energy =
        hasEnergy ? new Costs(field, Quantity.ENERGY_J, Direction.HOME).withoutTacks() : null;
    this.distance = new Costs(field, Quantity.DISTANCE_M, Direction.HOME).withoutTacks();
    this.line = new Line(spec);
    this.leastMs = DriveModel.leastUsefulMs(ground.vehicle().drive());
  }

  /** Drives the legs; each must begin where the one before it ends. */
  static Centreline drive(TraversalInput ground, boolean hasEnergy, List<LegLine> legs) {
    Centreline c = new Centreline(ground, hasEnergy);
    LegLine first = legs.get(0);
    c.startHeightM = ground.heightM().get(c.cellAt(first.row(0), first.col(0)));
    for (LegLine leg : legs) {
      Bends bends = new Bends(leg, c.spec);
      for (int i = 1; i < leg.corners(); i++) {
        c.driveLine(leg, i, bends);
      }
      int n = leg.corners() - 1;
      c.stop(leg, n);
      c.audit(leg);
    }
    return c;
  }

  /** Has the last leg recalculated by the audit, which does not depend on how it was found. */
  private void audit(LegLine leg) {
    int last = leg.corners() - 1;
    int number = used.size() - 1;
    double reduced = legCost(number, Quantity.ENERGY_J);
    double fromM = heightM(leg.row(0), leg.col(0), cellAt(leg.row(0), leg.col(0)));
    double toM = heightM(leg.row(last), leg.col(last), cellAt(leg.row(last), leg.col(last)));
    double saidJ = energy == null ? Double.NaN : reduced + energy.heightTermJ(toM, fromM);
    String wrong =
        RouteAudit.of(
            leg.way(), field, ground.heightM(), legCost(number, Quantity.TIME_S), saidJ, reduced);
    if (!wrong.isEmpty()) {
      throw new IllegalStateException("driven again, leg " + (number + 1) + " " + wrong);
    }
  }

  List<ProfilePoint> points() {
    return points;
  }

  /** Cells crossed, one for each point. */
  List<Integer> cells() {
    return cells;
  }

  /**
   * Open cells into which a leg swings while it is driven in the cell next to them: where a line
   * passes through a corner of cells, tacks cannot stay inside the cell.
   */
  List<Integer> besideLeg(int leg) {
    return beside.stream()
        .filter(at -> at[0] == leg && field.allowed(at[1]) != 0)
        .map(at -> at[1])
        .toList();
  }

  int legs() {
    return ends.size();
  }

  /** Index of the point at which a leg begins. */
  int legFrom(int leg) {
    return leg == 0 ? 0 : ends.get(leg - 1);
  }

  /** Index of the point at which a leg ends. */
  int legTo(int leg) {
    return ends.get(leg);
  }

  double timeS() {
    return timeS;
  }

  double distanceM() {
    return distanceM;
  }

  /**
   * Hazard of the ground (0 to 1) integrated over the driven length (m); 0 if hazard is unknown.
   */
  double hazardM() {
    return hazardM;
  }

  /** Energy used (J), NaN without an energy model. */
  double energyJ() {
    return points.get(points.size() - 1).energyJ();
  }

  /** Amount of a quantity as fronts count it, without curves. */
  double amount(Quantity quantity) {
    return switch (quantity) {
      case TIME_S -> timeS - curvesS;
      case ENERGY_J -> energyJ() - curvesJ;
      case DISTANCE_M -> distanceM;
    };
  }

  /** Cost of a leg as fronts count it, without curves (energy: reduced). */
  double legCost(int leg, Quantity quantity) {
    int q = quantity == Quantity.TIME_S ? 0 : quantity == Quantity.ENERGY_J ? 1 : 2;
    return used.get(leg)[q] - (leg == 0 ? 0 : used.get(leg - 1)[q]);
  }

  private int cellAt(double row, double col) {
    return (int) Math.floor(row + 0.5) * spec.cols() + (int) Math.floor(col + 0.5);
  }

  /** Drives the stretch from the previous corner to a corner. */
  private void driveLine(LegLine leg, int corner, Bends bends) {
    double row0 = leg.row(corner - 1);
    double col0 = leg.col(corner - 1);
    double dRow = leg.row(corner) - row0;
    double dCol = leg.col(corner) - col0;
    if (dRow == 0 && dCol == 0) {
      return;
    }
    if (leg.within(corner) != LegLine.ANY) {
      line.inside(leg.within(corner), dRow, dCol);
    } else {
      line.lay(row0, col0, row0 + dRow, col0 + dCol);
    }
    double east = dCol * spec.cellXM() / line.lengthM();
    double north = -dRow * spec.cellYM() / line.lengthM();
    double bentUntil = bends.bentUntilM(corner) / line.lengthM();
    double bentFrom = 1 - bends.bentFromEndM(corner) / line.lengthM();
    double share = 0;
    for (int i = 0; i < line.count(); i++) {
      double until = line.until(i);
      if (until > share) {
        int cell = line.cell(i);
        double straightMs = straightMs(cell);
        CurveLimit curves = field.table(field.soil(cell)).curves();
        double grade =
            SlopeGeometry.grade(field.gradEast(cell), field.gradNorth(cell), east, north);
        double cross =
            SlopeGeometry.cross(field.gradEast(cell), field.gradNorth(cell), east, north);
        double firstMs = bends.firstMs(corner, curves, grade, cross);
        double lastMs = bends.lastMs(corner, curves, grade, cross);
        double first = firstMs < straightMs ? within(bentUntil, share, until) : share;
        double last = lastMs < straightMs ? within(bentFrom, first, until) : until;
        double[] ends = {share, first, last, until};
        double[] speedMs = {firstMs, straightMs, lastMs};
        for (int part = 0; part < speedMs.length; part++) {
          if (ends[part + 1] > ends[part]) {
            double v = Math.min(straightMs, Math.max(leastMs, speedMs[part]));
            point(
                row0 + ends[part] * dRow,
                col0 + ends[part] * dCol,
                dRow,
                dCol,
                cell,
                v,
                straightMs);
            drive(cell, (ends[part + 1] - ends[part]) * line.lengthM(), v, straightMs);
          }
        }
      }
      share = until;
    }
  }

  /**
   * Clamps the start or end of a curve to a part of a stretch, so that no piece of rounding length
   * remains.
   */
  private static double within(double at, double from, double to) {
    return at > from + PIECE ? at < to - PIECE ? at : to : from;
  }

  private double straightMs(int cell) {
    double sPerM = time.perM(cell, line.heading());
    if (!(sPerM < Double.POSITIVE_INFINITY)) {
      throw new IllegalStateException(
          "the way found cannot be driven in cell " + cell + " on heading " + line.heading());
    }
    return distance.perM(cell, line.heading()) / sPerM;
  }

  private void drive(int cell, double planM, double speedMs, double straightMs) {
    double d = distance.perM(cell, line.heading()) * planM;
    double straightS = time.perM(cell, line.heading()) * planM;
    double lostS = speedMs < straightMs ? d / speedMs - straightS : 0;
    timeS += straightS + lostS;
    curvesS += lostS;
    distanceM += d;
    hazardM += ground.hazard01(cell) * d;
    if (energy != null) {
      double lostJ = field.table(field.soil(cell)).hotelW() * lostS;
      reducedJ += energy.perM(cell, line.heading()) * planM + lostJ;
      curvesJ += lostJ;
    }
  }

  /** Adds the point at the end of a leg, at which the next leg begins. */
  private void stop(LegLine leg, int last) {
    double row = leg.row(last);
    double col = leg.col(last);
    int before = points.size() - 1;
    double dRow = last == 0 ? 0 : row - leg.row(last - 1);
    double dCol = last == 0 ? 0 : col - leg.col(last - 1);
    double speedMs = before < 0 ? 0 : points.get(before).speedMs();
    ends.add(points.size());
    double straightMs = before < 0 ? 0 : points.get(before).straightMs();
    used.add(new double[] {timeS - curvesS, reducedJ - curvesJ, distanceM});
    point(row, col, dRow, dCol, cellAt(row, col), speedMs, straightMs);
  }

  private void point(
      double row,
      double col,
      double dRow,
      double dCol,
      int cell,
      double speedMs,
      double straightMs) {
    double heightM = heightM(row, col, cell);
    double north = -dRow * spec.cellYM();
    double east = dCol * spec.cellXM();
    double length = Math.hypot(north, east);
    double along = 0;
    double across = 0;
    if (length > 0) {
      double ge = field.gradEast(cell);
      double gn = field.gradNorth(cell);
      along = (ge * east + gn * north) / length;
      // Ground that rises to the left rolls the right side down.
      across = (-ge * north + gn * east) / length;
    }
    points.add(
        new ProfilePoint(
            distanceM,
            spec.westM() + (col + 0.5) * spec.cellXM(),
            spec.northM() - (row + 0.5) * spec.cellYM(),
            heightM,
            Math.toDegrees(Math.atan(along)),
            Math.toDegrees(Math.atan(across)),
            speedMs,
            timeS,
            energy == null ? Double.NaN : reducedJ - energy.heightTermJ(startHeightM, heightM),
            ground.margin01() == null ? Double.NaN : ground.margin01().get(cell),
            straightMs));
    cells.add(cell);
    double offRow = Math.abs(row - Math.floorDiv(cell, spec.cols()));
    if (Math.max(offRow, Math.abs(col - cell % spec.cols())) > 0.5 + BORDER) {
      beside.add(new int[] {ends.size(), cellAt(row, col)});
    }
  }

  /**
   * Height interpolated bilinearly between four cell centres; the cell's own height if one of them
   * has none.
   */
  private double heightM(double row, double col, int cell) {
    Floats h = ground.heightM();
    int r = Math.min((int) row, spec.rows() - 2);
    int c = Math.min((int) col, spec.cols() - 2);
    if (r < 0 || c < 0) {
      return h.get(cell);
    }
    double fr = row - r;
    double fc = col - c;
    int at = r * spec.cols() + c;
    int under = at + spec.cols();
    double z =
        (1 - fr) * ((1 - fc) * h.get(at) + fc * h.get(at + 1))
            + fr * ((1 - fc) * h.get(under) + fc * h.get(under + 1));
    return Double.isNaN(z) ? h.get(cell) : z;
  }
}

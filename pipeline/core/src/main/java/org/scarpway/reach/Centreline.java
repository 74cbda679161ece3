package org.scarpway.reach;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.CorridorResult.PinchPoint;
import org.scarpway.reach.CorridorResult.ProfilePoint;
import org.scarpway.reach.Costs.Direction;
import org.scarpway.reach.ReachRequest.Quantity;
import org.scarpway.vehicle.MoveField;

/** Drives a way corner by corner and writes down what the vehicle does on it, cell by cell. */
final class Centreline {
  private static final int PINCHES = 10;

  private final Ground ground;
  private final GridSpec spec;
  private final MoveField field;
  private final Costs time;
  private final Costs energy;
  private final Costs distance;
  private final Line line;
  private final List<ProfilePoint> points = new ArrayList<>();
  private final List<Integer> cells = new ArrayList<>();
  private final List<Double> crossedM = new ArrayList<>();
  private double timeS;
  private double reducedJ;
  private double distanceM;
  private double startHeightM;

  private Centreline(Ground ground, boolean hasEnergy) {
    this.ground = ground;
    this.field = ground.mobility().field();
    this.spec = field.spec();
    this.time = new Costs(field, Quantity.TIME_S, Direction.HOME);
    this.energy = hasEnergy ? new Costs(field, Quantity.ENERGY_J, Direction.HOME) : null;
    this.distance = new Costs(field, Quantity.DISTANCE_M, Direction.HOME);
    this.line = new Line(spec);
  }

  /**
   * @param corners cells in the order of travel
   */
  static Centreline drive(Ground ground, boolean hasEnergy, int[] corners) {
    Centreline c = new Centreline(ground, hasEnergy);
    c.startHeightM = ground.heightM().values()[corners[0]];
    for (int i = 1; i < corners.length; i++) {
      c.driveLine(corners[i - 1], corners[i], i == corners.length - 1);
    }
    if (corners.length == 1) {
      c.stand(corners[0]);
    }
    return c;
  }

  List<ProfilePoint> points() {
    return points;
  }

  /** Cells crossed, one for each point. */
  List<Integer> cells() {
    return cells;
  }

  /** Surface length driven from each point to the next (m). */
  List<Double> crossedM() {
    return crossedM;
  }

  double timeS() {
    return timeS;
  }

  double distanceM() {
    return distanceM;
  }

  /** NaN without an energy model. */
  double energyJ() {
    return points.get(points.size() - 1).energyJ();
  }

  private void driveLine(int from, int to, boolean last) {
    if (from == to) {
      if (last) {
        stand(to);
      }
      return;
    }
    line.between(from, to);
    double share = 0;
    for (int i = 0; i < line.count(); i++) {
      int cell = line.cell(i);
      double planM = (line.until(i) - share) * line.lengthM();
      double t = Line.perM(time, cell, line.heading()) * planM;
      double d = Line.perM(distance, cell, line.heading()) * planM;
      boolean end = i == line.count() - 1;
      // The last cell of a line is the first of the next, which makes the point.
      if (!end || last) {
        point(from, to, share, cell, d / t, d);
      }
      timeS += t;
      distanceM += d;
      if (energy != null) {
        reducedJ += Line.perM(energy, cell, line.heading()) * planM;
      }
      if (end && last) {
        point(from, to, 1, cell, d / t, 0);
      } else if (end) {
        crossedM.set(crossedM.size() - 1, crossedM.get(crossedM.size() - 1) + d);
      }
      share = line.until(i);
    }
  }

  private void stand(int cell) {
    point(cell, cell, 0, cell, 0, 0);
  }

  private void point(int from, int to, double share, int cell, double speedMs, double aheadM) {
    int cols = spec.cols();
    int dRow = to / cols - from / cols;
    int dCol = to % cols - from % cols;
    int fromRow = from / cols;
    double row = fromRow + share * dRow;
    double col = from % cols + share * dCol;
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
      // Rise towards the left is what rolls the right side down.
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
            ground.mobility().margin01().values()[cell]));
    cells.add(cell);
    crossedM.add(aheadM);
  }

  /** Between four cell centres; the cell's own height where one of them has none. */
  private double heightM(double row, double col, int cell) {
    FloatGrid h = ground.heightM();
    int r = Math.min((int) row, spec.rows() - 2);
    int c = Math.min((int) col, spec.cols() - 2);
    if (r < 0 || c < 0) {
      return h.values()[cell];
    }
    double fr = row - r;
    double fc = col - c;
    double z =
        (1 - fr) * ((1 - fc) * h.at(r, c) + fc * h.at(r, c + 1))
            + fr * ((1 - fc) * h.at(r + 1, c) + fc * h.at(r + 1, c + 1));
    return Double.isNaN(z) ? h.values()[cell] : z;
  }

  /**
   * Narrow places on the way, narrowest first: where the width is least between two stretches at
   * least half as wide again; without any such place the narrowest of all. None without barriers.
   */
  List<PinchPoint> pinchPoints(Clearance clearance) {
    List<PinchPoint> found = new ArrayList<>();
    int narrowest = 0;
    int least = 0;
    double widestBefore = 0;
    for (int i = 0; i < points.size(); i++) {
      double w = widthM(clearance, i);
      narrowest = w < widthM(clearance, narrowest) ? i : narrowest;
      if (w >= widestBefore) {
        pinch(found, clearance, least, widestBefore, w);
        widestBefore = w;
        least = i;
      } else if (w < widthM(clearance, least)) {
        least = i;
      } else if (pinch(found, clearance, least, widestBefore, w)) {
        widestBefore = w;
        least = i;
      }
    }
    if (found.isEmpty() && widthM(clearance, narrowest) < Double.POSITIVE_INFINITY) {
      pinch(found, clearance, narrowest, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);
    }
    found.sort((a, b) -> Double.compare(a.widthM(), b.widthM()));
    return found.subList(0, Math.min(PINCHES, found.size()));
  }

  private boolean pinch(
      List<PinchPoint> found, Clearance clearance, int i, double widestBefore, double widthAfter) {
    double w = widthM(clearance, i);
    if (w == Double.POSITIVE_INFINITY || Math.min(widestBefore, widthAfter) < 1.5 * w) {
      return false;
    }
    ProfilePoint p = points.get(i);
    found.add(new PinchPoint(p.xM(), p.yM(), w, p.distanceM()));
    return true;
  }

  private double widthM(Clearance clearance, int i) {
    return clearance.widthM(cells.get(i));
  }
}

package org.scarpway.reach;

import org.scarpway.grid.Headings;
import org.scarpway.reach.ReachRequest.Quantity;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.MoveField;

/**
 * Cost per plan metre of one quantity (s/m, J/m or m/m) for ways that lead out from a source or
 * home to it. Headings point from the cell asked about to the next cell nearer the source: against
 * the travel when ways lead out, along it when they lead home. Infinite where the travel is not
 * allowed.
 *
 * <p>Energy is the reduced energy: what remains after {@link MoveField#potentialJPerM} times the
 * height gained is taken off, so that it is positive even where braking returns energy (Johnson
 * 1977, <i>Efficient algorithms for shortest paths in sparse networks</i>, J. ACM 24(1):1-13; from
 * memory). {@link #heightTermJ} gives back the rest from the true heights of both ends.
 *
 * <p>Costs come from tables over the grade in steps of 1/256, linear between; beyond a grade of 2
 * the field itself is asked.
 */
final class Costs {
  /** Keeps ways from going round in circles for nothing; a joule per kilometre. */
  private static final double LEAST_J_PER_M = 1e-3;

  private static final int STEPS_PER_GRADE = 256;
  private static final int TOP_GRADE = 2;
  private static final int ZERO = TOP_GRADE * STEPS_PER_GRADE;
  private static final int ENTRIES = 2 * ZERO + 1;

  enum Direction {
    OUT,
    HOME
  }

  private final MoveField field;
  private final Direction direction;
  private final int turn;
  private final double potentialJPerM;
  private final float[] factor;
  private final boolean countsTime;
  private final boolean countsEnergy;
  private final double[] east = new double[Headings.COUNT];
  private final double[] north = new double[Headings.COUNT];
  private final double[] timeS;
  private final double[] reducedJ;
  private final double[] hotelW;

  Costs(MoveField field, Quantity quantity, Direction direction) {
    this(field, quantity, direction, null);
  }

  /**
   * @param factor multiplies the cost of each cell, at least 1; null for none
   */
  Costs(MoveField field, Quantity quantity, Direction direction, float[] factor) {
    this.field = field;
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
    }
    this.timeS = new double[field.grounds() * ENTRIES];
    this.reducedJ = new double[field.grounds() * ENTRIES];
    this.hotelW = new double[field.grounds()];
    for (int t = 0; t < field.grounds(); t++) {
      GradeTable table = field.table(t);
      hotelW[t] = table.hotelW();
      for (int i = 0; i < ENTRIES; i++) {
        double g = (i - ZERO) / (double) STEPS_PER_GRADE;
        double lengthPerM = Math.sqrt(1 + g * g);
        double speedMs = table.speedMs(g);
        timeS[t * ENTRIES + i] = speedMs > 0 ? lengthPerM / speedMs : Double.POSITIVE_INFINITY;
        reducedJ[t * ENTRIES + i] = table.tractionJPerM(g) * lengthPerM - potentialJPerM * g;
      }
    }
  }

  MoveField field() {
    return field;
  }

  /** The same ways counted in another quantity. */
  Costs counting(Quantity other) {
    return new Costs(field, other, direction, null);
  }

  /** No heading at all is allowed. */
  boolean barrier(int cell) {
    return field.allowed(cell) == 0;
  }

  double perM(int cell, int heading) {
    int travel = (heading + turn) & (Headings.COUNT - 1);
    if ((field.allowed(cell) >>> travel & 1) == 0) {
      return Double.POSITIVE_INFINITY;
    }
    double g = field.gradEast(cell) * east[heading] + field.gradNorth(cell) * north[heading];
    double at = (g + TOP_GRADE) * STEPS_PER_GRADE;
    if (!(at >= 0) || at >= ENTRIES - 1) {
      return exact(cell, travel, g);
    }
    int i = (int) at;
    double share = at - i;
    int ground = field.ground(cell);
    int base = ground * ENTRIES + i;
    double time = timeS[base] + share * (timeS[base + 1] - timeS[base]);
    double capMs = field.speedCapMs(cell);
    double lengthPerM = Math.sqrt(1 + g * g);
    time = Math.max(time, lengthPerM / capMs);
    if (!(time < Double.POSITIVE_INFINITY)) {
      return exact(cell, travel, g);
    }
    double cost;
    if (countsTime) {
      cost = time;
    } else if (countsEnergy) {
      double j = reducedJ[base] + share * (reducedJ[base + 1] - reducedJ[base]);
      cost = Math.max(LEAST_J_PER_M, j + hotelW[ground] * time);
    } else {
      cost = lengthPerM;
    }
    return factor == null ? cost : cost * factor[cell];
  }

  private double exact(int cell, int travel, double grade) {
    double time = field.timeSPerM(cell, travel);
    if (time == Double.POSITIVE_INFINITY || countsTime) {
      return time;
    }
    double cost =
        countsEnergy
            ? Math.max(LEAST_J_PER_M, field.energyJPerM(cell, travel) - potentialJPerM * grade)
            : field.lengthPerM(cell, travel);
    return factor == null ? cost : cost * factor[cell];
  }

  /**
   * A lower bound on the cost per metre on any heading, per cell, infinite at barriers: from the
   * least cost at any grade up to the steepest of the cell.
   */
  float[] leastPerM() {
    double[] least = new double[field.grounds() * (ZERO + 1)];
    for (int t = 0; t < field.grounds(); t++) {
      double low = Double.POSITIVE_INFINITY;
      for (int i = 0; i <= ZERO; i++) {
        low = Math.min(low, Math.min(entry(t, ZERO - i), entry(t, ZERO + i)));
        least[t * (ZERO + 1) + i] = low;
      }
    }
    float[] bound = new float[field.spec().cells()];
    for (int cell = 0; cell < bound.length; cell++) {
      if (barrier(cell)) {
        bound[cell] = Float.POSITIVE_INFINITY;
        continue;
      }
      double e = field.gradEast(cell);
      double n = field.gradNorth(cell);
      double steps = Math.ceil(Math.sqrt(e * e + n * n) * STEPS_PER_GRADE);
      if (steps <= ZERO) {
        double low = least[field.ground(cell) * (ZERO + 1) + (int) steps];
        double capped = countsTime ? Math.max(low, 1 / (double) field.speedCapMs(cell)) : low;
        // Rounded down to a float that is surely not above the bound.
        bound[cell] = (float) Math.max(0, capped * (1 - 1e-6));
      }
    }
    return bound;
  }

  private double entry(int table, int i) {
    double time = timeS[table * ENTRIES + i];
    if (countsTime || time == Double.POSITIVE_INFINITY) {
      return time;
    }
    return countsEnergy
        ? Math.max(LEAST_J_PER_M, reducedJ[table * ENTRIES + i] + hotelW[table] * time)
        : 1;
  }

  /** Joules to add to a reduced energy for the rise between two heights; 0 for other quantities. */
  double heightTermJ(double sourceHeightM, double cellHeightM) {
    double outJ = potentialJPerM * (cellHeightM - sourceHeightM);
    return direction == Direction.OUT ? outJ : -outJ;
  }

  /** Whether anything in the field costs energy at all. */
  static boolean hasEnergy(MoveField field) {
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

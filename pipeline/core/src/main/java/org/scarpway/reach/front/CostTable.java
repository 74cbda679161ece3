package org.scarpway.reach.front;

import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * Cost per plan metre of one quantity by soil class and grade: a table in steps of 1/800 with
 * linear interpolation (infinite next to a grade without a speed), up to a grade of 2.
 *
 * <p>Energy is the reduced energy of {@link Costs}.
 */
final class CostTable {
  /** Smallest energy cost, a joule per kilometre; prevents cycles of zero cost. */
  static final double LEAST_J_PER_M = 1e-3;

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

  private final boolean countsTime;
  private final boolean countsEnergy;
  private final double potentialJPerM;
  private final double[] table;
  private final PolarCorner[] timeCorners;

  /** Null if energy is not counted. */
  private final PolarCorner[] tractionCorners;

  private final double[] hotelW;
  private final double[] leastUpToGrade;

  /** Traction energy on level ground (J/m); detours around rocks gain no height. */
  private final double[] levelJ;

  CostTable(TraversalCost field, Quantity quantity) {
    this.countsTime = quantity == Quantity.TIME_S;
    this.countsEnergy = quantity == Quantity.ENERGY_J;
    this.potentialJPerM = countsEnergy ? field.potentialJPerM() : 0;
    int soils = field.soils();
    this.table = new double[soils * ENTRIES * ROW];
    this.hotelW = new double[soils];
    this.levelJ = new double[soils];
    this.timeCorners = new PolarCorner[soils];
    this.tractionCorners = countsEnergy ? new PolarCorner[soils] : null;
    for (int t = 0; t < soils; t++) {
      hotelW[t] = field.table(t).hotelW();
      levelJ[t] = field.table(t).tractionJPerM(0);
      fill(t, field.table(t));
    }
    this.leastUpToGrade = leastUpToGrade(soils);
  }

  private void fill(int soil, GradeTable source) {
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

  /** Energy per metre of height that is subtracted from the energy (J/m); 0 if none is counted. */
  double potentialJPerM() {
    return potentialJPerM;
  }

  Quantity quantity() {
    return countsTime ? Quantity.TIME_S : countsEnergy ? Quantity.ENERGY_J : Quantity.DISTANCE_M;
  }

  /** True if the table contains a grade. */
  static boolean contains(double grade) {
    double at = (grade + TOP_GRADE) * STEPS_PER_GRADE;
    return at >= 0 && at < ENTRIES - 1;
  }

  /**
   * Cost per plan metre, infinite at a grade without a speed.
   *
   * @param grade a grade that the table contains
   * @param capMs upper bound on the speed along the surface (m/s)
   * @param pathRatio distance driven divided by the straight distance
   */
  double perM(int soil, double grade, double capMs, double pathRatio) {
    double at = (grade + TOP_GRADE) * STEPS_PER_GRADE;
    int i = (int) at;
    double share = at - i;
    int row = row(soil, i);
    double lengthPerM = table[row + LENGTH] + share * table[row + LENGTH + 1];
    double time =
        time(table[row + TIME] + share * table[row + TIME + 1], lengthPerM, capMs, pathRatio);
    if (countsTime || time == Double.POSITIVE_INFINITY) {
      return time;
    }
    if (!countsEnergy) {
      return lengthPerM * pathRatio;
    }
    double reducedJ =
        reducedJ(
            table[row + REDUCED_J] + share * table[row + REDUCED_J + 1],
            lengthPerM,
            pathRatio,
            levelJ[soil],
            hotelW[soil],
            time);
    return reducedJ > LEAST_J_PER_M ? reducedJ : LEAST_J_PER_M;
  }

  /**
   * Reads time, length and, if it is counted, energy per plan metre, each as {@link #perM} of its
   * own table.
   */
  void readPerM(int soil, double grade, double capMs, double pathRatio, double[] into) {
    double at = (grade + TOP_GRADE) * STEPS_PER_GRADE;
    int i = (int) at;
    double share = at - i;
    int row = row(soil, i);
    double lengthPerM = table[row + LENGTH] + share * table[row + LENGTH + 1];
    double time =
        time(table[row + TIME] + share * table[row + TIME + 1], lengthPerM, capMs, pathRatio);
    boolean finite = time < Double.POSITIVE_INFINITY;
    into[0] = (float) time;
    into[1] = finite ? (float) (lengthPerM * pathRatio) : Double.POSITIVE_INFINITY;
    if (countsEnergy) {
      double atGrade = table[row + REDUCED_J] + share * table[row + REDUCED_J + 1];
      double energy = reducedJ(atGrade, lengthPerM, pathRatio, levelJ[soil], hotelW[soil], time);
      energy = energy > LEAST_J_PER_M ? energy : LEAST_J_PER_M;
      into[2] = finite ? (float) energy : Double.POSITIVE_INFINITY;
    }
  }

  // Comparisons instead of Math.max, which takes as long as the rest for a single cell; in loops,
  // Math.max becomes vector instructions.
  private static double time(double atGrade, double lengthPerM, double capMs, double pathRatio) {
    double atCap = lengthPerM / capMs;
    return (atGrade > atCap ? atGrade : atCap) * pathRatio;
  }

  /**
   * Computes the costs of a row of cells on one heading of travel, as {@link #perM} does for one;
   * where the time is infinite, the cost is too, whatever {@code row.cost} says.
   */
  void fill(int n, CostTerms row, double east, double north) {
    double[] time = row.time;
    double[] lengthPerM = row.lengthPerM;
    double[] cost = row.cost;
    for (int c = 0; c < n; c++) {
      double grade = row.gradEast[c] * east + row.gradNorth[c] * north;
      time[c] = (grade + TOP_GRADE) * STEPS_PER_GRADE;
    }
    lookUp(n, row.soil, time, lengthPerM, cost);
    double[] capMs = row.capMs;
    double[] pathRatio = row.pathRatio;
    for (int c = 0; c < n; c++) {
      time[c] = Math.max(time[c], lengthPerM[c] / capMs[c]) * pathRatio[c];
    }
    if (countsTime) {
      System.arraycopy(time, 0, cost, 0, n);
    } else if (countsEnergy) {
      addToTraction(n, row);
    } else {
      for (int c = 0; c < n; c++) {
        cost[c] = lengthPerM[c] * pathRatio[c];
      }
    }
  }

  /**
   * Replaces positions in the table by the times at the grade.
   *
   * @param reducedJ set only if energy is counted
   */
  private void lookUp(int n, int[] soil, double[] time, double[] lengthPerM, double[] reducedJ) {
    double[] table = this.table;
    for (int c = 0; c < n; c++) {
      int i = (int) time[c];
      double share = time[c] - i;
      int row = row(soil[c], i);
      lengthPerM[c] = table[row + LENGTH] + share * table[row + LENGTH + 1];
      time[c] = table[row + TIME] + share * table[row + TIME + 1];
      if (countsEnergy) {
        reducedJ[c] = table[row + REDUCED_J] + share * table[row + REDUCED_J + 1];
      }
    }
  }

  private static void addToTraction(int n, CostTerms row) {
    double[] cost = row.cost;
    double[] time = row.time;
    double[] lengthPerM = row.lengthPerM;
    double[] pathRatio = row.pathRatio;
    double[] levelJ = row.levelJ;
    double[] hotelW = row.hotelW;
    for (int c = 0; c < n; c++) {
      double j = reducedJ(cost[c], lengthPerM[c], pathRatio[c], levelJ[c], hotelW[c], time[c]);
      cost[c] = Math.max(LEAST_J_PER_M, j);
    }
  }

  private static double reducedJ(
      double atGrade,
      double lengthPerM,
      double pathRatio,
      double levelJ,
      double hotelW,
      double time) {
    return atGrade + (pathRatio - 1) * levelJ * lengthPerM + hotelW * time;
  }

  double levelJ(int soil) {
    return levelJ[soil];
  }

  double hotelW(int soil) {
    return hotelW[soil];
  }

  /**
   * The first grade strictly between two at which the cost has a corner, NaN if there is none.
   *
   * @param capMs upper bound on the speed along the surface (m/s)
   */
  double cornerBetween(int soil, double low, double high, double capMs) {
    double g = countsEnergy ? tractionCorners[soil].between(low, high) : Double.NaN;
    if (!Double.isNaN(g)) {
      return g;
    }
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
  private double overCap(int soil, double grade, double capMs) {
    double at = (grade + TOP_GRADE) * STEPS_PER_GRADE;
    int i = (int) at;
    if (!(at >= 0) || i >= ENTRIES - 1) {
      return Double.POSITIVE_INFINITY;
    }
    int row = row(soil, i);
    double share = at - i;
    return table[row + TIME]
        + share * table[row + TIME + 1]
        - (table[row + LENGTH] + share * table[row + LENGTH + 1]) / capMs;
  }

  private double[] leastUpToGrade(int soils) {
    double[] least = new double[soils * (ZERO + 1)];
    for (int t = 0; t < soils; t++) {
      double low = Double.POSITIVE_INFINITY;
      for (int i = 0; i <= ZERO; i++) {
        low = Math.min(low, Math.min(entry(t, ZERO - i), entry(t, ZERO + i)));
        least[t * (ZERO + 1) + i] = low;
      }
    }
    return least;
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
   * Lower bound on the cost per metre at any grade up to the given one, uphill or downhill; 0
   * beyond the table.
   *
   * @param capMs upper bound on the speed along the surface (m/s)
   * @param detour distance around rocks divided by the straight distance
   */
  double leastPerM(int soil, double steepest, double capMs, double detour) {
    double steps = Math.ceil(steepest * STEPS_PER_GRADE);
    if (!(steps <= ZERO)) {
      return 0;
    }
    double low = leastUpToGrade[soil * (ZERO + 1) + (int) steps];
    if (countsTime) {
      low = Math.max(low, 1 / capMs);
    }
    return countsEnergy ? low : low * detour;
  }
}

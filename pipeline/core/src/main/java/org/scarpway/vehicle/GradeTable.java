package org.scarpway.vehicle;

import java.util.Arrays;

/**
 * Speed along the surface (m/s) and traction energy per surface metre (J/m) against grade (rise
 * over run, uphill positive), at equal grade steps with linear interpolation. Grades beyond the
 * table take its end values.
 */
public final class GradeTable {
  /** Grade step of the tables; even grades such as -0.05 are entries. */
  static final double GRADE_STEP = 0.00125;

  /** Steepest grade in a table where nothing else bounds it: about 75 degrees. */
  static final double MAX_GRADE = 3.75;

  private final double minGrade;
  private final double perGrade;
  private final int lastEntry;
  private final double[] speedMs;
  private final double[] tractionJPerM;
  private final double hotelW;
  private final double potentialJPerM;
  private final CurveLimit curves;

  /**
   * @param minGrade grade of the first entry; the last entry is at {@code maxGrade}
   * @param tractionJPerM negative where braking energy returns
   * @param hotelW load that runs while moving (W)
   * @param potentialJPerM see {@link MoveField#potentialJPerM()}
   */
  public GradeTable(
      double minGrade,
      double maxGrade,
      double[] speedMs,
      double[] tractionJPerM,
      double hotelW,
      double potentialJPerM) {
    this(minGrade, maxGrade, speedMs, tractionJPerM, hotelW, potentialJPerM, CurveLimit.NONE);
  }

  /**
   * @param curves what curves of a drawn line allow
   */
  GradeTable(
      double minGrade,
      double maxGrade,
      double[] speedMs,
      double[] tractionJPerM,
      double hotelW,
      double potentialJPerM,
      CurveLimit curves) {
    if (!(maxGrade > minGrade) || speedMs.length < 2 || speedMs.length != tractionJPerM.length) {
      throw new IllegalArgumentException(
          "a grade table needs two or more equally spaced entries of both columns");
    }
    this.minGrade = minGrade;
    this.perGrade = (speedMs.length - 1) / (maxGrade - minGrade);
    lastEntry = speedMs.length - 1;
    // The last entry twice, so that it can be read like the others.
    this.speedMs = Arrays.copyOf(speedMs, speedMs.length + 1);
    this.tractionJPerM = Arrays.copyOf(tractionJPerM, tractionJPerM.length + 1);
    this.speedMs[speedMs.length] = speedMs[lastEntry];
    this.tractionJPerM[speedMs.length] = tractionJPerM[lastEntry];
    this.hotelW = hotelW;
    this.potentialJPerM = potentialJPerM;
    this.curves = curves;
  }

  /**
   * The same speeds at a weighted sum of costs in place of the energy.
   *
   * @param energyShare weight of the energy, 0 or more
   * @param perM added for every metre along the surface, 0 or more
   * @param perS added for every second, 0 or more
   */
  public GradeTable weighted(double energyShare, double perM, double perS) {
    double[] cost = new double[tractionJPerM.length];
    for (int i = 0; i < cost.length; i++) {
      cost[i] = energyShare * tractionJPerM[i] + perM;
    }
    double maxGrade = minGrade + (cost.length - 1) / perGrade;
    return new GradeTable(
        minGrade,
        maxGrade,
        speedMs,
        cost,
        energyShare * hotelW + perS,
        energyShare * potentialJPerM);
  }

  /**
   * At every grade the lower speed and the higher energy of the two. The potential stays this
   * table's: what costs no less than this is not negative by it either, and heights cancel out over
   * a way out by the one and home by the other.
   */
  GradeTable worse(GradeTable other) {
    double low = Math.min(minGrade, other.minGrade);
    double finer = Math.max(perGrade, other.perGrade);
    int last = (int) Math.ceil((Math.max(maxGrade(), other.maxGrade()) - low) * finer - 1e-9);
    double[] speed = new double[last + 1];
    double[] traction = new double[last + 1];
    for (int i = 0; i <= last; i++) {
      double grade = low + i / finer;
      speed[i] = Math.min(speedMs(grade), other.speedMs(grade));
      traction[i] = Math.max(tractionJPerM(grade), other.tractionJPerM(grade));
    }
    return new GradeTable(
        low, low + last / finer, speed, traction, Math.max(hotelW, other.hotelW), potentialJPerM);
  }

  private double maxGrade() {
    return minGrade + lastEntry / perGrade;
  }

  public double speedMs(double grade) {
    return speedMsAt(entry(grade));
  }

  public double tractionJPerM(double grade) {
    return tractionJPerMAt(entry(grade));
  }

  /** Least energy of a metre along the surface on any grade, at the speed of the grade (J/m). */
  double leastJPerM() {
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i <= lastEntry; i++) {
      if (speedMs[i] > 0) {
        least = Math.min(least, tractionJPerM[i] + hotelW / speedMs[i]);
      }
    }
    return least;
  }

  /** Place of a grade in the table, so that both columns can be read without finding it twice. */
  double entry(double grade) {
    double at = (grade - minGrade) * perGrade;
    return at > 0 ? at < lastEntry ? at : lastEntry : 0;
  }

  double speedMsAt(double entry) {
    int i = (int) entry;
    return speedMs[i] + (entry - i) * (speedMs[i + 1] - speedMs[i]);
  }

  double tractionJPerMAt(double entry) {
    int i = (int) entry;
    return tractionJPerM[i] + (entry - i) * (tractionJPerM[i + 1] - tractionJPerM[i]);
  }

  public double hotelW() {
    return hotelW;
  }

  /** What curves of a drawn line allow. */
  public CurveLimit curves() {
    return curves;
  }

  public double potentialJPerM() {
    return potentialJPerM;
  }
}

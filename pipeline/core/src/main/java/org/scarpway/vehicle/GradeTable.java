package org.scarpway.vehicle;

/**
 * Speed along the surface (m/s) and traction energy per surface metre (J/m) against grade (rise
 * over run, uphill positive), at equal grade steps with linear interpolation. Grades beyond the
 * table take its end values.
 */
public final class GradeTable {
  private final double minGrade;
  private final double perGrade;
  private final double[] speedMs;
  private final double[] tractionJPerM;
  private final double hotelW;
  private final double potentialJPerM;

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
    if (!(maxGrade > minGrade) || speedMs.length < 2 || speedMs.length != tractionJPerM.length) {
      throw new IllegalArgumentException(
          "a grade table needs two or more equally spaced entries of both columns");
    }
    this.minGrade = minGrade;
    this.perGrade = (speedMs.length - 1) / (maxGrade - minGrade);
    this.speedMs = speedMs.clone();
    this.tractionJPerM = tractionJPerM.clone();
    this.hotelW = hotelW;
    this.potentialJPerM = potentialJPerM;
  }

  /** The same speed at every grade and no energy model. */
  public static GradeTable constant(double speedMs) {
    return new GradeTable(-1, 1, new double[] {speedMs, speedMs}, new double[2], 0, 0);
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

  public double speedMs(double grade) {
    return at(speedMs, grade);
  }

  public double tractionJPerM(double grade) {
    return at(tractionJPerM, grade);
  }

  public double hotelW() {
    return hotelW;
  }

  public double potentialJPerM() {
    return potentialJPerM;
  }

  private double at(double[] column, double grade) {
    double f = (grade - minGrade) * perGrade;
    int last = column.length - 1;
    if (!(f > 0)) {
      return column[0];
    }
    if (f >= last) {
      return column[last];
    }
    int i = (int) f;
    return column[i] + (f - i) * (column[i + 1] - column[i]);
  }
}

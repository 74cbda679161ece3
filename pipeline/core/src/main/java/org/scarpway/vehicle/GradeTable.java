package org.scarpway.vehicle;

import java.nio.ByteBuffer;
import java.security.MessageDigest;
import java.util.Arrays;

/**
 * Lookup table of speed along the surface (m/s) and traction energy per surface metre (J/m) by
 * grade (rise over run, uphill positive), at equal grade steps with linear interpolation. Grades
 * outside the table use its end values.
 */
public final class GradeTable {
  /** Grade step of the tables; round grades such as -0.05 are entries. */
  static final double GRADE_STEP = 0.00125;

  /** Steepest grade in a table if nothing else limits it: about 75 degrees. */
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
   * @param tractionJPerM traction energy per surface metre (J/m); negative where braking returns
   *     energy
   * @param hotelW constant load while moving (W)
   * @param potentialJPerM see {@link TraversalCost#potentialJPerM()}
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
   * @param curves speed limit in the curves of a drawn line
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
    // The last entry is stored twice, so that interpolation needs no special case.
    this.speedMs = Arrays.copyOf(speedMs, speedMs.length + 1);
    this.tractionJPerM = Arrays.copyOf(tractionJPerM, tractionJPerM.length + 1);
    this.speedMs[speedMs.length] = speedMs[lastEntry];
    this.tractionJPerM[speedMs.length] = tractionJPerM[lastEntry];
    this.hotelW = hotelW;
    this.potentialJPerM = potentialJPerM;
    this.curves = curves;
  }

  /**
   * Returns a table with the same speeds and a weighted sum of costs in place of the energy.
   *
   * @param energyShare weight of the energy, 0 or more
   * @param perM cost per metre along the surface, 0 or more
   * @param perS cost per second, 0 or more
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
   * Returns a table with the lower speed and the higher energy of the two at every grade. It keeps
   * the potential of this table: costs that are nowhere lower stay non-negative with it, and the
   * height terms cancel over a trip out by one table and home by the other.
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

  /** Fractional index of a grade in the table, so that both columns can be read with one search. */
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

  /** Adds everything that costs depend on to a digest. */
  void addTo(MessageDigest sha) {
    int n = speedMs.length;
    ByteBuffer all = ByteBuffer.allocate((5 + 2 * n) * Double.BYTES);
    all.putDouble(n).putDouble(minGrade).putDouble(perGrade).putDouble(hotelW);
    all.putDouble(potentialJPerM);
    for (int i = 0; i < n; i++) {
      all.putDouble(speedMs[i]).putDouble(tractionJPerM[i]);
    }
    sha.update(all.array());
  }

  public double hotelW() {
    return hotelW;
  }

  /** Speed limit in the curves of a drawn line. */
  public CurveLimit curves() {
    return curves;
  }

  public double potentialJPerM() {
    return potentialJPerM;
  }
}

package org.scarpway.vehicle;

/**
 * Slip, sinkage and speed loss of a vehicle on its soil on the direct climb of a slope, tabulated
 * by slope (rise over run), with the thresholds from which they make ground slow. Headings across a
 * slope need less; the same sinkage is assumed for them, as a conservative value. The values also
 * apply on slopes that the vehicle may not climb: sinkage, slip and loss must not shrink because
 * climbing is not allowed.
 */
final class SoftGround {
  private static final double STEP = 0.005;

  private final double[] slip;
  private final double[] sinkageM;
  private final double[] lossShare;
  private final boolean[] bySight;
  private final double allowedLoss;
  private final double slowSlip;
  private final double slowSinkageM;
  private final double slowLoss;

  SoftGround(DriveModel model, Vehicle vehicle) {
    Vehicle.SlowFrom slow = vehicle.slowFrom();
    slowSlip = share(slow == null ? null : slow.slipPct());
    slowLoss = share(slow == null ? null : slow.speedLossPct());
    slowSinkageM =
        slow == null || slow.sinkageM() == null ? Double.POSITIVE_INFINITY : slow.sinkageM();
    Vehicle.Drive drive = vehicle.drive();
    allowedLoss = drive.crawlMs() == null ? 1 : 1 - drive.crawlMs() / drive.speedMs();
    boolean alike = vehicle.soil() == null && slowLoss == Double.POSITIVE_INFINITY;
    double last = alike ? 0 : GradeTable.MAX_GRADE;
    int entries = 1 + (int) Math.ceil(last / STEP - 1e-9);
    slip = new double[entries];
    sinkageM = new double[entries];
    lossShare = new double[entries];
    bySight = new boolean[entries];
    for (int i = 0; i < entries && !alike; i++) {
      double grade = Math.min(last, i * STEP);
      slip[i] = Math.min(Slip.USABLE, model.slip(grade));
      sinkageM[i] = model.sinkageM(grade);
      lossShare[i] = 1 - model.speedMs(grade) / drive.speedMs();
      bySight[i] = model.boundBySight(grade);
      if (i > 0) {
        // A slope never needs less than a gentler one.
        sinkageM[i] = Math.max(sinkageM[i], sinkageM[i - 1]);
      }
    }
  }

  private static double share(Double pct) {
    return pct == null ? Double.POSITIVE_INFINITY : pct / 100;
  }

  double slip(double slope) {
    return at(slip, slope);
  }

  double sinkageM(double slope) {
    return at(sinkageM, slope);
  }

  /** Share of the rated speed that is lost. */
  double lossShare(double slope) {
    return at(lossShare, slope);
  }

  /** Causes that make the slope slow, one bit for each {@link SlowCause}. */
  int slowCauses(double slope) {
    int why = SlowCause.SLIP.in(0, slip(slope) > slowSlip * LimitUse.FULL);
    why = SlowCause.SINKAGE.in(why, sinkageM(slope) > slowSinkageM * LimitUse.FULL);
    SlowCause taking = bySight(slope) ? SlowCause.SIGHT : SlowCause.SPEED_LOSS;
    return taking.in(why, lossShare(slope) > slowLoss * LimitUse.FULL);
  }

  /** Slip divided by the slip at which wheels dig in. */
  double slipUse(double slope) {
    return slip(slope) / Slip.USABLE;
  }

  /**
   * Speed loss divided by the loss down to the crawl speed, at most 1; 0 if no threshold on speed
   * loss is given.
   */
  double lossUse(double slope) {
    return slowLoss == Double.POSITIVE_INFINITY
        ? 0
        : Math.min(1, LimitUse.ratio(lossShare(slope), allowedLoss));
  }

  /** Share of the rated speed that may be lost; the remainder is the crawl speed. */
  double allowedLoss() {
    return allowedLoss;
  }

  /** The limit that causes the speed loss. */
  Limit taking(double slope) {
    boolean bySlip = lossShare(slope) <= slip(slope) * LimitUse.FULL;
    return bySight(slope) ? Limit.SIGHT : bySlip ? Limit.TRACTION : Limit.POWER;
  }

  /** True if stopping sight causes the speed loss. */
  boolean bySight(double slope) {
    return bySight[(int) Math.min(bySight.length - 1.0, slope / STEP)];
  }

  /** Linear interpolation between entries; the last entry beyond the table. */
  private static double at(double[] table, double slope) {
    double place = slope / STEP;
    int i = (int) place;
    if (!(i < table.length - 1)) {
      return table[table.length - 1];
    }
    return table[i] + (place - i) * (table[i + 1] - table[i]);
  }
}

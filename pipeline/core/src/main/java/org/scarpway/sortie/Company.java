package org.scarpway.sortie;

/**
 * Two vehicles of different kinds in company, planned as one that is never better off than either:
 * they drive at the pace of the slower one, and energy is counted as a share of the usable battery,
 * in joules of the first, where the larger draw and the smaller charge of the two count.
 */
public final class Company {
  private Company() {}

  /**
   * Rules of the company.
   *
   * @param a rules with the battery, load, charge and life support of the first
   * @param b the same for the second, with the same days and hours
   * @throws IllegalArgumentException if days, hours, walks or camps differ
   */
  public static DayRules rules(DayRules a, DayRules b) {
    boolean same =
        a.days() == b.days()
            && a.perDayS() == b.perDayS()
            && a.driveS() == b.driveS()
            && a.walks() == b.walks()
            && a.campsOnly() == b.campsOnly();
    if (!same) {
      throw new IllegalArgumentException("two vehicles in company keep the same days");
    }
    double perB = perB(a, b);
    return new DayRules(
        a.days(),
        a.perDayS(),
        a.driveS(),
        a.walks(),
        Math.max(a.egressS(), b.egressS()),
        Math.max(a.ingressS(), b.ingressS()),
        a.batteryJ(),
        a.reserveJ(),
        Math.min(a.nightChargeJ(), perB * b.nightChargeJ()),
        Math.max(a.hotelW(), perB * b.hotelW()),
        Math.min(a.usableS(), b.usableS()),
        0,
        a.campsOnly());
  }

  /** The same piece of ground driven by both; the quicker one waits with its parked load. */
  public static Piece piece(Piece a, Piece b, DayRules ra, DayRules rb) {
    double perB = perB(ra, rb);
    double timeS = Math.max(a.timeS(), b.timeS());
    double waitAJ = ra.hotelW() * (timeS - a.timeS());
    double waitBJ = rb.hotelW() * (timeS - b.timeS());
    double energyJ = Math.max(a.energyJ() + waitAJ, perB * (b.energyJ() + waitBJ));
    double peakJ = Math.max(a.peakJ() + waitAJ, perB * (b.peakJ() + waitBJ));
    // Shares of the two that differ along the piece may peak anywhere in it.
    boolean even = a.isEven() && b.isEven();
    return new Piece(
        timeS,
        energyJ,
        even ? energyJ : Math.max(energyJ, peakJ),
        a.camp() && b.camp(),
        home(a.ways(), b.ways(), ra, rb));
  }

  /** Ways home after the failure of either: the worse of both, energy in joules of the first. */
  public static WaysHome home(WaysHome a, WaysHome b, DayRules ra, DayRules rb) {
    double perB = perB(ra, rb);
    return a.worse(
        new WaysHome(
            b.driveS(), perB * b.driveJ(), perB * b.driveOffJ(), b.rescueOutS(), b.walkS()));
  }

  /** Joules of the first that are the same share of its battery as one of the second. */
  private static double perB(DayRules a, DayRules b) {
    if (b.usableJ() == Double.POSITIVE_INFINITY) {
      return 0;
    }
    if (a.usableJ() == Double.POSITIVE_INFINITY) {
      throw new IllegalArgumentException("the first vehicle must have the limited battery");
    }
    return a.usableJ() / b.usableJ();
  }
}

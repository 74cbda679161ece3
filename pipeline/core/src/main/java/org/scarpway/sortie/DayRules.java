package org.scarpway.sortie;

/**
 * What a day of a sortie may hold, and what the vehicle carries.
 *
 * @param days number of days; the crew is home by the end of the last one, at least 1
 * @param perDayS driving, stays and waiting on one day (s), at most {@link #DAY_S}
 * @param driveS driving on one day (s); part of {@code perDayS}
 * @param walks walks on one day
 * @param egressS time to leave the cabin, per walk (s)
 * @param ingressS time to enter the cabin, per walk (s)
 * @param batteryJ energy of the full battery (J), infinite where energy is no limit
 * @param reserveJ part of it that is not planned (J)
 * @param nightChargeJ energy that a night gives, at its end (J)
 * @param hotelW load of the parked vehicle (W), by the clock: stays, waiting, evenings and nights;
 *     the energy of a leg includes it while driving
 * @param lifeSupportS time for which the vehicle supports its own crew, by the clock (s), infinite
 *     where it is no limit
 * @param lifeReserveS part of it that is not planned (s)
 * @param campsOnly whether nights may be spent at camps only, not wherever the vehicle stands
 */
public record DayRules(
    int days,
    double perDayS,
    double driveS,
    int walks,
    double egressS,
    double ingressS,
    double batteryJ,
    double reserveJ,
    double nightChargeJ,
    double hotelW,
    double lifeSupportS,
    double lifeReserveS,
    boolean campsOnly) {
  /** Length of a day with its night (s). */
  public static final double DAY_S = 86_400;

  /**
   * Checks that the rules leave something to plan.
   *
   * @throws IllegalArgumentException if a day has no hours or more than 24, or an amount is
   *     negative
   */
  public DayRules {
    boolean hours = days >= 1 && perDayS > 0 && perDayS <= DAY_S && driveS > 0;
    boolean amounts =
        walks >= 0
            && egressS >= 0
            && ingressS >= 0
            && batteryJ >= 0
            && reserveJ >= 0
            && nightChargeJ >= 0
            && hotelW >= 0
            && lifeSupportS >= 0
            && lifeReserveS >= 0;
    if (!hours || !amounts) {
      throw new IllegalArgumentException("rules of a day that cannot be kept");
    }
  }

  /** Energy that may be drawn before the next charge (J). */
  public double usableJ() {
    return batteryJ - reserveJ;
  }

  /** Time by the clock that may be planned (s). */
  public double usableS() {
    return lifeSupportS - lifeReserveS;
  }

  /** The same rules for another number of days. */
  public DayRules withDays(int other) {
    return new DayRules(
        other,
        perDayS,
        driveS,
        walks,
        egressS,
        ingressS,
        batteryJ,
        reserveJ,
        nightChargeJ,
        hotelW,
        lifeSupportS,
        lifeReserveS,
        campsOnly);
  }

  /** The same rules with a larger or smaller battery. */
  public DayRules withMoreBattery(double moreJ) {
    return new DayRules(
        days,
        perDayS,
        driveS,
        walks,
        egressS,
        ingressS,
        batteryJ + moreJ,
        reserveJ,
        nightChargeJ,
        hotelW,
        lifeSupportS,
        lifeReserveS,
        campsOnly);
  }

  /** Time that a stop takes (s): the stay, and leaving and entering the cabin for each walk. */
  public double stopS(double stayS, int walkCount) {
    return stayS + walkCount * (egressS + ingressS);
  }
}

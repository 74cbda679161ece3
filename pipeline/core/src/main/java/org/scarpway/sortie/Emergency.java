package org.scarpway.sortie;

/**
 * What is left of life support if the vehicle fails at a given moment and the crew comes home by
 * the home rule.
 */
final class Emergency {
  private static final double TINY_S = 1e-6;
  private static final double TINY_J = 1e-3;

  private final DayRules rules;
  private final HomeRule home;
  private final double usableS;
  private final double usableJ;

  // Of a drive by day: the moment, and driving time left on that day.
  private double atS;
  private double leftS;

  Emergency(DayRules rules, HomeRule home) {
    this.rules = rules;
    this.home = home;
    this.usableS = rules.usableS();
    this.usableJ = rules.usableJ();
  }

  /** Whether the rule asks for more than driving home. */
  boolean binds() {
    return home.kind() != HomeRule.Kind.DRIVE_BACK;
  }

  /** Whether everybody comes home from a failure at this moment. */
  boolean holds(int day, double usedS, double drawnJ, WaysHome ways) {
    return !binds() || spareS(day, usedS, drawnJ, ways) >= -TINY_S;
  }

  /**
   * Time of life support that would be left once everybody is home (s): negative if it does not
   * suffice, negative infinity if there is no way home or a ride ends after the last day.
   */
  double spareS(int day, double usedS, double drawnJ, WaysHome ways) {
    double nowS = day * DayRules.DAY_S + usedS;
    return switch (home.kind()) {
      case DRIVE_BACK -> usableS - nowS;
      case WALK_BACK ->
          ways.walkS() < Double.POSITIVE_INFINITY
              ? usableS - nowS - ways.walkS()
              : Double.NEGATIVE_INFINITY;
      case PAIR -> together(day, usedS, drawnJ, ways);
      case BASE_RESCUE -> rescued(day, usedS, drawnJ, ways);
    };
  }

  /**
   * Both crews drive home in one vehicle, in the first hours of each day. Where the battery lasts
   * without a charge they leave at once; otherwise they wait for the night. From a moment at which
   * the driving hours of a day are over, or from the first hour of a day of waiting, time is
   * counted twice: a failure earlier on the same day is then never worse.
   */
  private double together(int day, double usedS, double drawnJ, WaysHome ways) {
    if (!(ways.driveS() < Double.POSITIVE_INFINITY)) {
      return Double.NEGATIVE_INFINITY;
    }
    double startS = day * DayRules.DAY_S;
    double byDayS = Math.min(rules.perDayS(), rules.driveS());
    double leaveS = usedS + home.transferS();
    double firstS = Math.max(0, byDayS - leaveS);
    double nights = Math.max(0, Math.ceil((ways.driveS() - firstS - TINY_S) / byDayS));
    double parkedS = home.transferS() + nights * (DayRules.DAY_S - byDayS);
    double needJ = ways.driveJ() + ways.driveOffJ() + rules.hotelW() * parkedS;
    if (drawnJ + needJ <= usableJ) {
      double atHomeS =
          nights == 0
              ? startS + leaveS + ways.driveS()
              : startS + nights * DayRules.DAY_S + ways.driveS() - firstS - (nights - 1) * byDayS;
      return inTime(atHomeS, ways, usableS + startS + Math.min(usedS, byDayS) - 2 * atHomeS);
    }
    double eveningJ = drawnJ + rules.hotelW() * (DayRules.DAY_S - usedS);
    if (eveningJ > usableJ + TINY_J) {
      return Double.NEGATIVE_INFINITY;
    }
    double morningJ = Math.max(0, eveningJ - rules.nightChargeJ());
    double atHomeS = atHomeS(day + 1, morningJ, ways);
    return inTime(atHomeS, ways, usableS + startS - 2 * atHomeS);
  }

  /**
   * What is left, or negative infinity if everybody is home only after the hours of the last day.
   */
  private double inTime(double atHomeS, WaysHome ways, double spareS) {
    double endS = (rules.days() - 1) * DayRules.DAY_S + rules.perDayS();
    boolean home = ways.driveS() == 0 && ways.rescueOutS() == 0;
    return home || atHomeS <= endS + TINY_S ? spareS : Double.NEGATIVE_INFINITY;
  }

  private double rescued(int day, double usedS, double drawnJ, WaysHome ways) {
    if (!(ways.rescueOutS() < Double.POSITIVE_INFINITY
        && ways.driveS() < Double.POSITIVE_INFINITY)) {
      return Double.NEGATIVE_INFINITY;
    }
    double nowS = day * DayRules.DAY_S + usedS;
    atS = nowS + home.alarmS();
    leftS = rules.driveS();
    byDay(ways.rescueOutS());
    double aboardS = atS + home.loadS();
    atS = aboardS;
    byDay(ways.driveS());
    if (drawnJ + rules.hotelW() * (aboardS - nowS) > usableJ + TINY_J) {
      return Double.NEGATIVE_INFINITY;
    }
    return inTime(atS, ways, usableS - Math.max(atS, rescuersS(ways)));
  }

  /** Drives so long by day from the moment {@code atS}, and sets it to the end of it. */
  private void byDay(double driveS) {
    double toGoS = driveS;
    if (home.byNight()) {
      atS += driveS;
      return;
    }
    while (true) {
      double day = Math.floor(atS / DayRules.DAY_S);
      double goS = Math.min(leftS, rules.perDayS() - (atS - day * DayRules.DAY_S));
      goS = Math.max(0, Math.min(goS, toGoS));
      atS += goS;
      leftS -= goS;
      toGoS -= goS;
      if (toGoS <= TINY_S || atS > usableS) {
        atS += toGoS;
        return;
      }
      atS = (day + 1) * DayRules.DAY_S;
      leftS = rules.driveS();
    }
  }

  /**
   * Life support that the rescuers use (s), at most, whatever the hour of their departure: once on
   * the way out, twice from there on.
   */
  private double rescuersS(WaysHome ways) {
    double outS = ways.rescueOutS();
    double backS = home.loadS() + ways.driveS();
    if (home.byNight()) {
      return outS + 2 * backS;
    }
    double byDayS = Math.min(rules.perDayS(), rules.driveS());
    double nightsBack = Math.ceil(backS / byDayS);
    double nightsOut = Math.max(0, Math.ceil((outS + backS) / byDayS) - nightsBack);
    return outS + 2 * backS + (DayRules.DAY_S - byDayS) * (nightsOut + 2 * nightsBack);
  }

  /**
   * When a drive home from the morning of a day ends (s by the clock), with nights anywhere and
   * further ones where the battery asks for them; infinite if battery or life support do not last.
   */
  private double atHomeS(int fromDay, double fromJ, WaysHome ways) {
    double hotelW = rules.hotelW();
    double offJ = ways.driveOffJ();
    double rateW = ways.driveS() > 0 ? ways.driveJ() / ways.driveS() : 0;
    double byDayS = Math.min(rules.perDayS(), rules.driveS());
    double toGoS = ways.driveS();
    double drawnJ = fromJ;
    for (int day = fromDay; day * DayRules.DAY_S <= usableS; day++) {
      double leftJ = Math.max(0, usableJ - offJ - drawnJ);
      double goS = Math.min(toGoS, byDayS);
      goS = rateW * goS > leftJ ? leftJ / rateW : goS;
      if (goS >= toGoS && drawnJ + offJ <= usableJ) {
        return day * DayRules.DAY_S + toGoS;
      }
      // The vehicle stops where its battery lasts the night.
      double overJ = drawnJ + offJ + hotelW * DayRules.DAY_S + (rateW - hotelW) * goS - usableJ;
      if (overJ > 0) {
        goS = rateW > hotelW ? goS - overJ / (rateW - hotelW) : -1;
      }
      if (goS < 0) {
        return Double.POSITIVE_INFINITY;
      }
      double eveningJ = drawnJ + rateW * goS + hotelW * (DayRules.DAY_S - goS);
      double morningJ = Math.max(0, eveningJ - rules.nightChargeJ());
      if (goS <= TINY_S && morningJ >= drawnJ - TINY_J) {
        return Double.POSITIVE_INFINITY;
      }
      toGoS -= goS;
      drawnJ = morningJ;
    }
    return Double.POSITIVE_INFINITY;
  }
}

package org.scarpway.sortie;

/**
 * The arithmetic of days: where a trip stands (day, hours used and driven today, walks made today,
 * energy drawn since full), and how drives, stops and nights change it. Rings, search, timetable
 * and report use it. Set the state, call {@link #drive}, {@link #stop} or {@link #night}, and read
 * it; nothing is allocated. After a call that returns false the state means nothing.
 *
 * <p>Energy is cautious: it is held at the worst place of each piece; a charge comes at the end of
 * a night, after its load; and what a full battery cannot take is lost.
 */
public final class DayClock {
  private static final double TINY_S = 1e-6;
  private static final double TINY_J = 1e-3;
  private static final double DAY_S = DayRules.DAY_S;

  private final DayRules rules;
  private final Emergency emergency;
  private final double usableJ;
  private final double usableS;
  private final double hotelW;
  private DayLog log;

  private int day;
  private double usedS;
  private double drivenS;
  private int walks;
  private double drawnJ;
  private boolean camp;
  private WaysHome ways;

  // The last place of today's drive where a night may be spent.
  private int nightPiece;
  private double nightInS;
  private double nightUsedS;
  private double nightDrivenS;
  private double nightDrawnJ;
  private double nightWorstJ;

  /** A clock at the start of a trip, at the base with a full battery. */
  public DayClock(DayRules rules, HomeRule home) {
    this.rules = rules;
    this.emergency = new Emergency(rules, home);
    this.usableJ = rules.usableJ();
    this.usableS = rules.usableS();
    this.hotelW = rules.hotelW();
    set(0, 0, 0, 0, 0);
    standAt(true, WaysHome.AT_HOME);
  }

  /** From now on everything done is told to the log. */
  public void tell(DayLog to) {
    this.log = to;
  }

  /**
   * Sets the state.
   *
   * @param day 0 for the first
   * @param usedS time used on that day (s)
   * @param drivenS driving time on that day (s)
   * @param walks walks made on that day
   * @param drawnJ energy drawn from the full battery (J)
   */
  public void set(int day, double usedS, double drivenS, int walks, double drawnJ) {
    this.day = day;
    this.usedS = usedS;
    this.drivenS = drivenS;
    this.walks = walks;
    this.drawnJ = drawnJ;
  }

  /**
   * Sets the place where the vehicle stands.
   *
   * @param campHere whether a night may be spent there; asked with nights at camps only
   * @param waysHere what coming home takes from there
   */
  public void standAt(boolean campHere, WaysHome waysHere) {
    this.camp = campHere;
    this.ways = waysHere;
  }

  /** Day, 0 for the first. */
  public int day() {
    return day;
  }

  /** Time used today (s). */
  public double usedS() {
    return usedS;
  }

  /** Driving time today (s). */
  public double drivenS() {
    return drivenS;
  }

  /** Walks made today. */
  public int walks() {
    return walks;
  }

  /** Energy drawn from the full battery (J). */
  public double drawnJ() {
    return drawnJ;
  }

  /** Time since the start (s), by the clock. */
  public double clockS() {
    return day * DAY_S + usedS;
  }

  /** Life support left if the vehicle failed here and now, once everybody is home (s). */
  public double spareS() {
    return emergency.spareS(day, usedS, drawnJ, ways);
  }

  /**
   * Whether the crew can wait here as long as anywhere: tonight, and where a home rule binds all
   * nights until the last day. Energy asks for tonight only: where a day of waiting draws more than
   * a night charges, having waited elsewhere is no better.
   */
  public boolean canWait() {
    if (!rules.campsOnly() && hotelW == 0 && !emergency.binds()) {
      return true;
    }
    double atUsedS = usedS;
    double atJ = drawnJ;
    int atDay = day;
    boolean holds = day + 1 < rules.days() && nightHolds(camp, ways, atUsedS, atJ);
    while (holds && emergency.binds() && day + 1 < rules.days()) {
      holds = nightHolds(camp, ways, atUsedS, atJ);
      atJ = Math.max(0, atJ + hotelW * (DAY_S - atUsedS) - rules.nightChargeJ());
      atUsedS = 0;
      day++;
    }
    day = atDay;
    return holds;
  }

  /** Spends the night here. Returns false if that breaks a rule. */
  public boolean night() {
    return nightHolds(camp, ways, usedS, drawnJ) && sleep(0);
  }

  private boolean nightHolds(boolean campThere, WaysHome from, double atUsedS, double atJ) {
    return nightHolds(campThere, from, atUsedS, atJ, atJ);
  }

  private boolean nightHolds(
      boolean campThere, WaysHome from, double atUsedS, double atJ, double failureJ) {
    if (rules.campsOnly() && !campThere) {
      return false;
    }
    if (atJ + hotelW * (DAY_S - atUsedS) > usableJ + TINY_J) {
      return false;
    }
    // As long as it is this day, a failure leaves less of it: the evening is worst.
    double restS = rules.perDayS() - atUsedS;
    return emergency.holds(day, rules.perDayS(), failureJ + hotelW * restS, from);
  }

  private boolean sleep(double alongS) {
    double fromS = clockS();
    double fromJ = drawnJ;
    double eveningJ = drawnJ + hotelW * (DAY_S - usedS);
    drawnJ = Math.max(0, eveningJ - rules.nightChargeJ());
    day++;
    usedS = 0;
    drivenS = 0;
    walks = 0;
    if (log != null) {
      log.did(Doing.NIGHT, fromS, clockS(), fromJ, drawnJ, eveningJ, alongS);
    }
    return day < rules.days() && day * DAY_S <= usableS;
  }

  /** As {@link #drive(Leg, int)} without rest nights. */
  public boolean drive(Leg leg) {
    return drive(leg, 0);
  }

  /**
   * Drives along a leg from where the vehicle stands, on as many days as it takes. The caller sets
   * the place of arrival with {@link #standAt}.
   *
   * @param restNights nights to spend at the last place before arrival that allows it
   * @return false if hours, days, battery, camps, life support or home rule do not allow it
   */
  public boolean drive(Leg leg, int restNights) {
    double leftS = Math.min(rules.perDayS() - usedS, rules.driveS() - drivenS);
    boolean today = leg.timeS() <= leftS && drawnJ + leg.peakJ() <= usableJ;
    if (today && restNights == 0 && log == null && !emergency.binds()) {
      usedS += leg.timeS();
      drivenS += leg.timeS();
      drawnJ += leg.energyJ();
      return clockS() <= usableS;
    }
    return overDays(leg, restNights);
  }

  private boolean overDays(Leg leg, int restNights) {
    int pieces = leg.pieces().size();
    int rests = restNights;
    int piece = 0;
    double inS = 0;
    while (true) {
      int fromPiece = piece;
      double fromInS = inS;
      double fromUsedS = usedS;
      double fromDrawnJ = drawnJ;
      double worstJ = drawnJ;
      nightWorstJ = drawnJ;
      nightPiece = -1;
      offerNight(leg, piece, inS, 0, 0, 0);
      boolean goesOn = true;
      while (goesOn && piece < pieces) {
        Piece p = leg.pieces().get(piece);
        double peakJ = drawnJ + (p.isEven() ? 0 : p.peakJ());
        double goS = advance(leg, piece, inS);
        if (nightPiece == piece && goS > 0) {
          nightWorstJ = Math.max(worstJ, p.isEven() ? nightDrawnJ : peakJ);
        }
        worstJ = Math.max(worstJ, goS > 0 ? Math.max(peakJ, drawnJ) : drawnJ);
        goesOn = goS >= 0 && p.timeS() - inS - goS <= TINY_S;
        inS = goesOn ? 0 : inS + Math.max(0, goS);
        piece += goesOn ? 1 : 0;
      }
      boolean arrived = piece == pieces;
      if (arrived && rests == 0) {
        told(fromUsedS, fromDrawnJ, worstJ, leg.timeS());
        return clockS() <= usableS + TINY_S;
      }
      if (nightPiece < 0) {
        return false;
      }
      piece = nightPiece;
      inS = nightInS;
      usedS = nightUsedS;
      drivenS = nightDrivenS;
      drawnJ = nightDrawnJ;
      double alongS = alongS(leg, piece, inS);
      told(fromUsedS, fromDrawnJ, nightWorstJ, alongS);
      double eveningJ = drawnJ;
      if (!nights(leg, piece, inS, arrived ? rests : 1, alongS)) {
        return false;
      }
      boolean moved = piece != fromPiece || inS > fromInS + TINY_S;
      if (!arrived && !moved && fromUsedS == 0 && drawnJ >= eveningJ - TINY_J) {
        return false;
      }
      rests = arrived ? 0 : rests;
    }
  }

  private boolean nights(Leg leg, int piece, double inS, int count, double alongS) {
    boolean atStart = piece == 0 && inS == 0;
    Piece p = leg.pieces().get(piece);
    boolean campThere = atStart ? camp : p.camp();
    WaysHome from = atStart ? ways : p.ways();
    for (int k = 0; k < count; k++) {
      if (!nightHolds(campThere, from, usedS, drawnJ) || !sleep(alongS)) {
        return false;
      }
    }
    return true;
  }

  /** Driving time from the start of the leg to a place in a piece (s). */
  private static double alongS(Leg leg, int piece, double inS) {
    double s = inS;
    for (int k = 0; k < piece; k++) {
      s += leg.pieces().get(k).timeS();
    }
    return s;
  }

  private void told(double fromUsedS, double fromJ, double worstJ, double alongS) {
    if (log != null && usedS > fromUsedS) {
      log.did(Doing.DRIVE, day * DAY_S + fromUsedS, clockS(), fromJ, drawnJ, worstJ, alongS);
    }
  }

  /** Keeps the place after so much more driving in a piece for the night, if that holds there. */
  private void offerNight(Leg leg, int piece, double inS, double goS, double moreJ, double mostJ) {
    boolean atStart = piece == 0 && inS + goS == 0;
    Piece p = leg.pieces().get(piece);
    boolean campThere = atStart ? camp : p.camp();
    WaysHome from = atStart ? ways : p.ways();
    if (nightHolds(campThere, from, usedS + goS, drawnJ + moreJ, drawnJ + mostJ)) {
      nightPiece = piece;
      nightInS = inS + goS;
      nightUsedS = usedS + goS;
      nightDrivenS = drivenS + goS;
      nightDrawnJ = drawnJ + moreJ;
    }
  }

  /**
   * Drives within a piece as far as today allows, and keeps the last place of it for a night.
   * Returns the time driven (s), -1 if the piece cannot be entered today.
   */
  private double advance(Leg leg, int piece, double inS) {
    Piece p = leg.pieces().get(piece);
    double leftS = Math.min(rules.perDayS() - usedS, rules.driveS() - drivenS);
    double toGoS = Math.max(0, p.timeS() - inS);
    double goS = Math.max(0, Math.min(toGoS, leftS));
    if (!p.isEven() && inS == 0) {
      if (toGoS > leftS + TINY_S
          || drawnJ + p.peakJ() > usableJ + TINY_J
          || !entersToday(p, p.timeS(), p.peakJ())) {
        return -1;
      }
      offerNight(leg, piece, 0, p.timeS(), p.energyJ(), p.energyJ());
      return gone(p.timeS(), p.energyJ());
    }
    if (toGoS <= TINY_S) {
      return toGoS;
    }
    double rateW = p.energyJ() / p.timeS();
    if (drawnJ + rateW * goS > usableJ + TINY_J) {
      goS = Math.max(0, usableJ - drawnJ) / rateW;
    }
    // What a day could draw here, not what is left of today does: starting earlier is no worse.
    double perDayS = Math.min(toGoS, Math.min(rules.perDayS(), rules.driveS()));
    if (!entersToday(p, goS, rateW * perDayS)) {
      return -1;
    }
    double nightS = goS;
    double eveningJ = drawnJ + hotelW * (DAY_S - usedS);
    if (eveningJ + (rateW - hotelW) * goS > usableJ + TINY_J) {
      nightS = eveningJ <= usableJ ? (usableJ - eveningJ) / (rateW - hotelW) : 0;
    }
    if (nightS > 0) {
      offerNight(leg, piece, inS, nightS, rateW * nightS, rateW * perDayS);
    }
    return gone(goS, rateW * goS);
  }

  private boolean entersToday(Piece p, double goS, double mostJ) {
    return emergency.holds(day, usedS + goS, drawnJ + mostJ, p.ways());
  }

  private double gone(double goS, double moreJ) {
    usedS += goS;
    drivenS += goS;
    drawnJ += moreJ;
    return goS;
  }

  /**
   * Makes a stop: waits for its opening, and stays on the first day that has room for it.
   *
   * @return false if no day has, or a night until then is not possible
   */
  public boolean stop(SortieStop s) {
    standAt(s.camp(), s.ways());
    double takesS = rules.stopS(s.stayS(), s.walks());
    if (takesS > rules.perDayS() + TINY_S || s.walks() > rules.walks()) {
      return false;
    }
    while (true) {
      double startS = Math.max(usedS, s.opensS() - day * DAY_S);
      double endS = startS + takesS;
      if (day * DAY_S + endS > Math.min(s.closesS(), usableS) + TINY_S) {
        return false;
      }
      double endJ = drawnJ + hotelW * (endS - usedS);
      if (endS <= rules.perDayS() + TINY_S
          && walks + s.walks() <= rules.walks()
          && endJ <= usableJ + TINY_J
          && emergency.holds(day, endS, endJ, ways)) {
        stay(startS, endS, endJ);
        walks += s.walks();
        return true;
      }
      double beforeJ = drawnJ;
      boolean opensLater = startS > usedS;
      boolean morning = usedS == 0;
      if (!night() || (morning && !opensLater && drawnJ >= beforeJ - TINY_J)) {
        return false;
      }
    }
  }

  private void stay(double startS, double endS, double endJ) {
    double midJ = drawnJ + hotelW * (startS - usedS);
    if (log != null) {
      double dayStartS = day * DAY_S;
      if (startS > usedS) {
        log.did(Doing.WAIT, dayStartS + usedS, dayStartS + startS, drawnJ, midJ, midJ, 0);
      }
      log.did(Doing.STAY, dayStartS + startS, dayStartS + endS, midJ, endJ, endJ, 0);
    }
    usedS = endS;
    drawnJ = endJ;
  }
}

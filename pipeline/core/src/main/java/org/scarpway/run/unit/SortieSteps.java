package org.scarpway.run.unit;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.trip.PlaceWays;
import org.scarpway.report.SortieAnswer.Point;
import org.scarpway.report.SortieAnswer.Step;
import org.scarpway.report.SortieAnswer.Told;
import org.scarpway.report.SortieAnswer.Way;
import org.scarpway.sortie.Act;
import org.scarpway.sortie.DayRules;
import org.scarpway.sortie.Doing;

/** Tells the acts of a plan as a timetable, with places, lengths and what is left. */
final class SortieSteps {
  private static final double CLOSE_S = 1;

  private final SortieQuestion question;
  private final PlaceWays ways;
  private final DayRules rules;
  private final double reserveS;
  private final boolean hasEnergy;
  private final Map<String, List<ProfilePoint>> lines = new HashMap<>();
  private final List<Step> steps = new ArrayList<>();
  private final List<Way> driven = new ArrayList<>();
  private double xM;
  private double yM;

  /**
   * @param reserveS part of the hours of a day that is not planned (s)
   * @param hasEnergy true if the vehicle has an energy model
   */
  SortieSteps(
      SortieQuestion question,
      PlaceWays ways,
      DayRules rules,
      double reserveS,
      boolean hasEnergy,
      double baseXM,
      double baseYM) {
    this.question = question;
    this.ways = ways;
    this.rules = rules;
    this.reserveS = reserveS;
    this.hasEnergy = hasEnergy;
    this.xM = baseXM;
    this.yM = baseYM;
  }

  List<Step> steps() {
    return steps;
  }

  List<Way> driven() {
    return driven;
  }

  void tell(List<Act> acts) {
    double drivenTodayS = 0;
    double alongS = 0;
    for (int i = 0; i < acts.size(); i++) {
      Act a = acts.get(i);
      switch (a.what()) {
        case DRIVE -> {
          alongS = goesOn(acts, i) ? alongS : 0;
          drive(a, alongS);
          alongS = a.alongS();
          drivenTodayS += a.toS() - a.fromS();
        }
        case WAIT -> add(a, Told.WAIT, 0, least(a));
        case STAY -> add(a, a.walks() > 0 ? Told.WALK : Told.STOP, 0, least(a));
        case NIGHT -> {
          night(a, whyNight(acts, i, drivenTodayS));
          drivenTodayS = 0;
        }
      }
    }
  }

  /** True if a drive goes on along the leg of the drive before it. */
  private static boolean goesOn(List<Act> acts, int i) {
    for (int k = i - 1; k >= 0; k--) {
      Act before = acts.get(k);
      if (before.what() != Doing.NIGHT) {
        Act a = acts.get(i);
        return before.what() == Doing.DRIVE
            && before.from() == a.from()
            && before.to() == a.to()
            && before.alongS() < a.alongS();
      }
    }
    return false;
  }

  private void drive(Act a, double fromS) {
    List<ProfilePoint> line =
        lines.computeIfAbsent(
            a.from() + " " + a.to() + " " + a.way(), k -> ways.line(a.from(), a.to(), a.way()));
    List<Point> part = new ArrayList<>();
    double fromM = 0;
    double toM = 0;
    for (int i = 0; i < line.size(); i++) {
      ProfilePoint p = line.get(i);
      ProfilePoint before = line.get(Math.max(0, i - 1));
      for (double cutS : new double[] {fromS, a.alongS()}) {
        if ((before.timeS() < cutS && cutS < p.timeS()) || (i == 0 && cutS <= 0)) {
          double share = i == 0 ? 0 : (cutS - before.timeS()) / (p.timeS() - before.timeS());
          part.add(
              new Point(
                  before.xM() + share * (p.xM() - before.xM()),
                  before.yM() + share * (p.yM() - before.yM())));
          double m = before.distanceM() + share * (p.distanceM() - before.distanceM());
          fromM = cutS == fromS ? m : fromM;
          toM = m;
        }
      }
      if (p.timeS() >= fromS && p.timeS() <= a.alongS() && i > 0) {
        part.add(new Point(p.xM(), p.yM()));
        fromM = p.timeS() == fromS ? p.distanceM() : fromM;
        toM = p.distanceM();
      }
    }
    if (!part.isEmpty()) {
      xM = part.get(part.size() - 1).xM();
      yM = part.get(part.size() - 1).yM();
    }
    double m = Math.max(0, toM - fromM);
    driven.add(
        new Way(
            a.day() + 1,
            question.name(a.from()),
            question.name(a.to()),
            m,
            a.toS() - a.fromS(),
            hasEnergy ? a.toJ() - a.fromJ() : Double.NaN,
            part));
    add(a, Told.DRIVE, m, least(a));
  }

  private void night(Act a, String why) {
    double restsS = DayRules.DAY_S - CLOSE_S;
    boolean rest = a.toS() - a.fromS() >= restsS;
    double keptS = rest ? 0 : Math.min(reserveS, a.toS() - a.fromS());
    double keptJ = rules.hotelW() * keptS;
    if (keptS > 0) {
      Act kept =
          new Act(
              a.what(),
              a.from(),
              a.to(),
              a.way(),
              a.fromS(),
              a.fromS() + keptS,
              a.alongS(),
              a.fromJ(),
              a.fromJ() + keptJ,
              a.fromJ() + keptJ,
              0);
      add(kept, Told.RESERVE, 0, "");
    }
    Act asleep =
        new Act(
            a.what(),
            a.from(),
            a.to(),
            a.way(),
            a.fromS() + keptS,
            a.toS(),
            a.alongS(),
            a.fromJ() + keptJ,
            a.toJ(),
            a.worstJ(),
            0);
    add(asleep, rest ? Told.REST : Told.NIGHT, 0, why);
  }

  private void add(Act a, Told what, double distanceM, String binds) {
    double batteryJ = rules.batteryJ();
    boolean limited = hasEnergy && batteryJ < Double.POSITIVE_INFINITY;
    double lifeS = rules.lifeSupportS();
    steps.add(
        new Step(
            a.day() + 1,
            a.fromS(),
            a.toS(),
            what,
            question.name(a.from()),
            question.name(a.to()),
            xM,
            yM,
            distanceM,
            hasEnergy ? a.toJ() - a.fromJ() : Double.NaN,
            limited ? batteryJ - a.toJ() : Double.NaN,
            limited ? batteryJ - Math.max(a.worstJ(), Math.max(a.fromJ(), a.toJ())) : Double.NaN,
            lifeS < Double.POSITIVE_INFINITY ? lifeS - a.toS() : Double.NaN,
            a.walks(),
            binds));
  }

  /** The limit of which least is left. */
  private String least(Act a) {
    double battery = 1 - Math.max(a.worstJ(), a.toJ()) / rules.usableJ();
    double life = 1 - a.toS() / rules.usableS();
    if (!hasEnergy || rules.usableJ() == Double.POSITIVE_INFINITY) {
      return rules.usableS() < Double.POSITIVE_INFINITY ? "life support" : "";
    }
    return life < battery ? "life support" : "battery";
  }

  /** Why the crew does not go on in the evening. */
  private String whyNight(List<Act> acts, int i, double drivenTodayS) {
    Act a = acts.get(i);
    double usedS = a.fromS() - a.day() * DayRules.DAY_S;
    if (usedS >= rules.perDayS() - CLOSE_S) {
      return "hours of the day";
    }
    if (drivenTodayS >= rules.driveS() - CLOSE_S) {
      return "driving hours of the day";
    }
    Act next = null;
    for (int k = i + 1; k < acts.size() && next == null; k++) {
      next = acts.get(k).what() == Doing.NIGHT ? null : acts.get(k);
    }
    if (next == null) {
      return "";
    }
    if (next.what() == Doing.WAIT) {
      return "opening of " + question.name(next.from());
    }
    if (next.what() == Doing.STAY) {
      boolean fits = usedS + next.toS() - next.fromS() <= rules.perDayS();
      return fits ? "walks of the day or battery" : "the stay does not fit into the day";
    }
    double eveningJ = a.fromJ() + rules.hotelW() * (a.toS() - a.fromS());
    boolean low = hasEnergy && eveningJ > rules.usableJ() - 0.01 * rules.batteryJ();
    return low ? "battery" : rules.campsOnly() ? "nights at camps only" : "battery or home rule";
  }
}

package org.scarpway.run.unit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.config.Job;
import org.scarpway.reach.question.DayRingsRequest;
import org.scarpway.reach.trip.PlaceWays;
import org.scarpway.report.SortieAnswer;
import org.scarpway.report.SortieAnswer.Stop;
import org.scarpway.report.SortieAnswer.Supply;
import org.scarpway.sortie.Act;
import org.scarpway.sortie.DayRules;
import org.scarpway.sortie.Doing;
import org.scarpway.sortie.HomeRule;
import org.scarpway.sortie.LeftOut;
import org.scarpway.sortie.PlanAudit;
import org.scarpway.sortie.Sortie;
import org.scarpway.sortie.SortiePlan;
import org.scarpway.sortie.SortieSolver;
import org.scarpway.sortie.SortieStop;
import org.scarpway.sortie.Visit;
import org.scarpway.stage.Digits;
import org.scarpway.stage.StageFailure;

/** Has the stops of a sortie planned, and tells the plan. */
final class SortiePlanning {
  private static final double J_PER_KWH = 3.6e6;

  private final SortieQuestion question;
  private final DayRingsRequest request;
  private final PlaceWays ways;
  private final Sortie asked;

  SortiePlanning(SortieQuestion question, DayRingsRequest request, PlaceWays ways) {
    this.question = question;
    this.request = request;
    this.ways = ways;
    this.asked = question.asked(ways);
  }

  SortieAnswer answer() {
    SortiePlan plan = SortieSolver.solve(asked);
    requireDriven(plan);
    DayRules rules = asked.rules();
    Job.SortieEntry entry = question.entry();
    SortieSteps told =
        new SortieSteps(
            question,
            ways,
            rules,
            entry.perDayS() - rules.perDayS(),
            ways.hasEnergy(),
            request.baseXM(),
            request.baseYM());
    if (plan != null) {
      told.tell(plan.acts());
    }
    double none = Double.NaN;
    boolean limitedJ = ways.hasEnergy() && rules.batteryJ() < Double.POSITIVE_INFINITY;
    boolean limitedS = rules.lifeSupportS() < Double.POSITIVE_INFINITY;
    Supply supply =
        new Supply(
            rules.days(),
            entry.perDayS(),
            rules.perDayS(),
            rules.driveS(),
            rules.walks(),
            limitedJ ? rules.batteryJ() : none,
            limitedJ ? rules.reserveJ() : none,
            limitedS ? rules.lifeSupportS() : none,
            limitedS ? rules.lifeReserveS() : none);
    return new SortieAnswer(
        plan != null,
        plan == null ? 0 : plan.value(),
        question.stops().stream().mapToDouble(SortieQuestion.Spot::value).sum(),
        plan != null && plan.isProven(),
        plan == null ? 0 : plan.mostMorePct(),
        supply,
        told.steps(),
        stops(plan),
        told.driven(),
        plan == null ? List.of() : more(plan, limitedJ),
        List.of());
  }

  /**
   * Rejects a plan that breaks a rule when it is driven again day by day: that is an error of the
   * program, and the answer is not reported.
   */
  private void requireDriven(SortiePlan plan) {
    List<String> broken =
        plan == null ? List.of() : PlanAudit.broken(asked, plan.visits(), plan.acts());
    if (!broken.isEmpty()) {
      throw new StageFailure(
          "sortie '"
              + request.name()
              + "': the plan, driven again day by day, breaks "
              + broken.size()
              + (broken.size() == 1 ? " rule" : " rules")
              + ", the first: "
              + broken.get(0)
              + "; this is a fault of the program, its answer must not be used: please report it"
              + " with the job");
    }
  }

  private List<Stop> stops(SortiePlan plan) {
    Map<Integer, Double> arrive = new LinkedHashMap<>();
    Map<Integer, Integer> day = new LinkedHashMap<>();
    for (Act a : plan == null ? List.<Act>of() : plan.acts()) {
      if (a.what() == Doing.DRIVE && a.to() > 0) {
        arrive.put(a.to(), a.toS());
      } else if (a.what() == Doing.STAY) {
        arrive.putIfAbsent(a.from(), a.fromS());
        day.put(a.from(), a.day() + 1);
      }
    }
    List<Stop> all = new ArrayList<>();
    if (plan != null) {
      for (Visit v : plan.visits()) {
        if (v.place() > 0 && v.place() <= question.targets()) {
          all.add(stop(v.place(), day.get(v.place()), arrive.get(v.place()), ""));
        }
      }
    }
    for (int k = 1; k <= question.targets(); k++) {
      if (!day.containsKey(k)) {
        all.add(stop(k, 0, Double.NaN, whyNot(k, plan)));
      }
    }
    return all;
  }

  private Stop stop(int place, int day, double arriveS, String why) {
    SortieQuestion.Spot s = question.stops().get(place - 1);
    return new Stop(
        s.name(),
        s.xM(),
        s.yM(),
        s.value(),
        s.visit().must(),
        day,
        arriveS,
        asked.rules().stopS(s.stayS(), s.walks()),
        s.walks(),
        why);
  }

  private String whyNot(int place, SortiePlan plan) {
    SortieStop s = asked.at(place);
    DayRules rules = asked.rules();
    if (question.stops().get(place - 1).cell() < 0) {
      return "outside the elevation model";
    }
    if (asked.home().kind() == HomeRule.Kind.WALK_BACK
        && s.ways().walkS() == Double.POSITIVE_INFINITY) {
      return "beyond walk-back: no walk home to a refuge from there";
    }
    if (asked.legs().count(0, place) == 0) {
      return asked.home().kind() == HomeRule.Kind.WALK_BACK
          ? "no way leads there from the base on ground from which a walk home reaches a refuge"
          : "no way leads there from the base";
    }
    if (asked.legs().count(place, 0) == 0) {
      return "no way leads home from there";
    }
    if (rules.stopS(s.stayS(), s.walks()) > rules.perDayS()) {
      return "the stay is longer than a day's hours";
    }
    if (s.walks() > rules.walks()) {
      return "more walks than a day has";
    }
    SortiePlan alone = SortieSolver.solve(with(place, rules));
    if (alone == null || alone.value() < s.value()) {
      return aloneNot(place);
    }
    if (plan == null) {
      return "no plan keeps all rules with every stop that must be done";
    }
    return plan.isProven()
        ? "other stops bring more in the days, hours, walks and supplies"
        : "no better plan with it was found, but there may be one";
  }

  /** The question with one stop and those that it waits for, which must be done. */
  private Sortie with(int place, DayRules rules) {
    List<SortieStop> all = new ArrayList<>();
    for (int k = 1; k <= asked.stops().size(); k++) {
      SortieStop s = asked.at(k);
      all.add(
          new SortieStop(
              s.name(),
              k == place ? s.value() : 0,
              s.stayS(),
              s.walks(),
              k == place,
              s.after(),
              s.opensS(),
              s.closesS(),
              s.camp(),
              s.ways()));
    }
    return asked.with(rules).withStops(all);
  }

  /** The limits of which any one, taken away, would allow the stop. */
  private String aloneNot(int place) {
    List<String> any =
        LeftOut.of(asked, place).why().stream()
            .sorted()
            .map(this::limit)
            .filter(w -> !w.isEmpty())
            .toList();
    return "not even alone: "
        + (any.isEmpty()
            ? "no single change of days, battery, life support, camps, home rule or opening hours"
                + " allows it"
            : String.join(" or ", any));
  }

  private String limit(LeftOut.Why why) {
    return switch (why) {
      case HOURS -> "opening hours";
      case DAYS -> "home by day " + asked.rules().days();
      case BATTERY -> "battery";
      case LIFE_SUPPORT -> "life support";
      case CAMPS -> "nights at camps only";
      case HOME_RULE -> "home rule";
      case NO_WAY, STAY, WALKS, SEVERAL, OTHERS -> "";
    };
  }

  /** What one day or one kilowatt hour more would bring. */
  private List<String> more(SortiePlan plan, boolean limitedJ) {
    List<String> all = new ArrayList<>();
    DayRules r = asked.rules();
    all.add(gain("One day more", plan, r.withDays(r.days() + 1)));
    if (limitedJ) {
      all.add(gain("One kWh more in the battery", plan, r.withMoreBattery(J_PER_KWH)));
    }
    return all;
  }

  private String gain(String what, SortiePlan plan, DayRules rules) {
    return gain(what, plan, SortieSolver.solve(asked.with(rules)));
  }

  /** What a plan by other rules brings more; that none was found is no proof that there is none. */
  static String gain(String what, SortiePlan plan, SortiePlan other) {
    double gain = other == null ? 0 : other.value() - plan.value();
    if (gain > 0) {
      return Digits.text("%s would bring %s more (%s in all).", what, gain, other.value());
    }
    return other != null && other.isProven()
        ? what + " would bring nothing more."
        : what + ": no better plan was found, but there may be one.";
  }
}

package org.scarpway.sortie;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.scarpway.audit.SortieAudit;
import org.scarpway.audit.SortieFacts;

/** Has a plan driven again by the independent audit. */
public final class PlanAudit {
  private PlanAudit() {}

  /** The rules that a timetable breaks, a line for each; empty if all hold. */
  public static List<String> broken(Sortie sortie, List<Visit> visits, List<Act> acts) {
    List<SortieFacts.Call> calls = new ArrayList<>();
    int from = 0;
    for (Visit v : visits) {
      calls.add(call(sortie, from, v));
      from = v.place();
    }
    Set<String> must = new HashSet<>();
    sortie.stops().stream().filter(SortieStop::must).forEach(s -> must.add(s.name()));
    List<SortieFacts.Line> lines =
        acts.stream().map(a -> new SortieFacts.Line(kind(a.what()), a.fromS(), a.toS())).toList();
    return SortieAudit.broken(limits(sortie.rules()), home(sortie.home()), calls, must, lines);
  }

  private static SortieFacts.Call call(Sortie sortie, int from, Visit v) {
    List<SortieFacts.Stretch> leg = leg(sortie.legs().way(from, v.place(), v.way()));
    if (v.place() == 0) {
      SortieFacts.From here = new SortieFacts.From(0, 0, 0, 0);
      return new SortieFacts.Call(
          "base", leg, 0, 0, Set.of(), 0, Double.POSITIVE_INFINITY, true, here, List.of());
    }
    SortieStop s = sortie.at(v.place());
    Set<String> after = new HashSet<>();
    s.after().forEach(a -> after.add(sortie.at(a).name()));
    List<List<SortieFacts.Stretch>> homeLegs = new ArrayList<>();
    for (int way = 0; way < sortie.legs().count(v.place(), 0); way++) {
      homeLegs.add(leg(sortie.legs().way(v.place(), 0, way)));
    }
    return new SortieFacts.Call(
        s.name(),
        leg,
        sortie.rules().stopS(s.stayS(), s.walks()),
        s.walks(),
        after,
        s.opensS(),
        s.closesS(),
        s.camp(),
        from(s.ways()),
        homeLegs);
  }

  private static List<SortieFacts.Stretch> leg(Leg leg) {
    return leg.pieces().stream()
        .map(
            p ->
                new SortieFacts.Stretch(
                    p.timeS(), p.energyJ(), p.peakJ(), p.camp(), from(p.ways())))
        .toList();
  }

  private static SortieFacts.From from(WaysHome w) {
    return new SortieFacts.From(w.driveS(), w.driveJ() + w.driveOffJ(), w.rescueOutS(), w.walkS());
  }

  private static SortieFacts.Limits limits(DayRules r) {
    return new SortieFacts.Limits(
        r.days(),
        r.perDayS(),
        r.driveS(),
        r.walks(),
        r.usableJ(),
        r.nightChargeJ(),
        r.hotelW(),
        r.usableS(),
        r.campsOnly());
  }

  private static SortieFacts.Home home(HomeRule h) {
    SortieFacts.Rule rule =
        switch (h.kind()) {
          case DRIVE_BACK -> SortieFacts.Rule.DRIVE;
          case WALK_BACK -> SortieFacts.Rule.WALK;
          case PAIR -> SortieFacts.Rule.RIDE;
          case BASE_RESCUE -> SortieFacts.Rule.RESCUE;
        };
    return new SortieFacts.Home(rule, h.transferS(), h.alarmS(), h.loadS(), h.byNight());
  }

  private static SortieFacts.Kind kind(Doing what) {
    return switch (what) {
      case DRIVE -> SortieFacts.Kind.DRIVE;
      case WAIT -> SortieFacts.Kind.WAIT;
      case STAY -> SortieFacts.Kind.STAY;
      case NIGHT -> SortieFacts.Kind.NIGHT;
    };
  }
}

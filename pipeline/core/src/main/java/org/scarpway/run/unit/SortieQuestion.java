package org.scarpway.run.unit;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.scarpway.config.Job;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.DrivenLeg;
import org.scarpway.reach.question.DrivenLeg.FromHere;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.trip.PlaceWays;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;
import org.scarpway.sortie.DayRules;
import org.scarpway.sortie.HomeRule;
import org.scarpway.sortie.Leg;
import org.scarpway.sortie.Legs;
import org.scarpway.sortie.Piece;
import org.scarpway.sortie.Sortie;
import org.scarpway.sortie.SortieStop;
import org.scarpway.sortie.WaysHome;

/**
 * The stops of a sortie of the job, in its order, and the question that the search answers.
 *
 * @param stops targets to choose from, then camps that are none of them
 * @param targets number of those to choose from
 */
record SortieQuestion(Job.SortieEntry entry, List<Spot> stops, int targets, Limits limits) {
  SortieQuestion {
    stops = List.copyOf(stops);
  }

  /**
   * A place that the sortie may drive to.
   *
   * @param cell of the place, less than 0 outside the elevation model
   */
  record Spot(
      String name,
      double xM,
      double yM,
      int cell,
      double value,
      double stayS,
      int walks,
      Job.TargetVisit visit,
      boolean camp) {}

  /**
   * What the vehicle carries; infinite where nothing is limited.
   *
   * @param lifeS the shorter of the sortie's own supplies and the vehicle's (s)
   */
  record Limits(double batteryJ, double lifeS, double hotelW) {}

  static SortieQuestion of(OpenJob job, Job.SortieEntry entry, Limits limits) {
    GridSpec spec = job.spec();
    List<Spot> all = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    Set<String> camps = entry.camps() == null ? Set.of() : Set.copyOf(entry.camps());
    for (String name : entry.stops()) {
      Job.TargetRow row =
          job.job().targets().rows().stream()
              .filter(r -> r.place().name().equals(name))
              .findFirst()
              .orElseThrow();
      Places.Spot s = job.places().stop(name, entry.where());
      int cell = spec.cellOf(s.xM(), s.yM());
      boolean camp = entry.camps() == null || camps.contains(name);
      seen.add(name);
      all.add(
          new Spot(
              name,
              s.xM(),
              s.yM(),
              cell,
              row.weight(),
              row.stayS(),
              row.walkCount(),
              row.visit(),
              camp));
    }
    int targets = all.size();
    for (String name : entry.camps() == null ? List.<String>of() : entry.camps()) {
      if (!name.equals(entry.from()) && seen.add(name)) {
        Places.Spot s = job.places().stop(name, entry.where());
        int cell = spec.cellOf(s.xM(), s.yM());
        all.add(new Spot(name, s.xM(), s.yM(), cell, 0, 0, 0, Job.TargetVisit.ANY_TIME, true));
      }
    }
    return new SortieQuestion(entry, all, targets, limits);
  }

  int[] cells() {
    return stops.stream().mapToInt(Spot::cell).toArray();
  }

  /** Name of a place, 0 for the base. */
  String name(int place) {
    return place == 0 ? entry.from() : stops.get(place - 1).name();
  }

  DayRules rules() {
    Reserves kept = entry.reserves();
    double batteryJ = limits.batteryJ();
    double lifeS = limits.lifeS();
    return new DayRules(
        entry.days(),
        Reserves.less(entry.perDayS(), kept.timePct()),
        Reserves.less(Math.min(entry.driveS(), entry.perDayS()), kept.timePct()),
        entry.walksADay(),
        entry.egressS(),
        entry.ingressS(),
        batteryJ,
        finite(batteryJ - Reserves.less(batteryJ, kept.energyPct())),
        entry.nightChargeJ(),
        limits.hotelW(),
        lifeS,
        finite(lifeS - Reserves.less(lifeS, kept.lifeSupportPct())),
        entry.camps() != null);
  }

  private static double finite(double kept) {
    return Double.isNaN(kept) ? 0 : kept;
  }

  Sortie asked(PlaceWays ways) {
    List<List<List<Leg>>> legs = new ArrayList<>();
    for (int i = 0; i < ways.places(); i++) {
      List<List<Leg>> row = new ArrayList<>();
      for (int j = 0; j < ways.places(); j++) {
        row.add(ways.ways(i, j).stream().map(SortieQuestion::leg).toList());
      }
      legs.add(row);
    }
    List<SortieStop> asked = new ArrayList<>();
    for (int k = 0; k < stops.size(); k++) {
      Spot s = stops.get(k);
      Set<Integer> after = new HashSet<>();
      for (int i = 0; i < stops.size(); i++) {
        if (s.visit().after().contains(stops.get(i).name())) {
          after.add(i + 1);
        }
      }
      asked.add(
          new SortieStop(
              s.name(),
              s.value(),
              s.stayS(),
              s.walks(),
              s.visit().must(),
              after,
              s.visit().opensS(),
              s.visit().closesS(),
              s.camp(),
              home(ways.homeFrom(k + 1))));
    }
    return new Sortie(rules(), rule(), asked, new Legs(legs));
  }

  private HomeRule rule() {
    return switch (entry.home()) {
      case WALK_BACK -> new HomeRule(HomeRule.Kind.WALK_BACK, 0, 0, 0, false);
      case PAIR -> new HomeRule(HomeRule.Kind.PAIR, entry.rescue().transferS(), 0, 0, false);
      case BASE_RESCUE ->
          new HomeRule(
              HomeRule.Kind.BASE_RESCUE, 0, entry.rescue().alarmS(), entry.rescue().loadS(), false);
      case NONE, DRIVE_BACK -> HomeRule.DRIVE_BACK;
    };
  }

  private static Leg leg(DrivenLeg way) {
    return new Leg(
        way.pieces().stream()
            .map(
                p ->
                    Piece.along(
                        p.timeS(), p.energyJ(), p.leastJ(), p.mostJ(), false, home(p.home())))
            .toList());
  }

  private static WaysHome home(FromHere h) {
    return new WaysHome(h.rideS(), h.rideJ(), h.rideOffJ(), h.rescueOutS(), h.walkS());
  }
}

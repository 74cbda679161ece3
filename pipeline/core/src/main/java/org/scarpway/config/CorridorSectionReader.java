package org.scarpway.config;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.config.Job.CorridorEntry;
import org.scarpway.reach.question.CorridorRequest.Cost;
import org.scarpway.reach.survey.DepartureClock;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.Walker;

/** Reads the corridor questions of a job. */
final class CorridorSectionReader {
  private final JobNames names;
  private final ReserveSettings reserves;
  private final Walker walker;
  private final HomeQuestions home;
  private final Problems problems;

  /**
   * @param walker null if the job names none
   */
  CorridorSectionReader(
      JobNames names,
      ReserveSettings reserves,
      Walker walker,
      HomeQuestions home,
      Problems problems) {
    this.names = names;
    this.reserves = reserves;
    this.walker = walker;
    this.home = home;
    this.problems = problems;
  }

  List<CorridorEntry> read(Entry corridors) {
    return JobNames.questions(corridors, this::question, this::soundParts, problems);
  }

  /** Checks the valid parts of a question of which another part violates the schema. */
  private void soundParts(Entry entry) {
    if (!entry.has("vehicle") || entry.get("vehicle").sound()) {
      names.vehicle(entry.get("vehicle"), problems);
    }
    for (String key : List.of("start", "end")) {
      if (entry.get(key).sound()) {
        names.requireStop(entry.get(key), problems);
      }
    }
    for (String key : List.of("via", "stops")) {
      for (Entry stop : entry.get(key).items()) {
        if (stop.sound()) {
          names.requireStop(stop, problems);
        }
      }
    }
    if (entry.get("within_pct").sound()) {
      percentages(entry.get("within_pct"));
    }
  }

  private CorridorEntry question(Entry entry) {
    Vehicle vehicle = names.vehicle(entry.get("vehicle"), problems);
    names.requireSuits(vehicle, entry, problems);
    Cost cost = Cost.valueOf(entry.get("cost").text().toUpperCase(Locale.ROOT));
    if (cost == Cost.ENERGY) {
      JobNames.requireEnergyModel(vehicle, entry.get("cost"), "cost: energy", problems);
    }
    boolean anyOrder = entry.has("stops");
    List<String> stops = anyOrder ? stopsInAnyOrder(entry) : stopsInOrder(entry);
    return new CorridorEntry(
        entry.get("name").text(),
        stops,
        anyOrder,
        cost,
        percentages(entry.get("within_pct")),
        entry.whole("alternatives"),
        entry.number("shared_pct"),
        entry.whole("trade_offs"),
        reserves.of(vehicle),
        ReachSectionReader.suits(vehicle, walker),
        vehicle == null ? "" : vehicle.name(),
        departure(entry.get("departs")),
        home.of(entry, stops, vehicle, problems),
        entry.at().toString());
  }

  private DepartureClock departure(Entry given) {
    if (!given.present()) {
      return DepartureClock.ELAPSED;
    }
    DepartureClock clock = DepartureClock.parse(given.text());
    if (clock == null) {
      problems.add(
          given.at(),
          "departs: " + Problems.quote(given.text()) + " is no time of day",
          "such as 06:30 or 2031-04-12T06:30",
          "correct it");
    }
    return clock;
  }

  private List<String> stopsInOrder(Entry entry) {
    Entry via = entry.get("via");
    if (!via.present()) {
      problems.add(
          entry.at(),
          "a corridor without stops",
          "via with the stops in order, or start and stops in any order",
          "add one of them");
    }
    for (String key : List.of("start", "end")) {
      if (entry.has(key)) {
        problems.add(
            entry.get(key).keyAt(),
            "key " + key + " in a corridor without stops",
            "start and end beside stops, which go in any order",
            "name the places in via, or add stops");
      }
    }
    List<String> stops = new ArrayList<>();
    for (Entry stop : via.items()) {
      names.requireStop(stop, problems);
      if (!stops.isEmpty() && stops.get(stops.size() - 1).equals(stop.text())) {
        problems.add(
            stop.at(),
            "stop " + Problems.quote(stop.text()) + " follows itself",
            "another place after every stop",
            "remove one of them");
      }
      stops.add(stop.text());
    }
    return stops;
  }

  /**
   * Returns start, stops and end: the route ends where it starts unless the job states otherwise.
   */
  private List<String> stopsInAnyOrder(Entry entry) {
    Entry start = entry.get("start");
    Entry end = entry.has("end") ? entry.get("end") : start;
    if (entry.has("via")) {
      problems.add(
          entry.get("via").keyAt(),
          "keys via and stops in one corridor",
          "via with the stops in order, or start and stops in any order",
          "remove one of them");
    }
    if (!start.present()) {
      problems.add(
          entry.get("stops").keyAt(),
          "stops in any order without a start",
          "start: the place where the route begins",
          "add start");
      return List.of();
    }
    names.requireStop(start, problems);
    if (entry.has("end")) {
      names.requireStop(end, problems);
    }
    List<String> stops = new ArrayList<>();
    stops.add(start.text());
    for (Entry stop : entry.get("stops").items()) {
      names.requireStop(stop, problems);
      if (stops.contains(stop.text()) || stop.text().equals(end.text())) {
        problems.add(
            stop.at(),
            "stop " + Problems.quote(stop.text()) + " is visited already",
            "every place once",
            "remove one of them");
      }
      stops.add(stop.text());
    }
    stops.add(end.text());
    return stops;
  }

  private List<Double> percentages(Entry within) {
    List<Double> all = new ArrayList<>();
    for (Entry entry : within.items()) {
      double pct = entry.number();
      if (!all.isEmpty() && pct <= all.get(all.size() - 1)) {
        problems.add(
            entry.at(),
            "within_pct " + entry.text(),
            "more than the one before",
            "sort them, smallest first");
      }
      all.add(pct);
    }
    return all;
  }
}

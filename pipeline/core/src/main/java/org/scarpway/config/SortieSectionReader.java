package org.scarpway.config;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.scarpway.config.Job.SortieEntry;
import org.scarpway.config.Job.TargetRow;
import org.scarpway.config.Job.TargetsFile;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.Rescue;
import org.scarpway.vehicle.Vehicle;

/** Reads the sorties of a job. */
final class SortieSectionReader {
  /** As for stops that are named, by the schema. */
  private static final int MOST_STOPS = 100;

  private final JobNames names;
  private final TargetsFile targets;
  private final Rescue rescue;
  private final ReserveSettings reserves;
  private final Problems problems;

  /**
   * @param targets null if the job names none or they cannot be read
   */
  SortieSectionReader(
      JobNames names,
      TargetsFile targets,
      Entry rescue,
      ReserveSettings reserves,
      Problems problems) {
    this.names = names;
    this.targets = targets;
    this.rescue = ReachSectionReader.rescue(rescue);
    this.reserves = reserves;
    this.problems = problems;
  }

  List<SortieEntry> read(Entry sorties) {
    return JobNames.questions(sorties, this::sortie, this::soundParts, problems);
  }

  /** Checks the valid parts of a sortie of which another part violates the schema. */
  private void soundParts(Entry entry) {
    if (entry.get("from").sound()) {
      names.requireBase(entry.get("from"), problems);
    }
    boolean named = !entry.has("vehicle") || entry.get("vehicle").sound();
    Vehicle vehicle = named ? names.vehicle(entry.get("vehicle"), problems) : null;
    requireCabin(entry, vehicle);
    if (entry.get("hours_a_day").sound() && entry.get("drive_hours_a_day").sound()) {
      requireHours(entry);
    }
    if (entry.get("stops").sound()) {
      stops(entry);
    }
    if (entry.get("camps").sound()) {
      places(entry.get("camps"));
    }
  }

  private SortieEntry sortie(Entry entry) {
    names.requireBase(entry.get("from"), problems);
    Vehicle vehicle = names.vehicle(entry.get("vehicle"), problems);
    requireCabin(entry, vehicle);
    requireHours(entry);
    HomeRule home = ReachSectionReader.rule(entry.get("home"));
    ReachSectionReader.checkHome(
        entry.get("home"), home, vehicle, null, entry.has("life_support_h"), names, problems);
    return new SortieEntry(
        entry.get("name").text(),
        entry.get("from").text(),
        entry.whole("days"),
        3600 * entry.number("hours_a_day"),
        3600 * entry.number("drive_hours_a_day"),
        entry.whole("walks_a_day"),
        60 * entry.number("egress_min"),
        60 * entry.number("ingress_min"),
        nightCharge(entry.get("night_charge_kwh"), vehicle),
        energy(entry.get("energy_kwh"), vehicle),
        entry.has("life_support_h") ? Double.valueOf(3600 * entry.number("life_support_h")) : null,
        home,
        refuges(entry.get("refuges"), home),
        entry.has("camps") ? camps(entry.get("camps"), home) : null,
        stops(entry),
        rescue,
        reserves.of(vehicle),
        vehicle == null ? "" : vehicle.name(),
        entry.at().toString());
  }

  private void requireCabin(Entry entry, Vehicle vehicle) {
    if (vehicle != null && vehicle.crew() != null && vehicle.crew().suited()) {
      problems.add(
          entry.at(),
          "a sortie of days with vehicle " + vehicle.name() + ", whose crew rides in suits",
          "a vehicle with a cabin, in which the crew lives",
          "name another vehicle, or ask a reach question instead");
    }
  }

  private void requireHours(Entry entry) {
    Entry drive = entry.get("drive_hours_a_day");
    if (drive.number() > entry.number("hours_a_day")
        && !drive.doc().origin(drive.pointer()).equals(YamlDoc.DEFAULT)) {
      problems.add(
          drive.at(),
          "drive_hours_a_day = " + drive.text(),
          "at most hours_a_day, " + entry.get("hours_a_day").text(),
          "lower it or raise hours_a_day");
    }
  }

  private double nightCharge(Entry given, Vehicle vehicle) {
    if (given.number() > 0) {
      JobNames.requireEnergyModel(vehicle, given, "night_charge_kwh", problems);
    }
    return 3.6e6 * given.number();
  }

  private Double energy(Entry given, Vehicle vehicle) {
    if (!given.present()) {
      return vehicle == null || vehicle.batteryKwh() == null
          ? null
          : Double.valueOf(3.6e6 * vehicle.batteryKwh());
    }
    JobNames.requireEnergyModel(vehicle, given, "energy_kwh", problems);
    if (vehicle != null && vehicle.batteryKwh() != null && given.number() > vehicle.batteryKwh()) {
      problems.add(
          given.at(),
          "energy_kwh = " + given.text(),
          "at most the battery of " + vehicle.name() + ", " + vehicle.batteryKwh() + " kWh",
          "lower it or name another vehicle");
    }
    return 3.6e6 * given.number();
  }

  private List<String> refuges(Entry given, HomeRule home) {
    if (!given.items().isEmpty() && home != HomeRule.WALK_BACK) {
      problems.add(
          given.keyAt(),
          "refuges without home: walk-back",
          "refuges where the crew walks home",
          "remove them or set home: walk-back");
    }
    return places(given);
  }

  private List<String> camps(Entry given, HomeRule home) {
    if (home == HomeRule.PAIR || home == HomeRule.BASE_RESCUE) {
      problems.add(
          given.keyAt(),
          "camps where a second vehicle brings the crew home",
          "camps with home: drive-back or walk-back",
          "remove camps or choose another rule");
    }
    return places(given).stream().distinct().toList();
  }

  private List<String> places(Entry given) {
    List<String> all = new ArrayList<>();
    for (Entry place : given.items()) {
      names.requireStop(place, problems);
      all.add(place.text());
    }
    return all;
  }

  /** The targets to choose from; all that must be done, and those they wait for, are among them. */
  private List<String> stops(Entry entry) {
    Entry given = entry.get("stops");
    List<TargetRow> known = targets == null ? List.of() : targets.rows();
    if (!given.present()) {
      if (known.size() > MOST_STOPS) {
        problems.add(
            entry.at(),
            "a sortie that may choose from all " + known.size() + " targets of the job",
            "at most " + MOST_STOPS + " stops",
            "name the stops to choose from");
      }
      return known.stream().map(r -> r.place().name()).toList();
    }
    List<String> all = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    for (Entry stop : given.items()) {
      requireTarget(stop);
      if (!seen.add(stop.text())) {
        problems.add(
            stop.at(),
            "stop " + Problems.quote(stop.text()) + " is given twice",
            "every target once",
            "remove one of them");
      }
      all.add(stop.text());
    }
    for (TargetRow row : known) {
      boolean asked = seen.contains(row.place().name());
      if (row.visit().must() && !asked) {
        problems.add(
            given.at(),
            "stops without " + Problems.quote(row.place().name()) + ", which must be done",
            "every target with must: yes (" + row.place().where() + ")",
            "add it to stops, or clear its must");
      }
      for (String before : row.visit().after()) {
        if (asked && !seen.contains(before)) {
          problems.add(
              given.at(),
              "stops without " + Problems.quote(before),
              "the targets that " + row.place().name() + " waits for",
              "add it to stops, or take " + row.place().name() + " out");
        }
      }
    }
    return all;
  }

  private void requireTarget(Entry stop) {
    if (!names.targets().contains(stop.text()) && names.complete()) {
      problems.add(
          stop.at(),
          "no target is called " + Problems.quote(stop.text()),
          "a name from the targets table",
          SpellingSuggestion.remedy(stop.text(), names.targets()));
    }
  }
}

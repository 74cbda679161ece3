package org.scarpway.config;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.scarpway.config.Job.CorridorEntry;
import org.scarpway.reach.CorridorRequest.Cost;
import org.scarpway.vehicle.Vehicle;

/** Reads the corridor questions of a job. */
final class CorridorSection {
  private final JobNames names;
  private final Problems problems;

  CorridorSection(JobNames names, Problems problems) {
    this.names = names;
    this.problems = problems;
  }

  List<CorridorEntry> read(Entry corridors) {
    Map<String, Entry> seen = new HashMap<>();
    List<CorridorEntry> all = new ArrayList<>();
    for (Entry entry : corridors.items()) {
      JobNames.requireNew(entry.get("name"), seen, problems);
      if (entry.sound()) {
        all.add(question(entry));
      }
    }
    return all;
  }

  private CorridorEntry question(Entry entry) {
    Vehicle vehicle = names.vehicle(entry.get("vehicle"), problems);
    Cost cost = Cost.valueOf(entry.get("cost").text().toUpperCase(Locale.ROOT));
    if (cost == Cost.ENERGY) {
      JobNames.requireEnergyModel(vehicle, entry.get("cost"), "cost: energy", problems);
    }
    return new CorridorEntry(
        entry.get("name").text(),
        stops(entry.get("via")),
        cost,
        percentages(entry.get("within_pct")),
        entry.whole("alternatives"),
        vehicle == null ? "" : vehicle.name(),
        entry.at().toString());
  }

  private List<String> stops(Entry via) {
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

package org.scarpway.config;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.config.Job.ReachEntry;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.vehicle.Vehicle;

/**
 * The reach questions by whose rules a crew on a corridor comes home: those from the place where
 * the corridor begins, with its vehicle and a home rule.
 *
 * @param asked the questions of the job as written
 * @param read those of them that were read
 */
record HomeQuestions(Entry asked, List<ReachEntry> read) {

  /**
   * The names that a corridor gives under {@code home_by}; all that apply where it gives none.
   *
   * @param stops of the corridor, empty if they could not be read
   * @param vehicle null if it is unknown
   */
  List<String> of(Entry corridor, List<String> stops, Vehicle vehicle, Problems problems) {
    Entry given = corridor.get("home_by");
    String start = stops.isEmpty() ? "" : stops.get(0);
    List<String> names = new ArrayList<>();
    if (!given.present()) {
      for (ReachEntry r : read) {
        if (vehicle != null && why(r, start, vehicle).isEmpty()) {
          names.add(r.name());
        }
      }
      return names;
    }
    for (Entry name : given.items()) {
      ReachEntry found =
          read.stream().filter(r -> r.name().equals(name.text())).findFirst().orElse(null);
      String why = found == null || vehicle == null ? "" : why(found, start, vehicle);
      if (found == null && !isAsked(name.text())) {
        List<String> known = read.stream().map(ReachEntry::name).toList();
        problems.add(
            name.at(),
            "no reach question is called " + Problems.quote(name.text()),
            "a question under reach",
            SpellingSuggestion.remedy(name.text(), known));
      } else if (!why.isEmpty()) {
        problems.add(
            name.at(),
            "home_by: question " + Problems.quote(name.text()) + " " + why,
            "a question from where the corridor begins, with its vehicle, that asks the crew home",
            "name another or none");
      }
      names.add(name.text());
    }
    return names.stream().distinct().toList();
  }

  private boolean isAsked(String name) {
    return asked.items().stream()
        .anyMatch(r -> r.isMapping() && r.get("name").sound() && r.get("name").text().equals(name));
  }

  /** Why the rules of a question do not hold on a corridor; empty if they do. */
  private static String why(ReachEntry r, String start, Vehicle vehicle) {
    if (r.home() == HomeRule.NONE) {
      return "asks nobody home";
    }
    if (!r.vehicle().equals(vehicle.name())) {
      return "is for vehicle '" + r.vehicle() + "'";
    }
    return r.from().equals(start) ? "" : "is from '" + r.from() + "'";
  }
}

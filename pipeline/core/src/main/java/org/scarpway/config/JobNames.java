package org.scarpway.config;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.function.Function;
import org.scarpway.vehicle.Vehicle;

/**
 * The names that the questions of a job may refer to.
 *
 * @param vehicles by name, in the order of the job
 * @param complete false if a vehicle or target file could not be read; an unknown name is then not
 *     reported, because the file may define it
 */
record JobNames(
    Set<String> bases,
    Set<String> targets,
    Map<String, Vehicle> vehicles,
    boolean walker,
    boolean complete) {

  /**
   * Returns the vehicle that an entry names, or the first one if it names none; null if it is
   * unknown.
   */
  Vehicle vehicle(Entry name, Problems problems) {
    if (!name.present()) {
      return complete ? vehicles.values().iterator().next() : null;
    }
    Vehicle found = vehicles.get(name.text());
    if (found == null && complete) {
      problems.add(
          name.at(),
          "no vehicle is called " + Problems.quote(name.text()),
          "a vehicle of this job",
          SpellingSuggestion.remedy(name.text(), vehicles.keySet()));
    }
    return found;
  }

  void requireBase(Entry name, Problems problems) {
    if (!bases.contains(name.text())) {
      problems.add(
          name.at(),
          "no base is called " + Problems.quote(name.text()),
          "a name from bases",
          bases.isEmpty() ? "add it to bases" : SpellingSuggestion.remedy(name.text(), bases));
    }
  }

  void requireStop(Entry name, Problems problems) {
    if (!bases.contains(name.text()) && !targets.contains(name.text()) && complete) {
      List<String> known = new ArrayList<>(new TreeSet<>(bases));
      known.addAll(targets);
      problems.add(
          name.at(),
          "no base or target is called " + Problems.quote(name.text()),
          "a name from bases or targets",
          known.isEmpty() ? "add it to bases" : SpellingSuggestion.remedy(name.text(), known));
    }
  }

  /** Requires that the vehicle of a question about energy has an energy model. */
  static void requireEnergyModel(Vehicle vehicle, Entry asked, String what, Problems problems) {
    if (vehicle == null) {
      return;
    }
    if (!vehicle.hasEnergyModel()) {
      problems.add(
          asked.at(),
          what + " for vehicle " + vehicle.name() + ", which has no energy model",
          "mass_kg, drive.power_w, drive.efficiency and drive.rolling or soil in its file",
          "add them or ask without energy");
    }
  }

  /**
   * Requires that the endurance of the suits is known, before anybody sets out, if the crew rides
   * in suits.
   */
  void requireSuits(Vehicle vehicle, Entry question, Problems problems) {
    boolean worn = vehicle != null && vehicle.crew() != null && vehicle.crew().suited();
    if (worn && !walker) {
      problems.add(
          question.at(),
          "the crew of vehicle "
              + vehicle.name()
              + " rides in suits (crew.suited), and the job has no walker",
          "walker: a walker file, whose endurance_h says how long suits last",
          "add walker to the job");
    }
  }

  /**
   * Reads the questions of one kind, each under a name of its own.
   *
   * @param question reads an entry that the schema accepts
   * @param soundParts checks the valid parts of one that it does not
   */
  static <T> List<T> questions(
      Entry entries, Function<Entry, T> question, Consumer<Entry> soundParts, Problems problems) {
    Map<String, Entry> seen = new HashMap<>();
    List<T> all = new ArrayList<>();
    for (Entry entry : entries.items()) {
      requireNew(entry.get("name"), seen, problems);
      if (entry.sound()) {
        all.add(question.apply(entry));
      } else if (entry.isMapping()) {
        soundParts.accept(entry);
      }
    }
    return all;
  }

  private static void requireNew(Entry name, Map<String, Entry> seen, Problems problems) {
    if (!name.sound()) {
      return;
    }
    Entry before = seen.putIfAbsent(name.text(), name);
    if (before != null) {
      problems.add(
          name.at(),
          "the name "
              + Problems.quote(name.text())
              + " is given twice (first at "
              + before.at()
              + ")",
          "a name of its own for every entry",
          "rename one of them");
    }
  }
}

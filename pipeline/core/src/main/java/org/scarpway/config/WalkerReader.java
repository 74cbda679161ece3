package org.scarpway.config;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.config.InputFiles.Found;
import org.scarpway.vehicle.Walker;

/** Reads walker files. */
public final class WalkerReader {
  private WalkerReader() {}

  /**
   * @throws org.scarpway.stage.UserError with one line per problem
   */
  public static Walker read(Path file) {
    Reading reading = new Reading(new Problems());
    Walker walker = read(reading.given(file), reading);
    reading.problems.throwIfAny();
    return walker;
  }

  static Walker read(Found file, Reading reading) {
    YamlDoc doc = reading.read(file, ConfigSchema.WALKER);
    if (doc == null) {
      return null;
    }
    Entry walker = Entry.of(doc);
    boolean sense = makesSense(walker, reading.problems);
    if (!walker.sound() || !sense) {
      return null;
    }
    List<Walker.SpeedAt> table = new ArrayList<>();
    for (Entry row : walker.get("speed_table").items()) {
      table.add(new Walker.SpeedAt(row.number("slope_deg"), row.number("speed_ms")));
    }
    reading.settings.addAll("walker." + walker.get("walker").text(), doc);
    Entry metabolic = walker.get("metabolic");
    return new Walker(
        walker.get("walker").text(),
        walker.get("speed_function").text(),
        table,
        walker.number("scale"),
        walker.number("max_slope_deg"),
        walker.number("max_step_m"),
        walker.number("endurance_h"),
        walker.number("reserve_h"),
        walker.get("load_kg").number(),
        metabolic.get("body_kg").number(),
        metabolic.get("equation").text(),
        metabolic.get("peak_w").number(),
        metabolic.get("mean_w").number(),
        metabolic.present() ? metabolic.number("peak_min") : Walker.PEAK_MIN,
        metabolic.get("supply_mj").number(),
        walker.get("max_walk_km").number(),
        Walker.FIRM_WAY);
  }

  private static boolean makesSense(Entry walker, Problems problems) {
    boolean good = true;
    Entry function = walker.get("speed_function");
    Entry table = walker.get("speed_table");
    if (function.present() == table.present()) {
      problems.add(
          function.present() ? table.keyAt() : walker.at(),
          function.present() ? "both speed_function and speed_table" : "no speed of walking",
          "either speed_function or speed_table",
          function.present() ? "remove one of them" : "add one of them");
      good = false;
    }
    Entry last = null;
    for (Entry row : table.items()) {
      Entry slope = row.get("slope_deg");
      if (last != null && slope.sound() && last.sound() && slope.number() <= last.number()) {
        problems.add(
            slope.at(),
            "slope_deg = " + slope.text() + " after " + last.text(),
            "slopes that increase from row to row",
            "sort the rows");
        good = false;
      }
      last = slope;
    }
    Entry reserve = walker.get("reserve_h");
    Entry endurance = walker.get("endurance_h");
    if (reserve.sound() && endurance.sound() && reserve.number() >= endurance.number()) {
      problems.add(
          reserve.at(),
          "reserve_h = " + reserve.text(),
          "less than endurance_h = " + endurance.text(),
          "lower the reserve or raise the endurance");
      good = false;
    }
    Entry mean = walker.get("metabolic").get("mean_w");
    Entry peak = walker.get("metabolic").get("peak_w");
    if (mean.sound() && peak.sound() && mean.number() > peak.number()) {
      problems.add(
          mean.at(),
          "mean_w = " + mean.text(),
          "at most peak_w = " + peak.text(),
          "swap or change them");
      good = false;
    }
    return good;
  }
}

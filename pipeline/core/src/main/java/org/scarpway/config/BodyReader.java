package org.scarpway.config;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.scarpway.config.InputFiles.Found;
import org.scarpway.grid.Body;

/** Reads the planetary body of a job: a known name, a body file, or a mapping. */
public final class BodyReader {
  private static final Map<String, Body> KNOWN =
      Map.of("moon", Body.MOON, "mars", Body.MARS, "earth", Body.EARTH);

  private BodyReader() {}

  /**
   * Reads a body file.
   *
   * @throws org.scarpway.stage.UserError with one line per problem
   */
  public static Body read(Path file) {
    Reading reading = new Reading(new Problems());
    Body body = readFile(reading.given(file), reading);
    reading.problems.throwIfAny();
    return body;
  }

  static Body read(Entry entry, Path jobFile, Reading reading) {
    if (!entry.sound()) {
      return null;
    }
    if (entry.isMapping()) {
      return figure(entry, entry.get("name").text(), reading.problems);
    }
    Body known = KNOWN.get(entry.text());
    if (known != null) {
      return known;
    }
    String text = entry.text().toLowerCase(Locale.ROOT);
    if (text.endsWith(".yaml") || text.endsWith(".yml")) {
      Found file = reading.files.one(jobFile, entry, reading.problems);
      return file == null ? null : readFile(file, reading);
    }
    reading.problems.add(
        entry.at(),
        "body is " + Problems.quote(entry.text()),
        "moon | mars | earth, a body file (.yaml), or {radius_m, gravity_ms2}",
        SpellingSuggestion.remedy(entry.text(), List.copyOf(KNOWN.keySet())));
    return null;
  }

  private static Body readFile(Found file, Reading reading) {
    YamlDoc doc = reading.read(file, ConfigSchema.BODY);
    if (doc == null || !doc.isSound("")) {
      return null;
    }
    Entry entry = Entry.of(doc);
    Body body = figure(entry, entry.get("body").text(), reading.problems);
    if (body != null) {
      reading.settings.addAll("body." + body.name(), doc);
    }
    return body;
  }

  private static Body figure(Entry entry, String name, Problems problems) {
    Entry radius = entry.get("radius_m");
    Entry major = entry.get("semi_major_m");
    Entry minor = entry.get("semi_minor_m");
    boolean sphere = radius.present() && !major.present() && !minor.present();
    boolean ellipsoid = !radius.present() && major.present() && minor.present();
    if (!sphere && !ellipsoid) {
      problems.add(
          entry.at(),
          "the figure of the body is " + (radius.present() ? "given twice" : "not given"),
          "radius_m alone, or semi_major_m with semi_minor_m",
          radius.present() ? "remove one of them" : "add them");
      return null;
    }
    if (ellipsoid && minor.number() > major.number()) {
      problems.add(
          minor.at(),
          "semi_minor_m = " + minor.text(),
          "at most semi_major_m = " + major.text(),
          "swap them");
      return null;
    }
    double a = sphere ? radius.number() : major.number();
    double b = sphere ? a : minor.number();
    return new Body(name, a, b, entry.number("gravity_ms2"));
  }
}

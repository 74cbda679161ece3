package org.scarpway.config;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.scarpway.config.InputFiles.Found;
import org.scarpway.grid.Body;
import org.scarpway.light.SkyTable;
import org.scarpway.light.TerrestrialTime;

/** Reads the sections light and contact of a job. */
final class LightSectionReader {
  /** Looks at the sky that a window may have. */
  private static final int MOST_STEPS = 200_000;

  /**
   * How far (degrees) the sun may move between two looks: changes are straight lines in between.
   */
  private static final int MOST_SUN_DEG = 4;

  /** By how much of the curvature light bends on Earth: common practice. */
  private static final double EARTH_LIGHT_BENDING = 0.13;

  /** The same for radio: rays as on a body of 4/3 of the radius, common practice. */
  private static final double EARTH_RADIO_BENDING = 0.25;

  private final Path jobFile;
  private final Body body;
  private final Reading reading;
  private final Problems problems;

  LightSectionReader(Path jobFile, Body body, Reading reading) {
    this.jobFile = jobFile;
    this.body = body;
    this.reading = reading;
    this.problems = reading.problems;
  }

  /** Returns the settings, or null if the job asks for none or they have errors. */
  LightSettings light(Entry light) {
    Found far = file(light.get("dem_far"));
    Found tableFile = file(light.get("ephemeris"));
    SkyTable table = tableFile == null ? null : SkyTableReader.read(tableFile, problems);
    if (!light.sound() || body == null) {
      return null;
    }
    Instant from = time(light.get("from"));
    Instant to = time(light.get("to"));
    List<Instant> at = new ArrayList<>();
    for (Entry entry : light.get("at").items()) {
      Instant t = time(entry);
      if (t != null && from != null && to != null && (t.isBefore(from) || t.isAfter(to))) {
        problems.add(
            entry.at(), "time " + t + " outside the window", "a time within it", "move it");
      }
      at.add(t);
    }
    if (from == null || to == null || at.contains(null) || !window(light, from, to, table)) {
      return null;
    }
    boolean slow = body.name().equals(Body.MOON.name());
    Entry step = light.get("step_min");
    double minutes = step.present() ? step.number() : slow ? 60 : 4;
    double mostMin = MOST_SUN_DEG * sunMinutesPerDegree(from, table);
    if (minutes > mostMin) {
      problems.add(
          step.at(),
          "looks at the sky " + minutes + " min apart, between which a day or night can be missed",
          "at most " + (long) mostMin + " min, in which the sun moves " + MOST_SUN_DEG + " degrees",
          "shorten it, or leave it out");
      return null;
    }
    if ((double) Duration.between(from, to).toMinutes() / minutes > MOST_STEPS) {
      problems.add(
          light.get("to").at(),
          "a window of more than " + MOST_STEPS + " steps",
          "at most so many",
          "shorten it, or lengthen light.step_min");
      return null;
    }
    List<Integer> maps = new ArrayList<>();
    light.get("horizon_maps_deg").items().forEach(e -> maps.add(e.node().intValue()));
    return new LightSettings(
        from,
        to,
        Duration.ofSeconds(Math.max(1, Math.round(60 * minutes))),
        light.whole("azimuths"),
        light.number("cell_m"),
        light.number("panel_m"),
        light.number("dark_share"),
        light.number("horizon_error_deg"),
        at,
        maps,
        far == null ? null : far.real(),
        table,
        tableFile == null ? null : tableFile.real(),
        bending(light, EARTH_LIGHT_BENDING),
        light.keyAt().toString());
  }

  /** Minutes in which the sun moves by a degree of longitude over the body. */
  private double sunMinutesPerDegree(Instant from, SkyTable table) {
    if (table != null) {
      Instant minute = from.plusSeconds(60);
      Instant later = minute.isAfter(table.last()) ? table.last() : minute;
      double moved = table.at(later).sunLonDeg() - table.at(from).sunLonDeg();
      return 1 / Math.max(1e-9, Math.abs(moved - 360 * Math.rint(moved / 360)));
    }
    // Mean solar days: 29.53 d of the Moon, 24 h 39 min 35 s of Mars.
    return switch (body.name()) {
      case "moon" -> 29.530_59 * 4;
      case "mars" -> 24.6598 / 24 * 4;
      default -> 4;
    };
  }

  private boolean window(Entry light, Instant from, Instant to, SkyTable table) {
    if (!from.isBefore(to)) {
      problems.add(light.get("to").at(), "to is not after from", "a later time", "move it");
      return false;
    }
    Instant first = table == null ? TerrestrialTime.FIRST : table.first();
    Instant last = table == null ? TerrestrialTime.END.minusSeconds(1) : table.last();
    if (from.isBefore(first) || to.isAfter(last)) {
      problems.add(
          light.get("from").at(),
          "a window from " + from + " to " + to,
          "times from " + first + " to " + last + ", for which sun and Earth are known",
          table == null ? "bring light.ephemeris for others" : "widen the table, or move it");
      return false;
    }
    boolean known =
        List.of(Body.MOON, Body.MARS, Body.EARTH).stream()
            .anyMatch(b -> b.name().equals(body.name()));
    if (table == null && !known) {
      problems.add(
          light.keyAt(),
          "light on " + body.name() + ", whose sun is not known",
          "moon, mars or earth",
          "bring light.ephemeris");
      return false;
    }
    return true;
  }

  /** Returns the settings, or null if the job asks for none or they have errors. */
  ContactSettings contact(Entry contact, Entry light, JobNames names) {
    if (!contact.sound() || body == null) {
      return null;
    }
    if (!light.present()) {
      problems.add(
          contact.keyAt(),
          "contact without light",
          "the section light, whose window, cells and azimuths hold for it",
          "add light");
      return null;
    }
    Entry earth = contact.get("earth_margin_deg");
    if (earth.present() && body.name().equals(Body.EARTH.name())) {
      problems.add(
          earth.at(), "contact with the Earth from the Earth", "another body", "remove it");
    }
    List<ContactSettings.Mast> masts = new ArrayList<>();
    boolean base = false;
    Set<String> files = new HashSet<>();
    for (Entry mast : contact.get("masts").items()) {
      names.requireStop(mast.get("at"), problems);
      boolean relay = mast.get("relay").node().booleanValue();
      base |= !relay;
      if (!files.add(ContactSettings.fileName(mast.get("at").text()))) {
        problems.add(
            mast.get("at").at(),
            "a second mast at " + mast.get("at").text() + ", or at a name that makes the same file",
            "one mast at each place, names that differ in letters or digits",
            "remove one, or rename its place");
      }
      masts.add(
          new ContactSettings.Mast(
              mast.get("at").text(), mast.number("height_m"), relay, mast.at().toString()));
    }
    if (!masts.isEmpty() && !base) {
      problems.add(contact.get("masts").at(), "relays and no mast", "a mast to pass on", "add one");
    }
    return new ContactSettings(
        earth.number(),
        contact.number("antenna_m"),
        masts,
        contact.get("frequency_mhz").number(),
        contact.number("clear_share"),
        bending(contact, EARTH_RADIO_BENDING),
        contact.keyAt().toString());
  }

  private double bending(Entry section, double onEarth) {
    Entry given = section.get("bending");
    boolean earth = body.name().equals(Body.EARTH.name());
    return given.present() ? given.number() : earth ? onEarth : 0;
  }

  private Found file(Entry entry) {
    return entry.sound() ? reading.files.one(jobFile, entry, problems) : null;
  }

  private Instant time(Entry entry) {
    try {
      return Instant.parse(entry.text());
    } catch (DateTimeParseException e) {
      problems.add(
          entry.at(),
          entry.name() + " is " + Problems.quote(entry.text()),
          "a date and time of UTC such as 2031-04-12T06:30:00Z",
          "rewrite it");
      return null;
    }
  }
}

package org.scarpway.config;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.config.InputFiles.Found;
import org.scarpway.grid.Body;
import org.scarpway.light.SkyTable;
import org.scarpway.light.TerrestrialTime;

/** Reads the sections light and contact of a job. */
final class LightSectionReader {
  /** Looks at the sky that a window may have. */
  private static final int MOST_STEPS = 200_000;

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
    for (Entry mast : contact.get("masts").items()) {
      names.requireStop(mast.get("at"), problems);
      boolean relay = mast.get("relay").node().booleanValue();
      base |= !relay;
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

package org.scarpway.config;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.scarpway.config.InputFiles.Found;
import org.scarpway.vehicle.Soil;
import org.scarpway.vehicle.Vehicle;

/** Reads vehicle files with the soil that they name. */
public final class VehicleReader {
  private VehicleReader() {}

  /**
   * Reads and checks a vehicle file and the soil file that it names.
   *
   * @param file YAML file that follows the schema of vehicles
   * @throws org.scarpway.stage.UserError with one line per problem
   */
  public static Vehicle read(Path file) {
    Reading reading = new Reading(new Problems());
    Vehicle vehicle = read(reading.given(file), reading);
    reading.problems.throwIfAny();
    return vehicle;
  }

  static Vehicle read(Found file, Reading reading) {
    YamlDoc doc = reading.read(file, ConfigSchema.VEHICLE);
    if (doc == null) {
      return null;
    }
    Entry v = Entry.of(doc);
    Soil soil = null;
    Entry soilFile = v.get("soil");
    if (soilFile.sound()) {
      Found found = reading.files.one(file.named(), soilFile, reading.problems);
      soil = found == null ? null : SoilReader.read(found, reading);
    }
    boolean sense = new VehicleValidation(v, soil, reading.problems).holds();
    if (!v.sound() || !sense || (soilFile.present() && soil == null)) {
      return null;
    }
    reading.reserves.put(v.get("vehicle").text(), v.get("reserves"));
    reading.settings.addAll("vehicle." + v.get("vehicle").text(), doc);
    return new Vehicle(
        v.get("vehicle").text(),
        v.has("summary") ? v.get("summary").text() : "",
        v.get("mass_kg").number(),
        chassis(v.get("body")),
        wheels(v.get("wheels")),
        limits(v.get("limits")),
        slowFrom(v.get("slow_from")),
        drive(v.get("drive")),
        soil,
        v.get("battery_kwh").number(),
        crew(v.get("crew")));
  }

  private static Vehicle.Chassis chassis(Entry e) {
    return new Vehicle.Chassis(
        e.number("length_m"),
        e.number("width_m"),
        e.number("clearance_m"),
        e.get("front_overhang_m").number(),
        e.get("rear_overhang_m").number(),
        e.get("cg_height_m").number());
  }

  private static Vehicle.Wheels wheels(Entry e) {
    if (!e.present()) {
      return null;
    }
    List<Double> axlesM = new ArrayList<>();
    e.get("axles_m").items().forEach(a -> axlesM.add(a.number()));
    Entry track = e.get("track_m");
    List<Double> tracksM = new ArrayList<>();
    track.items().forEach(t -> tracksM.add(t.number()));
    return new Vehicle.Wheels(
        axlesM,
        tracksM.isEmpty() ? Collections.nCopies(axlesM.size(), track.number()) : tracksM,
        e.number("radius_m"),
        e.number("width_m"),
        e.get("contact_m").number(),
        e.number("deflection"));
  }

  private static Vehicle.Limits limits(Entry e) {
    return new Vehicle.Limits(
        e.get("climb_deg").number(),
        e.get("descend_deg").number(),
        e.get("side_deg").number(),
        e.get("step_m").number(),
        e.get("tip_margin_deg").number());
  }

  private static Vehicle.SlowFrom slowFrom(Entry e) {
    return e.present()
        ? new Vehicle.SlowFrom(
            e.get("slope_deg").number(),
            e.get("step_m").number(),
            e.get("roughness_m").number(),
            e.get("slip_pct").number(),
            e.get("sinkage_m").number(),
            e.get("speed_loss_pct").number())
        : null;
  }

  private static Vehicle.Drive drive(Entry e) {
    return new Vehicle.Drive(
        e.number("speed_ms"),
        e.get("crawl_ms").number(),
        e.get("power_w").number(),
        e.get("efficiency").number(),
        e.get("regeneration").number(),
        e.get("hotel_w").number(),
        e.get("rolling").number(),
        e.number("turn_radius_m"),
        e.whole("passes"),
        e.get("mobility_index").number(),
        e.get("running_gear").text().equals("tracks"),
        sight(e));
  }

  private static Vehicle.Sight sight(Entry e) {
    return e.has("sight_m")
        ? new Vehicle.Sight(
            e.number("sight_m"), e.get("brake_ms2").number(), e.number("reaction_s"))
        : null;
  }

  private static Vehicle.Crew crew(Entry e) {
    return e.present()
        ? new Vehicle.Crew(
            e.whole("seats"),
            e.whole("rescue_seats"),
            e.get("life_support_h").number(),
            e.get("suited").node().booleanValue())
        : null;
  }
}

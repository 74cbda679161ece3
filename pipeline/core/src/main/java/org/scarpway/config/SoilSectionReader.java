package org.scarpway.config;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.config.InputFiles.Found;
import org.scarpway.config.Job.SoilSettings;
import org.scarpway.grid.Body;
import org.scarpway.vehicle.Soil;
import org.scarpway.vehicle.SoilMap;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.Walker;

/** Reads the section soils of a job: soils by place, and whether its vehicles can drive on them. */
final class SoilSectionReader {
  /** Stands for the soil of each vehicle's own file. */
  private static final String OWN = "vehicle";

  private final Path jobFile;
  private final Reading reading;
  private final Problems problems;
  private final Map<String, Soil> byName = new HashMap<>();

  SoilSectionReader(Path jobFile, Reading reading) {
    this.jobFile = jobFile;
    this.reading = reading;
    this.problems = reading.problems;
  }

  /** Returns the settings, or null if the job has none. */
  SoilSettings read(Entry soils, List<Vehicle> vehicles, Body body) {
    if (!soils.sound()) {
      return null;
    }
    vehicles.stream()
        .map(Vehicle::soil)
        .filter(s -> s != null)
        .forEach(s -> byName.put(s.name(), s));
    Path raster = null;
    List<SoilSettings.SoilClass> classes = new ArrayList<>();
    if (soils.has("raster") != soils.has("classes")) {
      problems.add(
          soils.keyAt(),
          soils.has("raster") ? "raster without classes" : "classes without a raster",
          "both",
          soils.has("raster") ? "add classes: {VALUE: soil file}" : "add raster");
    } else if (soils.has("raster")) {
      Found file = reading.files.one(jobFile, soils.get("raster"), problems);
      raster = file == null ? null : file.real();
      for (Entry entry : soils.get("classes").members()) {
        boolean own = entry.isText() && entry.text().equals(OWN);
        Soil soil = own ? null : soil(entry, vehicles, body);
        Integer value = value(entry);
        if ((own || soil != null) && value != null) {
          classes.add(new SoilSettings.SoilClass(value, soil));
        }
      }
    }
    List<SoilSettings.Area> areas = new ArrayList<>();
    for (Entry area : soils.get("areas").items()) {
      Found file = reading.files.one(jobFile, area.get("polygons"), problems);
      Soil soil = soil(area.get("soil"), vehicles, body);
      if (file != null && soil != null) {
        areas.add(new SoilSettings.Area(file.real(), soil));
      }
    }
    if (!soils.has("raster") && !soils.has("classes") && areas.isEmpty()) {
      problems.add(soils.keyAt(), "soils is empty", "raster and classes, or areas", "add them");
    }
    return new SoilSettings(
        raster,
        classes,
        areas,
        soils.get("no_data").text().equals("worst")
            ? SoilMap.Unknown.WORST
            : SoilMap.Unknown.NO_VERDICT);
  }

  /**
   * Returns the walker on the worst of all soils, wherever it is, because a walker may go anywhere.
   *
   * @param walker may be null
   * @param soils may be null
   */
  static Walker onWorst(Walker walker, SoilSettings soils, List<Vehicle> vehicles) {
    if (walker == null) {
      return null;
    }
    List<Soil> all = new ArrayList<>();
    vehicles.forEach(v -> all.add(v.soil()));
    if (soils != null) {
      soils.classes().forEach(c -> all.add(c.soil()));
      soils.areas().forEach(a -> all.add(a.soil()));
    }
    double worst = 1;
    for (Soil soil : all) {
      if (soil != null && soil.walkingFactor() != null) {
        worst = Math.max(worst, soil.walkingFactor());
      }
    }
    return walker.on(worst);
  }

  private Integer value(Entry entry) {
    if (entry.name().matches("-?[0-9]{1,7}")) {
      return Integer.valueOf(entry.name());
    }
    problems.add(
        entry.keyAt(),
        "class " + Problems.quote(entry.name()),
        "a whole number, the raster's value",
        "rewrite it");
    return null;
  }

  private Soil soil(Entry entry, List<Vehicle> vehicles, Body body) {
    Found file = reading.files.one(jobFile, entry, problems);
    Soil soil = file == null ? null : SoilReader.read(file, reading);
    if (soil == null) {
      return null;
    }
    Soil same = byName.putIfAbsent(soil.name(), soil);
    if (same != null && !same.equals(soil)) {
      problems.add(
          entry.at(),
          "another soil of the job is called " + soil.name() + " and has other numbers",
          "one soil per name",
          "rename one of them in its file");
    }
    if (soil.ratingConeIndex() != null
        && body != null
        && Math.abs(body.gravityMs2() - Body.EARTH.gravityMs2()) > 0.1) {
      problems.add(
          entry.at(),
          "soil " + soil.name() + " has a cone index",
          "bekker and shear on a body other than Earth",
          "name another soil");
    }
    for (Vehicle v : vehicles) {
      if (SoilMap.bearsOn(v)
          && !soil.resists()
          && v.drive().powerW() != null
          && v.drive().rolling() == null) {
        problems.add(
            entry.at(),
            "soil "
                + soil.name()
                + " without bekker or cone gives vehicle "
                + v.name()
                + " no motion resistance",
            "a soil with one of them, or drive.rolling in the vehicle's file",
            "add one of them");
      }
      if (SoilMap.bearsOn(v)
          && soil.bekker() != null
          && !soil.bekker().bears(v.wheels().widthM())) {
        problems.add(
            entry.at(),
            "soil " + soil.name() + " bears no wheel of vehicle " + v.name(),
            "kc + width_m kphi above 0",
            "correct kc or kphi in its file");
      }
    }
    return soil;
  }
}

package org.scarpway.config;

import java.nio.file.Path;
import org.scarpway.config.InputFiles.Found;
import org.scarpway.vehicle.ConeIndex;
import org.scarpway.vehicle.Soil;

/** Reads soil files. */
public final class SoilReader {
  private SoilReader() {}

  /**
   * @throws org.scarpway.stage.UserError with one line per problem
   */
  public static Soil read(Path file) {
    Reading reading = new Reading(new Problems());
    Soil soil = read(reading.given(file), reading);
    reading.problems.throwIfAny();
    return soil;
  }

  static Soil read(Found file, Reading reading) {
    YamlDoc doc = reading.read(file, ConfigSchema.SOIL);
    if (doc == null) {
      return null;
    }
    Entry soil = Entry.of(doc);
    if (!soil.has("bekker") && !soil.has("shear") && !soil.has("cone")) {
      reading.problems.add(
          soil.at(), "the soil has no numbers", "bekker, shear or cone", "add one of the blocks");
      return null;
    }
    if (soil.has("shear") && !soil.has("bekker")) {
      reading.problems.add(
          soil.get("shear").keyAt(),
          "shear without bekker",
          "both, since the contact length follows from the sinkage",
          "add bekker");
      return null;
    }
    Entry cone = soil.get("cone");
    boolean measured = cone.has("ci") && cone.has("ri");
    boolean half = cone.has("ci") != cone.has("ri");
    if (cone.present() && (half || measured == cone.has("rci"))) {
      reading.problems.add(
          cone.keyAt(),
          half ? "one of ci and ri" : measured ? "rci beside ci and ri" : "a cone without numbers",
          "rci, or ci and ri",
          "give one or the other");
      return null;
    }
    if (!soil.sound()) {
      return null;
    }
    reading.settings.addAll("soil." + soil.get("soil").text(), doc);
    Entry bekker = soil.get("bekker");
    Entry shear = soil.get("shear");
    return new Soil(
        soil.get("soil").text(),
        bekker.present()
            ? new Soil.Bekker(bekker.number("n"), bekker.number("kc"), bekker.number("kphi"))
            : null,
        shear.present()
            ? new Soil.Shear(
                shear.number("cohesion_pa"), shear.number("friction_deg"), shear.number("k_m"))
            : null,
        measured
            ? Double.valueOf(ConeIndex.rating(cone.number("ci"), cone.number("ri")))
            : cone.get("rci").number(),
        soil.get("walking_factor").number());
  }
}

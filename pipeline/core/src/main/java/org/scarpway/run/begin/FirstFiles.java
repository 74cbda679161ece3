package org.scarpway.run.begin;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import org.scarpway.grid.Body;

/** Writes the files of a first job from the program's templates. */
final class FirstFiles {
  /** Rated speeds (m/s) of the stand-in vehicles, as in their templates. */
  private static final double ROVER_MS = 4.2;

  private static final double TRUCK_MS = 8;

  private final Body body;

  FirstFiles(Body body) {
    this.body = body;
  }

  double speedMs() {
    return earth() ? TRUCK_MS : ROVER_MS;
  }

  private boolean earth() {
    return body.name().equals(Body.EARTH.name());
  }

  private boolean moon() {
    return body.name().equals(Body.MOON.name());
  }

  /** Writes vehicle.yaml, walker.yaml and, where the program knows a soil, soil.yaml. */
  void writeFleet(Path dir) throws IOException {
    boolean soil = earth() || moon();
    if (soil) {
      write(dir.resolve("soil.yaml"), earth() ? "soil-earth.yaml" : "soil-moon.yaml", Map.of());
    }
    String line =
        soil
            ? "soil: soil.yaml\n"
            : "# soil: soil.yaml           # YOURS; without it nothing is said of traction\n";
    write(dir.resolve("vehicle.yaml"), earth() ? "truck.yaml" : "rover.yaml", Map.of("soil", line));
    String rates =
        moon()
            ? text("lunar-rates.yaml").stripTrailing()
            : "# No published equation of work on foot is known for this body.";
    write(
        dir.resolve("walker.yaml"),
        earth() ? "hiker.yaml" : "suited.yaml",
        Map.of("metabolic", rates));
  }

  void writeJob(Path dir, Map<String, String> values) throws IOException {
    write(dir.resolve("job.yaml"), "job.yaml", values);
  }

  private static void write(Path file, String template, Map<String, String> values)
      throws IOException {
    String text = text(template);
    for (Map.Entry<String, String> v : new LinkedHashMap<>(values).entrySet()) {
      text = text.replace("{{" + v.getKey() + "}}", v.getValue());
    }
    Files.writeString(file, text);
  }

  private static String text(String template) throws IOException {
    try (InputStream in = FirstFiles.class.getResourceAsStream("/begin/" + template)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}

package org.scarpway.run.compare;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Set;
import java.util.TreeMap;
import org.scarpway.geodata.raster.RasterHeader;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.store.StageRecord;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.UserError;

/**
 * A finished run.
 *
 * @param name of the job, made unique among the runs that are compared
 * @param version of the program that made it
 * @param jobDigest digest of the job file
 * @param settings value of every setting in effect, by its key
 * @param inputs digest of every input file, by its path from the job file
 * @param keys of the stages that were answered, by their name
 * @param failed what the stages without an answer said, by their name
 * @param spec grid of its rasters
 */
record ComparedRun(
    String name,
    Path folder,
    String version,
    String jobDigest,
    NavigableMap<String, String> settings,
    NavigableMap<String, String> inputs,
    NavigableMap<String, String> keys,
    NavigableMap<String, String> failed,
    GridSpec spec) {
  private static final String MOBILITY = "mobility/";
  private static final String RECORD = "run.json";
  static final String ELEVATION = "terrain/elevation.tif";

  /** Products of stages that a comparison reads. */
  private static final Set<String> READ =
      Set.of(
          "elevation.tif",
          "gradient_east.tif",
          "gradient_north.tif",
          "class.tif",
          "state.tif",
          "areas.csv",
          "summary.csv",
          "targets.csv",
          "stops.csv",
          "alternatives.csv",
          "ranking.csv");

  /**
   * @throws UserError if the folder does not hold a finished run, or products of another one
   */
  static ComparedRun read(Path folder, String name, RasterIo io) {
    JsonNode said = record(folder);
    NavigableMap<String, String> settings = new TreeMap<>();
    said.path("settings").forEach(s -> settings.put(text(s, "key"), text(s, "value")));
    NavigableMap<String, String> inputs = new TreeMap<>();
    said.path("inputs").forEach(i -> inputs.put(text(i, "file"), text(i, "sha256")));
    NavigableMap<String, String> keys = new TreeMap<>();
    JsonNode stages = said.path("stages");
    stages.fieldNames().forEachRemaining(id -> keys.put(id, text(stages.path(id), "key")));
    NavigableMap<String, String> failed = new TreeMap<>();
    said.path("failed").properties().forEach(e -> failed.put(e.getKey(), e.getValue().asText()));
    failed.keySet().forEach(keys::remove);
    keys.forEach(
        (id, key) -> {
          StageRecord made = StageRecord.read(folder.resolve(id));
          if (made == null || !made.key().equals(key)) {
            throw altered(folder.resolve(id));
          }
          requireAsWritten(folder.resolve(id), made);
        });
    // the first vehicle of a job is that of questions that name none
    stages.properties().stream()
        .map(Map.Entry::getKey)
        .filter(id -> id.startsWith(MOBILITY))
        .findFirst()
        .map(id -> id.substring(MOBILITY.length()))
        .ifPresent(vehicle -> keys.keySet().forEach(id -> inForce(settings, id, vehicle)));
    RasterHeader h = io.header(folder.resolve(ELEVATION));
    RasterHeader.Affine t = h.transform();
    GridSpec spec =
        new GridSpec(h.rows(), h.cols(), t.xCol(), -t.yRow(), t.x0(), t.y0(), h.crsWkt());
    return new ComparedRun(
        name,
        folder,
        text(said, "scarpway"),
        text(said, "job_digest"),
        settings,
        inputs,
        keys,
        failed,
        spec);
  }

  private static void inForce(Map<String, String> settings, String stage, String vehicle) {
    if (stage.startsWith("reach/")) {
      settings.putIfAbsent(stage.replace('/', '.') + ".vehicle", vehicle);
    } else if (stage.startsWith("corridor/")) {
      settings.putIfAbsent(stage.replace("corridor/", "corridors.") + ".vehicle", vehicle);
    }
  }

  private static void requireAsWritten(Path folder, StageRecord made) {
    for (StageRecord.FileEntry p : made.files()) {
      Path file = folder.resolve(p.name());
      try {
        if (READ.contains(p.name()) && !p.isThere(file, new FileDigests())) {
          throw altered(file);
        }
      } catch (IOException e) {
        throw new StageFailure("cannot read " + file + ": " + Reason.of(e), e);
      }
    }
  }

  private static UserError altered(Path what) {
    return UserError.of(
        what.toString(),
        "not as the run that " + RECORD + " tells of left it",
        "the products of a finished run",
        "run the job again");
  }

  /** Returns the names of the jobs in the folders, each made unique by a number. */
  static List<String> names(List<Path> folders) {
    List<String> names = new ArrayList<>();
    for (Path folder : folders) {
      String job = text(record(folder), "job");
      String free = job;
      for (int i = 2; names.contains(free); i++) {
        free = job + "-" + i;
      }
      names.add(free);
    }
    return names;
  }

  private static JsonNode record(Path folder) {
    Path file = folder.resolve(RECORD);
    String expected = "the folder of a finished run, such as reports/orrel-bench";
    if (!Files.isRegularFile(file)) {
      throw UserError.of(
          folder.toString(), "has no " + RECORD, expected, "run the job, or name its folder");
    }
    try {
      JsonNode said = new ObjectMapper().readTree(file.toFile());
      if (said.path("job").asText().isEmpty() || !said.path("stages").isObject()) {
        throw UserError.of(file.toString(), "is no record of a run", expected, "run the job again");
      }
      return said;
    } catch (IOException e) {
      throw UserError.of(
          file.toString(), "cannot be read (" + Reason.of(e) + ")", expected, "run the job again");
    }
  }

  private static String text(JsonNode node, String key) {
    return node.path(key).asText();
  }

  /** The names that follow a kind of stage, such as those of all reach questions. */
  List<String> named(String kind) {
    return keys.keySet().stream()
        .filter(id -> id.startsWith(kind + "/"))
        .map(id -> id.substring(kind.length() + 1))
        .toList();
  }

  Path file(String name) {
    return folder.resolve(name);
  }
}

package org.scarpway.config;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** Expands {@code runs.matrix}: every combination of its entries becomes a job of its own. */
final class MatrixRuns {
  private MatrixRuns() {}

  /** Returns the jobs in order, vehicles outermost; the job itself if it has no matrix. */
  static List<YamlDoc> expand(YamlDoc job) {
    Entry runs = Entry.of(job).get("runs");
    if (!runs.sound()) {
      return List.of(job);
    }
    Entry matrix = runs.get("matrix");
    List<Entry> vehicles = orNone(matrix.get("vehicles").items());
    List<Entry> dems = orNone(matrix.get("dem").items());
    List<YamlDoc> jobs = new ArrayList<>();
    Set<String> names = new HashSet<>();
    for (Entry vehicle : vehicles) {
      for (Entry dem : dems) {
        YamlDoc run = job.copy();
        run.root().remove("runs");
        String name = Entry.of(job).get("job").text() + suffix(vehicle) + suffix(dem);
        if (vehicle != null) {
          ArrayNode one = JsonNodeFactory.instance.arrayNode().add(vehicle.node());
          run.root().set("vehicles", one);
          run.replacePlaces("/vehicles", vehicle.at(), one);
        }
        if (dem != null && run.root().get("dem") instanceof ObjectNode section) {
          section.set("source", dem.node());
          run.replacePlaces("/dem/source", dem.at(), dem.node());
        }
        String free = name;
        for (int i = 2; !names.add(free); i++) {
          free = name + "-" + i;
        }
        run.root().set("job", TextNode.valueOf(free));
        jobs.add(run);
      }
    }
    return jobs;
  }

  /**
   * Returns the entries, or a list with one null to loop over once if the matrix does not vary
   * them.
   */
  private static List<Entry> orNone(List<Entry> entries) {
    List<Entry> all = new ArrayList<>(entries);
    if (all.isEmpty()) {
      all.add(null);
    }
    return all;
  }

  /** Returns the file's name without folder and extension, made valid as part of a folder name. */
  private static String suffix(Entry entry) {
    if (entry == null) {
      return "";
    }
    JsonNode node = entry.isText() ? entry.node() : entry.node().path(0);
    String file = node.asText();
    String stem = file.substring(file.lastIndexOf('/') + 1).replaceFirst("\\.[^.]*$", "");
    String clean =
        stem.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-|-$", "");
    return "-" + (clean.isEmpty() ? "run" : clean);
  }
}

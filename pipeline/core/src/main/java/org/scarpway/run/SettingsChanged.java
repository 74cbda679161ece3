package org.scarpway.run;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.scarpway.config.Job;

/** Names the settings in which a job differs from the last run in its folder. */
final class SettingsChanged {
  private SettingsChanged() {}

  /**
   * Returns one line for each setting, in the order of their keys; none if the folder holds no run.
   */
  static List<String> since(Path jobFolder, Job job) {
    Path record = jobFolder.resolve("run.json");
    if (!Files.isRegularFile(record)) {
      return List.of();
    }
    SortedMap<String, String> before = new TreeMap<>();
    try {
      JsonNode said = new ObjectMapper().readTree(record.toFile());
      said.path("settings")
          .forEach(s -> before.put(s.path("key").asText(), s.path("value").asText()));
    } catch (IOException e) {
      return List.of();
    }
    SortedMap<String, String> now = new TreeMap<>();
    job.effective().forEach(s -> now.put(s.key(), s.value()));
    return before.isEmpty() ? List.of() : between(before, now);
  }

  static List<String> between(SortedMap<String, String> before, SortedMap<String, String> now) {
    SortedMap<String, String> keys = new TreeMap<>(before);
    keys.putAll(now);
    List<String> lines = new ArrayList<>();
    for (String key : keys.keySet()) {
      String was = before.get(key);
      String is = now.get(key);
      if (was == null) {
        lines.add(key + ": " + is + " is new");
      } else if (is == null) {
        lines.add(key + ": " + was + " is gone");
      } else if (!was.equals(is)) {
        lines.add(key + ": " + was + " becomes " + is);
      }
    }
    return lines;
  }
}

package org.scarpway.flow;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * A job folder that is not written yet: texts, and trees that become YAML, by file name. The job
 * itself is job.yaml, named {@code any}.
 */
record JobFiles(Map<String, Object> files) {
  // YAML 1.2 holds JSON.
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  /** A folder that was written before. */
  static JobFiles read(Path folder) throws IOException {
    Map<String, Object> files = new LinkedHashMap<>();
    for (String name : Flow.files(folder)) {
      String text = Files.readString(folder.resolve(name));
      files.put(name, name.endsWith(".yaml") ? JSON.readValue(text, Map.class) : text);
    }
    return new JobFiles(files);
  }

  JobFiles copy() throws IOException {
    Map<String, Object> copy = new LinkedHashMap<>();
    for (Map.Entry<String, Object> file : files.entrySet()) {
      Object content = file.getValue();
      copy.put(
          file.getKey(),
          content instanceof String ? content : JSON.readValue(json(content), Map.class));
    }
    return new JobFiles(copy);
  }

  Path write(Path folder) throws IOException {
    Files.createDirectories(folder);
    for (Map.Entry<String, Object> file : files.entrySet()) {
      Object content = file.getValue();
      Files.writeString(
          folder.resolve(file.getKey()), content instanceof String s ? s : json(content));
    }
    return folder.resolve("job.yaml");
  }

  static String json(Object tree) {
    try {
      return JSON.writeValueAsString(tree) + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }
}

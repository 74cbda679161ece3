package org.scarpway.run.closing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.scarpway.run.store.JobLock;
import org.scarpway.run.store.StageRecord;
import org.scarpway.run.unit.StageGraph;
import org.scarpway.run.unit.StageNode;

/**
 * Removes products that the previous run wrote for questions, vehicles or stages that the job no
 * longer has: if they stayed, they would pass for an answer of this run. A file is removed only if
 * the earlier run's record names it and its content is still what that run wrote.
 */
public final class Dropped {
  private Dropped() {}

  public static void remove(JobLock held, StageGraph graph) {
    Set<String> asked = graph.nodes().stream().map(StageNode::id).collect(Collectors.toSet());
    JsonNode stages = earlier(held.folder()).path("stages");
    for (Map.Entry<String, JsonNode> e : stages.properties()) {
      if (!asked.contains(e.getKey())
          && e.getKey().matches("[^./\\\\][^/\\\\]*(/[^./\\\\][^/\\\\]*)?")) {
        remove(held.folder(), e.getKey(), e.getValue().path("key").asText());
      }
    }
  }

  private static JsonNode earlier(Path folder) {
    try {
      Path record = folder.resolve("run.json");
      return Files.isRegularFile(record)
          ? new ObjectMapper().readTree(record.toFile())
          : new ObjectMapper().createObjectNode();
    } catch (IOException e) {
      // Not a valid record of this program, so it proves nothing.
      return new ObjectMapper().createObjectNode();
    }
  }

  private static void remove(Path jobFolder, String id, String key) {
    Path folder = jobFolder.resolve(id);
    for (Path p = folder; !p.equals(jobFolder); p = p.getParent()) {
      if (!Files.isDirectory(p, LinkOption.NOFOLLOW_LINKS)) {
        return;
      }
    }
    StageRecord record = StageRecord.read(folder);
    if (record == null || !record.key().equals(key)) {
      return;
    }
    StageRecord.removeFrom(folder, record.files(), p -> true);
    try {
      Files.deleteIfExists(folder.resolve(StageRecord.FILE));
      for (Path p = folder; !p.equals(jobFolder); p = p.getParent()) {
        Files.delete(p);
      }
    } catch (DirectoryNotEmptyException e) {
      // The folder holds somebody else's files, or those of questions that the job still asks.
    } catch (IOException e) {
      // The file stays; nothing depends on it.
    }
  }
}

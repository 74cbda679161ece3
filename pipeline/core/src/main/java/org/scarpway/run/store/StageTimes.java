package org.scarpway.run.store;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.scarpway.stage.StageFailure;

/**
 * What the stages of earlier runs took, for the estimates of the next ones: the latest samples of
 * each kind of stage, in one small file beside the entries of the store. Samples of another version
 * of the program are forgotten. The file may be deleted at any time; a run that cannot write it
 * goes on without.
 */
public final class StageTimes {
  public static final String FILE = "stage-times.json";

  /** Samples of one kind that are kept. */
  static final int KEPT = 12;

  /** By kind, oldest first. */
  private final Map<String, List<Sample>> byKind = new TreeMap<>();

  /**
   * One stage that was computed.
   *
   * @param stage its name with that of its job
   * @param work amount of work, in the unit of its kind
   * @param first true if it was the first of its kind in its process
   * @param wallS time by the clock (s)
   * @param threads number of threads of the run
   * @param bytes size of its products
   */
  public record Sample(
      String stage, double work, boolean first, double wallS, int threads, long bytes) {}

  /**
   * Reads the samples; none if there are none, or they are damaged.
   *
   * @param store null for none
   */
  public static StageTimes read(Path store) {
    StageTimes times = new StageTimes();
    JsonNode said = store == null ? null : SealedJson.read(store.resolve(FILE));
    if (said == null || !said.path("version").asText().equals(Version.text())) {
      return times;
    }
    for (Map.Entry<String, JsonNode> kind : said.path("kinds").properties()) {
      for (JsonNode s : kind.getValue()) {
        Sample sample =
            new Sample(
                s.path("stage").asText(),
                s.path("work").asDouble(),
                s.path("first").asBoolean(),
                s.path("wall_s").asDouble(),
                s.path("threads").asInt(),
                s.path("bytes").asLong());
        times.add(kind.getKey(), sample);
      }
    }
    return times;
  }

  /** Adds a sample, which replaces the oldest of its kind if there are many. */
  public void add(String kind, Sample sample) {
    if (!(sample.work > 0 && sample.wallS > 0) || sample.threads < 1) {
      return;
    }
    List<Sample> of = byKind.computeIfAbsent(kind, k -> new ArrayList<>());
    of.add(sample);
    if (of.size() > KEPT) {
      of.remove(0);
    }
  }

  /** Returns the samples of a kind, oldest first. */
  public List<Sample> of(String kind) {
    return List.copyOf(byKind.getOrDefault(kind, List.of()));
  }

  public List<String> kinds() {
    return List.copyOf(byKind.keySet());
  }

  public boolean isEmpty() {
    return byKind.isEmpty();
  }

  /** Writes the samples; nothing is lost but a better estimate if that fails. */
  public void write(Path store) {
    ObjectNode said = JsonNodeFactory.instance.objectNode();
    said.put("version", Version.text());
    ObjectNode kinds = said.putObject("kinds");
    byKind.forEach(
        (kind, samples) -> {
          ArrayNode list = kinds.putArray(kind);
          for (Sample s : samples) {
            list.addObject()
                .put("stage", s.stage)
                .put("work", s.work)
                .put("first", s.first)
                .put("wall_s", s.wallS)
                .put("threads", s.threads)
                .put("bytes", s.bytes);
          }
        });
    try {
      Files.createDirectories(store);
      SealedJson.write(store.resolve(FILE), said);
    } catch (IOException | StageFailure e) {
      // The next plan estimates from what there is.
    }
  }
}

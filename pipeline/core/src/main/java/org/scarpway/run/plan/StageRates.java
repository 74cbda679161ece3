package org.scarpway.run.plan;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.scarpway.run.ground.StageNeeds;

/**
 * Estimated seconds per cell of each stage: those of the same stage of this job if it ran before,
 * else of the same kind of stage in the newest run beside it, else as measured on the demo job.
 */
final class StageRates {
  private final Map<String, Double> byId = new HashMap<>();
  private final Map<String, Double> byKind = new HashMap<>();
  private boolean measuredHere;

  private StageRates() {}

  static StageRates from(Path out, Path jobFolder) {
    StageRates rates = new StageRates();
    for (Path record : records(out)) {
      rates.take(record, record.getParent().equals(jobFolder));
    }
    return rates;
  }

  /** Returns the run records, newest last so that it takes precedence. */
  private static List<Path> records(Path out) {
    if (!Files.isDirectory(out)) {
      return List.of();
    }
    try (Stream<Path> jobs = Files.list(out)) {
      List<Path> found = new ArrayList<>();
      jobs.map(j -> j.resolve("run.json")).filter(Files::isRegularFile).forEach(found::add);
      found.sort(
          Comparator.comparingLong((Path p) -> p.toFile().lastModified()).thenComparing(p -> p));
      return found;
    } catch (IOException | UncheckedIOException e) {
      return List.of();
    }
  }

  private void take(Path record, boolean ofThisJob) {
    JsonNode stages;
    try {
      stages = new ObjectMapper().readTree(record.toFile()).path("stages");
    } catch (IOException e) {
      return;
    }
    for (Map.Entry<String, JsonNode> e : stages.properties()) {
      double cells = e.getValue().path("cells").asDouble();
      double wallS = e.getValue().path("computed_s").asDouble();
      if (cells > 0 && wallS > 0) {
        byKind.put(StageNeeds.kind(e.getKey()), wallS / cells);
        if (ofThisJob) {
          byId.put(e.getKey(), wallS / cells);
        }
        measuredHere = true;
      }
    }
  }

  double seconds(String id, long cells) {
    Double rate = byId.get(id);
    if (rate == null) {
      rate = byKind.get(StageNeeds.kind(id));
    }
    return cells * (rate == null ? StageNeeds.of(id).secondsPerCell() : rate);
  }

  String source() {
    return measuredHere
        ? "from earlier runs beside it"
        : "from the demo job's rates, not this machine's";
  }
}

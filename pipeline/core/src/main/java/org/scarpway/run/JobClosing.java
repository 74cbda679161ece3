package org.scarpway.run;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.geodata.WriteAside;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;

/**
 * What stands for a job as a whole: the report, the catalogue, the provenance, and the answers told
 * at the end. Made anew only where a stage, a setting or an input changed; the record that says so
 * is written last and holds the digest of every file, so files of two runs never count as one.
 */
final class JobClosing {
  private static final int VERSION = 2;
  private static final String FILE = ".job.json";
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  /** What is told at the end of a run. */
  record Told(List<String> answers, List<String> warnings) {
    Told {
      answers = List.copyOf(answers);
      warnings = List.copyOf(warnings);
    }
  }

  private final Path folder;
  private final OpenJob open;
  private final StageGraph graph;
  private final StageKey key;

  JobClosing(JobLock held, OpenJob open, StageGraph graph) {
    this.folder = held.folder();
    this.open = open;
    this.graph = graph;
    StageKey.Builder k = StageKey.of("report", VERSION);
    for (StageNode<?> node : graph.nodes()) {
      k.add("stage " + node.id(), node.key().hex());
      if (node.failure() != null) {
        k.add("failure of " + node.id(), node.failure());
      }
    }
    k.add("settings", open.job().effective());
    k.add("inputs", RunRecord.inputs(open));
    k.add("time of the elevation model", StacCatalogue.newest(open.job().dem().sources()));
    this.key = k.build();
  }

  /** Whether the files are there and are those of exactly these stages and settings. */
  boolean holds() {
    JsonNode said = said();
    if (said == null || !key.hex().equals(said.path("key").asText())) {
      return false;
    }
    StageRecord files = StageRecord.of(key, said);
    return !files.files().isEmpty() && files.isIntactIn(folder);
  }

  private JsonNode said() {
    Path file = folder.resolve(FILE);
    if (!Files.isRegularFile(file)) {
      return null;
    }
    try {
      return JSON.readTree(file.toFile());
    } catch (IOException e) {
      // Not a record of ours: the files are made again.
      return null;
    }
  }

  /** What was told when the files were made. */
  Told told() {
    JsonNode said = said();
    return new Told(texts(said.path("answers")), texts(said.path("warnings")));
  }

  private static List<String> texts(JsonNode list) {
    List<String> texts = new ArrayList<>();
    list.forEach(n -> texts.add(n.asText()));
    return texts;
  }

  Told make(RunLog log) {
    log.note("[report] drawing");
    JobResults results = JobResults.of(open, graph);
    Told told = new Told(RunSummary.answers(results), results.warnings());
    new ReportUnit(open).write(folder.resolve("index.html"), results, PlacesOnGround.of(open));
    List<String> names = new ArrayList<>(List.of("index.html"));
    names.addAll(
        StacCatalogue.write(
            folder,
            open.job(),
            open.spec(),
            graph.finished().stream().map(StageNode::id).toList()));
    names.add(ProvDocument.write(folder, open, graph));
    JsonNode before = said();
    if (before != null) {
      StageRecord old = StageRecord.of(key, before);
      old.removeFrom(folder, p -> !names.contains(p.name()));
    }
    write(names, told);
    return told;
  }

  private void write(List<String> names, Told told) {
    ObjectNode said = JSON.createObjectNode();
    said.put("key", key.hex());
    try {
      StageRecord.list(said, StageRecord.products(folder, names));
    } catch (IOException e) {
      throw new StageFailure("cannot read back " + folder + ": " + Reason.of(e), e);
    }
    ArrayNode answers = said.putArray("answers");
    told.answers.forEach(answers::add);
    ArrayNode warnings = said.putArray("warnings");
    told.warnings.forEach(warnings::add);
    WriteAside.write(
        folder.resolve(FILE),
        part -> Files.writeString(part, JSON.writeValueAsString(said) + "\n"));
  }
}

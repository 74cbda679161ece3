package org.scarpway.run.closing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.progress.RunLog;
import org.scarpway.run.store.CarriedOver;
import org.scarpway.run.store.JobLock;
import org.scarpway.run.store.SealedJson;
import org.scarpway.run.store.StageKey;
import org.scarpway.run.store.StageRecord;
import org.scarpway.run.unit.PlacesOnGround;
import org.scarpway.run.unit.StageGraph;
import org.scarpway.run.unit.StageNode;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;

/**
 * The outputs of a job as a whole: report, catalogue, provenance, and the answers printed at the
 * end. They are made again only if a stage, a setting or an input changed. The record that says so
 * is written last and holds the digest of every file, so files of two different runs never count as
 * one set.
 */
public final class JobOutputs {
  private static final int VERSION = 12;
  static final String FILE = ".job.json";
  private static final String REPORT = "index.html";
  private static final String UNFINISHED = "unfinished";

  private final Path folder;
  private final OpenJob open;
  private final StageGraph graph;
  private final StageKey key;

  public JobOutputs(JobLock held, OpenJob open, StageGraph graph) {
    this(held.folder(), open, graph);
  }

  private JobOutputs(Path folder, OpenJob open, StageGraph graph) {
    this.folder = folder;
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
    k.add("command", ReportTask.command(open.job()));
    k.add("reader of rasters", open.io().name());
    k.add("what it leaves out", open.io().reduced());
    k.add("strips", open.strips());
    this.key = k.build();
  }

  /**
   * Returns all files that a run writes into the job's folder outside the folders of its stages.
   *
   * @param ids of the stages
   * @param figures names of their figures
   */
  static List<String> names(List<String> ids, List<String> figures) {
    List<String> names = new ArrayList<>(files(ids, figures));
    names.add(FILE);
    names.add(RunRecord.FILE);
    return names;
  }

  private static List<String> files(List<String> ids, List<String> figures) {
    List<String> names = new ArrayList<>(List.of(REPORT));
    names.addAll(figures);
    names.addAll(StacCatalogue.names(ids));
    names.add(ProvDocument.FILE);
    return names;
  }

  /** True if the files exist, intact, and belong to exactly these stages and settings. */
  public boolean holds() {
    return whyDrawn().isEmpty();
  }

  /**
   * Returns why a run whose stages all stand would draw the report again; empty if it would not.
   *
   * @param jobFolder is only read
   */
  public static List<String> whyDrawn(Path jobFolder, OpenJob open, StageGraph graph) {
    return new JobOutputs(jobFolder, open, graph).whyDrawn();
  }

  private List<String> whyDrawn() {
    JsonNode said = said();
    if (said == null) {
      return List.of(
          Files.exists(folder.resolve(FILE)) ? "its record is damaged" : "no report yet");
    }
    if (!key.hex().equals(said.path("key").asText())) {
      return List.of("settings, inputs or answers changed");
    }
    StageRecord files = StageRecord.of(key, said);
    boolean intact = !files.files().isEmpty() && files.isIntactIn(folder, open.digests().files());
    return intact ? List.of() : List.of("it is missing or was changed");
  }

  /** Digest over everything that the files depend on. */
  public String key() {
    return key.hex();
  }

  private JsonNode said() {
    return SealedJson.read(folder.resolve(FILE));
  }

  /** Returns the messages printed when the files were made. */
  public OutputMessages messages() {
    JsonNode said = said();
    return new OutputMessages(texts(said.path("answers")), texts(said.path("warnings")));
  }

  private static List<String> texts(JsonNode list) {
    List<String> texts = new ArrayList<>();
    list.forEach(n -> texts.add(n.asText()));
    return texts;
  }

  /** Makes the files anew; what no run wrote is kept under another name. */
  public void make(RunLog log) {
    log.note("[report] drawing");
    JobResults results = JobResults.of(open, graph);
    List<String> ids = graph.finished().stream().map(StageNode::id).toList();
    List<String> figures = FigureFiles.names(open, ids);
    List<String> names = files(ids, figures);
    JsonNode before = SealedJson.readUnproven(folder.resolve(FILE));
    List<StageRecord.FileEntry> old =
        before == null ? List.of() : StageRecord.of(key, before).files();
    Map<Path, Path> aside = setAside(names, old, before);
    writeUnfinished(names, old);
    List<String> warnings = new ArrayList<>(results.warnings());
    warnings.addAll(
        new ReportTask(open)
            .write(folder.resolve(REPORT), results, PlacesOnGround.of(open, graph.places())));
    StacCatalogue.write(folder, open.job(), open.spec(), ids, figures);
    ProvDocument.write(folder, open, graph, figures);
    StageRecord.removeFrom(folder, old, p -> !names.contains(p.name()));
    write(names, new OutputMessages(RunSummary.answers(results), warnings));
    aside.forEach((file, kept) -> settle(file, kept, log));
  }

  /**
   * Moves aside whatever has the name of an output but was not written by a run.
   *
   * @return new path by output name
   */
  private Map<Path, Path> setAside(
      List<String> names, List<StageRecord.FileEntry> old, JsonNode before) {
    Set<String> begun = new HashSet<>(before == null ? List.of() : texts(before.path(UNFINISHED)));
    Map<Path, Path> aside = new LinkedHashMap<>();
    for (String name : names) {
      Path file = folder.resolve(name);
      try {
        if (Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)
            && !begun.contains(name)
            && !isListed(name, file, old)) {
          aside.put(file, CarriedOver.setAside(file));
        }
      } catch (IOException e) {
        throw new StageFailure("cannot move " + file + ": " + Reason.of(e), e);
      }
    }
    return aside;
  }

  private boolean isListed(String name, Path file, List<StageRecord.FileEntry> old)
      throws IOException {
    for (StageRecord.FileEntry p : old) {
      if (p.name().equals(name)) {
        return p.isThere(file, open.digests().files());
      }
    }
    return false;
  }

  /** Deletes the copy that was moved aside if the new file has the same content. */
  private static void settle(Path file, Path kept, RunLog log) {
    try {
      if (CarriedOver.sameContent(file, kept)) {
        Files.delete(kept);
        return;
      }
    } catch (IOException e) {
      // The copy stays.
    }
    log.note("[report] " + file.getFileName() + " was no run's: kept as " + kept.getFileName());
  }

  /**
   * Marks the files of these names as written by a run, complete or not, until the final record is
   * written.
   */
  private void writeUnfinished(List<String> names, List<StageRecord.FileEntry> old) {
    ObjectNode said = JsonNodeFactory.instance.objectNode();
    said.put("key", "");
    StageRecord.list(said, old);
    names.forEach(said.putArray(UNFINISHED)::add);
    SealedJson.write(folder.resolve(FILE), said);
  }

  private void write(List<String> names, OutputMessages messages) {
    ObjectNode said = JsonNodeFactory.instance.objectNode();
    said.put("key", key.hex());
    try {
      StageRecord.list(said, StageRecord.products(folder, names));
    } catch (IOException e) {
      throw new StageFailure("cannot read back " + folder + ": " + Reason.of(e), e);
    }
    ArrayNode answers = said.putArray("answers");
    messages.answers().forEach(answers::add);
    ArrayNode warnings = said.putArray("warnings");
    messages.warnings().forEach(warnings::add);
    SealedJson.write(folder.resolve(FILE), said);
  }
}

package org.scarpway.run.closing;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.scarpway.config.Job;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.StageNeeds;
import org.scarpway.run.store.StageFolder;
import org.scarpway.run.store.StageRecord;
import org.scarpway.run.store.Version;
import org.scarpway.run.unit.StageGraph;
import org.scarpway.run.unit.StageNode;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;

/**
 * Writes prov.json: the stage that made each product, and the files and earlier stages that each
 * stage used, as W3C PROV in its JSON form (PROV-JSON, W3C Member Submission of 24 April 2013;
 * terms of PROV-DM, W3C Recommendation of 30 April 2013). It contains no times, which are in
 * run.json alone, so that equal work gives equal bytes.
 */
final class ProvDocument {
  static final String FILE = "prov.json";
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private final OpenJob open;
  private final Path folder;
  private final ObjectNode entities = JSON.createObjectNode();
  private final ObjectNode activities = JSON.createObjectNode();
  private final ObjectNode used = JSON.createObjectNode();
  private final ObjectNode generated = JSON.createObjectNode();
  private final ObjectNode informed = JSON.createObjectNode();
  private final ObjectNode associated = JSON.createObjectNode();

  private ProvDocument(Path folder, OpenJob open) {
    this.folder = folder;
    this.open = open;
  }

  /**
   * Writes the document for finished stages.
   *
   * @param figures files of the job's figures, which were drawn from all of them
   */
  static void write(Path folder, OpenJob open, StageGraph graph, List<String> figures) {
    ObjectNode root = new ProvDocument(folder, open).document(graph, figures);
    AtomicFileWrite.write(
        folder.resolve(FILE),
        part -> Files.writeString(part, JSON.writeValueAsString(root) + "\n"));
  }

  private ObjectNode document(StageGraph graph, List<String> figures) {
    RunRecord.inputs(open).forEach(this::input);
    for (StageNode<?> node : graph.finished()) {
      stage(node);
    }
    if (!figures.isEmpty()) {
      drawn(graph, figures);
    }
    ObjectNode root = JSON.createObjectNode();
    root.putObject("prefix")
        .put("in", "urn:scarpway:input:")
        .put("stage", "urn:scarpway:stage:")
        .put("out", "urn:scarpway:product:")
        .put("sw", "urn:scarpway:");
    root.set("entity", entities);
    root.set("activity", activities);
    ObjectNode program = root.putObject("agent").putObject("sw:program");
    program.put("prov:label", "Scarpway " + Version.text());
    program
        .putObject("prov:type")
        .put("$", "prov:SoftwareAgent")
        .put("type", "prov:QUALIFIED_NAME");
    program.put("sw:raster_io", open.io().name());
    root.set("used", used);
    root.set("wasGeneratedBy", generated);
    if (!informed.isEmpty()) {
      root.set("wasInformedBy", informed);
    }
    root.set("wasAssociatedWith", associated);
    return root;
  }

  private void input(String file, String sha256) {
    entities.putObject("in:" + sha256).put("prov:label", file).put("sw:sha256", sha256);
  }

  private void stage(StageNode<?> node) {
    String id = "stage:" + node.id();
    ObjectNode activity = activities.putObject(id);
    activity.put("prov:label", node.id());
    activity.put("sw:key", node.key().hex());
    relation(associated, "prov:activity", id, "prov:agent", "sw:program");
    for (String sha : inputsOf(StageNeeds.kind(node.id()))) {
      relation(used, "prov:activity", id, "prov:entity", "in:" + sha);
    }
    for (StageNode<?> before : node.needs()) {
      relation(informed, "prov:informed", id, "prov:informant", "stage:" + before.id());
    }
    StageRecord record = new StageFolder(folder, node.id()).record();
    record.files().forEach(p -> product(node.id() + "/" + p.name(), p, id));
  }

  private void drawn(StageGraph graph, List<String> figures) {
    String id = "stage:report";
    activities.putObject(id).put("prov:label", "report");
    relation(associated, "prov:activity", id, "prov:agent", "sw:program");
    for (StageNode<?> node : graph.finished()) {
      relation(informed, "prov:informed", id, "prov:informant", "stage:" + node.id());
    }
    try {
      StageRecord.products(folder, figures).forEach(p -> product(p.name(), p, id));
    } catch (IOException e) {
      throw new StageFailure("cannot read back " + folder + ": " + Reason.of(e), e);
    }
  }

  private void product(String name, StageRecord.FileEntry file, String madeBy) {
    entities
        .putObject("out:" + name)
        .put("prov:label", name)
        .put("sw:sha256", file.sha256())
        .put("sw:bytes", file.bytes());
    relation(generated, "prov:entity", "out:" + name, "prov:activity", madeBy);
  }

  private static void relation(
      ObjectNode list, String fromKind, String from, String toKind, String to) {
    list.putObject("_:r" + (list.size() + 1)).put(fromKind, from).put(toKind, to);
  }

  /**
   * Returns digests of the files that a kind of stage reads itself; settings count for every stage.
   */
  private Set<String> inputsOf(String kind) {
    Job job = open.job();
    Set<Path> hazard = new HashSet<>(job.hazard().keepOut());
    if (job.hazard().rockCoverageRaster() != null) {
      hazard.add(job.hazard().rockCoverageRaster());
    }
    Set<Path> soils = new HashSet<>();
    if (job.soils() != null) {
      if (job.soils().raster() != null) {
        soils.add(job.soils().raster());
      }
      job.soils().areas().forEach(a -> soils.add(a.polygons()));
    }
    Set<Path> targets = job.targets() == null ? Set.of() : Set.of(job.targets().file());
    Set<Path> heights = Set.copyOf(job.dem().sources());
    Map<String, List<Set<Path>>> read =
        Map.of(
            "hazard", List.of(hazard),
            "mobility", List.of(hazard, soils),
            "reach", List.of(heights, targets),
            "corridor", List.of(heights, targets),
            "sortie", List.of(heights, targets),
            "sites", List.of(targets));
    Set<Path> data = new HashSet<>(job.dem().sources());
    List.of(hazard, soils, targets).forEach(data::addAll);
    // A stage without files of its own depends on the ground alone and reads the elevation model.
    List<Set<Path>> own = read.getOrDefault(kind, List.of(heights));
    Set<String> digests = new TreeSet<>();
    open.digests()
        .all()
        .forEach(
            (file, sha) -> {
              if (!data.contains(file) || own.stream().anyMatch(s -> s.contains(file))) {
                digests.add(sha);
              }
            });
    return digests;
  }
}

package org.scarpway.run.closing;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import org.scarpway.config.Job;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.progress.PeakMemory;
import org.scarpway.run.progress.StageDone;
import org.scarpway.run.store.Version;
import org.scarpway.run.unit.StageGraph;
import org.scarpway.run.unit.StageNode;

/** The provenance of a run in run.json, the only product that contains times. */
public final class RunRecord {
  static final String FILE = "run.json";
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private RunRecord() {}

  public static void write(
      Path jobFolder,
      OpenJob open,
      int threads,
      StageGraph graph,
      Map<String, StageDone> stages,
      StageDone report,
      OutputMessages messages,
      double wallS) {
    Job job = open.job();
    ObjectNode root = JSON.createObjectNode();
    root.put("scarpway", Version.text());
    root.put("job", job.name());
    root.put("job_digest", open.digests().of(job.file()));
    root.put("java", System.getProperty("java.version"));
    root.put("raster_io", open.io().name());
    root.put("threads", threads);
    root.put("wall_s", rounded(wallS));
    root.put("peak_heap_mb", PeakMemory.mostHeapMb());
    root.put("heap_limit_mb", Runtime.getRuntime().maxMemory() >> 20);
    long rss = PeakMemory.residentMb();
    if (rss > 0) {
      root.put("peak_rss_mb", rss);
    }
    ArrayNode files = root.putArray("inputs");
    inputs(open).forEach((file, sha) -> files.addObject().put("file", file).put("sha256", sha));
    ArrayNode settings = root.putArray("settings");
    for (Job.Setting s : job.effective()) {
      settings.addObject().put("key", s.key()).put("value", s.value()).put("origin", s.origin());
    }
    ArrayNode said = root.putArray("warnings");
    messages.warnings().forEach(said::add);
    ObjectNode done = root.putObject("stages");
    stages.forEach((id, d) -> done(done.putObject(id), d));
    done(root.putObject("report"), report);
    for (StageNode<?> node : graph.nodes()) {
      if (node.failure() != null) {
        root.withObject("/failed").put(node.id(), node.failure());
      }
    }
    AtomicFileWrite.write(
        jobFolder.resolve(FILE),
        part -> Files.writeString(part, JSON.writeValueAsString(root) + "\n"));
  }

  private static void done(ObjectNode node, StageDone d) {
    node.put("wall_s", rounded(d.wallS()))
        .put("computed_s", d.cached() ? 0 : rounded(d.wallS()))
        .put("cpu_s", rounded(d.cpuS()))
        .put("cells", d.cells())
        .put("cached", d.cached())
        .put("from", d.from().word())
        .put("peak_heap_mb", d.peakHeapMb())
        .put("key", d.key());
  }

  /** Returns digests of the input files by their paths relative to the job file. */
  static SortedMap<String, String> inputs(OpenJob open) {
    SortedMap<String, String> inputs = new TreeMap<>();
    open.digests().all().forEach((file, sha) -> inputs.put(relative(open.job(), file), sha));
    return inputs;
  }

  /** Returns a file's path relative to the job file, so that a folder can be moved as a whole. */
  static String relative(Job job, Path file) {
    Path from = job.file().toAbsolutePath().getParent();
    Path to = file.toAbsolutePath();
    return from.getRoot().equals(to.getRoot()) ? from.relativize(to).toString() : to.toString();
  }

  private static double rounded(double s) {
    return Math.round(s * 1000) / 1000.0;
  }
}

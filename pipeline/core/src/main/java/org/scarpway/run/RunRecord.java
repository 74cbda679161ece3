package org.scarpway.run;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.scarpway.config.Job;
import org.scarpway.geodata.WriteAside;
import org.scarpway.stage.StageFailure;

/** The provenance of a run, in run.json: the only product that holds times. */
final class RunRecord {
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private RunRecord() {}

  static void write(
      Path jobFolder,
      OpenJob open,
      int threads,
      Map<String, UnitRunner.Done> stages,
      List<String> warnings,
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
    root.put("peak_heap_mb", peakHeapMb());
    long rss = peakRssMb();
    if (rss > 0) {
      root.put("peak_rss_mb", rss);
    }
    ArrayNode files = root.putArray("inputs");
    open.digests()
        .all()
        .forEach(
            (file, sha) -> {
              ObjectNode n = files.addObject();
              n.put("file", relative(job, file));
              n.put("sha256", sha);
            });
    ArrayNode settings = root.putArray("settings");
    for (Job.Setting s : job.effective()) {
      settings.addObject().put("key", s.key()).put("value", s.value()).put("origin", s.origin());
    }
    ArrayNode said = root.putArray("warnings");
    warnings.forEach(said::add);
    ObjectNode done = root.putObject("stages");
    stages.forEach(
        (id, d) ->
            done.putObject(id)
                .put("wall_s", rounded(d.wallS()))
                .put("cells", d.cells())
                .put("cached", d.cached())
                .put("key", d.key()));
    WriteAside.write(
        jobFolder.resolve("run.json"),
        part -> Files.writeString(part, JSON.writeValueAsString(root) + "\n"));
  }

  /** A file's path as seen from the job file, so that a folder can be moved as a whole. */
  static String relative(Job job, Path file) {
    Path from = job.file().toAbsolutePath().getParent();
    Path to = file.toAbsolutePath();
    return from.getRoot().equals(to.getRoot()) ? from.relativize(to).toString() : to.toString();
  }

  private static double rounded(double s) {
    return Math.round(s * 1000) / 1000.0;
  }

  private static long peakHeapMb() {
    long peak = 0;
    for (MemoryPoolMXBean pool : ManagementFactory.getMemoryPoolMXBeans()) {
      if (pool.getType() == MemoryType.HEAP) {
        peak += pool.getPeakUsage().getUsed();
      }
    }
    return peak >> 20;
  }

  /** Peak resident memory of the process (MB) where the system tells it, else 0. */
  private static long peakRssMb() {
    Path status = Path.of("/proc/self/status");
    if (!Files.isReadable(status)) {
      return 0;
    }
    try {
      for (String line : Files.readAllLines(status, StandardCharsets.UTF_8)) {
        if (line.startsWith("VmHWM:")) {
          return Long.parseLong(line.replaceAll("\\D", "")) >> 10;
        }
      }
      return 0;
    } catch (IOException e) {
      throw new StageFailure("cannot read " + status + ": " + e.getMessage(), e);
    }
  }
}

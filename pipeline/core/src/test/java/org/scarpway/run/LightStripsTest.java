package org.scarpway.run;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.config.Job;
import org.scarpway.config.JobReader;
import org.scarpway.dem.DemReader;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Strips;
import org.scarpway.run.plan.ProgressStyle;
import org.scarpway.run.progress.ConsoleLog;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.store.JobLock;
import org.scarpway.run.store.StageStore;
import org.scarpway.run.unit.StageGraph;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/** Light and contact on ground larger than memory, and with ground beyond. */
class LightStripsTest {
  private static final Path ROOT =
      Path.of(System.getProperty("scarpway.root", "../..")).toAbsolutePath().normalize();

  @TempDir Path dir;

  private Path job(double sizeM, String far) throws IOException {
    return Files.writeString(
        dir.resolve("job.yaml"),
        """
        scarpway: 1
        job: lit
        body: moon
        dem: {source: %1$s/sample-dem/orrel-bench.tif, window: {centre: [72150, 93950], size_m: [%2$s, %2$s]}}
        vehicles: [%1$s/configs/vehicles/open-buggy.yaml]
        bases: {hearth: [72150, 93950], aside: [72200, 94000]}
        light: {from: "2031-04-01T00:00:00Z", to: "2031-04-29T00:00:00Z", step_min: 240, azimuths: 36, cell_m: 10, at: ["2031-04-09T00:00:00Z"]%3$s}
        contact: {earth_margin_deg: 0.5, masts: [{at: hearth, height_m: 4}]}
        """
            .formatted(ROOT, sizeM, far));
  }

  /** Products of light and contact; {@code stripRows} 0 for all in memory. */
  private Map<String, byte[]> products(Path file, int stripRows, int threads) throws IOException {
    Job job = JobReader.read(file, Map.of());
    RasterIo io = RasterIos.best();
    Path out = Files.createTempDirectory(dir, "out");
    PrintStream silent =
        new PrintStream(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8);
    try (Workers workers = new Workers(threads);
        JobLock lock = JobLock.take(out)) {
      GridSpec spec = DemReader.spec(job.dem(), io);
      Strips strips = stripRows == 0 ? Strips.whole(spec) : Strips.many(spec, stripRows, 2);
      OpenJob open = OpenJob.open(job, spec, strips, io, new FileDigests(), workers, Progress.NONE);
      StageGraph graph = new StageGraph(open);
      StageRunner runner =
          new StageRunner(
              lock,
              new StageStore(null, 0, new FileDigests()),
              new ConsoleLog(silent, ProgressStyle.quiet),
              false,
              workers.memory());
      graph.nodes().forEach(runner::finish);
      assertTrue(graph.light().isFinished() && graph.contact().isFinished());
    }
    Map<String, byte[]> bytes = new TreeMap<>();
    for (String folder : new String[] {"light", "contact"}) {
      try (var files = Files.list(out.resolve(folder))) {
        for (Path p : (Iterable<Path>) files::iterator) {
          if (p.toString().matches(".*\\.(tif|csv)")) {
            bytes.put(folder + "/" + p.getFileName(), Files.readAllBytes(p));
          }
        }
      }
    }
    return bytes;
  }

  @Test
  void stripsAndThreadsChangeNoByte() throws IOException {
    Path file = job(500, "");
    Map<String, byte[]> whole = products(file, 0, 2);
    assertTrue(whole.containsKey("light/mean_share.tif"), whole.keySet().toString());
    assertTrue(whole.containsKey("contact/link.tif"), whole.keySet().toString());
    Map<String, byte[]> cut = products(file, 32, 1);
    assertEquals(whole.keySet(), cut.keySet());
    for (String name : whole.keySet()) {
      assertArrayEquals(whole.get(name), cut.get(name), name);
    }
  }

  /**
   * Ground cut out of a wider model, with that model as far ground: horizons of a place are those
   * on the uncut ground, and no longer lie at the edge of the data.
   */
  @Test
  void farGroundStandsInForTheRest() throws IOException {
    String[] wide = table(products(job(1500, ""), 0, 2));
    String[] cut = table(products(job(300, ""), 0, 2));
    String[] joined =
        table(products(job(300, ", dem_far: " + ROOT + "/sample-dem/orrel-bench.tif"), 0, 2));
    int low = 0;
    int edges = 0;
    int compared = 0;
    for (int i = 1; i < wide.length; i++) {
      double all = Double.parseDouble(wide[i].split(",")[3]);
      double part = Double.parseDouble(cut[i].split(",")[3]);
      double both = Double.parseDouble(joined[i].split(",")[3]);
      low += part < all - 0.2 ? 1 : 0;
      // Below level and marked, the 1500 m know no horizon and take level ground for it.
      boolean assumed = all < 0 && wide[i].endsWith(",yes");
      compared += assumed ? 0 : 1;
      assertTrue(
          assumed || both > all - 0.12, "far ground is seen: " + wide[i] + " and " + joined[i]);
      edges += joined[i].endsWith(",yes") ? 1 : 0;
    }
    assertTrue(compared > wide.length / 2, "horizons compared: " + compared);
    assertTrue(low > 5, "without it horizons are too low: " + low);
    assertTrue(edges < wide.length / 10, "at the edge of the far ground: " + edges);
  }

  private static String[] table(Map<String, byte[]> products) {
    return new String(products.get("light/horizons.csv"), StandardCharsets.UTF_8).split("\r?\n");
  }
}

package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.BandInfo;
import org.scarpway.geodata.CellKind;
import org.scarpway.geodata.RasterIos;
import org.scarpway.geodata.RasterSink;
import org.scarpway.grid.GridSpec;

/** A job whose ground needs three times the heap that it is given, from its file to its report. */
class SmallHeapFlowTest {
  private static final int SIDE = 1400;
  private static final int HEAP_MB = 80;

  @TempDir Path dir;

  @Test
  void groundLargerThanTheHeapRunsThroughAndWhatNeedsItAllIsRefused() throws Exception {
    GridSpec spec = new GridSpec(SIDE, SIDE, 5, 5, 0, 5.0 * SIDE, "");
    float[] row = new float[SIDE];
    try (RasterSink<float[]> sink =
        RasterIos.pureJava()
            .sink(dir.resolve("z.tif"), spec, CellKind.FLOAT32, BandInfo.of("height", "m"))) {
      for (int r = 0; r < SIDE; r++) {
        for (int c = 0; c < SIDE; c++) {
          row[c] = (float) (30 * Math.sin(r / 19.0) * Math.cos(c / 27.0) + Math.sin(r * 1.7 + c));
        }
        sink.append(row, 0, 1);
      }
      sink.finish();
    }
    String job =
        """
        scarpway: 1
        job: wide
        body: moon
        dem: {source: z.tif, units: metres}
        vehicles: [%s/configs/vehicles/pressurised-rover.yaml]
        bases: {home: [3500, 3500]}
        """
            .formatted(Flow.ROOT);
    Path file = Files.writeString(dir.resolve("job.yaml"), job);
    // Counts over what the command line says.
    List<String> heap = List.of("_JAVA_OPTIONS=-Xmx" + HEAP_MB + "m");
    Path out = dir.resolve("out");
    Flow.Outcome o =
        Flow.scarpwayApart(List.of(), heap, "run", file, "--out", out, "--no-store").ok();
    assertTrue(o.out().contains("Larger than memory: worked in strips"), o.out());
    assertTrue(Files.exists(out.resolve("wide/index.html")));
    assertTrue(Files.exists(out.resolve("wide/mobility/pressurised-rover/class.tif")));
    JsonNode run = new ObjectMapper().readTree(out.resolve("wide/run.json").toFile());
    assertTrue(run.get("peak_heap_mb").asLong() <= HEAP_MB, run.get("peak_heap_mb").asText());

    Files.writeString(
        file,
        job + "reach: [{name: day, from: home, budget: {drive_h: 1}, home: none, bands: [1h]}]\n");
    Path none = dir.resolve("none");
    Flow.Outcome refused =
        Flow.scarpwayApart(List.of(), heap, "run", file, "--out", none, "--no-store");
    assertEquals(2, refused.code(), refused.err());
    assertTrue(refused.err().contains("dem.cell_size_m"), refused.err());
    assertTrue(refused.err().contains("-Xmx"), refused.err());
    assertFalse(Files.exists(none.resolve("wide/terrain")), "nothing is written");
  }
}

package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;

/** One small run of the demo ground, and what must not change when it is run again otherwise. */
class DemoFlowTest {
  @TempDir static Path dir;
  private static Path job;
  private static Path first;
  private static String summary;

  @BeforeAll
  static void runOnce() throws IOException {
    job = DemoJob.write(dir);
    summary = run(dir.resolve("first"), "--threads", 1, "--quiet").out();
    first = dir.resolve("first").resolve(DemoJob.NAME);
  }

  private static Flow.Outcome run(Path out, Object... more) {
    List<Object> args = new ArrayList<>(List.of("run", job, "--out", out));
    args.addAll(List.of(more));
    return Flow.scarpway(args.toArray()).ok();
  }

  private static SortedMap<String, String> products(Path run) throws IOException {
    return Flow.digests(run, n -> !n.equals("run.json") && !n.equals(".lock"));
  }

  private static JsonNode stages(Path run) throws IOException {
    return new ObjectMapper().readTree(run.resolve("run.json").toFile()).get("stages");
  }

  private static SortedSet<String> computed(Path run) throws IOException {
    TreeSet<String> names = new TreeSet<>();
    stages(run)
        .properties()
        .forEach(
            e -> {
              if (!e.getValue().get("cached").asBoolean()) {
                names.add(e.getKey());
              }
            });
    return names;
  }

  @Test
  void sameBytesWhateverTheThreads() throws Exception {
    run(dir.resolve("two"), "--threads", 2, "--quiet");
    assertEquals(products(first), products(dir.resolve("two").resolve(DemoJob.NAME)));
  }

  @Test
  void summaryAndReportSayEverything() throws Exception {
    for (String word :
        List.of(
            "pressurised-rover: go",
            "open-buggy: go",
            "rover-day (from hearth",
            "across (",
            "Report: ",
            "not clearance to drive")) {
      assertTrue(summary.contains(word), () -> word + " in " + summary);
    }
    String html = Files.readString(first.resolve("index.html"));
    for (String id :
        List.of("answers", "cautions", "main-map", "places", "method", "settings", "warnings")) {
      assertTrue(html.contains("<section id=\"" + id + "\""), id);
    }
    for (String name : List.of("rover-day", "buggy-walk-back", "across", "hearth", "open-buggy")) {
      assertTrue(html.contains(name), name);
    }
    assertFalse(html.matches("(?s).*(src|href)=\"(https?:)?//.*"), "report needs the network");
  }

  @Test
  void movedFolderIsReusedAndAChangedVehicleCostsOnlyWhatHangsOnIt() throws Exception {
    Path out = dir.resolve("again");
    Path run = out.resolve(DemoJob.NAME);
    for (String name : Flow.files(first)) {
      Files.createDirectories(run.resolve(name).getParent());
      Files.copy(first.resolve(name), run.resolve(name));
    }
    // A killed run leaves parts behind; the next one clears them and no product is lost.
    Files.createDirectories(run.resolve(".hazard.part"));
    Files.writeString(run.resolve(".hazard.part/.stage.json"), "half");
    Files.writeString(run.resolve(".hazard.part/hazard.tif"), "half");
    Files.move(run.resolve("mobility/open-buggy"), run.resolve("mobility/.open-buggy.old"));
    Flow.Outcome again = run(out, "--progress", "plain");
    assertTrue(again.err().contains("[terrain] unchanged, reused"), again.err());
    assertEquals(new TreeSet<>(), computed(run));
    assertEquals(products(first), products(run));

    Path vehicle = dir.resolve("open-buggy.yaml");
    String before = Files.readString(vehicle);
    assertTrue(before.contains("speed_ms: 3.3 "), before);
    try {
      Files.writeString(vehicle, before.replace("speed_ms: 3.3 ", "speed_ms: 3.0 "));
      run(out, "--quiet");
    } finally {
      Files.writeString(vehicle, before);
    }
    assertEquals(
        new TreeSet<>(List.of("mobility/open-buggy", "reach/buggy-walk-back")), computed(run));
    SortedMap<String, String> changed = products(run);
    SortedMap<String, String> old = products(first);
    for (String name : old.keySet()) {
      boolean hangsOnIt = name.matches(".*buggy.*|index.html|[.]job.json|prov.json");
      assertTrue(hangsOnIt || old.get(name).equals(changed.get(name)), name);
    }
    String speed = "mobility/open-buggy/speed_ms.tif";
    assertNotEquals(old.get(speed), changed.get(speed));
  }

  @Test
  void pureJavaPathGivesTheSameCellsAndSaysWhatIsReduced() throws Exception {
    Path out = dir.resolve("java");
    Flow.Outcome o =
        Flow.scarpwayApart(
                List.of(), List.of("SCARPWAY_RASTER=java"), "run", job, "--out", out, "--quiet")
            .ok();
    assertEquals("", o.err());
    assertTrue(o.out().contains("only GeoTIFF and text grids are read"), o.out());
    assertTrue(o.out().contains("to install GDAL: pipeline/bin/build-gdal-native"), o.out());
    Path run = out.resolve(DemoJob.NAME);
    assertEquals(products(first).keySet(), products(run).keySet());
    RasterIo gdal = RasterIos.gdal();
    for (String name : products(first).keySet()) {
      if (name.endsWith(".tif")) {
        var a = gdal.header(first.resolve(name));
        var b = gdal.header(run.resolve(name));
        float[] cells = new float[a.rows() * a.cols()];
        float[] same = new float[cells.length];
        gdal.read(a, 0, 0, a.rows(), a.cols(), 0, cells);
        gdal.read(b, 0, 0, b.rows(), b.cols(), 0, same);
        assertArrayEquals(cells, same, name);
      } else if (name.endsWith(".csv") || name.endsWith(".gpkg")) {
        assertEquals(Flow.sha256(first.resolve(name)), Flow.sha256(run.resolve(name)), name);
      }
    }
  }

  @Test
  void everyCandidateIsRankedOnceByTheSameQuestions() throws Exception {
    Table ranking = Table.read(first.resolve("sites/ranking.csv"));
    assertEquals(List.of("1", "2"), ranking.rows().stream().map(r -> r.text("rank")).toList());
    assertEquals(
        Set.of("hearth", "far-corner"),
        ranking.rows().stream().map(r -> r.text("site")).collect(Collectors.toSet()));
    for (Table.Row r : ranking.rows()) {
      assertTrue(r.number("reach_km2") > 0 && r.number("reach_km2") <= 0.49, r.where());
      assertTrue(r.number("mean_slope_deg") > 0 && r.number("mean_slope_deg") < 20, r.where());
    }
    assertTrue(ranking.rows().get(0).number("score") >= ranking.rows().get(1).number("score"));
    Table stability = Table.read(first.resolve("sites/stability.csv"));
    double firstPct = 0;
    for (Table.Row r : stability.rows()) {
      firstPct += r.number("first_pct");
    }
    assertEquals(
        200, firstPct, 0.02, "one candidate comes first in each draw, for two ways of drawing");
    assertTrue(Files.size(first.resolve("sites/sites.gpkg")) > 0);
  }

  @Test
  void checkProbeAndExplain() {
    Flow.Outcome check = Flow.scarpway("check", job).ok();
    // Snyder 1987, polar stereographic of a sphere: drawn 1 + tan2(c / 2) times as long where the
    // map lies 2 R tan(c / 2) from the pole.
    double tan = Math.hypot(72_300, 94_050) / 2 / 1_737_400;
    String side = String.format(Locale.ROOT, "%.3f", 5 / (1 + tan * tan));
    assertTrue(
        check.out().startsWith("corner: ok. 140 x 140 cells of " + side + " x " + side + " m on"),
        check.out());
    Flow.Outcome probe =
        Flow.scarpway("probe", Flow.ROOT.resolve("sample-dem/orrel-bench.tif")).ok();
    assertTrue(probe.out().contains("1200"), probe.out());
    assertTrue(probe.out().contains("south polar stereographic"), probe.out());
    Flow.Outcome explain =
        Flow.scarpway("explain", job, "72150", "93950", "--out", dir.resolve("first")).ok();
    for (String word :
        List.of("slope", "step height", "open-buggy", "pressurised-rover", "rover-day")) {
      assertTrue(explain.out().contains(word), () -> word + " in " + explain.out());
    }
    Flow.Outcome one =
        Flow.scarpway("explain", job, "72150", "93950", "--vehicle", "open-buggy").ok();
    assertFalse(one.out().contains("pressurised-rover"), one.out());
  }

  @Test
  void sampleWritesTheCellsOfTheFolderThatIsCarried() throws Exception {
    Path made = dir.resolve("sample");
    Flow.scarpway("sample", made).ok();
    Path carried = Flow.ROOT.resolve("sample-dem");
    assertEquals(Flow.files(carried), Flow.files(made));
    RasterIo io = RasterIos.best();
    for (String name : List.of("orrel-bench.tif", "rock-coverage.tif")) {
      assertArrayEquals(
          io.readFloats(carried.resolve(name)).values(),
          io.readFloats(made.resolve(name)).values(),
          name);
    }
    for (String name : List.of("targets.csv", "README.md", "keep-out.gpkg")) {
      assertEquals(Flow.sha256(carried.resolve(name)), Flow.sha256(made.resolve(name)), name);
    }
  }
}

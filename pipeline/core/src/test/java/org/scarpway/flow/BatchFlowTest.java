package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Many jobs in one call, work shared between them, and what is told before and while they run. */
class BatchFlowTest {
  @TempDir Path dir;

  private Path job(String name, double marginM, String more) throws IOException {
    Path folder = Files.createDirectories(dir.resolve("of-" + name));
    return SmallJob.write(folder.resolve("job.yaml"), name, marginM, more);
  }

  private static SortedMap<String, String> from(Path run) throws IOException {
    SortedMap<String, String> from = new TreeMap<>();
    new ObjectMapper()
        .readTree(run.resolve("run.json").toFile())
        .get("stages")
        .properties()
        .forEach(e -> from.put(e.getKey(), e.getValue().get("from").asText()));
    return from;
  }

  @Test
  void jobsShareWhatTheyHaveInCommon() throws Exception {
    Path out = dir.resolve("out");
    Path first = job("first", 10, "");
    Path second = job("second", 12, "");
    Flow.Outcome both = Flow.scarpway("run", first, second, "--out", out, "--quiet").ok();
    assertTrue(both.out().contains("vehicles"), both.out());
    assertEquals("computed", from(out.resolve("first")).get("terrain"));
    SortedMap<String, String> shared = from(out.resolve("second"));
    assertEquals("store", shared.get("terrain"), "the margin is none of the terrain's business");
    assertEquals("computed", shared.get("hazard"));

    // The same products as without a store, and they survive the store.
    Path alone = dir.resolve("alone");
    Flow.scarpway("run", second, "--out", alone, "--quiet", "--no-store").ok();
    assertFalse(Files.exists(alone.resolve(".store")));
    assertEquals(products(alone.resolve("second")), products(out.resolve("second")));

    // A folder that was lost is had again from the store alone.
    deleteTree(out.resolve("second"));
    Flow.scarpway("run", second, "--out", out, "--quiet").ok();
    assertEquals(Set.of("store"), new HashSet<>(from(out.resolve("second")).values()));
    assertEquals(products(alone.resolve("second")), products(out.resolve("second")));
  }

  @Test
  void aSpoiltEntryOfTheStoreIsNotTaken() throws Exception {
    Path out = dir.resolve("out");
    Path job = job("one", 10, "");
    Flow.scarpway("run", job, "--out", out, "--quiet").ok();
    SortedMap<String, String> sound = products(out.resolve("one"));
    deleteTree(out.resolve("one"));
    int spoilt = 0;
    for (String name : Flow.files(out.resolve(".store"))) {
      if (name.endsWith("slope_deg.tif")) {
        Path file = out.resolve(".store").resolve(name);
        byte[] bytes = Files.readAllBytes(file);
        bytes[bytes.length / 2] ^= 1;
        Files.write(file, bytes);
        spoilt++;
      }
    }
    assertEquals(1, spoilt);
    Flow.scarpway("run", job, "--out", out, "--quiet").ok();
    assertEquals("computed", from(out.resolve("one")).get("terrain"));
    assertEquals("store", from(out.resolve("one")).get("hazard"));
    assertEquals(sound, products(out.resolve("one")));
  }

  @Test
  void theStoreKeepsToItsBound() throws Exception {
    Path out = dir.resolve("out");
    Path job = job("one", 10, "");
    Path fronts = out.resolve(".store/fronts");
    Flow.scarpway("run", job, "--out", out, "--quiet").ok();
    assertFalse(Flow.files(fronts).isEmpty());
    Flow.scarpway("run", job, "--out", out, "--quiet", "--store-gb", "0").ok();
    assertEquals(List.of(), List.copyOf(Flow.files(fronts)));
    assertFalse(Flow.files(out.resolve(".store")).isEmpty(), "names of files in use take no room");
    deleteTree(out.resolve("one"));
    Path other = job("other", 12, "");
    Flow.scarpway("run", other, "--out", out, "--quiet", "--store-gb", "0").ok();
    for (String name : Flow.files(out.resolve(".store"))) {
      if (name.equals("stage-times.json")) {
        continue;
      }
      int names =
          ((Number) Files.getAttribute(out.resolve(".store").resolve(name), "unix:nlink"))
              .intValue();
      assertTrue(names > 1, name);
    }
  }

  @Test
  void oneThatFailsDoesNotStopTheOthers() throws Exception {
    Path out = dir.resolve("out");
    Path good = job("good", 10, "");
    Path onNoGo = job("bad", 10, "");
    Files.writeString(
        onNoGo, Files.readString(onNoGo).replace("hearth: [72150, 93950]", "hearth: [1, 1]"));
    Path broken = Files.writeString(dir.resolve("broken.yaml"), "scarpway: [1");
    Flow.Outcome o = Flow.scarpway("run", broken, onNoGo, good, "--out", out, "--quiet");
    assertEquals(2, o.code(), o.err());
    assertEquals(2, o.errLines().size(), o.err());
    assertTrue(Files.exists(out.resolve("good/index.html")));
    assertFalse(Files.exists(out.resolve("bad")));
    List<String> table =
        o.out().lines().filter(l -> l.matches("(?s).*  (done|failed: .*)")).toList();
    assertEquals(3, table.size(), o.out());
    assertTrue(table.get(1).startsWith("bad "), o.out());
    assertTrue(table.get(2).startsWith("good "), o.out());

    Files.writeString(out.resolve("file"), "in the way");
    Path inTheWay = job("file", 10, "");
    Path twice = job("again", 10, "");
    Files.writeString(twice, Files.readString(twice).replace("job: again", "job: good"));
    Flow.Outcome p = Flow.scarpway("run", good, twice, inTheWay, "--out", out, "--quiet");
    assertEquals(2, p.code(), p.err());
    assertTrue(p.err().contains("has the name of one in"), p.err());
  }

  @Test
  void aMatrixIsManyRuns() throws Exception {
    Path job = job("grid", 10, "");
    Path slower = job.resolveSibling("slower.yaml");
    Files.writeString(
        slower,
        Files.readString(job.resolveSibling("open-buggy.yaml"))
            .replace("vehicle: open-buggy", "vehicle: slower")
            .replace("speed_ms: 3.3 ", "speed_ms: 2.0 "));
    Files.writeString(
        job,
        Files.readString(job) + "runs: {matrix: {vehicles: [open-buggy.yaml, slower.yaml]}}\n");
    Path out = dir.resolve("out");
    Flow.Outcome o = Flow.scarpway("run", job, "--out", out, "--quiet").ok();
    assertTrue(o.out().lines().anyMatch(l -> l.startsWith("grid-slower ")), o.out());
    assertEquals("store", from(out.resolve("grid-slower")).get("terrain"));
    assertEquals("computed", from(out.resolve("grid-slower")).get("mobility/slower"));
  }

  @Test
  void planTellsWhatAndWhyAndTouchesNothing() throws Exception {
    Path out = dir.resolve("out");
    Path job = job("small", 10, "");
    Flow.Outcome before = Flow.scarpway("plan", job, "--out", out).ok();
    assertTrue(before.out().contains("6 of 6 stages to run"), before.out());
    assertTrue(before.out().contains("no products yet"), before.out());
    assertFalse(Files.exists(out));
    Flow.scarpway("run", job, "--out", out, "--quiet").ok();
    SortedMap<String, String> all = Flow.digests(out, n -> true);
    Flow.Outcome after = Flow.scarpway("plan", job, "--out", out).ok();
    assertTrue(after.out().contains("0 of 6 stages to run"), after.out());
    Flow.Outcome changed =
        Flow.scarpway("plan", job, "--out", out, "--set", "hazard.margin_m=12").ok();
    assertTrue(changed.out().contains("5 of 6 stages to run"), changed.out());
    assertTrue(changed.out().contains("margin 10 becomes margin 12"), changed.out());
    assertTrue(changed.out().contains("mobility changes"), changed.out());
    assertTrue(changed.out().contains("from earlier runs beside it"), changed.out());
    assertEquals(all, Flow.digests(out, n -> true));
  }

  @Test
  void whatWillNotFitIsRefusedBeforeAnythingIsWritten() throws Exception {
    Path out = dir.resolve("out");
    Path job = job("small", 10, "terrain: {scaling: true}\n");
    Files.writeString(job, Files.readString(job).replaceFirst("window: .*}}", "cell_size_m: 0.5}"));
    for (String command : List.of("plan", "run")) {
      Flow.Outcome o =
          Flow.scarpwayApart(List.of(), List.of("JAVA_TOOL_OPTIONS="), command, job, "--out", out);
      assertEquals(2, o.code(), o.err());
      assertTrue(o.err().contains("do not fit the heap of"), o.err());
      assertTrue(o.err().contains("SCARPWAY_JAVA_OPTS=-Xmx"), o.err());
      assertTrue(o.err().contains("dem.cell_size_m"), o.err());
    }
    assertFalse(Files.exists(out));
  }

  @Test
  void eventsAreAsTheirSchemaSays() throws Exception {
    Schema schema;
    try (var in = BatchFlowTest.class.getResourceAsStream("/schema/event.schema.json")) {
      schema =
          SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
              .getSchema(new String(in.readAllBytes(), StandardCharsets.UTF_8));
    }
    Path job = job("small", 10, "");
    Path missing = dir.resolve("missing.yaml");
    Flow.Outcome o = Flow.scarpway("run", job, missing, "--out", dir.resolve("out"), "--json");
    assertEquals(2, o.code());
    List<String> kinds = new ArrayList<>();
    for (String line : o.errLines()) {
      JsonNode event = new ObjectMapper().readTree(line);
      assertEquals(List.of(), List.copyOf(schema.validate(event)), line);
      kinds.add(event.get("event").asText());
    }
    for (String kind : List.of("job", "plan", "stage", "stage-done", "failed", "finished")) {
      assertTrue(kinds.contains(kind), () -> kind + " in " + kinds);
    }
    JsonNode wrong =
        new ObjectMapper().readTree("{\"event\":\"plan\",\"time\":\"now\",\"job\":\"\"}");
    assertFalse(schema.validate(wrong).isEmpty(), "the schema refuses what is no event");
  }

  private static SortedMap<String, String> products(Path run) throws IOException {
    return Flow.digests(run, n -> !n.equals("run.json") && !n.equals(".lock"));
  }

  private static void deleteTree(Path tree) throws IOException {
    try (var walk = Files.walk(tree)) {
      for (Path p : walk.sorted(java.util.Comparator.reverseOrder()).toList()) {
        Files.delete(p);
      }
    }
  }
}

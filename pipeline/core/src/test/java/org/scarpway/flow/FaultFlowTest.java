package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.SortedMap;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What goes wrong in one place of a run stays there, and nothing that is wrong is taken for sound.
 */
class FaultFlowTest {
  @TempDir Path dir;
  private Path job;
  private Path out;

  @BeforeEach
  void write() throws IOException {
    job = SmallJob.write(dir.resolve("job.yaml"), "small", 10);
    out = dir.resolve("out");
  }

  private static boolean product(String name) {
    return !name.equals("run.json") && !name.equals(".lock") && !name.contains(".kept");
  }

  private JsonNode record() throws IOException {
    return new ObjectMapper().readTree(out.resolve("small/run.json").toFile());
  }

  private String from(String stage) throws IOException {
    return record().at("/stages/" + stage.replace("/", "~1") + "/from").asText();
  }

  /** Flat ground with an island that no way leads to. */
  private void island() throws IOException {
    StringBuilder text =
        new StringBuilder("ncols 60\nnrows 50\nxllcorner 0\nyllcorner 0\ncellsize 5\n");
    text.append("NODATA_value -9999\n");
    for (int i = 0; i < 50 * 60; i++) {
      double r = Math.hypot(i / 60 - 25, i % 60 - 45);
      text.append(r > 9 && r < 12 ? "-9999" : "0").append(i % 60 < 59 ? ' ' : '\n');
    }
    Files.writeString(dir.resolve("ground.asc"), text.toString());
    Files.writeString(
        job,
        """
        scarpway: 1
        job: small
        body: moon
        dem: {source: ground.asc, units: metres}
        vehicles: [open-buggy.yaml]
        bases: {camp: [60, 125], shore: [100, 60], isle: [227, 122]}
        reach:
          - {name: day, from: camp, budget: {drive_h: 1}, home: drive-back, bands: [1h]}
        corridors:
          - {name: cut-off, via: [camp, isle, shore], cost: time}
          - {name: along, via: [camp, shore], cost: time}
        """);
  }

  /** That no way leads to a stop is an answer, as a reach that holds its base only is one. */
  @Test
  void aStopThatCannotBeReachedIsAnAnswer() throws Exception {
    island();
    Flow.Outcome run = Flow.scarpway("run", job, "--out", out, "--quiet");
    assertEquals(0, run.code(), run.err());
    assertEquals("", run.err());
    for (String word : List.of("corridor/cut-off", "no way from 'camp' to 'isle'", "ways end at")) {
      assertTrue(run.out().contains(word), run.out());
    }
    Path folder = out.resolve("small");
    assertTrue(Files.exists(folder.resolve("corridor/along/route.csv")));
    assertTrue(Files.exists(folder.resolve("reach/day/summary.csv")));
    assertFalse(Files.exists(folder.resolve("corridor/cut-off")));
    assertTrue(run.out().contains("day (from camp"), run.out());
    assertTrue(run.out().contains("warning: not answered: corridor/cut-off"), run.out());
    // What a question warns of is told with its name, once.
    assertTrue(run.out().contains("warning: reach 'day': the battery of 9.0 kWh is"), run.out());
    String report = Files.readString(folder.resolve("index.html"));
    String answers =
        report.substring(report.indexOf("id=\"answers\""), report.indexOf("id=\"cautions\""));
    assertTrue(answers.contains("<strong>Not answered.</strong> corridor/cut-off"), answers);
    assertTrue(report.contains("not answered: corridor/cut-off"));
    assertTrue(record().path("failed").has("corridor/cut-off"));
    assertFalse(Files.exists(folder.resolve("stac/corridor-cut-off.json")));

    // The same again: what is finished stays, and the end is the same.
    Flow.Outcome again = Flow.scarpway("run", job, "--out", out, "--quiet");
    assertEquals(0, again.code());
    assertEquals("here", from("corridor/along"));
  }

  /** A stop that no vehicle can leave is told before anything is written, a target as a warning. */
  @Test
  void placesInVoidsAreTold() throws Exception {
    island();
    String text = Files.readString(job);
    Files.writeString(dir.resolve("targets.csv"), "name,x,y\nhole,227,72\n");
    Files.writeString(
        job, text.replace("reach:", "targets: targets.csv\nreach:").replace("isle, ", "hole, "));
    for (String command : List.of("check", "run")) {
      Flow.Outcome told =
          command.equals("run")
              ? Flow.scarpway("run", job, "--out", out, "--quiet")
              : Flow.scarpway("check", job);
      assertEquals(2, told.code(), told.err());
      assertTrue(
          told.err().contains("'hole' at x 227, y 72 is ground without a verdict for"), told.err());
      assertTrue(told.err().contains("no elevation"), told.err());
      assertFalse(Files.exists(out));
    }
    Files.writeString(
        job, text.replace("reach:", "targets: targets.csv\nreach:").replace("isle, ", ""));
    Flow.Outcome told = Flow.scarpway("check", job).ok();
    assertTrue(
        told.out().contains("warning: target 'hole' is on ground without a verdict"), told.out());
  }

  @Test
  void anyFlippedByteIsFoundAndComputedAnew() throws Exception {
    Flow.scarpway("run", job, "--out", out, "--quiet").ok();
    Path folder = out.resolve("small");
    SortedMap<String, String> sound = Flow.digests(folder, FaultFlowTest::product);
    Random random = new Random(4);
    List<String> names = new ArrayList<>(sound.keySet());
    names.removeIf(n -> n.endsWith(".stage.json") || n.equals(".job.json"));
    assertTrue(names.size() > 40, names.toString());
    for (String name : names) {
      flip(folder.resolve(name), random);
    }
    SortedMap<String, String> flipped = Flow.digests(folder, names::contains);
    Flow.scarpway("run", job, "--out", out, "--quiet").ok();
    assertEquals(sound, Flow.digests(folder, FaultFlowTest::product));
    // A change may be the user's own: it stays beside the product, under a name of its own.
    names.removeIf(n -> n.contains("/."));
    for (String name : names) {
      assertEquals(flipped.get(name), Flow.sha256(folder.resolve(name + ".kept")), name);
    }

    // One at a time: only the stage that holds it is computed.
    for (String name :
        List.of("terrain/slope_deg.tif", "mobility/open-buggy/class.tif", "reach/day/band.tif")) {
      flip(folder.resolve(name), random);
      Flow.Outcome plan = Flow.scarpway("plan", job, "--out", out).ok();
      assertTrue(plan.out().contains("1 of 6 stages to run"), plan.out());
      Flow.scarpway("run", job, "--out", out, "--quiet").ok();
      assertEquals(sound, Flow.digests(folder, FaultFlowTest::product), name);
      for (String stage : List.of("terrain", "hazard", "mobility/open-buggy", "reach/day")) {
        assertEquals(name.startsWith(stage) ? "computed" : "here", from(stage), name);
      }
    }
  }

  private static void flip(Path file, Random random) throws IOException {
    byte[] bytes = Files.readAllBytes(file);
    bytes[random.nextInt(bytes.length)] ^= (byte) (1 << random.nextInt(8));
    var time = Files.getLastModifiedTime(file);
    Files.write(file, bytes);
    Files.setLastModifiedTime(file, time);
  }

  @Test
  void aQuestionThatIsAskedNoMoreLeavesNothingOfTheRunBehind() throws Exception {
    Flow.scarpway("run", job, "--out", out, "--quiet").ok();
    Path folder = out.resolve("small");
    Path mine = Files.writeString(folder.resolve("corridor/across/notes.txt"), "mine");
    Path changed = folder.resolve("corridor/across/profile.csv");
    Files.writeString(changed, "mine too");
    Path other = Files.createDirectories(folder.resolve("reach/by-hand"));
    Files.writeString(other.resolve("state.tif"), "mine as well");
    String text = Files.readString(job);
    Files.writeString(
        job, text.replaceAll("corridors:\\s+.*", "").replace("name: day", "name: night"));
    Flow.scarpway("run", job, "--out", out, "--quiet").ok();
    assertFalse(Files.exists(folder.resolve("reach/day")));
    assertTrue(Files.exists(folder.resolve("reach/night/state.tif")));
    assertEquals(
        List.of("notes.txt", "profile.csv"), Flow.files(folder.resolve("corridor/across")));
    assertEquals("mine", Files.readString(mine));
    assertEquals("mine too", Files.readString(changed));
    assertEquals(List.of("state.tif"), Flow.files(other));
    assertEquals(
        List.of(
            "catalog.json",
            "hazard.json",
            "mobility-open-buggy.json",
            "reach-night.json",
            "terrain.json"),
        Flow.files(folder.resolve("stac")));
  }

  @Test
  void theReportsCommandRepeatsTheRun() throws Exception {
    Flow.scarpway(
            "run",
            job,
            "--out",
            out,
            "--quiet",
            "--set",
            "reach.day.budget={drive_h: 0.5}",
            "--set",
            "reach.day.bands=[10min]",
            "--set",
            "hazard.margin_m=12")
        .ok();
    String page = Files.readString(out.resolve("small/index.html"));
    String report = page.replace("&#x3D;", "=").replace("&#39;", "'").replace("&quot;", "\"");
    for (String words :
        List.of(
            "--set hazard.margin_m=12",
            "--set 'reach.day.bands=[10min]'",
            "--set 'reach.day.budget={drive_h: 0.5}'")) {
      assertTrue(report.contains(words), words);
    }
  }
}

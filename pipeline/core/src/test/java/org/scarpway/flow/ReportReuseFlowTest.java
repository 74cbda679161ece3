package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The report is drawn only where something in it may have changed, and the plan knows it before.
 */
class ReportReuseFlowTest {
  @TempDir Path dir;

  private Path job;
  private Path out;

  /**
   * Runs the job and returns whether the report was drawn, which all that is told must agree on.
   */
  private boolean draws(Object... more) throws Exception {
    Flow.Outcome plan = Flow.scarpway(words("plan", more)).ok();
    Flow.Outcome run = Flow.scarpway(words("run", more)).ok();
    JsonNode report =
        new ObjectMapper().readTree(out.resolve("small/run.json").toFile()).path("report");
    boolean drawn = report.path("from").asText().equals("computed");
    assertEquals(drawn, run.err().contains("[report] done in "), run.err());
    assertEquals(!drawn, run.err().contains("[report] unchanged, reused"), run.err());
    assertEquals(drawn, report.path("computed_s").asDouble() > 0, report.toString());
    String planned =
        plan.out().lines().filter(l -> l.startsWith("  report ")).findFirst().orElseThrow();
    assertEquals(!drawn, planned.contains(" unchanged "), planned);
    return drawn;
  }

  private Object[] words(String command, Object... more) {
    List<Object> words = new ArrayList<>(List.of(command, job, "--out", out));
    words.addAll(List.of(more));
    return words.toArray();
  }

  private String page() throws Exception {
    return Files.readString(out.resolve("small/index.html"));
  }

  @Test
  void onlyWhereSomethingInItMayHaveChanged() throws Exception {
    out = dir.resolve("out");
    job = SmallJob.write(dir.resolve("job.yaml"), "small", 10, "summary: first words\n");
    assertTrue(draws());
    String first = page();
    assertFalse(draws());
    assertEquals(first, page());

    // Words that no stage depends on.
    Files.writeString(job, Files.readString(job).replace("first words", "other words"));
    assertTrue(draws());
    assertFalse(draws());

    // The vehicle's file.
    Path vehicle = job.resolveSibling("open-buggy.yaml");
    Files.writeString(
        vehicle, Files.readString(vehicle).replace("speed_ms: 3.3 ", "speed_ms: 3.2 "));
    assertTrue(draws());
    assertFalse(draws());

    // The command that the page names, though no setting differs.
    assertTrue(draws("--set", "hazard.margin_m=10"));
    String named = page();
    assertTrue(named.contains(" --set hazard.margin_m"));
    assertFalse(draws("--set", "hazard.margin_m=10"));
    assertTrue(draws());

    // All of it.
    String last = page();
    assertTrue(draws("--fresh"));
    assertEquals(last, page());
  }

  /** Areas whose outlines cross themselves, drawn again from reused stages, warn as before. */
  @Test
  void itWarnsOfTheSameInputsWhateverIsReused() throws Exception {
    String crossed =
        "{\"type\":\"Polygon\",\"scarpway:coordinates\":\"projected\",\"coordinates\":[[[72100,93900],[72120,93920],[72120,93900],"
            + "[72100,93920],[72100,93900]]]}";
    Path firm = Flow.ROOT.resolve("configs/soils/lunar-compact.yaml");
    out = dir.resolve("out");
    Path soft = Files.writeString(dir.resolve("soft.geojson"), crossed);
    Path barred = Files.writeString(dir.resolve("barred.geojson"), crossed);
    String soils = "soils: {areas: [{polygons: " + soft + ", soil: " + firm + "}]}\n";
    job = SmallJob.write(dir.resolve("job.yaml"), "small", 10, soils);
    String usual = Flow.ROOT.resolve("sample-dem/keep-out.gpkg").toString();
    Files.writeString(job, Files.readString(job).replace(usual, barred.toString()));
    List<String> first = told();
    String page = page();
    for (String file : List.of("soft.geojson: ", "barred.geojson: ")) {
      assertTrue(first.stream().anyMatch(l -> l.contains(file)), file);
      assertTrue(page.contains(file), file);
    }
    for (String lost :
        List.of("index.html", "mobility/open-buggy/class.tif", "hazard/causes.tif")) {
      Files.deleteIfExists(out.resolve("small/index.html"));
      Files.deleteIfExists(out.resolve("small").resolve(lost));
      assertEquals(first, told(), lost);
      assertEquals(page, page(), lost);
    }
    assertEquals(first, told());
  }

  /**
   * Everything that a run says on its standard output but how long it took and how much it reused.
   */
  private List<String> told() {
    Flow.Outcome run = Flow.scarpway(words("run")).ok();
    return run.out().lines().filter(l -> !l.matches("[0-9]+ stages in .*")).toList();
  }

  @Test
  void whereItIsMissingOrWasChanged() throws Exception {
    out = dir.resolve("out");
    job = SmallJob.write(dir.resolve("job.yaml"), "small", 10, "");
    assertTrue(draws());
    String first = page();
    Path index = out.resolve("small/index.html");

    Files.delete(index);
    assertTrue(draws());
    assertEquals(first, page());

    // What a user made of it is kept beside the new one.
    String mine = first.replace("</html>", "<!-- mine --></html>");
    Files.writeString(index, mine);
    assertTrue(draws());
    assertEquals(first, page());
    try (var files = Files.list(index.getParent())) {
      List<Path> kept =
          files.filter(p -> p.getFileName().toString().startsWith("index.html.")).toList();
      assertEquals(1, kept.size());
      assertEquals(mine, Files.readString(kept.get(0)));
    }
    assertFalse(draws());

    // Lost with all products: the store has the stages, the report is drawn from them.
    try (var walk = Files.walk(out.resolve("small"))) {
      for (Path p : walk.sorted(java.util.Comparator.reverseOrder()).toList()) {
        Files.delete(p);
      }
    }
    assertTrue(draws());
    assertEquals(first, page());
  }
}

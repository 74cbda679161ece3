package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Candidates measured anew on realisations of the height error. */
class SiteErrorFlowTest {
  @TempDir Path dir;

  private Path run(String name, String... more) throws Exception {
    Path job = DemoJob.write(dir);
    List<Object> command = new ArrayList<>();
    command.addAll(List.of("run", job, "--out", dir.resolve(name), "--quiet"));
    command.addAll(List.of("--set", "sites.monte_carlo.realisations=3"));
    command.addAll(List.of(more));
    Flow.scarpway(command.toArray()).ok();
    return dir.resolve(name).resolve(DemoJob.NAME);
  }

  /** With no error to speak of every realisation is the ground itself. */
  @Test
  void withoutErrorEveryRealisationIsAsMeasured() throws Exception {
    Path run =
        run(
            "still",
            "--no-store",
            "--set",
            "dem.vertical_sigma_m=1e-6",
            "--set",
            "sites.ellipse_azimuth_deg=70");
    Table measured = Table.read(run.resolve("sites/ranking.csv"));
    Table drawn = Table.read(run.resolve("sites/height_error.csv"));
    assertEquals(20, drawn.rows().size());
    for (Table.Row site : measured.rows()) {
      for (Table.Row r : drawn.rows()) {
        if (r.text("site").equals(site.text("site")) && !r.text("mean").isEmpty()) {
          double is = site.number(r.text("figure"));
          assertEquals(is, r.number("mean"), 1e-4, r.where());
          assertEquals(is, r.number("least"), 1e-4, r.where());
          assertEquals(0, r.number("standard_deviation"), 1e-4, r.where());
        }
      }
    }
    for (Table.Row r : Table.read(run.resolve("sites/stability.csv")).rows()) {
      if (r.text("varied").equals("height error")) {
        assertEquals("3", r.text("draws"));
        assertEquals(r.text("best_rank"), r.text("worst_rank"), r.where());
      }
    }
  }

  /**
   * The slope is convex in the gradient, so errors without bias raise its mean. What a store keeps
   * of one realisation is no answer to another.
   */
  @Test
  void errorsRaiseTheMeanSlopeAndNeitherThreadsNorAStoreChangeAnything() throws Exception {
    Path run = run("one", "--threads", "1", "--no-store");
    Path again = run("two", "--threads", "2");
    for (String name : new String[] {"ranking.csv", "stability.csv", "height_error.csv"}) {
      assertEquals(
          Flow.sha256(run.resolve("sites").resolve(name)),
          Flow.sha256(again.resolve("sites").resolve(name)),
          name);
    }
    Table measured = Table.read(run.resolve("sites/ranking.csv"));
    Table drawn = Table.read(run.resolve("sites/height_error.csv"));
    for (Table.Row site : measured.rows()) {
      for (Table.Row r : drawn.rows()) {
        if (r.text("site").equals(site.text("site")) && r.text("figure").equals("mean_slope_deg")) {
          assertTrue(r.number("mean") > site.number("mean_slope_deg"), r.where());
          assertTrue(r.number("standard_deviation") > 0, r.where());
        }
      }
    }
    String report = Files.readString(run.resolve("index.html"));
    assertTrue(report.contains("What the height error does to the candidates"));
  }

  private void rough(String sigmaM, String weighed, int realisations) throws IOException {
    StringBuilder flat =
        new StringBuilder("ncols 31\nnrows 31\nxllcorner 0\nyllcorner 0\ncellsize 5\n");
    for (int row = 0; row < 31; row++) {
      flat.append("100 ".repeat(31)).append('\n');
    }
    Files.writeString(dir.resolve("flat.asc"), flat);
    Files.writeString(
        dir.resolve("cart.yaml"),
        """
        scarpway: 1
        vehicle: cart
        body: {length_m: 3, width_m: 2, clearance_m: 0.4}
        limits: {climb_deg: 40}
        drive: {speed_ms: 3}
        """);
    Files.writeString(
        dir.resolve("walker.yaml"),
        """
        scarpway: 1
        walker: steady
        speed_function: tobler
        max_slope_deg: 40
        max_step_m: 0.3
        endurance_h: 2
        """);
    Files.writeString(
        dir.resolve("job.yaml"),
        """
        scarpway: 1
        job: rough
        body: moon
        dem: {source: flat.asc, units: metres, vertical_sigma_m: %s, correlation_length_m: 5}
        hazard: {rock_coverage: 0}
        vehicles: [cart.yaml]
        walker: walker.yaml
        bases: {camp: [77, 77], hut: [50, 100]}
        reach: [{name: out, from: camp, budget: {drive_h: 1}, home: walk-back}]
        sites: {candidates: [camp, hut], ellipse_m: [20, 20], weights: {%s: 1}, monte_carlo: {realisations: %d, seed: 1}}
        """
            .formatted(sigmaM, weighed, realisations));
  }

  private String spread(String out, Object... more) throws IOException {
    List<Object> command = new ArrayList<>(List.of("run", dir.resolve("job.yaml"), "--quiet"));
    command.addAll(List.of("--out", dir.resolve(out)));
    command.addAll(List.of(more));
    Flow.scarpway(command.toArray()).ok();
    return Files.readString(dir.resolve(out).resolve("rough/sites/height_error.csv"));
  }

  /** Other weights and more realisations take what is kept, and give what a first run gives. */
  @Test
  void realisationsAreKeptByWhatTheyDependOn() throws Exception {
    rough("0.1", "reach_km2", 2);
    spread("kept");
    rough("0.1", "mean_slope_deg", 3);
    assertEquals(spread("anew", "--no-store"), spread("kept"));
    assertEquals(3, kept());
    rough("0.2", "mean_slope_deg", 3);
    assertEquals(spread("anew", "--no-store"), spread("kept"));
    assertEquals(6, kept(), "a larger error is another ground");
  }

  /** Returns the number of realisations whose figures the store holds. */
  private long kept() throws IOException {
    Path fronts = dir.resolve("kept/.store/fronts");
    long n = 0;
    for (String name : Flow.files(fronts)) {
      String text = Files.readString(fronts.resolve(name), StandardCharsets.ISO_8859_1);
      n += text.contains("\"candidates\"") ? 1 : 0;
    }
    return n;
  }

  /** Drawn errors are steps that shut the base on foot: no reach there, and no fault. */
  @Test
  void aBaseThatCannotBeWalkedInARealisationHasNoReachThere() throws Exception {
    rough("1", "reach_km2", 3);
    Flow.scarpway("run", dir.resolve("job.yaml"), "--out", dir, "--quiet", "--no-store").ok();
    boolean told = false;
    for (Table.Row r : Table.read(dir.resolve("rough/sites/height_error.csv")).rows()) {
      if (r.text("figure").equals("reach_km2")) {
        assertTrue(r.text("least").isEmpty() || r.number("least") == 0, r.where());
        told = true;
      }
    }
    assertTrue(told);
  }
}

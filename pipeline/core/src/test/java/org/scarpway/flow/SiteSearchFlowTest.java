package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A job that looks for places and asks nothing else. */
class SiteSearchFlowTest {
  private static final String SEARCH =
      "sites: {search: {spacing_m: 70, time_h: 0.1, vehicle: open-buggy, clear_m: 10, keep: 3,"
          + " apart_m: 150}}\n";

  @TempDir Path dir;
  private Path job;

  @BeforeEach
  void onlyTheSearch() throws Exception {
    job = DemoJob.write(dir);
    String text = Files.readString(job);
    text = text.substring(0, text.indexOf("reach:"));
    Files.writeString(job, text + SEARCH);
  }

  private Flow.Outcome run(String name, Object... more) {
    List<Object> command = new java.util.ArrayList<>();
    command.addAll(List.of("run", job, "--out", dir.resolve(name), "--no-store"));
    command.addAll(List.of(more));
    return Flow.scarpway(command.toArray());
  }

  @Test
  void placesAreFoundAndShown() throws Exception {
    run("one", "--threads", "1").ok();
    Path folder = dir.resolve("one").resolve(DemoJob.NAME);
    Table found = Table.read(folder.resolve("site-search/places.csv"));
    assertEquals(
        List.of(
            "rank",
            "name",
            "x_m",
            "y_m",
            "x",
            "y",
            "lon_deg",
            "lat_deg",
            "screened_km2",
            "ground_pct",
            "room_m"),
        found.header());
    assertEquals(3, found.rows().size());
    double before = Double.POSITIVE_INFINITY;
    String report = Files.readString(folder.resolve("index.html"));
    for (Table.Row r : found.rows()) {
      assertEquals("search-" + r.text("rank"), r.text("name"));
      assertTrue(r.number("screened_km2") <= before, r.where());
      before = r.number("screened_km2");
      assertTrue(before > 0 && r.number("ground_pct") <= 100, r.where());
      assertTrue(r.number("room_m") >= 10, r.where());
      assertTrue(report.contains("<b>" + r.text("name") + "</b>"), r.where());
    }
    assertTrue(report.contains("Places found by the search"));
    assertTrue(Files.size(folder.resolve("site-search/places.gpkg")) > 0);
    assertFalse(Files.exists(folder.resolve("sites")));

    Flow.Outcome again = run("one").ok();
    assertTrue(again.err().contains("site-search"), again.err());
    run("two", "--threads", "2").ok();
    for (String name : List.of("site-search/places.csv", "site-search/places.gpkg")) {
      assertEquals(
          Flow.sha256(folder.resolve(name)),
          Flow.sha256(dir.resolve("two").resolve(DemoJob.NAME).resolve(name)),
          name);
    }
  }

  @Test
  void tooManyPlacesAreRefusedBeforeAnythingIsWritten() {
    Flow.Outcome many = run("many", "--quiet", "--set", "sites.search.spacing_m=10");
    assertEquals(2, many.code());
    assertEquals(1, many.errLines().size(), many.err());
    assertTrue(
        many.err()
            .contains(
                "4761 places 10.0 m apart; expected at most 4000; set sites.search.spacing_m to 11"),
        many.err());
    Flow.Outcome fine = run("fine", "--quiet", "--set", "sites.search.spacing_m=3");
    assertEquals(2, fine.code());
    assertTrue(
        fine.err().contains("spacing_m = 3.0; expected at least a cell of 5.0 x 5.0 m"),
        fine.err());
    assertFalse(Files.exists(dir.resolve("many")));
    assertEquals(2, Flow.scarpway("check", job, "--set", "sites.search.spacing_m=3").code());
  }
}

package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.report.Axe;
import org.scarpway.report.Browser;

/** Every page that the program writes, on a small and on a wide screen, before an outside judge. */
class AccessiblePagesFlowTest {
  private static final int SIDE = 64;

  @TempDir static Path dir;

  private static Path job() throws IOException {
    StringBuilder text =
        new StringBuilder(
            "ncols 64\nnrows 64\nxllcorner 1000\nyllcorner 2000\ncellsize 10\nNODATA_value -9\n");
    for (int r = 0; r < SIDE; r++) {
      for (int c = 0; c < SIDE; c++) {
        text.append(c == 40 && r > 20 ? "60 " : (r + c) % 2 == 0 ? "10 " : "10.1 ");
      }
      text.append('\n');
    }
    Files.writeString(dir.resolve("ground.asc"), text);
    Files.writeString(
        dir.resolve("cart.yaml"),
        """
        scarpway: 1
        vehicle: cart
        body: {length_m: 4.0, width_m: 3.0, clearance_m: 0.35}
        limits: {climb_deg: 25, descend_deg: 25, side_deg: 20, step_m: 0.35}
        drive: {speed_ms: 2}
        """);
    Files.writeString(dir.resolve("targets.csv"), "name,x,y\nnear,1355,2505\nfar,1355,2105\n");
    Path job = dir.resolve("job.yaml");
    Files.writeString(
        job,
        """
        scarpway: 1
        job: lane
        body: moon
        dem: {source: ground.asc, units: metres}
        vehicles: [cart.yaml]
        bases: {west: [1105, 2305], east: [1255, 2405]}
        targets: targets.csv
        reach:
          - {name: hour, from: west, budget: {drive_h: 0.3}, home: drive-back, bands: [10min]}
        corridors:
          - {name: round, via: [west, near, far, west], cost: time, within_pct: [5], departs: "07:50"}
        sites: {candidates: [west, east], ellipse_m: [60, 40], weights: {reach_km2: 1, targets: 1}}
        """);
    return job;
  }

  @Test
  void nothingIsWrongOnAnyPage() throws Exception {
    Path job = job();
    Path out = dir.resolve("out");
    Path other = dir.resolve("other");
    Flow.scarpway("run", job, "--out", out, "--quiet").ok();
    Flow.scarpway("run", job, "--out", other, "--quiet", "--set", "reach.hour.budget.drive_h=0.25")
        .ok();
    Flow.scarpway("compare", out.resolve("lane"), other.resolve("lane"), "--out", out).ok();
    Flow.scarpway(
            "replan",
            job,
            "--out",
            out,
            "--question",
            "hour",
            "--at",
            "1205,2305",
            "--left",
            "time_h=0.25")
        .ok();
    List<Path> pages;
    try (Stream<Path> all = Files.walk(out)) {
      pages = all.filter(p -> p.toString().endsWith(".html")).sorted().toList();
    }
    for (String page :
        List.of("lane/index.html", "sheet/round/sheet.html", "replan/sheet.html", "comparison")) {
      assertTrue(pages.stream().anyMatch(p -> p.toString().contains(page)), page + pages);
    }
    Axe axe = new Axe();
    try (Browser browser = new Browser(dir, 1300, 900)) {
      for (Path page : pages) {
        for (int width : new int[] {390, 1300}) {
          browser.size(width, 900);
          browser.open("about:blank");
          browser.open(page.toUri().toString());
          assertEquals(List.of(), axe.violations(browser), page + " at " + width);
        }
      }
    }
  }
}

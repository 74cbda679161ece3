package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The sheet by which a crew drives a corridor over 600 m x 600 m of level ground at 2 m/s; of every
 * budget a tenth is kept.
 */
class SheetFlowTest {
  private static final int SIDE = 60;

  @TempDir Path dir;
  private Path job;

  @BeforeEach
  void writeJob() throws IOException {
    StringBuilder text = new StringBuilder();
    text.append("ncols ").append(SIDE).append("\nnrows ").append(SIDE);
    text.append("\nxllcorner 1000\nyllcorner 2000\ncellsize 10\n");
    text.append(("10 ".repeat(SIDE).strip() + "\n").repeat(SIDE));
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
    Files.writeString(
        dir.resolve("targets.csv"),
        "name,x,y,weight,stay_min\nnear,1355,2305,1,1\nfar,1555,2305,1,20\n");
    job = dir.resolve("job.yaml");
    write("departs: \"2031-04-12T23:50\"");
  }

  private void write(String keys) throws IOException {
    Files.writeString(
        job,
        """
        scarpway: 1
        job: lane
        body: moon
        dem: {source: ground.asc, units: metres}
        vehicles: [cart.yaml]
        bases: {west: [1105, 2305], east: [1555, 2105]}
        targets: targets.csv
        reach:
          - {name: hour, from: west, budget: {drive_h: 1}, home: drive-back}
          - {name: half, from: west, budget: {drive_h: 0.5}, home: drive-back}
          - {name: away, from: west, budget: {drive_h: 0.1}, home: none}
          - {name: other, from: east, budget: {drive_h: 0.1}, home: drive-back}
        corridors:
          - {name: round, via: [west, near, far, west], cost: time, within_pct: [5], %s}
        """
            .formatted(keys));
  }

  private Flow.Outcome run() {
    return Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet");
  }

  private Path sheet() {
    return dir.resolve("out/lane/sheet/round");
  }

  @Test
  void tellsWhenToTurnBackByTheEarliestRule() throws IOException {
    Flow.Outcome o = run().ok();
    Table t = Table.read(sheet().resolve("waypoints.csv"));
    boolean stayed = false;
    for (Table.Row row : t.rows()) {
      double x = row.number("x_m");
      assertEquals("half", row.text("question"), row.where());
      // After 20 min at 'far', at 1545 s with 225 s home, 1620 s of half an hour do not suffice.
      if (row.number("leg") == 3) {
        stayed = true;
        assertEquals("no", row.text("home_on_arrival"), row.where());
        assertEquals("", row.text("turn_back_by"), row.where());
        continue;
      }
      assertEquals("surely", row.text("home_on_arrival"));
      if (row.text("turn_back_by").isEmpty()) {
        assertEquals("west", row.text("name"), "nobody turns back at home: " + row.where());
        continue;
      }
      // 1620 s less the way home, from the centre of the cell, at most 5 m further on.
      double latestS = 1620 - (x - 1105) / 2;
      assertTrue(row.number("turn_back_s") <= latestS + 1e-6, row.where());
      assertTrue(row.number("turn_back_s") >= latestS - 2.6, row.where());
      assertEquals("time budget", row.text("turn_back_because"));
    }
    assertTrue(stayed);
    Table.Row near = t.rows().stream().filter(r -> r.text("name").equals("near")).toList().get(0);
    assertEquals(125, near.number("time_s"), 0.1);
    assertEquals("2031-04-12 23:53", "2031-04-12 " + near.text("planned"));
    // 1495 s after 23:50 is 00:14:55 of the next day.
    assertEquals("2031-04-13 00:14", near.text("turn_back_by"));
    String page = Files.readString(sheet().resolve("sheet.html"));
    assertTrue(page.contains("departure at 23:50 on 2031-04-12"), "clock");
    assertTrue(page.contains("TOO LONG"), "stay");
    assertTrue(page.contains("NOT sure on all of the way"), "rule");
    assertFalse(page.contains("http:") || page.contains("https:"), "no request");
    assertEquals(3, page.split("<section class=\"leg\"", -1).length - 1);
    assertTrue(
        o.out().contains("sheet of round: By 'hour' (drive-back) home is sure from every place"),
        o.out());
    // Every way home was driven again.
    for (Table.Row row : Table.read(sheet().resolve("audit.csv")).rows()) {
      assertEquals("none", row.text("rule_broken"), row.where());
    }
  }

  @Test
  void namedRulesHoldAloneAndTheCorridorIsKept() throws IOException {
    run().ok();
    var before = Flow.digests(dir.resolve("out/lane/corridor"), n -> true);
    write("home_by: [hour]");
    run().ok();
    Table t = Table.read(sheet().resolve("waypoints.csv"));
    assertTrue(t.rows().stream().allMatch(r -> r.text("question").equals("hour")));
    assertTrue(t.rows().stream().allMatch(r -> r.text("home_on_arrival").equals("surely")));
    assertEquals("0:00", t.rows().get(0).text("planned"));
    assertEquals(before, Flow.digests(dir.resolve("out/lane/corridor"), n -> true));
    write("home_by: []");
    assertTrue(run().ok().out().contains("NO turn-back times"));
  }

  @Test
  void whatCannotBeIsRefused() throws IOException {
    for (String keys :
        List.of(
            "departs: \"24:10\"",
            "departs: \"2031-02-30T10:00\"",
            "home_by: [nobody]",
            "home_by: [away]",
            "home_by: [other]")) {
      write(keys);
      Flow.Outcome o = run();
      assertEquals(2, o.code(), keys + o.err());
      assertEquals(1, o.errLines().size(), o.err());
      assertTrue(o.err().contains(keys.substring(0, 7)) || o.err().contains("nobody"), o.err());
      assertFalse(Files.exists(dir.resolve("out")));
    }
  }
}

package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A question's own bound on the walk home, on 600 m x 600 m of level ground. */
class WalkRuleFlowTest {
  private static final int SIDE = 60;

  @TempDir Path dir;

  @BeforeEach
  void writeGround() throws IOException {
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
        dir.resolve("walker.yaml"),
        """
        scarpway: 1
        walker: w
        speed_table: [{slope_deg: -20, speed_ms: 0.5}, {slope_deg: 20, speed_ms: 0.5}]
        max_slope_deg: 20
        max_step_m: 0.6
        endurance_h: 1
        max_walk_km: 0.2
        """);
    // 80 m, 150 m and 250 m east of the base.
    Files.writeString(
        dir.resolve("targets.csv"), "name,x,y\na,1385,2305\nb,1455,2305\nc,1555,2305\n");
  }

  private Flow.Outcome run(String home) throws IOException {
    Path job =
        Files.writeString(
            dir.resolve("job.yaml"),
            """
            scarpway: 1
            job: walks
            body: moon
            dem: {source: ground.asc, units: metres}
            vehicles: [cart.yaml]
            bases: {west: [1305, 2305]}
            targets: targets.csv
            walker: walker.yaml
            reach: [{name: q, from: west, budget: {drive_h: 1}, home: %s}]
            """
                .formatted(home));
    return Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet");
  }

  private void assertReached(String home, int reached) throws IOException {
    run(home).ok();
    int row = 0;
    for (Table.Row r : Table.read(dir.resolve("out/walks/reach/q/targets.csv")).rows()) {
      boolean inside = row++ < reached;
      assertEquals(inside ? "yes" : "no", r.text("reached"), home + ", " + r.text("name"));
    }
    assertEquals(3, row);
  }

  /** The shorter of the walker's and the question's bound holds, whatever was asked before. */
  @Test
  void theShorterBoundHolds() throws IOException {
    assertReached("walk-back", 2);
    assertReached("walk-back, max_walk_km: 0.1", 1);
    assertReached("walk-back, max_walk_km: 0.05", 0);
    assertReached("walk-back, max_walk_km: 0.4", 2);
    assertReached("drive-back", 3);
  }

  @Test
  void withoutAWalkHomeItIsRefused() throws IOException {
    Flow.Outcome o = run("drive-back, max_walk_km: 0.1");
    assertEquals(2, o.code());
    assertEquals(1, o.errLines().size(), o.err());
    assertTrue(o.err().contains("max_walk_km without home: walk-back"), o.err());
  }
}

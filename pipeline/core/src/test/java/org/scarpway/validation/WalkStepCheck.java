package org.scarpway.validation;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.cli.Main;

/**
 * A wall that stands free on level ground, 3.4 m high, in cells of 5 m: the slope over three cells
 * is 18.8 degrees, within the walker's 20. Whoever walks home from behind it must walk around its
 * end. Whole jobs, files in and tables out.
 */
class WalkStepCheck {
  private static final String SOURCE =
      "straight lines around what the wall shuts, to a target each 5 m";
  private static final int COLS = 61;
  private static final int ROWS = 101;

  @TempDir Path dir;

  @Test
  void homeFromBehindAWallIsAroundItsEnd() throws Exception {
    // Shut is all that lies within 7.5 m to either side, up to 207.5 m. By the centres of the open
    // cells at the corners: from (-50, 0) to (-10, 210), across to (10, 210) and down to (50, y).
    double down = 400 - Math.hypot(40, 210) - 20;
    double expected = 210 - Math.sqrt(down * down - 40 * 40);
    Validation.near(
        "6.3-walk-wall-3.4",
        "southernmost walk of 400 m from behind a wall of 3.4 m in 5 m cells (m)",
        SOURCE,
        "C",
        expected,
        southernmost(3.4),
        5);
    Validation.near(
        "6.3-walk-wall-0.4",
        "the same over a wall of 0.4 m, below the step limit: all of it (m)",
        SOURCE,
        "C",
        -95,
        southernmost(0.4),
        0);
  }

  private double southernmost(double wallM) throws Exception {
    StringBuilder ground = new StringBuilder();
    ground.append("ncols ").append(COLS).append("\nnrows ").append(ROWS);
    ground.append("\nxllcorner -152.5\nyllcorner -102.5\ncellsize 5\nNODATA_value -9999\n");
    for (int row = 0; row < ROWS; row++) {
      double y = 5 * (ROWS - 1 - row) - 100;
      for (int col = 0; col < COLS; col++) {
        boolean wall = 5 * col - 150 == 0 && y <= 200;
        ground.append(wall ? 100 + wallM : 100).append(' ');
      }
      ground.append('\n');
    }
    Files.writeString(dir.resolve("ground.asc"), ground);
    StringBuilder targets = new StringBuilder("name,x,y\n");
    for (int y = -95; y <= 200; y += 5) {
      targets.append('t').append(y).append(",50,").append(y).append('\n');
    }
    Files.writeString(dir.resolve("targets.csv"), targets);
    Files.writeString(
        dir.resolve("cart.yaml"),
        """
        scarpway: 1
        vehicle: cart
        body: {length_m: 3, width_m: 2, clearance_m: 0.4}
        limits: {climb_deg: 20}
        drive: {speed_ms: 10}
        """);
    Files.writeString(
        dir.resolve("walker.yaml"),
        """
        scarpway: 1
        walker: steady
        speed_table: [{slope_deg: -20, speed_ms: 1}, {slope_deg: 20, speed_ms: 1}]
        max_slope_deg: 20
        endurance_h: 0.1111111111
        """);
    Files.writeString(
        dir.resolve("job.yaml"),
        """
        scarpway: 1
        job: wall
        body: moon
        dem: {source: ground.asc, units: metres}
        hazard: {rock_coverage: 0}
        vehicles: [cart.yaml]
        walker: walker.yaml
        bases: {camp: [-50, 0]}
        targets: targets.csv
        reach: [{name: out, from: camp, home: walk-back}]
        """);
    PrintStream said = System.out;
    try {
      System.setOut(new PrintStream(OutputStream.nullOutputStream(), true, UTF_8));
      String job = dir.resolve("job.yaml").toString();
      assertEquals(0, Main.execute("run", job, "--out", dir.toString(), "--quiet"));
    } finally {
      System.setOut(said);
    }
    int south = Integer.MAX_VALUE;
    for (String line : Files.readAllLines(dir.resolve("wall/reach/out/targets.csv"))) {
      String[] cells = line.split(",", -1);
      if (cells.length > 7 && cells[7].equals("yes")) {
        south = Math.min(south, Integer.parseInt(cells[0].substring(1)));
      }
    }
    return south;
  }
}

package org.scarpway.validation;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.cli.Main;

/**
 * The closed forms of walking home as whole jobs: a flat elevation model, a vehicle and a walker of
 * constant speed, files in and the summary table out.
 */
class WalkBackJobCheck {
  private static final int COLS = 1700;
  private static final String SOURCE =
      "vehicle stops at the worst moment of the way out: T vd vw / (vd + vw); suit clock d <= vw T";

  @TempDir Path dir;

  @Test
  void furthestPointOfTheDrive() throws Exception {
    check("7-10-2.7", 14.88189, furthestKm(7, 10, 2.7, 100, ""), "T 7 h, drive 10, walk 2.7 km/h");
    check("8-8-3", 17.45455, furthestKm(8, 8, 3, 100, ""), "T 8 h, drive 8, walk 3 km/h");
    check(
        "7-10-6.26", 26.94957, furthestKm(7, 10, 6.26, 100, ""), "T 7 h, drive 10, walk 6.26 km/h");
    check("suit-clock", 8.1, furthestKm(7, 10, 2.7, 3, ""), "suit clock 3 h, walk 2.7 km/h");
  }

  /** Beyond a hut 20 km out the walk is back to the hut: d / vd + (d - 20) / vw = T. */
  @Test
  void hutsOnTheWayReachFurther() throws Exception {
    double toHut = (7 + 20 / 2.7) / (1 / 10.0 + 1 / 2.7);
    check("refuge", toHut, furthestKm(7, 10, 2.7, 100, "hut"), "7 h, 10, 2.7 km/h, hut at 20 km");
    // Suits for 2 h reach 5.4 km to either side of camp, cabin and hut: no gap before 25.4 km.
    check(
        "two-refuges",
        25.4,
        furthestKm(9, 10, 2.7, 2, "cabin, hut"),
        "suit clock 2 h, cabin at 10 km, hut at 20 km");
  }

  private static void check(String id, double expected, double got, String what) {
    Validation.near(
        "6.3-job-" + id, "whole job, km from base: " + what, SOURCE, "C", expected, got, 0.021);
  }

  private double furthestKm(
      double hours, double driveKmh, double walkKmh, double suitH, String refuges)
      throws IOException {
    StringBuilder flat = new StringBuilder();
    flat.append("ncols ").append(COLS).append("\nnrows 9\nxllcorner -90\nyllcorner -90\n");
    flat.append("cellsize 20\nNODATA_value -9999\n");
    for (int row = 0; row < 9; row++) {
      flat.append("100 ".repeat(COLS)).append('\n');
    }
    Files.writeString(dir.resolve("flat.asc"), flat);
    Files.writeString(
        dir.resolve("cart.yaml"),
        String.format(
            Locale.ROOT,
            """
            scarpway: 1
            vehicle: cart
            body: {length_m: 3, width_m: 2, clearance_m: 0.4}
            limits: {climb_deg: 20}
            drive: {speed_ms: %.12f}
            """,
            driveKmh / 3.6));
    Files.writeString(
        dir.resolve("walker.yaml"),
        String.format(
            Locale.ROOT,
            """
            scarpway: 1
            walker: steady
            speed_table: [{slope_deg: -20, speed_ms: %1$.12f}, {slope_deg: 20, speed_ms: %1$.12f}]
            max_slope_deg: 20
            endurance_h: %2$s
            """,
            walkKmh / 3.6,
            suitH));
    Files.writeString(
        dir.resolve("job.yaml"),
        String.format(
            Locale.ROOT,
            """
            scarpway: 1
            job: flat
            body: moon
            dem: {source: flat.asc, units: metres}
            hazard: {rock_coverage: 0}
            vehicles: [cart.yaml]
            walker: walker.yaml
            bases: {camp: [0, 0], cabin: [10000, 0], hut: [20000, 0]}
            reach:
              - name: out
                from: camp
                budget: {drive_h: %s}
                home: walk-back
                refuges: [%s]
            """,
            hours,
            refuges));
    PrintStream said = System.out;
    try {
      System.setOut(new PrintStream(OutputStream.nullOutputStream(), true, UTF_8));
      String job = dir.resolve("job.yaml").toString();
      assertEquals(0, Main.execute("run", job, "--out", dir.toString(), "--quiet"));
    } finally {
      System.setOut(said);
    }
    for (String line : Files.readAllLines(dir.resolve("flat/reach/out/summary.csv"))) {
      if (line.startsWith("\"furthest surely reachable point, straight\"")) {
        return Double.parseDouble(line.split(",")[2]);
      }
    }
    throw new AssertionError("no such figure");
  }
}

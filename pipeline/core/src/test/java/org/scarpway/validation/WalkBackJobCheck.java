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
      "vehicle stops at the worst moment of the trip: T vd vw / (vd + vw); suit clock d <= vw T";

  @TempDir Path dir;
  private String moreOfVehicle = "";

  @Test
  void furthestPointOfTheDrive() throws Exception {
    check("7-10-2.7", 14.88189, furthestKm(7, 10, 2.7, 100, ""), "T 7 h, drive 10, walk 2.7 km/h");
    check("8-8-3", 17.45455, furthestKm(8, 8, 3, 100, ""), "T 8 h, drive 8, walk 3 km/h");
    check(
        "7-10-6.26", 26.94957, furthestKm(7, 10, 6.26, 100, ""), "T 7 h, drive 10, walk 6.26 km/h");
    check("suit-clock", 8.1, furthestKm(7, 10, 2.7, 3, ""), "suit clock 3 h, walk 2.7 km/h");
  }

  /** Who rides in suits uses them up from leaving the base, not from the breakdown. */
  @Test
  void suitsThatAreRiddenInLastFromTheBase() throws Exception {
    moreOfVehicle = "crew: {seats: 2, suited: true}\n";
    Validation.near(
        "6.3-job-suited",
        "whole job, km from base: suits of 3 h from leaving it, drive 10, walk 2.7 km/h",
        "d / vd + d / vw = T of the suits",
        "C",
        3 * 10 * 2.7 / 12.7,
        furthestKm(7, 10, 2.7, 3, ""),
        0.021);
  }

  /**
   * Beyond a hut 20 km out the walk is back to the hut, but the way home leads past the middle
   * between camp and hut: (2 d - 10) / vd + 10 / vw = T.
   */
  @Test
  void hutsOnTheWayReachFurther() throws Exception {
    double toHut = (7 - 10 / 2.7) * 10 / 2 + 5;
    check("refuge", toHut, furthestKm(7, 10, 2.7, 100, "hut"), "7 h, 10, 2.7 km/h, hut at 20 km");
    // Suits for 2 h reach 5.4 km to either side of camp, cabin and hut: no gap before 25.4 km.
    check(
        "two-refuges",
        25.4,
        furthestKm(9, 10, 2.7, 2, "cabin, hut"),
        "suit clock 2 h, cabin at 10 km, hut at 20 km");
  }

  /** 114.5 kg at 1.34 m/s take 447 W: 2 MJ last for 5.996 km, whatever the suit's hours. */
  @Test
  void joulesAndLengthEndTheWalk() throws Exception {
    String suit =
        """
        load_kg: 34.5
        metabolic: {equation: suited-lunar, body_kg: 80, supply_mj: 2}
        """;
    Validation.near(
        "6.3-job-walk-supply",
        "whole job, km from base: 2 MJ at 1.34 m/s and 114.5 kg in a suit on the Moon",
        "supply over the published 447 W, times the speed",
        "Vs",
        2e6 / 447 * 1.34 / 1000,
        furthestKm(100, 10, 1.34 * 3.6, 10, "", suit),
        0.021);
    Validation.near(
        "6.3-job-walk-reserve",
        "the same with a fifth of it kept as reserve",
        "supply over the published 447 W, times the speed",
        "Vs",
        0.8 * 2e6 / 447 * 1.34 / 1000,
        furthestKm(100, 10, 1.34 * 3.6, 10, "", suit + "reserve_h: 2\n"),
        0.021);
    Validation.near(
        "6.3-job-walk-length",
        "the same with max_walk_km 4.5",
        "the length itself",
        "C",
        4.5,
        furthestKm(100, 10, 1.34 * 3.6, 10, "", suit + "max_walk_km: 4.5\n"),
        0.021);
    // Half of the peak is kept up, the peak itself for a quarter of an hour (1.2 km).
    double keptUpMs = (293 / 446.66 - 0.115) / 0.661;
    Validation.near(
        "6.3-job-walk-peak",
        "whole job, km from base: peak of 586 W and no mean, 3 h at half of the peak",
        "speed at which the relation gives 293 W (1000 of 2000 Btu/h), times the hours",
        "Vs",
        3 * 3.6 * keptUpMs,
        furthestKm(100, 10, 1.34 * 3.6, 3, "", suit.replace("supply_mj: 2", "peak_w: 586")),
        0.021);
    // At most 300 W: (3.28 x 114.5 + 71.1)(0.661 v + 0.115) = 300.
    double v = (300 / 446.66 - 0.115) / 0.661;
    Validation.near(
        "6.3-job-walk-mean",
        "whole job, km from base: mean of 300 W for 3 h, all of it walked at that rate",
        "speed at which the relation gives 300 W, times the hours",
        "Vs",
        3 * 3.6 * v,
        furthestKm(
            100, 10, 1.34 * 3.6, 3, "", suit.replace("supply_mj: 2", "mean_w: 300, peak_w: 586")),
        0.021);
  }

  private static void check(String id, double expected, double got, String what) {
    Validation.near(
        "6.3-job-" + id, "whole job, km from base: " + what, SOURCE, "C", expected, got, 0.021);
  }

  private double furthestKm(
      double hours, double driveKmh, double walkKmh, double suitH, String refuges)
      throws IOException {
    return furthestKm(hours, driveKmh, walkKmh, suitH, refuges, "");
  }

  private double furthestKm(
      double hours,
      double driveKmh,
      double walkKmh,
      double suitH,
      String refuges,
      String moreOfWalker)
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
                driveKmh / 3.6)
            + moreOfVehicle);
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
                suitH)
            + moreOfWalker);
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
            reserves: {time_pct: 0, life_support_pct: 0}
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

package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.grid.ByteGrid;

/**
 * Whole sorties on level ground, where closed forms are known: at constant speed v, with h hours of
 * driving a day, the farthest place from which the crew is home by day N is N h v / 2 away.
 */
class SortieFlowTest {
  private static final int SIDE = 121;
  private static final double CELL_M = 20;
  private static final int MIDDLE = 60;

  @TempDir Path dir;

  /** An eastward distance from the base, in cells, as a row of the targets table. */
  private static String target(String name, int cells, String more) {
    return name
        + ","
        + (MIDDLE + cells + 0.5) * CELL_M
        + ","
        + (MIDDLE + 0.5) * CELL_M
        + more
        + "\n";
  }

  private Path job(String vehicle, String targets, String sorties) throws IOException {
    Path folder = Files.createDirectories(dir.resolve("job"));
    StringBuilder text = new StringBuilder();
    text.append("ncols ").append(SIDE).append("\nnrows ").append(SIDE);
    text.append("\nxllcorner 0\nyllcorner 0\ncellsize ").append(CELL_M).append('\n');
    text.append(("0 ".repeat(SIDE).strip() + "\n").repeat(SIDE));
    Files.writeString(folder.resolve("ground.asc"), text);
    Files.writeString(folder.resolve("cart.yaml"), vehicle);
    Files.writeString(
        folder.resolve("targets.csv"),
        "name,x,y,weight,stay_min,walk_count,must,after,opens_h,closes_h\n" + targets);
    return Files.writeString(
        folder.resolve("job.yaml"),
        """
        {"scarpway": 1, "job": "any", "body": {"radius_m": 250000, "gravity_ms2": 0.22},
         "dem": {"source": "ground.asc", "units": "metres"}, "vehicles": ["cart.yaml"],
         "bases": {"hut": [%s, %s]}, "targets": "targets.csv",
         "reserves": {"time_pct": 0, "life_support_pct": 0, "energy_pct": 0, "distance_pct": 0},
         "sorties": %s}
        """
            .formatted((MIDDLE + 0.5) * CELL_M, (MIDDLE + 0.5) * CELL_M, sorties));
  }

  private static final String EVEN =
      """
      {"scarpway": 1, "vehicle": "cart", "body": {"length_m": 4, "width_m": 2, "clearance_m": 0.4},
       "limits": {"climb_deg": 20}, "drive": {"speed_ms": 1}}
      """;

  private Path run(Path job) throws IOException {
    Flow.Outcome o = Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet");
    o.ok();
    Path run = dir.resolve("out/any");
    assertEquals(List.of(), JobProducts.faults(run, job, true));
    return run;
  }

  private static byte[] codes(Path run, String raster) {
    ByteGrid grid = RasterIos.best().readBytes(run.resolve(raster));
    return grid.values();
  }

  /** Cells eastwards from the base up to the last one that is surely reached by a day. */
  private static int farthest(Path run, String sortie, int day) {
    byte[] days = codes(run, "sortie/" + sortie + "/days.tif");
    byte[] state = codes(run, "sortie/" + sortie + "/state.tif");
    int far = -1;
    for (int c = 0; MIDDLE + c < SIDE; c++) {
      int i = MIDDLE * SIDE + MIDDLE + c;
      far = (state[i] == 1 || state[i] == 3) && days[i] <= day ? c : far;
    }
    return far;
  }

  /** 0.1 h of driving a day at 1 m/s: home by day N from N x 360 m / 2. */
  @Test
  void ringsHaveTheirRadius() throws IOException {
    Path run =
        run(
            job(
                EVEN,
                target("t", 3, ",1,0,0,,,,"),
                """
                [{"name": "one", "from": "hut", "days": 1, "hours_a_day": 0.2, "drive_hours_a_day": 0.1},
                 {"name": "three", "from": "hut", "days": 3, "hours_a_day": 0.2, "drive_hours_a_day": 0.1},
                 {"name": "nine", "from": "hut", "days": 9, "hours_a_day": 0.2, "drive_hours_a_day": 0.1},
                 {"name": "base", "from": "hut", "days": 3, "hours_a_day": 0.2, "drive_hours_a_day": 0.1,
                  "camps": []},
                 {"name": "camp", "from": "hut", "days": 3, "hours_a_day": 0.2, "drive_hours_a_day": 0.1,
                  "camps": ["t"]}]
                """));
    assertEquals(180 / CELL_M, farthest(run, "one", 1), 1);
    // Day 1 ends 360 m out, by day 2 the crew turns at 540 m.
    assertEquals(360 / CELL_M, farthest(run, "three", 1), 1);
    assertEquals(540 / CELL_M, farthest(run, "three", 2), 1);
    assertEquals(540 / CELL_M, farthest(run, "three", 3), 1);
    // 1620 m would be beyond the edge of the model: it is run into, on day 4, and told.
    assertEquals(SIDE - 1 - MIDDLE - 1, farthest(run, "nine", 9), 1);
    assertEquals(180 / CELL_M, farthest(run, "base", 3), 1);
    // From a camp 60 m out on day 2, or in passing: (360 + 60) / 2 on the way to or from it.
    assertEquals(240 / CELL_M, farthest(run, "camp", 3), 1);
    byte[] night = codes(run, "sortie/three/last_night.tif");
    // From 100 m home takes part of a day: the last night there is the second of three days.
    assertEquals(2, night[MIDDLE * SIDE + MIDDLE + 5]);
    assertEquals(2, night[MIDDLE * SIDE + MIDDLE + 17]);
    // At 400 m the crew arrives on day 2 and needs two days home: it sleeps on the way only.
    assertEquals(0, night[MIDDLE * SIDE + MIDDLE - 20]);
  }

  /**
   * One stop at 1.2 h of driving, 0.6 h a day of driving and stay, a stay of 0.06 h: out, stay and
   * home take 2.46 h, which five days hold and four do not.
   */
  @Test
  void aStopAsksForItsDays() throws IOException {
    String slow = EVEN.replace("\"speed_ms\": 1", "\"speed_ms\": 0.25");
    String stop = target("far", 54, ",5,3.6,0,,,,");
    String days =
        "{\"name\": \"d%d\", \"from\": \"hut\", \"days\": %d, \"hours_a_day\": 0.6,"
            + " \"drive_hours_a_day\": 0.6}";
    Path run = run(job(slow, stop, "[" + days.formatted(4, 4) + "," + days.formatted(5, 5) + "]"));
    assertEquals("no", Table.read(run.resolve("sortie/d4/stops.csv")).rows().get(0).text("done"));
    Table.Row done = Table.read(run.resolve("sortie/d5/stops.csv")).rows().get(0);
    assertEquals("yes", done.text("done"));
    assertEquals(1.2 * 3600 + 86_400 - 0.6 * 3600, done.number("arrive_s"), 5);
  }

  /** What is left of the day holds the stay, or one night more is needed. */
  @Test
  void aStayLiesWithinOneDay() throws IOException {
    // Arrival after 1000 s of 3600: 2600 s are left.
    String sortie =
        "[{\"name\": \"s\", \"from\": \"hut\", \"days\": 4, \"hours_a_day\": 1,"
            + " \"drive_hours_a_day\": 1}]";
    Path fits = run(job(EVEN, target("t", 50, ",1,43,0,,,,"), sortie));
    assertEquals(0, nights(fits, "t"));
    Path late = run(job(EVEN, target("t", 50, ",1,44,0,,,,"), sortie));
    assertEquals(1, nights(late, "t"));
  }

  /** Nights before the stay at a stop. */
  private static int nights(Path run, String stop) {
    int nights = 0;
    for (Table.Row row : Table.read(run.resolve("sortie/s/plan.csv")).rows()) {
      if (row.text("act").equals("stop")) {
        assertEquals(stop, row.text("from"));
        return nights;
      }
      nights += row.text("act").equals("night") ? 1 : 0;
    }
    throw new AssertionError("no stop");
  }

  private static final String POWERED =
      """
      {"scarpway": 1, "vehicle": "cart", "mass_kg": 1000,
       "body": {"length_m": 4, "width_m": 2, "clearance_m": 0.4}, "limits": {"climb_deg": 20},
       "drive": {"speed_ms": 1, "power_w": 1000, "efficiency": 0.5, "hotel_w": 100, "rolling": 0.1},
       "battery_kwh": 10, "crew": {"seats": 2, "rescue_seats": 4, "life_support_h": 200}}
      """;

  /** Order, must, opening hours, walks a day, battery and supplies are held and told. */
  @Test
  void aTimetableKeepsWhatTheJobStates() throws IOException {
    String targets =
        target("a", 10, ",1,10,2,yes,b,,")
            + target("b", 20, ",2,10,1,,,,")
            + target("c", 30, ",3,10,1,,,25,26")
            + target("d", -15, ",2,10,2,,,,3")
            + target("e", -59, ",9,500,0,,,,");
    Path run =
        run(
            job(
                POWERED,
                targets,
                """
                [{"name": "s", "from": "hut", "days": 3, "hours_a_day": 3, "drive_hours_a_day": 1,
                  "walks_a_day": 2, "egress_min": 5, "ingress_min": 5, "night_charge_kwh": 1},
                 {"name": "poor", "from": "hut", "days": 3, "hours_a_day": 3, "energy_kwh": 2.5}]
                """));
    List<Table.Row> plan = Table.read(run.resolve("sortie/s/plan.csv")).rows();
    List<String> visited =
        plan.stream().filter(r -> r.text("act").equals("walk")).map(r -> r.text("from")).toList();
    assertTrue(visited.indexOf("b") >= 0 && visited.indexOf("b") < visited.indexOf("a"));
    for (Table.Row row : plan) {
      if (row.text("act").equals("walk") && row.text("from").equals("c")) {
        assertTrue(
            row.number("from_s") >= 25 * 3600 - 0.1 && row.number("to_s") <= 26 * 3600 + 0.1);
      }
      if (row.text("act").equals("drive")) {
        // Rolling at 22 N/kN: m g c / efficiency, and the cabin, at 1 m/s.
        double watts = 1000 * 0.22 * 0.1 / 0.5 + 100;
        double kwh = watts * (row.number("to_s") - row.number("from_s")) / 3.6e6;
        assertEquals(kwh, row.number("energy_kwh"), 0.01 * kwh + 2e-4);
      }
    }
    List<Table.Row> stops = Table.read(run.resolve("sortie/s/stops.csv")).rows();
    assertEquals("e", stops.get(stops.size() - 1).text("name"));
    assertTrue(stops.get(stops.size() - 1).text("why_not").contains("longer than a day"));
    // Two nights of 21 h at 100 W and the drives between do not leave room for all of it.
    List<Table.Row> poor = Table.read(run.resolve("sortie/poor/plan.csv")).rows();
    poor.forEach(r -> assertTrue(r.number("battery_spare_kwh") >= -1e-3, r.where()));
  }

  /** A night of a crew in suits is refused before anything is written. */
  @Test
  void aCrewInSuitsIsRefused() throws IOException {
    String suited = POWERED.replace("\"seats\": 2", "\"suited\": true, \"seats\": 2");
    Path job = job(suited, target("a", 3, ",1,1,0,,,,"), "[{name: s, from: hut, days: 2}]");
    Flow.Outcome o = Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet");
    assertEquals(2, o.code());
    assertTrue(o.err().contains("whose crew rides in suits"), o.err());
  }
}

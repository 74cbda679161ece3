package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.SortedMap;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A crew underway on 600 m x 600 m of level ground, asked as a user would ask. At 2 m/s from x 1300
 * the base at x 1100 is 100 s away; a tenth of the budget of 1 h is kept, 360 s.
 */
class ReplanFlowTest {
  private static final int SIDE = 60;
  private static final String AT = "1305,2305";
  private static final String EARLIER =
      "lane/replan/sheet.html answers an earlier question, not this one\n";

  @TempDir Path dir;
  private Path job;
  private Path out;

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
        dir.resolve("walker.yaml"),
        """
        scarpway: 1
        walker: w
        speed_table:
          - {slope_deg: -20, speed_ms: 0.5}
          - {slope_deg: 0, speed_ms: 0.5}
          - {slope_deg: 20, speed_ms: 0.5}
        scale: 1.0
        max_slope_deg: 20
        max_step_m: 0.6
        endurance_h: 0.2
        reserve_h: 0.02
        """);
    Files.writeString(
        dir.resolve("targets.csv"),
        "name,x,y,weight,stay_min\nnear,1355,2305,1,1\nfar,1555,2305,1,1\n");
    area("closed.geojson", 1150, 2500, 1200, 2550);
    job = dir.resolve("job.yaml");
    Files.writeString(
        job,
        """
        scarpway: 1
        job: lane
        body: moon
        dem: {source: ground.asc, units: metres}
        hazard: {keep_out: [closed.geojson], margin_m: 0}
        vehicles: [cart.yaml]
        bases: {west: [1105, 2305]}
        targets: targets.csv
        walker: walker.yaml
        reach:
          - {name: foot, from: west, budget: {drive_h: 1}, home: walk-back, refuges: [near]}
          - {name: footless, from: west, budget: {drive_h: 1}, home: walk-back}
          - {name: day, from: west, budget: {drive_h: 1}, home: drive-back}
          - {name: away, from: west, budget: {drive_h: 1}, home: none}
        corridors:
          - {name: round, via: [west, near, far, west], cost: time, within_pct: [5]}
        """);
    out = dir.resolve("out");
  }

  /** Writes a keep-out rectangle. */
  private Path area(String name, double west, double south, double east, double north)
      throws IOException {
    return Files.writeString(
        dir.resolve(name),
        """
        {"type": "FeatureCollection", "scarpway:coordinates": "projected", "features": [
          {"type": "Feature", "properties": {}, "geometry": {"type": "Polygon", "coordinates":
            [[[%1$s, %2$s], [%3$s, %2$s], [%3$s, %4$s], [%1$s, %4$s], [%1$s, %2$s]]]}}]}
        """
            .formatted(west, south, east, north));
  }

  private Flow.Outcome replan(Object... more) {
    List<Object> args = new ArrayList<>(List.of("replan", job, "--out", out));
    args.addAll(List.of(more));
    return Flow.scarpway(args.toArray());
  }

  private Flow.Outcome replanHere(String left, Object... more) {
    List<Object> args = new ArrayList<>(List.of("--question", "day", "--at", AT, "--left", left));
    args.addAll(List.of(more));
    return replan(args.toArray());
  }

  /** The answer for programs, which must be as its schema says. */
  private JsonNode answer() throws IOException {
    JsonNode json = new ObjectMapper().readTree(out.resolve("lane/replan/answer.json").toFile());
    try (var in = ReplanFlowTest.class.getResourceAsStream("/schema/replan.schema.json")) {
      Schema schema =
          SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
              .getSchema(new String(in.readAllBytes(), StandardCharsets.UTF_8));
      assertEquals(List.of(), List.copyOf(schema.validate(json)));
    }
    return json;
  }

  private Table summary() {
    return Table.read(out.resolve("lane/replan/summary.csv"));
  }

  @Test
  void answersFromAFinishedFolderAndLeavesItAsItIs() throws IOException {
    Flow.scarpway("run", job, "--out", out, "--quiet").ok();
    SortedMap<String, String> before = Flow.digests(out, n -> !n.startsWith(".store/"));
    // 1000 s less 360 s: the whole round takes 25 + 60 + 100 + 60 + 225 s.
    Flow.Outcome o = replanHere("time_h=0.2777777777777778", "--corridor", "round").ok();
    String first = o.out().lines().findFirst().orElseThrow();
    assertTrue(first.startsWith("Home to 'west': SURELY by every rule, in 2 min, 200 m"), first);
    assertTrue(o.out().contains("Next: the rest of the plan fits"), o.out());
    assertTrue(o.out().contains("mission control decide"), o.out());
    String sheet = Files.readString(out.resolve("lane/replan/sheet.html"));
    String top = sheet.substring(sheet.indexOf("<header>"), sheet.indexOf("</header>"));
    assertTrue(top.contains("Crew at x 1305.0, y 2305.0 m"), top);
    assertTrue(top.contains("; left: 16 min."), top);
    assertTrue(top.contains("clock time"), top);
    Table t = summary();
    assertEquals(100, t.rows().get(0).number("home_time_s"), 0.3);
    assertEquals(360, t.rows().get(0).number("time_reserve_s"), 0.1);
    assertEquals(540, t.rows().get(0).number("time_spare_s"), 0.4);
    assertEquals("yes", t.rows().get(0).text("whole_plan_fits"));
    assertEquals(470, t.rows().get(0).number("turn_by_s"), 1);
    SortedMap<String, String> written =
        Flow.digests(out.resolve("lane/replan"), n -> !n.startsWith("."));
    for (String name :
        List.of(
            "summary.csv", "stops.csv", "audit.csv", "ways.gpkg", "sheet.html", "answer.json")) {
      assertTrue(written.containsKey(name), name);
    }
    JsonNode json = answer();
    assertEquals("surely", json.path("home").asText());
    assertEquals(
        t.rows().get(0).number("home_time_s"), json.at("/way_home/time_s").asDouble(), 0.1);
    assertEquals(540, json.at("/way_home/amounts/0/spare").asDouble(), 0.4);
    assertEquals(first, json.at("/sentences/0").asText());
    assertEquals(1305, json.at("/at/x").asDouble(), 1e-6);
    assertEquals("far", json.at("/stops/1/name").asText());
    assertEquals(1555, json.at("/stops/1/x").asDouble(), 1e-6);
    assertTrue(json.at("/turn_back/whole_plan_fits").asBoolean());
    assertEquals(470, json.at("/turn_back/turn_by_s").asDouble(), 1);
    SortedMap<String, String> rest =
        Flow.digests(out, n -> !n.startsWith(".store/") && !n.contains("/replan/"));
    rest.remove("lane/.lock");
    before.remove("lane/.lock");
    assertEquals(before, rest);
    replanHere("time_h=0.2777777777777778", "--corridor", "round", "--threads", "1").ok();
    assertEquals(
        written, Flow.digests(out.resolve("lane/replan"), n -> !n.startsWith(".")), "same bytes");
  }

  @Test
  void tellsWhereToTurnWithoutAnyFinishedStage() throws IOException {
    // 600 s less 360 s are 240 s: near takes 25 + 60 s, then 62.5 s on to the last place with
    // 240 = 85 + d / 2 + (d + 250) / 2, d = 30 m beyond near.
    Flow.Outcome o = replanHere("time_h=0.16666666666666666").ok();
    Table t = summary();
    assertEquals("no", t.rows().get(0).text("whole_plan_fits"));
    assertEquals(1385, t.rows().get(0).number("turn_x_m"), 10);
    assertTrue(t.rows().get(0).number("turn_x_m") <= 1385 + 1e-6);
    assertEquals(100, t.rows().get(0).number("turn_by_s"), 5);
    assertEquals("near", t.rows().get(0).text("turn_after"));
    assertEquals("far", t.rows().get(0).text("turn_before"));
    assertTrue(o.out().contains("1 of 2 remaining stops fit in the plan's order (near)"), o.out());
    assertTrue(o.out().lines().findFirst().orElseThrow().endsWith("first to bind: time budget."));
    assertTrue(o.out().contains("(what forbids going on: time budget)"), o.out());
    assertEquals("time budget", t.rows().get(0).text("first_to_bind"));
    assertFalse(Files.exists(out.resolve("lane/terrain")));
    replanHere("time_h=0.16666666666666666", "--done", "near,far").ok();
    // 180 s are less than the reserve of 360 s, but more than the way home of 100 s; 72 s are not.
    Flow.Outcome late = replanHere("time_h=0.05").ok();
    assertTrue(late.out().startsWith("Home to 'west': NOT"), late.out());
    assertTrue(late.out().contains("suffices for the way home that is drawn, but not"), late.out());
    assertTrue(late.out().contains("Next: start home now"), late.out());
    Flow.Outcome lost = replanHere("time_h=0.02").ok();
    assertTrue(lost.out().contains("does not suffice for the way home"), lost.out());
    assertTrue(lost.out().contains("Next: call for help now"), lost.out());
  }

  @Test
  void lostGroundIsAddedToTheJobsOwn() throws IOException {
    Flow.scarpway("run", job, "--out", out, "--quiet").ok();
    SortedMap<String, String> before = Flow.digests(out.resolve("lane"), n -> n.contains("/"));
    replanHere("time_h=1").ok();
    double straight = summary().rows().get(0).number("home_time_s");
    Path wall = area("wall.geojson", 1200, 2100, 1210, 2500);
    replanHere("time_h=1", "--lost", wall).ok();
    assertTrue(summary().rows().get(0).number("home_time_s") > straight + 50);
    Path shut = area("shut.geojson", 1200, 1900, 1210, 2700);
    Flow.Outcome o = replanHere("time_h=1", "--lost", shut).ok();
    assertTrue(o.out().startsWith("Home to 'west': NOT (no way home)"), o.out());
    SortedMap<String, String> rest =
        Flow.digests(out.resolve("lane"), n -> n.contains("/") && !n.startsWith("replan/"));
    assertEquals(before, rest);
  }

  /** Areas with x and y exchanged, lost or of the job itself, and areas too far for any ground. */
  @Test
  void areasThatCloseNothingAreTold() throws IOException {
    Path swapped = area("swapped.geojson", 2300, 1200, 2310, 1210);
    Flow.Outcome o = replanHere("time_h=1", "--lost", swapped).ok();
    String line = ": area 1 lies outside the ground and closes nothing; check its coordinates\n";
    assertTrue(o.out().contains("warning: swapped.geojson" + line), o.out());
    assertFalse(o.out().contains("closed.geojson"), o.out());
    String sheet = Files.readString(out.resolve("lane/replan/sheet.html"));
    assertTrue(sheet.contains("swapped.geojson: area 1 lies outside the ground"), "on the sheet");
    Path wall = area("wall.geojson", 1200, 2100, 1210, 2500);
    o = replanHere("time_h=1", "--lost", wall).ok();
    assertFalse(o.out().contains("lies outside"), o.out());
    area("closed.geojson", 2500, 1150, 2550, 1200);
    o = replanHere("time_h=1", "--lost", wall).ok();
    assertTrue(o.out().contains("warning: closed.geojson" + line), o.out());
    for (String huge : List.of("1e308", "-1000000001")) {
      Path file =
          Files.writeString(
              dir.resolve("huge.geojson"),
              Files.readString(wall).replace("[1200.0, 2100.0]", "[" + huge + ", 2100.0]"));
      refusedAgain("numbers in [-1000000000, 1000000000]", file);
    }
  }

  /**
   * Stops on one line between the base in the west and the end in the east: only one order takes
   * the direct way, whatever the order in the job, with and without finished products, and with
   * ground lost over a stop, which cannot be in any corridor then.
   */
  @Test
  void stopsInAnyOrderAreDrivenInTheOrderOfTheCorridorsAnswer() throws IOException {
    Path lost = area("lost.geojson", 1440, 2290, 1470, 2320);
    String text = Files.readString(job);
    List<String> along = List.of("a", "b", "c", "d");
    Random random = new Random(7);
    for (int i = 0; i < 4; i++) {
      List<String> given = new ArrayList<>(along);
      while (given.equals(along)) {
        Collections.shuffle(given, random);
      }
      Files.writeString(
          job,
          text.replace(
                  "bases: {",
                  "bases: {a: [1355, 2305], b: [1405, 2305], c: [1455, 2305], d: [1505, 2305], ")
              + "  - {name: tour, start: west, end: far, stops: "
              + given
              + ", cost: time, within_pct: [5]}\n");
      if (i == 1) {
        Flow.scarpway("run", job, "--out", out, "--quiet").ok();
        List<String> visited =
            Table.read(out.resolve("lane/corridor/tour/stops.csv")).rows().stream()
                .map(r -> r.text("name"))
                .toList();
        assertEquals(List.of("west", "a", "b", "c", "d", "far"), visited);
      }
      // Out to far and back to base 125 + 60 + 225 s, with 360 s kept.
      List<Object> more = new ArrayList<>(List.of("--corridor", "tour"));
      if (i == 2) {
        more.addAll(List.of("--lost", lost));
      }
      Flow.Outcome o = replanHere("time_h=0.22", more.toArray()).ok();
      assertEquals(i != 2, o.out().contains("Next: the rest of the plan fits"), given + o.out());
      assertEquals(List.of("a", "b", "c", "d", "far"), planned(), given.toString());
      more.addAll(List.of("--done", "a,c"));
      replanHere("time_h=0.22", more.toArray()).ok();
      assertEquals(List.of("b", "d", "far"), planned(), given.toString());
    }
  }

  private List<String> planned() {
    return Table.read(out.resolve("lane/replan/stops.csv")).rows().stream()
        .map(r -> r.text("name"))
        .toList();
  }

  private void refusedAgain(String why, Path lost) {
    Flow.Outcome o = replanHere("time_h=1", "--lost", lost);
    assertEquals(2, o.code(), o.out() + o.err());
    assertTrue(o.err().contains(why), o.err());
  }

  @Test
  void tellsWhatTheReportTellsOfGroundAndVehicleWithAndWithoutFinishedStages() throws IOException {
    // The cart has no wheels whose ground cells of 10 m could resolve.
    Flow.Outcome fresh = replanHere("time_h=1").ok();
    Table.Row unfinished = summary().rows().get(0);
    Flow.scarpway("run", job, "--out", out, "--quiet").ok();
    Flow.Outcome finished = replanHere("time_h=1").ok();
    assertEquals(fresh.out(), finished.out());
    Table.Row row = summary().rows().get(0);
    assertEquals(unfinished.text("warnings"), row.text("warnings"));
    String limits =
        Table.read(out.resolve("lane/reach/day/summary.csv"))
            .rows()
            .get(0)
            .text("limits_not_resolved");
    assertFalse(limits.isEmpty());
    assertEquals(limits, row.text("limits_not_resolved"));
    assertTrue(finished.out().contains(limits), finished.out());
    String sheet = Files.readString(out.resolve("lane/replan/sheet.html"));
    assertTrue(sheet.contains(limits));
    List<String> ofGround = new ArrayList<>();
    new ObjectMapper()
        .readTree(out.resolve("lane/run.json").toFile())
        .get("warnings")
        .forEach(w -> ofGround.add(w.asText()));
    ofGround.removeIf(w -> w.startsWith("reach '") || w.startsWith("corridor '"));
    assertTrue(ofGround.size() > 2, ofGround.toString());
    for (String w : ofGround) {
      assertTrue(finished.out().contains("warning: " + w + "\n"), w);
      assertTrue(row.text("warnings").contains(w), w);
      String start = w.substring(0, Math.min(40, w.length())).replaceAll("[<>&'\"=].*", "");
      assertTrue(sheet.contains("<li>" + start), w);
    }
  }

  /** A refuge that is lost counts as one that never was; a walk to base takes 400 s. */
  @Test
  void aLostRefugeDoesNotCount() throws IOException {
    Path lost = area("refuge.geojson", 1340, 2290, 1370, 2320);
    List<Object> args = new ArrayList<>(List.of("--at", AT, "--left", "time_h=1", "--lost", lost));
    args.addAll(List.of("--question", "foot"));
    Flow.Outcome o = replan(args.toArray()).ok();
    assertTrue(o.out().contains("warning: refuge 'near' is on ground"), o.out());
    double homeS = summary().rows().get(0).number("home_time_s");
    assertEquals(400, homeS, 4);
    args.set(args.size() - 1, "footless");
    Flow.Outcome without = replan(args.toArray()).ok();
    assertFalse(without.out().contains("refuge"), without.out());
    assertEquals(homeS, summary().rows().get(0).number("home_time_s"));
    replan("--question", "foot", "--at", AT, "--left", "time_h=1").ok();
    // Midway between base and refuge, after 40 s, the walk of 120 m takes 240 s.
    assertEquals(280, summary().rows().get(0).number("home_time_s"), 3);
  }

  /** A crew reads the place where it must turn as it writes its own: in the raster's own unit. */
  @ParameterizedTest
  @CsvSource({"metre, 1, m, 0.136", "foot, 0.3048, ft, 0.11"})
  void theTurnIsToldInTheRastersOwnUnit(String name, String metres, String unit, String left)
      throws IOException {
    Files.writeString(
        dir.resolve("ground.prj"), "LOCAL_CS[\"field\",UNIT[\"" + name + "\"," + metres + "]]");
    Flow.Outcome o = replanHere("time_h=" + left).ok();
    double x = summary().rows().get(0).number("turn_x");
    double y = summary().rows().get(0).number("turn_y");
    assertTrue(x > 1305 && x < 1500, x + " is in the raster's unit");
    String place = String.format(Locale.ROOT, "x %.1f, y %.1f %s", x, y, unit);
    assertTrue(o.out().contains(", at " + place), place + " in " + o.out());
    String sheet = Files.readString(out.resolve("lane/replan/sheet.html"));
    assertTrue(sheet.contains(place), "on the sheet");
  }

  /** The old products cannot be moved aside: the crew has its answer, and is told. */
  @Test
  void theAnswerIsGivenEvenIfItCannotBeWritten() throws IOException {
    replanHere("time_h=1").ok();
    Files.createDirectories(out.resolve("lane/.replan.old/kept"));
    Flow.Outcome o = replanHere("time_h=0.9");
    assertEquals(3, o.code(), o.out() + o.err());
    assertTrue(o.out().startsWith("Home to 'west': SURELY"), o.out());
    assertFalse(o.out().contains("Sheet: "), o.out());
    assertTrue(o.err().endsWith(EARLIER), o.err());
    out = Files.writeString(dir.resolve("taken"), "a file");
    o = replanHere("time_h=0.9");
    assertEquals(2, o.code(), o.out() + o.err());
    assertEquals("", o.out());
  }

  /** Every refusal says that a sheet which lies there is none of its own, and leaves it. */
  @Test
  void anEarlierSheetIsNotTakenForTheAnswer() throws IOException {
    Flow.Outcome first = replanHere("time_h=x");
    assertFalse(first.err().contains("earlier"), first.err());
    replanHere("time_h=1").ok();
    SortedMap<String, String> before = Flow.digests(out.resolve("lane/replan"), n -> true);
    List<Flow.Outcome> refused =
        List.of(
            replanHere("time_h=x"),
            replanHere("time_h=1", "--done", "naer"),
            replanHere("time_h=1", "--lost", dir.resolve("none.geojson")),
            replanHere("time_h=1", "--lost", area("here.geojson", 1295, 2295, 1315, 2315)),
            replan("--question", "day", "--at", "1,1", "--left", "time_h=1"));
    for (Flow.Outcome o : refused) {
      assertEquals(2, o.code(), o.out() + o.err());
      assertEquals(1, o.errLines().size(), o.err());
      assertTrue(o.err().endsWith(EARLIER), o.err());
    }
    assertEquals(before, Flow.digests(out.resolve("lane/replan"), n -> true));
  }

  /** Whatever the rule, nobody comes home to a base that was lost; a crew is told, not refused. */
  @ParameterizedTest
  @ValueSource(strings = {"foot", "footless", "day"})
  void aLostBaseIsNoWayHome(String question) throws IOException {
    Path lost = area("base.geojson", 1080, 2280, 1130, 2330);
    List<Object> args = new ArrayList<>(List.of("--question", question, "--at", AT));
    args.addAll(List.of("--left", "time_h=1", "--lost", lost));
    Flow.Outcome o = replan(args.toArray()).ok();
    assertTrue(o.out().startsWith("Home to 'west': NOT (no way home)"), o.out());
    assertTrue(o.out().contains("Next: call for help now"), o.out());
    assertTrue(o.out().contains("base 'west' is itself on ground that can no longer"), o.out());
    Table.Row row = summary().rows().get(0);
    assertEquals("not", row.text("home"));
    assertEquals("no way home", row.text("what_ends_it"));
    assertEquals("not", answer().path("home").asText());
    assertTrue(answer().path("way_home").isNull() && answer().path("turn_back").isNull());
    for (Table.Row stop : Table.read(out.resolve("lane/replan/stops.csv")).rows()) {
      assertEquals("not", stop.text("alone"));
      assertEquals("no", stop.text("in_order"));
    }
    // The job's own closed base is still a mistake.
    area("closed.geojson", 1080, 2280, 1130, 2330);
    assertEquals(2, replan(args.subList(0, 6).toArray()).code());
  }

  @Test
  void wrongInputIsToldInOneLineBeforeAnythingIsWritten() throws IOException {
    refused(
        "outside the elevation model", "--question", "day", "--at", "1,1", "--left", "time_h=1");
    refused("closed to 'cart'", "--question", "day", "--at", "1175,2525", "--left", "time_h=1");
    refused("--at: got", "--question", "day", "--at", "1175", "--left", "time_h=1");
    refused("--at: got", "--question", "day", "--at", "nan,nan", "--left", "time_h=1");
    refused("asks 4 reach questions", "--at", AT, "--left", "time_h=1");
    refused("did you mean day?", "--question", "dya", "--at", AT, "--left", "time_h=1");
    refused("asks nobody home", "--question", "away", "--at", AT, "--left", "time_h=1");
    refusedHere("time_h is missing", "life_support_h=2");
    refusedHere("'time_h' is given twice", "time_h=0.1,time_h=0.9");
    refusedHere("'time_h' is given twice", "time_h=0.1", "--left", "time_h=0.1");
    refusedHere("got 'time_h'", "time_h");
    refusedHere("time_h = '-1'", "time_h=-1");
    refusedHere("time_h = 'NaN'", "time_h=NaN");
    refusedHere("time_h = '1e3'", "time_h=1e3");
    refusedHere("did you mean time_h?", "time_hh=1");
    refusedHere("at most the 1 h of budget.drive_h of question 'day'", "time_h=1.5");
    refusedHere("no energy model", "time_h=1,energy_kwh=3");
    refusedHere("did you mean near?", "time_h=1", "--done", "naer");
    refusedHere("no corridor 'rund'", "time_h=1", "--corridor", "rund");
    refusedHere("does not exist", "time_h=1", "--lost", dir.resolve("none.geojson"));
    Path broken = Files.writeString(dir.resolve("broken.geojson"), "{\"type\": \"Feature\"");
    refusedHere("broken.geojson", "time_h=1", "--lost", broken);
    Path point =
        Files.writeString(
            dir.resolve("endless.geojson"),
            """
            {"type": "FeatureCollection", "features": [{"type": "Feature", "properties": {},
              "geometry": {"type": "Polygon", "coordinates": [[[0, 1e999], [1, 1], [1, 0]]]}}]}
            """);
    refusedHere("endless.geojson", "time_h=1", "--lost", point);
  }

  private void refusedHere(String why, String left, Object... more) throws IOException {
    List<Object> args = new ArrayList<>(List.of("--question", "day", "--at", AT, "--left", left));
    args.addAll(List.of(more));
    refused(why, args.toArray());
  }

  private void refused(String why, Object... args) throws IOException {
    Flow.Outcome o = replan(args);
    assertEquals(2, o.code(), why + ": " + o.out() + o.err());
    assertEquals(1, o.errLines().size(), o.err());
    assertTrue(o.err().contains(why), o.err());
    assertEquals("", o.out());
    assertFalse(Files.exists(out), why);
  }
}

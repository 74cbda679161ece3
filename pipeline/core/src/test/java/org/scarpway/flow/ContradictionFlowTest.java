package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.StepCodes;
import org.scarpway.vehicle.Limit;

/**
 * For random places of random jobs {@code explain}, rasters, tables, summary and report say the
 * same about class, limit, state and times.
 */
class ContradictionFlowTest {
  private static final int JOBS = Integer.getInteger("scarpway.contradictions", 5);
  private static final int PLACES = 10;
  private static final List<String> CLASSES = List.of("no data", "go", "slow", "no-go");

  @TempDir Path dir;

  @Test
  void everyProductSaysTheSame() throws Exception {
    int ran = 0;
    List<String> refused = new ArrayList<>();
    for (int seed = 0; seed < JOBS; seed++) {
      SeededJob job = SeededJob.write(dir.resolve("job" + seed), seed);
      Path out = dir.resolve("out" + seed);
      Flow.Outcome run = Flow.scarpway("run", job.file, "--out", out, "--quiet");
      Flow.Outcome check = Flow.scarpway("check", job.file);
      String what = "seed " + seed + " of cells " + job.cellM + ": ";
      assertEquals(run.code() == 2 ? 2 : 0, check.code(), what + run.err() + check.err());
      if (run.code() == 2) {
        refused.add(what + run.err());
        assertEquals(check.err(), run.err(), what);
        assertTrue(Files.notExists(out), what + "nothing is written where the input is wrong");
        continue;
      }
      ran++;
      Path folder = out.resolve("seeded");
      for (String question : List.of("far", "near")) {
        assertTables(what + question + " ", job, out, run, question);
      }
      assertTour(what, folder, run);
      assertSolvedAnew(what, job, out);
      for (int k = 0; k < PLACES; k++) {
        double x = job.x();
        double y = job.y();
        String place = String.format(Locale.ROOT, "%s(%.2f, %.2f) ", what, x, y);
        Flow.Outcome told = Flow.scarpway("explain", job.file, x, y, "--out", out).ok();
        assertPlace(place, job, told.out(), folder, job.cellOf(x, y));
        assertHeadings(place, told.out());
      }
    }
    assertTrue(ran >= JOBS / 4, ran + " of " + JOBS + " jobs ran" + refused);
  }

  /** A closed heading has no speed and names what closes it; nothing is told as not a number. */
  private static void assertHeadings(String place, String told) {
    assertFalse(told.contains("NaN"), place + told);
    told.lines()
        .filter(l -> l.matches(" +[0-9.]+ +no .*"))
        .forEach(l -> assertTrue(l.matches(".* - +- +-  \\S.*"), place + l));
  }

  private static void assertPlace(String place, SeededJob job, String told, Path folder, int cell)
      throws Exception {
    for (String vehicle : List.of("buggy", "rover")) {
      Path mobility = folder.resolve("mobility").resolve(vehicle);
      Matcher m =
          find(
              vehicle
                  + " +([a-z -]+), (.+), (?:no verdict|margin (\\S+), (\\d+) % of headings allowed)",
              told);
      String where = place + vehicle + " ";
      assertEquals(CLASSES.get(code(mobility, "class", cell)), m.group(1), where + "class");
      byte limit = code(mobility, "limit", cell);
      String binds = limit == 0 ? "no limit binds" : Limit.ofCode(limit).label() + " binds";
      assertEquals(binds, m.group(2), where + "limit");
      if (m.group(1).equals("no data")) {
        assertTrue(Float.isNaN(value(mobility, "headings_pct", cell)), where);
        continue;
      }
      assertEquals(text("%.2f", value(mobility, "margin", cell)), m.group(3), where + "margin");
      float share = value(mobility, "headings_pct", cell);
      assertEquals(text("%.0f", share), m.group(4), where + "headings");
    }
    for (String question : List.of("far", "near")) {
      Path reach = folder.resolve("reach").resolve(question);
      String where = place + question + " ";
      byte state = code(reach, "state", cell);
      String said =
          state == ReachState.SURELY
              ? "surely"
              : state == ReachState.POSSIBLY ? "possibly" : "not reachable";
      String about = told.substring(told.indexOf("\n" + question));
      assertTrue(about.strip().matches("(?s)" + question + " +" + said + ", .*"), where + about);
      for (ReachEnd e : ReachEnd.values()) {
        if (e.code() == code(reach, "binding", cell)) {
          assertTrue(about.contains("ends by: " + e.label()), where + about);
        }
      }
      assertAmount(value(reach, "time_s", cell), 1, " out by the quickest way", about, where);
      assertAmount(
          value(reach, "home_time_s", cell),
          1,
          " home (by the quickest way|on foot)",
          about,
          where);
      assertAmount(
          value(reach, "energy_j", cell), 3.6e6, " kWh out by the way of least", about, where);
      assertAmount(value(reach, "gap_width_m", cell), 1, " m: the narrowest", about, where);
      assertWays(job, reach, cell, about.strip().split("\n\n")[0], where);
    }
  }

  /** An amount in a raster's unit against a line of {@code explain} in units for people. */
  private static void assertAmount(float v, double unit, String words, String about, String where) {
    String own = about.strip().split("\n\n")[0];
    Matcher m =
        Pattern.compile("(?m)^ +(?:(\\d+) h )?(?:(\\d+) min ?)?([0-9.]*)(?: s)?" + words)
            .matcher(own);
    assertEquals(!Float.isNaN(v), m.find(), where + words + " in " + own);
    if (!Float.isNaN(v)) {
      double told = m.group(3).isEmpty() ? 0 : Double.parseDouble(m.group(3));
      told += m.group(1) == null ? 0 : 3600 * Double.parseDouble(m.group(1));
      told += m.group(2) == null ? 0 : 60 * Double.parseDouble(m.group(2));
      double exact = v / unit;
      double rounding = m.group(1) == null ? 0.51 : 31;
      boolean near = Math.abs(told - exact) <= Math.abs(exact) * 0.0051;
      boolean isTime = words.startsWith(" out") || words.startsWith(" home");
      assertTrue(near || (isTime && Math.abs(told - exact) <= rounding), where + told + words);
    }
  }

  /** Wherever there is a time there is a way, and it is as long as {@code explain} says. */
  private static void assertWays(SeededJob job, Path reach, int cell, String about, String where)
      throws Exception {
    GridSpec spec = new GridSpec(SeededJob.ROWS, SeededJob.COLS, job.cellM, job.cellM, 0, 0, "");
    for (String way : List.of("out", "home")) {
      Path raster = reach.resolve(way + "_step.tif");
      if (!Files.exists(raster)) {
        continue;
      }
      byte[] steps = codes(reach, way + "_step");
      int base = -1;
      for (int i = 0; i < steps.length; i++) {
        base = steps[i] == StepCodes.SOURCE ? i : base;
      }
      int source = base;
      int[] cells = StepCodes.follow(spec, c -> steps[c], cell, source);
      boolean timed =
          !Float.isNaN(value(reach, way.equals("out") ? "time_s" : "home_time_s", cell));
      assertTrue(cells.length > 0 || !timed, where + "no way " + way);
      String line = "quickest way " + way + ": ";
      if (cells.length > 1) {
        String km = text("%.2f", StepCodes.lengthM(spec, cells) / 1000);
        assertTrue(about.contains(line + km + " km on the map"), where + km + " in " + about);
      } else {
        assertFalse(about.contains(line), where + about);
      }
    }
  }

  /** Tables against rasters, {@code explain}, summary and report. */
  private static void assertTables(
      String what, SeededJob job, Path out, Flow.Outcome run, String question) throws Exception {
    Path reach = out.resolve("seeded/reach").resolve(question);
    String page = Files.readString(out.resolve("seeded/index.html"));
    long surely = 0;
    long possibly = 0;
    for (byte state : codes(reach, "state")) {
      surely += state == ReachState.SURELY ? 1 : 0;
      possibly += state == ReachState.POSSIBLY ? 1 : 0;
    }
    double cellKm2 = job.cellM * job.cellM / 1e6;
    Map<String, String> figures = new HashMap<>();
    for (Table.Row r : rows(reach.resolve("summary.csv"))) {
      figures.put(r.text("figure"), r.text("value"));
    }
    assertEquals(text("%.6f", surely * cellKm2), text6(figures.get("surely reachable area")), what);
    assertEquals(
        text("%.6f", possibly * cellKm2),
        text6(figures.get("possibly reachable area, undecided")),
        what);
    int reached = 0;
    int targets = 0;
    for (Table.Row r : rows(reach.resolve("targets.csv"))) {
      targets++;
      boolean yes = r.text("reached").equals("yes");
      reached += yes ? 1 : 0;
      String at = what + r.text("name") + " ";
      double x = Double.parseDouble(r.text("x_m"));
      double y = Double.parseDouble(r.text("y_m"));
      String told = Flow.scarpway("explain", job.file, x, y, "--out", out).ok().out();
      String about = told.substring(told.indexOf("\n" + question));
      Matcher m = find("target '" + r.text("name") + "', stay (\\S+) min: (.*)", about);
      assertEquals(r.text("stay_min"), m.group(1), at);
      assertEquals(
          yes
              ? "reached, %s s out, %s s home, %s s in all"
                  .formatted(r.text("out_time_s"), r.text("home_time_s"), r.text("total_time_s"))
              : "not reached, " + r.text("what_ends_it"),
          m.group(2),
          at);
      assertTrue(page.contains(r.text("name")), at);
      int cell = job.cellOf(x, y);
      Matcher stay = find("^" + question + " .*?(?:, stay (\\S+) min)?\n", about.substring(1));
      double own = Double.parseDouble(r.text("stay_min"));
      double asked = stay.group(1) == null ? 0 : Double.parseDouble(stay.group(1));
      byte state = code(reach, "state", cell);
      if (Math.abs(own - asked) < 0.05) {
        assertEquals(state == ReachState.SURELY, yes, at + "map and table at one stay");
      } else if (own > asked) {
        assertTrue(state == ReachState.SURELY || !yes, at + "a longer stay reaches no further");
      }
      if (yes) {
        double least = value(reach, "time_s", cell);
        assertTrue(Double.parseDouble(r.text("out_time_s")) >= least * (1 - 1e-5) - 0.06, at);
      }
    }
    String line = find("(?m)^" + question + " \\(.*$", run.out()).group();
    assertTrue(line.contains(text("%.2f km2 surely", surely * cellKm2)), what + line);
    assertTrue(line.contains(text("%.2f km2 possibly", possibly * cellKm2)), what + line);
    List<String> told = List.of(line.split("; "));
    assertTrue(told.contains(reached + " of " + targets + " targets"), what + line);
    assertDrivenAgain(what, rows(reach.resolve("audit.csv")), told.get(told.size() - 1));
    assertTrue(page.contains(reached + " of " + targets + " targets "), what + "report");
  }

  /** The end of a summary line against its table, which gives a digit more. */
  private static void assertDrivenAgain(String what, List<Table.Row> trips, String told) {
    double leftPct = Double.POSITIVE_INFINITY;
    for (Table.Row r : trips) {
      leftPct = Math.min(leftPct, Double.parseDouble(r.text("least_left_pct")));
      assertEquals("none", r.text("rule_broken"), what + r.text("trip_to"));
    }
    Matcher m =
        find(
            "^(\\d+) trips? driven again, 0 rules broken by more than 0.5 %, least left of a limit (\\S+) %$",
            told);
    assertEquals(trips.size(), Integer.parseInt(m.group(1)), what + told);
    assertEquals(leftPct, Double.parseDouble(m.group(2)), 0.05501, what + told);
  }

  /** Stops, profile and summary of the tour. */
  private static void assertTour(String what, Path folder, Flow.Outcome run) throws Exception {
    List<Table.Row> stops = rows(folder.resolve("corridor/tour/stops.csv"));
    List<Table.Row> profile = rows(folder.resolve("corridor/tour/profile.csv"));
    Table.Row end = profile.get(profile.size() - 1);
    double stood = 0;
    for (Table.Row r : stops.subList(0, stops.size() - 1)) {
      stood += 60 * Double.parseDouble(r.text("stay_min"));
    }
    Table.Row last = stops.get(stops.size() - 1);
    double driven = Double.parseDouble(end.text("time_s"));
    assertEquals(driven + stood, Double.parseDouble(last.text("time_s")), 1, what + "tour");
    String line = find("(?m)^tour \\(.*$", run.out()).group();
    assertEquals(stood > 0, line.contains("with stays"), what + line);
  }

  /** Another question at the same place: what the products say is not what is asked. */
  private static void assertSolvedAnew(String what, SeededJob job, Path out) throws Exception {
    double x = job.x();
    double y = job.y();
    Object[] set = {
      "--set", "reach.far.budget={distance_km: 0.05}", "--set", "reach.far.bands=[1min]"
    };
    String told = explain(job, x, y, out, set);
    Path other = out.resolveSibling(out.getFileName() + "-other");
    Flow.Outcome run =
        Flow.scarpway("run", job.file, "--out", other, "--quiet", set[0], set[1], set[2], set[3]);
    String after = explain(job, x, y, other, set);
    assertEquals(0, run.code(), what + run.err());
    assertTrue(told.contains("solved anew"), what + told);
    String anew = told.replaceAll(".*solved anew.*\n", "");
    assertEquals(after, anew, what + "the run of that question says the same");
  }

  private static String explain(SeededJob job, double x, double y, Path out, Object... set) {
    return Flow.scarpway("explain", job.file, x, y, "--out", out, set[0], set[1], set[2], set[3])
        .ok()
        .out();
  }

  private static List<Table.Row> rows(Path file) {
    return Table.read(file).rows();
  }

  private static String text6(String value) {
    return text("%.6f", Double.parseDouble(value));
  }

  private static Matcher find(String pattern, String text) {
    Matcher m = Pattern.compile(pattern).matcher(text);
    assertTrue(m.find(), () -> pattern + " in " + text);
    return m;
  }

  private static String text(String format, double value) {
    return String.format(Locale.ROOT, format, value);
  }

  private static byte code(Path folder, String name, int cell) {
    try (RasterRows<byte[]> rows = RasterRows.open(folder.resolve(name + ".tif"), CellKind.UINT8)) {
      byte[] row = new byte[rows.cols()];
      rows.read(cell / rows.cols(), 1, row);
      return row[cell % rows.cols()];
    }
  }

  private static byte[] codes(Path folder, String name) {
    try (RasterRows<byte[]> rows = RasterRows.open(folder.resolve(name + ".tif"), CellKind.UINT8)) {
      byte[] all = new byte[rows.rows() * rows.cols()];
      rows.read(0, rows.rows(), all);
      return all;
    }
  }

  private static float value(Path folder, String name, int cell) {
    Path file = folder.resolve(name + ".tif");
    try (RasterRows<float[]> rows = RasterRows.open(file, CellKind.FLOAT32)) {
      float[] row = new float[rows.cols()];
      rows.read(cell / rows.cols(), 1, row);
      return row[cell % rows.cols()];
    }
  }
}

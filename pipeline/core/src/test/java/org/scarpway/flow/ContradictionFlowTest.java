package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.CellKind;
import org.scarpway.geodata.RasterRows;
import org.scarpway.reach.ReachResult;
import org.scarpway.vehicle.Limit;

/**
 * For random places of random jobs {@code explain}, rasters, tables, summary and report say the
 * same about class, limit, state and times.
 */
class ContradictionFlowTest {
  private static final int JOBS = Integer.getInteger("scarpway.contradictions", 10);
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
      for (int k = 0; k < PLACES; k++) {
        double x = job.x();
        double y = job.y();
        String place = String.format(Locale.ROOT, "%s(%.2f, %.2f) ", what, x, y);
        Flow.Outcome told = Flow.scarpway("explain", job.file, x, y, "--out", out).ok();
        assertPlace(place, told.out(), folder, job.cellOf(x, y));
      }
    }
    assertTrue(ran >= JOBS / 3, ran + " of " + JOBS + " jobs ran" + refused);
  }

  private static void assertPlace(String place, String told, Path folder, int cell)
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
          state == ReachResult.SURELY
              ? "surely"
              : state == ReachResult.POSSIBLY ? "possibly" : "not reachable";
      String about = told.substring(told.indexOf("\n" + question));
      assertTrue(about.strip().matches("(?s)" + question + " +" + said + ", .*"), where + about);
      for (ReachResult.End e : ReachResult.End.values()) {
        if (e.code() == code(reach, "binding", cell)) {
          assertTrue(about.contains("ends by: " + e.label()), where + about);
        }
      }
      for (String name : List.of("time_s", "home_time_s", "energy_j", "gap_width_m")) {
        float v = value(reach, name, cell);
        Matcher m = find(name + " +(\\S+)", about);
        assertEquals(Float.isNaN(v) ? "none" : text("%.4g", v), m.group(1), where + name);
      }
    }
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

  private static float value(Path folder, String name, int cell) {
    Path file = folder.resolve(name + ".tif");
    try (RasterRows<float[]> rows = RasterRows.open(file, CellKind.FLOAT32)) {
      float[] row = new float[rows.cols()];
      rows.read(cell / rows.cols(), 1, row);
      return row[cell % rows.cols()];
    }
  }
}

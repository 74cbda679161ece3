package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.gdal.gdal.Band;
import org.gdal.gdal.Dataset;
import org.gdal.gdal.gdal;
import org.gdal.gdalconst.gdalconstConstants;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.run.compare.CompareRuns;
import org.scarpway.run.store.JobLock;

/** Runs that are compared are told with the cells, figures and settings in which they differ. */
class CompareFlowTest {
  @TempDir static Path dir;

  private static Path job(String name, String more) throws Exception {
    Files.writeString(dir.resolve("targets.csv"), "name,x,y\nfar,72200,94020\n");
    return SmallJob.write(dir.resolve(name + ".yaml"), name, 10, "targets: targets.csv\n" + more);
  }

  /** The cells of a raster, read by GDAL. */
  private static byte[] cells(Path file) {
    gdal.AllRegister();
    Dataset d = gdal.Open(file.toString(), gdalconstConstants.GA_ReadOnly);
    Band band = d.GetRasterBand(1);
    byte[] cells = new byte[d.getRasterXSize() * d.getRasterYSize()];
    band.ReadRaster(0, 0, d.getRasterXSize(), d.getRasterYSize(), cells);
    d.delete();
    return cells;
  }

  private static Map<String, byte[]> files(Path folder) throws Exception {
    try (Stream<Path> all = Files.walk(folder)) {
      Map<String, byte[]> files = new TreeMap<>();
      for (Path p : all.filter(Files::isRegularFile).collect(Collectors.toList())) {
        files.put(folder.relativize(p).toString(), Files.readAllBytes(p));
      }
      return files;
    }
  }

  @Test
  void cellsFiguresAndSettingsThatDifferAreTold() throws Exception {
    Path job = job("held", "");
    String bands = "reach.day.bands=[30s]";
    Object[] less = {"--set", "reach.day.budget={drive_h: 0.015}", "--set", bands};
    Object[] more = {"--set", "reach.day.budget={drive_h: 0.03}", "--set", bands};
    Path a = dir.resolve("a");
    Path b = dir.resolve("b");
    Flow.scarpway("run", job, "--out", a, less[0], less[1], less[2], less[3]).ok();
    Flow.scarpway("run", job, "--out", b, more[0], more[1], more[2], more[3]).ok();
    Path out = dir.resolve("c");
    Object[] call = {"compare", a.resolve("held"), b.resolve("held"), "--out", out};
    Flow.Outcome told = Flow.scarpway(call).ok();
    Path compared = out.resolve("comparison");

    byte[] before = cells(a.resolve("held/reach/day/state.tif"));
    byte[] after = cells(b.resolve("held/reach/day/state.tif"));
    byte[] change = cells(compared.resolve("reach/day/held-2.tif"));
    int gained = 0;
    for (int i = 0; i < change.length; i++) {
      boolean was = before[i] == 1;
      boolean is = after[i] == 1;
      assertEquals(was && is ? 1 : is ? 2 : was ? 3 : 0, change[i], "cell " + i);
      gained += is && !was ? 1 : 0;
    }
    assertTrue(gained > 100);
    byte[] classes = cells(compared.resolve("mobility/open-buggy/held-2.tif"));
    byte[] cls = cells(a.resolve("held/mobility/open-buggy/class.tif"));
    for (int i = 0; i < classes.length; i++) {
      assertEquals(1 + 5 * cls[i], classes[i], "the class of cell " + i + " is the same");
    }

    for (String raster : List.of("reach/day/held-2", "mobility/open-buggy/held-2")) {
      Dataset d = gdal.Open(compared.resolve(raster + ".tif").toString());
      Band band = d.GetRasterBand(1);
      assertTrue(band.GetRasterColorTable() != null, raster);
      d.delete();
      Path names = compared.resolve(raster + ".tif.aux.xml");
      assertTrue(Files.readString(names).contains("CategoryNames"), raster);
      assertTrue(Files.readString(compared.resolve(raster + ".sld")).contains("ColorMapEntry"));
    }

    Table table = Table.read(compared.resolve("comparison.csv"));
    Table.Row area =
        table.rows().stream()
            .filter(r -> r.text("figure").equals("surely reachable area"))
            .findFirst()
            .orElseThrow();
    assertEquals(area.number("held-2") - area.number("held"), area.number("change_held-2"), 1e-9);
    String settings =
        table.rows().stream()
            .filter(r -> r.text("part").equals("setting"))
            .map(r -> r.text("figure") + " " + r.text("held") + " " + r.text("held-2"))
            .collect(Collectors.joining("; "));
    assertEquals("reach.day.budget.drive_h 0.015 0.03", settings);
    String page = Files.readString(compared.resolve("index.html"));
    assertTrue(page.contains("reach.day.budget.drive_h") && page.contains("gained"), page);
    assertTrue(page.contains(a.resolve("held").toString()), "the folder of a run");
    assertFalse(page.contains("<script") || page.contains("http-equiv=\"refresh\""));
    assertTrue(told.out().contains("targets gained: far"), told.out());

    Map<String, byte[]> first = files(compared);
    Flow.scarpway(call).ok();
    Map<String, byte[]> again = files(compared);
    assertEquals(first.keySet(), again.keySet());
    first.forEach((name, bytes) -> assertArrayEquals(bytes, again.get(name), name));
  }

  @Test
  void runsOfAMatrixAreCompared() throws Exception {
    Path job = job("vary", "runs: {matrix: {vehicles: [open-buggy.yaml, steep.yaml]}}");
    String text = Files.readString(job).replace("vehicles: [open-buggy.yaml]\nbases", "bases");
    Files.writeString(job, text);
    String buggy = Files.readString(dir.resolve("open-buggy.yaml"));
    Files.writeString(
        dir.resolve("steep.yaml"),
        buggy
            .replace("vehicle: open-buggy", "vehicle: steep")
            .replace("climb_deg: 20", "climb_deg: 13")
            .replace("step_m: 0.28", "step_m: 0.13"));
    Path out = dir.resolve("m");
    Flow.Outcome run = Flow.scarpway("run", job, "--out", out).ok();
    Path compared = out.resolve("vary-compared");
    assertTrue(run.out().contains("of worse"), run.out());
    byte[] change = cells(compared.resolve("mobility/open-buggy/vary-steep.tif"));
    byte[] from = cells(out.resolve("vary-open-buggy/mobility/open-buggy/class.tif"));
    byte[] to = cells(out.resolve("vary-steep/mobility/steep/class.tif"));
    int worse = 0;
    for (int i = 0; i < change.length; i++) {
      assertEquals(1 + 4 * from[i] + to[i], change[i], "cell " + i);
      worse += to[i] > from[i] && from[i] > 0 ? 1 : 0;
    }
    assertTrue(worse > 0);
    assertTrue(
        Files.readString(compared.resolve("comparison.csv"))
            .contains("mobility,vehicle,,open-buggy,steep"));
  }

  @Test
  void whatCannotBeComparedIsRefusedBeforeAnythingIsWritten() throws Exception {
    Path job = job("plain", "");
    Path out = dir.resolve("p");
    Flow.scarpway("run", job, "--out", out).ok();
    Flow.scarpway("run", job, "--out", dir.resolve("q"), "--set", "dem.cell_size_m=10").ok();
    Path none = dir.resolve("none");
    Object[][] wrong = {
      {out.resolve("plain")},
      {out.resolve("plain"), out.resolve("plain")},
      {out.resolve("plain"), dir.resolve("nowhere")},
      {out.resolve("plain"), dir.resolve("q/plain")},
    };
    for (Object[] runs : wrong) {
      Object[] call = new Object[runs.length + 3];
      call[0] = "compare";
      System.arraycopy(runs, 0, call, 1, runs.length);
      call[runs.length + 1] = "--out";
      call[runs.length + 2] = none;
      Flow.Outcome told = Flow.scarpway(call);
      assertEquals(2, told.code(), told.err());
      assertEquals(1, told.err().lines().count(), told.err());
    }
    assertTrue(Files.notExists(none));
    Path fine = out.resolve("plain");
    Path coarse = dir.resolve("q/plain");
    assertEquals(
        List.of(List.of(coarse, coarse), List.of(fine)),
        CompareRuns.onOneGrid(List.of(coarse, fine, coarse), RasterIos.pureJava()));
    Flow.Outcome taken =
        Flow.scarpway(
            "compare",
            out.resolve("plain"),
            dir.resolve("q/plain"),
            "--out",
            out,
            "--name",
            "plain");
    assertEquals(2, taken.code(), taken.err());
  }

  /** Answers that somebody changed, and the same numbers of cells of other ground. */
  @Test
  void changedProductsAndOtherMapsAreRefused() throws Exception {
    Path job = job("sound", "");
    Path out = dir.resolve("s");
    Flow.scarpway("run", job, "--out", out).ok();
    Path other = dir.resolve("t");
    Flow.scarpway("run", job, "--out", other, "--set", "reach.day.vehicle=open-buggy").ok();
    Path none = dir.resolve("none2");
    Object[] call = {
      "compare", out.resolve("sound"), other.resolve("sound"), "--out", dir.resolve("u")
    };
    String told = Flow.scarpway(call).ok().out();
    assertTrue(told.contains("No setting and no input differs"), "the first vehicle: " + told);
    for (String file : List.of("reach/day/state.tif", "reach/day/summary.csv")) {
      Path product = other.resolve("sound").resolve(file);
      byte[] was = Files.readAllBytes(product);
      byte[] bytes = was.clone();
      bytes[bytes.length - 3] ^= 1;
      Files.write(product, bytes);
      call[4] = none;
      Flow.Outcome refused = Flow.scarpway(call);
      assertEquals(2, refused.code(), file + ": " + refused.out());
      assertTrue(refused.err().contains(file) && refused.err().lines().count() == 1);
      Files.write(product, was);
    }
    assertTrue(Files.notExists(none));
  }

  /** A keep-out area across the ground takes a corridor; one run asks a question more. */
  @Test
  void waysAndQuestionsOfOneRunAloneAreTold() throws Exception {
    Path job = job("split", "");
    Path open = dir.resolve("open");
    Flow.scarpway("run", job, "--out", open, "--set", "reach=[]").ok();
    Files.writeString(
        dir.resolve("wall.geojson"),
        """
        {"type": "FeatureCollection", "scarpway:coordinates": "projected", "features": [
          {"type": "Feature", "properties": {}, "geometry": {"type": "Polygon", "coordinates":
            [[[72170, 90000], [72180, 90000], [72180, 99000], [72170, 99000], [72170, 90000]]]}}]}
        """);
    Path shut = dir.resolve("shut");
    Flow.scarpway("run", job, "--out", shut, "--set", "hazard.keep_out=[wall.geojson]");
    String told =
        Flow.scarpway(
                "compare", open.resolve("split"), shut.resolve("split"), "--out", dir.resolve("w"))
            .ok()
            .out();
    assertTrue(told.contains("across: no way in split-2; split has one."), told);
    assertTrue(told.contains("day: answered by split-2 alone."), told);
  }

  /** Two at once into one folder: one is refused, none is half of each. */
  @Test
  void twoAtOnceDoNotMix() throws Exception {
    Path job = job("busy", "");
    Path out = dir.resolve("busy-out");
    Flow.scarpway("run", job, "--out", out).ok();
    Path other = dir.resolve("busy-other");
    Flow.scarpway("run", job, "--out", other, "--set", "reach.day.stay=10s").ok();
    Path to = dir.resolve("busy-compared");
    Object[] call = {"compare", out.resolve("busy"), other.resolve("busy"), "--out", to};
    try (JobLock held = JobLock.take(to)) {
      Flow.Outcome second = Flow.scarpway(call);
      assertEquals(2, second.code(), second.out());
      assertTrue(second.err().contains(held.folder().toString()), second.err());
    }
    Flow.scarpway(call).ok();
  }
}

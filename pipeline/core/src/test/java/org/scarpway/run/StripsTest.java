package org.scarpway.run;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.scarpway.config.Job;
import org.scarpway.config.JobReader;
import org.scarpway.dem.DemReader;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachState;
import org.scarpway.run.closing.JobResults;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Strips;
import org.scarpway.run.plan.ProgressStyle;
import org.scarpway.run.progress.ConsoleLog;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.store.JobLock;
import org.scarpway.run.store.StageStore;
import org.scarpway.run.unit.StageGraph;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.ClassCells;

class StripsTest {
  private static final int ROWS = 331;
  private static final int COLS = 120;
  private static final Path ROOT = Path.of(System.getProperty("scarpway.root", "../.."));

  @TempDir Path dir;

  /** Where the last run wrote. */
  private Path last;

  /** What the last run said of its vehicle. */
  private List<String> notes;

  /** What the last run counted of its vehicle's ground. */
  private ClassCells counted;

  /** Bases and questions by every budget and by four ways of coming home. */
  private static String reach(double cellXM, double cellYM) {
    double slow = cellXM;
    return """
        walker: %s/configs/walkers/suited-lunar.yaml
        bases: {home: [%f, %f], far: [%f, %f], aside: [%f, %f]}
        targets: targets.csv
        reserves: {time_pct: 0, life_support_pct: 0, energy_pct: 0, distance_pct: 0}
        rescue: {alarm_min: 0, load_min: 30, person_kg: 20}
        reach:
          - {name: tight, from: home, budget: {drive_h: %f, energy_kwh: %f, distance_km: %f}, home: drive-back, bands: [20s, 1min], stay: 5s}
          - {name: on-foot, from: home, budget: {drive_h: %f}, home: walk-back, refuges: [far], bands: [1km]}
          - {name: one-way, from: far, budget: {drive_h: %f}, home: none, bands: [10s]}
          - {name: fetched, from: home, budget: {distance_km: %f}, home: base-rescue, stay: %fs}
        """
        .formatted(
            ROOT.toAbsolutePath().normalize(),
            500 + 60.5 * cellXM,
            90_000 - 232.5 * cellYM,
            500 + 20.5 * cellXM,
            90_000 - 310.5 * cellYM,
            500 + 30.5 * cellXM,
            90_000 - 250.5 * cellYM,
            0.02 * slow,
            0.004 * slow,
            0.1 * slow,
            0.04 * slow,
            0.01 * slow,
            0.5 * slow,
            // Leaves as much of the 6 h in suits, less half an hour to load.
            5.5 * 3600 - 108 * slow);
  }

  private static final List<String> QUESTIONS = List.of("tight", "on-foot", "one-way", "fetched");

  private static final String CORRIDORS =
      """
      corridors:
        - {name: quick, via: [home, far, home], cost: time, within_pct: [5], alternatives: 2, shared_pct: 80}
        - {name: round, start: home, stops: [far, near, aside], cost: energy, alternatives: 0, trade_offs: 4}
      """;

  private static String soils() {
    return """
        soils:
          raster: classes.tif
          classes: {1: %1$s/lunar-compact.yaml, 2: %1$s/lunar-slope.yaml}
          no_data: worst
          areas: [{polygons: yard.geojson, soil: %1$s/lunar-loose.yaml}]
        """
        .formatted(ROOT.toAbsolutePath().normalize().resolve("configs/soils"));
  }

  /** The one has the questions of the job, the other is asked them besides. */
  private static final String SITES =
      """
      sites: {candidates: [home, aside], ellipse_m: [20, 10], weights: {p_no_hazard: 3, reach_km2: 2, single_gap_pct: 1}, search: {spacing_m: 60, time_h: 0.01, clear_m: 2}}
      """;

  /** Ground with voids, rocks by raster, and a keep-out area with a hole. */
  private Path job(double cellXM, double cellYM, String more) throws IOException {
    GridSpec spec = new GridSpec(ROWS, COLS, cellXM, cellYM, 500, 90_000, "");
    float[] z = new float[spec.cells()];
    float[] rocks = new float[spec.cells()];
    float[] classes = new float[spec.cells()];
    Random random = new Random(4);
    for (int i = 0; i < z.length; i++) {
      int row = i / COLS;
      int col = i % COLS;
      double wave = Math.sin(row * cellYM / 31) + Math.cos(col * cellXM / 23);
      z[i] = (float) (4 * wave + cellXM * 0.02 * random.nextGaussian());
      boolean hole = Math.hypot(row - 200, col - 90) < 9 || random.nextInt(3000) == 0;
      // A ring about ground on which nothing can turn where cells are small.
      double fromPocket = Math.hypot(row - 40, col - 60);
      hole |= fromPocket >= 7 && fromPocket < 13;
      z[i] = hole ? Float.NaN : z[i];
      // Two soils, a class without one, and none.
      classes[i] = col / 7 % 9 == 0 ? 9 : row / 11 % 8 == 0 ? Float.NaN : 1 + (row + col) / 25 % 2;
      rocks[i] = (float) (0.15 * (1 + Math.sin(row / 20.0)) / 2);
      rocks[i] = row % 60 == 7 && col % 40 == 3 ? Float.NaN : rocks[i];
    }
    RasterIo io = RasterIos.pureJava();
    io.write(dir.resolve("z.tif"), new FloatGrid(spec, z), BandInfo.of("height", "m"));
    io.write(dir.resolve("rocks.tif"), new FloatGrid(spec, rocks), BandInfo.of("rocks", "1"));
    Files.writeString(
        dir.resolve("targets.csv"),
        "name,x,y\nnear,%f,%f\nbeyond,%f,%f\n"
            .formatted(spec.xM(70), spec.yM(245), spec.xM(100), spec.yM(20)));
    io.write(dir.resolve("classes.tif"), new FloatGrid(spec, classes), BandInfo.of("classes", "1"));
    writeArea("keep.geojson", ring(spec, 60, 30, 220, 100) + ", " + ring(spec, 90, 60, 170, 80));
    writeArea("yard.geojson", ring(spec, 215, 35, 260, 75));
    return Files.writeString(
        dir.resolve("job.yaml"),
        """
        scarpway: 1
        job: cut
        body: moon
        dem: {source: z.tif, units: metres, vertical_sigma_m: 0.05, correlation_length_m: 40, voids: {fill: {max_gap_cells: 3, sure: true}}}
        terrain: {scaling: true, monte_carlo: {realisations: 3, seed: 5}, also: [profile-curvature, total-curvature-quartic, slope-deviation, vector-ruggedness, largest-residual, range]}
        hazard: {rock_coverage: rocks.tif, keep_out: [keep.geojson], margin_m: 3, turning_m: 12}
        vehicles: [%s/configs/vehicles/open-buggy.yaml]
        %s
        """
            .formatted(ROOT.toAbsolutePath().normalize(), more));
  }

  private void writeArea(String name, String rings) throws IOException {
    Files.writeString(
        dir.resolve(name),
        """
        {"type": "Feature", "scarpway:coordinates": "projected", "properties": {}, "geometry": {"type": "Polygon", "coordinates": [
        """
            + rings
            + "]}}");
  }

  private static String ring(GridSpec s, int row, int col, int endRow, int endCol) {
    double n = s.yM(row);
    double e = s.xM(endCol);
    return "[[%f, %f], [%f, %f], [%f, %f], [%f, %f]]"
        .formatted(s.xM(col), n, e, s.yM(endRow), s.xM(col) - 30, s.yM(endRow - 5), s.xM(col), n);
  }

  @ParameterizedTest
  @CsvSource({"1.0, 0.8, gdal", "1.0, 0.8, java", "6.0, 7.5, java"})
  void productsAreTheSameBytesForAnyStripsAndThreads(double cellXM, double cellYM, String path)
      throws Exception {
    boolean asksReach = path.equals("java");
    Path file =
        job(cellXM, cellYM, asksReach ? reach(cellXM, cellYM) + CORRIDORS + SITES + soils() : "");
    RasterIo io = asksReach ? RasterIos.pureJava() : RasterIos.gdal();
    Map<String, byte[]> whole = products(file, io, 0, 2);
    assertTrue(whole.containsKey("terrain/slope_over_limit.tif"), whole.keySet().toString());
    assertTrue(whole.containsKey("derivatives/largest_residual_m.tif"), whole.keySet().toString());
    assertTrue(whole.containsKey("derivatives/scaling.csv"), whole.keySet().toString());
    assertTrue(whole.containsKey("slope-error/slope_bias_deg.tif"), whole.keySet().toString());
    assertEquals(asksReach, whole.containsKey("mobility/open-buggy/soil.tif"));
    assertTrue(whole.containsKey("mobility/open-buggy/no_go.gpkg"), whole.keySet().toString());
    for (String name : asksReach ? QUESTIONS : List.<String>of()) {
      assertTrue(whole.containsKey("reach/" + name + "/targets.csv"), whole.keySet().toString());
      assertTrue(whole.containsKey("reach/" + name + "/bands.gpkg"), whole.keySet().toString());
      byte[] state = io.readBytes(last.resolve("reach/" + name + "/state.tif")).values();
      int reached = 0;
      for (byte b : state) {
        reached += b == ReachState.SURELY ? 1 : 0;
      }
      assertTrue(reached > 500 && reached < state.length / 2, name + " reaches " + reached);
    }
    if (asksReach) {
      byte[] ends = io.readBytes(last.resolve("reach/fetched/binding.tif")).values();
      int beyondRescue = 0;
      for (byte b : ends) {
        beyondRescue += b == ReachEnd.RESCUE.code() || b >= ReachEnd.RESCUE_TIME.code() ? 1 : 0;
      }
      assertTrue(beyondRescue > 500, "beyond rescue " + beyondRescue);
    }
    for (String name : asksReach ? List.of("quick", "round") : List.<String>of()) {
      assertTrue(whole.containsKey("corridor/" + name + "/corridor.gpkg"));
    }
    if (asksReach) {
      String found = Files.readString(last.resolve("site-search/places.csv"));
      assertTrue(found.lines().count() > 3, found);
      String ranking = Files.readString(last.resolve("sites/ranking.csv"));
      assertEquals(3, ranking.lines().count(), ranking);
      String others = Files.readString(last.resolve("corridor/quick/alternatives.csv"));
      assertTrue(others.lines().count() > 2, others);
      String tradeOffs = Files.readString(last.resolve("corridor/round/trade_offs.csv"));
      assertTrue(tradeOffs.lines().count() > 2, tradeOffs);
    }
    int pockets = 0;
    for (byte b : io.readBytes(last.resolve("hazard/causes.tif")).values()) {
      pockets += (b & Hazard.Cause.POCKET.bit()) != 0 ? 1 : 0;
    }
    assertEquals(cellXM < 5, pockets > 0, pockets + " cells in pockets");
    List<String> wholeNotes = notes;
    ClassCells wholeCells = counted;
    long[] cells = new long[4];
    for (byte c : io.readBytes(last.resolve("mobility/open-buggy/class.tif")).values()) {
      cells[c]++;
    }
    for (int c = 0; c < 4; c++) {
      assertEquals(cells[c], counted.count(c), "cells of class " + c);
    }
    int threads = 1;
    // One height of strips where cells are large, since every run answers all questions.
    for (int rows : cellXM > 1 ? new int[] {64} : new int[] {7, 64, ROWS}) {
      Map<String, byte[]> cut = products(file, io, rows, threads);
      assertEquals(whole.keySet(), cut.keySet());
      assertEquals(wholeNotes, notes);
      assertEquals(wholeCells, counted);
      for (String name : whole.keySet()) {
        assertArrayEquals(whole.get(name), cut.get(name), name + " in strips of " + rows);
      }
      threads = 3 - threads;
    }
  }

  /** Sorties of every home rule, with nights anywhere and at camps, in a cabin. */
  @Test
  void sortiesGiveTheSameBytesInStrips() throws Exception {
    Path configs = ROOT.toAbsolutePath().normalize().resolve("configs");
    String buggy = Files.readString(configs.resolve("vehicles/open-buggy.yaml"));
    Files.writeString(
        dir.resolve("open-buggy.yaml"),
        buggy
            .replace("suited: true", "suited: false")
            .replace("../soils/", configs.resolve("soils") + "/"));
    String places =
        reach(6, 7.5)
            .lines()
            .takeWhile(line -> !line.startsWith("reach:"))
            .collect(Collectors.joining("\n", "", "\n"));
    String days = "from: home, days: 3, hours_a_day: 0.2, drive_hours_a_day: 0.1, home: ";
    Path file =
        job(
            6,
            7.5,
            places
                + "sorties:\n"
                + ("  - {name: back, " + days + "drive-back}\n")
                + ("  - {name: camps, " + days + "drive-back, camps: [aside]}\n")
                + ("  - {name: foot, " + days + "walk-back, refuges: [far]}\n")
                + ("  - {name: fetched, " + days + "base-rescue, life_support_h: 90}\n")
                    .replace("0.2, drive_hours_a_day: 0.1", "0.7, drive_hours_a_day: 0.6"));
    Files.writeString(
        file,
        Files.readString(file)
            .replace(configs.resolve("vehicles") + "/", "")
            .replaceAll("terrain: .*", "terrain: {}"));
    Map<String, byte[]> whole = products(file, RasterIos.pureJava(), 0, 2);
    Map<String, byte[]> cut = products(file, RasterIos.pureJava(), 40, 1);
    assertEquals(whole.keySet(), cut.keySet());
    for (String name : whole.keySet()) {
      assertArrayEquals(whole.get(name), cut.get(name), name);
    }
    for (String sortie : List.of("back", "camps", "foot", "fetched")) {
      byte[] state =
          RasterIos.pureJava().readBytes(last.resolve("sortie/" + sortie + "/state.tif")).values();
      int reached = 0;
      for (byte b : state) {
        reached += b == ReachState.SURELY ? 1 : 0;
      }
      assertTrue(reached > 100, sortie + " reaches " + reached);
      assertTrue(whole.containsKey("sortie/" + sortie + "/plan.csv"), sortie);
    }
  }

  /** Sites on realisations of ground without rocks, one question on foot and one by a rescuer. */
  @Test
  void realisationsGiveTheSameBytesInStrips() throws Exception {
    String questions =
        reach(6, 7.5)
            .lines()
            .filter(line -> !line.contains("name: tight") && !line.contains("name: one-way"))
            .collect(Collectors.joining("\n", "", "\n"));
    String drawn = SITES.replaceAll(", search.*", ", monte_carlo: {realisations: 2, seed: 2}}");
    Path file = job(6, 7.5, questions + drawn);
    // Without rocks, so that mobility reads the finished hazard.
    Files.writeString(
        file, Files.readString(file).replace("hazard: {rock_coverage: rocks.tif, ", "hazard: {"));
    Map<String, byte[]> whole = products(file, RasterIos.pureJava(), 0, 2);
    Map<String, byte[]> cut = products(file, RasterIos.pureJava(), 40, 1);
    assertEquals(whole.keySet(), cut.keySet());
    for (String name : whole.keySet()) {
      assertArrayEquals(whole.get(name), cut.get(name), name);
    }
    String spread = new String(whole.get("sites/height_error.csv"), StandardCharsets.UTF_8);
    String reached = spread.lines().filter(r -> r.startsWith("home,reach_km2")).findFirst().get();
    assertTrue(Double.parseDouble(reached.split(",")[4]) > 0, spread);
    try (var left = Files.list(last.resolve("sites"))) {
      assertTrue(left.noneMatch(Files::isDirectory));
    }
  }

  /** Rasters, tables and layers of a run; {@code stripRows} 0 for all in memory. */
  private Map<String, byte[]> products(Path file, RasterIo io, int stripRows, int threads)
      throws IOException {
    Job job = JobReader.read(file, Map.of());
    Path out = Files.createTempDirectory(dir, "out");
    last = out;
    PrintStream silent =
        new PrintStream(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8);
    try (Workers workers = new Workers(threads);
        JobLock lock = JobLock.take(out)) {
      GridSpec spec = DemReader.spec(job.dem(), io);
      Strips strips = stripRows == 0 ? Strips.whole(spec) : Strips.many(spec, stripRows, 2);
      OpenJob open = OpenJob.open(job, spec, strips, io, new FileDigests(), workers, Progress.NONE);
      StageGraph graph = new StageGraph(open);
      StageRunner runner =
          new StageRunner(
              lock,
              new StageStore(null, 0, new FileDigests()),
              new ConsoleLog(silent, ProgressStyle.quiet),
              false,
              workers.memory());
      graph.nodes().forEach(runner::finish);
      JobResults results = JobResults.of(open, graph);
      notes = results.mobility().get(0).notes();
      counted = results.mobility().get(0).cells();
      assertEquals(strips.inMemory() ? ROWS : ROWS / 2, results.terrain().slopeDeg().spec().rows());
    }
    Map<String, byte[]> bytes = new TreeMap<>();
    try (var files = Files.walk(out)) {
      for (Path p : (Iterable<Path>) files::iterator) {
        if (p.toString().matches(".*\\.(tif|csv|gpkg)")) {
          bytes.put(out.relativize(p).toString(), Files.readAllBytes(p));
        }
      }
    }
    return bytes;
  }

  @Test
  void whatFitsIsNotCutNorWhatOnlyWorksInMemory() throws Exception {
    Job plain = JobReader.read(job(1, 1, ""), Map.of());
    GridSpec large = new GridSpec(20_000, 20_000, 5, 5, 0, 0, "");
    assertTrue(Strips.choose(plain, new GridSpec(1000, 1000, 5, 5, 0, 0, ""), 1L << 30).inMemory());
    Strips cut = Strips.choose(plain, large, 1L << 30);
    assertFalse(cut.inMemory());
    assertEquals(0, cut.rows() % 256);
    assertEquals(10, cut.shownStep());
    UserError tiny = assertThrows(UserError.class, () -> Strips.choose(plain, large, 100L << 20));
    assertTrue(tiny.getMessage().contains("-Xmx"), tiny.getMessage());
    Job reach = JobReader.read(job(1, 1, reach(1, 1)), Map.of());
    assertEquals(0, Strips.choose(reach, large, 3L << 30).rows() % 256);
    assertThrows(UserError.class, () -> Strips.choose(reach, large, 1L << 30));
    Job corridor =
        JobReader.read(
            job(1, 1, reach(1, 1) + "corridors: [{name: way, via: [home, far], cost: time}]\n"),
            Map.of());
    assertEquals(0, Strips.choose(corridor, large, 3L << 30).rows() % 256);
    // The ground with 12 correlation lengths around, rounded up, and sums of every cell.
    double field = 16.0 * 32_768 * 20_000 + 2.0 * 32_768 * 32_768;
    assertEquals(field + 20.0 * 20_000 * 20_000, cut.drawnSlopeBytes(plain), 1e7);
  }

  /** Whether a run of the job is begun with so much heap. */
  private static boolean admitted(Job job, List<String> stages, GridSpec spec, long heapMb) {
    try {
      Strips strips = Strips.choose(job, spec, heapMb << 20);
      return strips.heapMb(job, stages) <= heapMb;
    } catch (UserError e) {
      return false;
    }
  }

  @Test
  void moreHeapNeverGetsAJobRefused() throws Exception {
    for (String more : List.of("", reach(1, 1), reach(1, 1) + CORRIDORS)) {
      Job job = JobReader.read(job(1, 1, more), Map.of());
      List<String> stages = new ArrayList<>(List.of("terrain", "hazard", "mobility/v"));
      job.reach().forEach(r -> stages.add("reach/" + r.name()));
      job.corridors().forEach(c -> stages.add("corridor/" + c.name()));
      for (int side : new int[] {100, 400, 700, 1000, 2000, 3500, 6000}) {
        GridSpec spec = new GridSpec(side, side + 37, 5, 5, 0, 0, "");
        boolean before = false;
        for (long heapMb = 8; heapMb < 12_000; heapMb += 1 + heapMb / 40) {
          boolean now = admitted(job, stages, spec, heapMb);
          assertTrue(now || !before, side + " cells, " + heapMb + " MB");
          // The program alone takes more.
          assertTrue(!now || heapMb > 56, side + " cells, " + heapMb + " MB");
          before = now;
        }
        assertTrue(before, side + " cells");
      }
    }
  }
}

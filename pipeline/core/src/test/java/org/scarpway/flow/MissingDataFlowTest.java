package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Random;
import org.gdal.ogr.DataSource;
import org.gdal.ogr.Feature;
import org.gdal.ogr.Geometry;
import org.gdal.ogr.Layer;
import org.gdal.ogr.ogr;
import org.gdal.ogr.ogrConstants;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.validation.Validation;

/**
 * Taking data away from any raster that a job names, or keeping out more ground, never improves a
 * class, a speed or a reach: whole jobs on random ground, layer by layer, under each rule for what
 * is missing.
 */
class MissingDataFlowTest {
  private static final RasterIo IO = RasterIos.best();
  private static final int N = 40;
  private static final double VOID = -9999;
  private static final String[] LAYERS = {"ground.asc", "rocks.asc", "soil.asc"};

  @TempDir Path dir;

  private int cellM = 1;

  private void grid(String name, double[] values) throws IOException {
    StringBuilder text = new StringBuilder("ncols " + N + "\nnrows " + N);
    text.append("\nxllcorner 0\nyllcorner 0\ncellsize " + cellM + "\nNODATA_value -9999\n");
    for (int i = 0; i < N * N; i++) {
      text.append(String.format(Locale.ROOT, "%.4f", values[i])).append(i % N < N - 1 ? ' ' : '\n');
    }
    Files.writeString(dir.resolve(name), text);
  }

  /** Rough ground, rocks of all shares up to 0.3, two soils in patches. */
  private static double[][] layers(Random random) {
    double[] height = new double[N * N];
    double[] rocks = new double[N * N];
    double[] soil = new double[N * N];
    double east = 0.15 * random.nextDouble();
    for (int i = 0; i < N * N; i++) {
      height[i] = east * (i % N) + 0.05 * random.nextDouble();
      rocks[i] = random.nextInt(3) > 0 ? 0 : 0.3 * random.nextDouble();
      soil[i] = (i / N / 5 + i % N / 5) % 2 + 1;
    }
    return new double[][] {height, rocks, soil};
  }

  /** Walls of up to 0.6 m over one to three cells, in any direction. */
  private static void addWalls(double[] height, Random random) {
    for (int wall = 0; wall < 3; wall++) {
      double angle = 2 * Math.PI * random.nextDouble();
      double off = (10 + 8 * random.nextDouble()) * (random.nextBoolean() ? 1 : -1);
      double wallM = 0.6 * random.nextDouble();
      double faceCells = 1 + 2 * random.nextDouble();
      for (int i = 0; i < N * N; i++) {
        int row = i / N - N / 2;
        double across = row * Math.sin(angle) + (i % N - N / 2) * Math.cos(angle) - off;
        height[i] += wallM * Math.min(1, Math.max(0, across / faceCells));
      }
    }
  }

  /** Keep-out squares, as many as the number says; of one seed the first ones are the same. */
  private void keepOut(long seed, int squares) throws IOException {
    Random random = new Random(seed);
    StringBuilder all = new StringBuilder();
    for (int n = 0; n < squares; n++) {
      double angle = 2 * Math.PI * random.nextDouble();
      double x = cellM * (N / 2.0 + 14 * Math.cos(angle));
      double y = cellM * (N / 2.0 + 14 * Math.sin(angle));
      double to = cellM * (1 + 3 * random.nextDouble());
      all.append(n == 0 ? "" : ",")
          .append(
              String.format(
                  Locale.ROOT,
                  "{\"type\":\"Feature\",\"properties\":{},\"geometry\":{\"type\":\"Polygon\","
                      + "\"coordinates\":[[[%1$f,%2$f],[%3$f,%2$f],[%3$f,%4$f],[%1$f,%4$f],[%1$f,%2$f]]]}}",
                  x,
                  y,
                  x + to,
                  y + to));
    }
    Files.writeString(
        dir.resolve("keep-out.geojson"),
        "{\"type\":\"FeatureCollection\",\"scarpway:coordinates\":\"projected\",\"features\":["
            + all
            + "]}");
  }

  private static double[] without(double[] values, Random random) {
    double[] less = values.clone();
    for (int n = 0; n < 6; n++) {
      int row = random.nextInt(N);
      int col = random.nextInt(N);
      int size = 1 + random.nextInt(5);
      for (int r = row; r < Math.min(N, row + size); r++) {
        for (int c = col; c < Math.min(N, col + size); c++) {
          // About the base there is data, or the job is refused.
          if (Math.hypot(r - N / 2.0, c - N / 2.0) > 7) {
            less[r * N + c] = VOID;
          }
        }
      }
    }
    return less;
  }

  private record Products(
      ByteGrid cls, FloatGrid speed, ByteGrid state, FloatGrid time, String said) {}

  private Products run(String rocksNoData, String soilNoData) throws IOException {
    String buggy = Files.readString(Flow.ROOT.resolve("configs/vehicles/open-buggy.yaml"));
    Path soils = Flow.ROOT.resolve("configs/soils");
    Files.writeString(
        dir.resolve("buggy.yaml"),
        buggy.replace("../soils/", soils + "/").replace("suited: true", "suited: false"));
    Path job = dir.resolve("job.yaml");
    Files.writeString(
        job,
        """
        scarpway: 1
        job: gaps
        body: moon
        dem: {source: ground.asc, units: metres}
        hazard:
          {rock_coverage: rocks.asc, rock_no_data: %s, keep_out: [keep-out.geojson], min_gap_m: 0, turning_m: 0}
        soils:
          raster: soil.asc
          classes: {1: vehicle, 2: %s}
          no_data: %s
        vehicles: [buggy.yaml]
        bases: {camp: [%d, %d]}
        reach:
          - {name: day, from: camp, budget: {drive_h: %s}, home: drive-back, bands: [1min]}
        """
            .formatted(
                rocksNoData,
                soils.resolve("lunar-slope.yaml"),
                soilNoData,
                20 * cellM,
                20 * cellM,
                0.02 * cellM));
    if (!Files.exists(dir.resolve("keep-out.geojson"))) {
      keepOut(1, 1);
    }
    Path out = dir.resolve("out");
    Flow.Outcome told = Flow.scarpway("run", job, "--out", out, "--quiet", "--fresh").ok();
    Path of = out.resolve("gaps");
    return new Products(
        IO.readBytes(of.resolve("mobility/open-buggy/class.tif")),
        IO.readFloats(of.resolve("mobility/open-buggy/speed_ms.tif")),
        IO.readBytes(of.resolve("reach/day/state.tif")),
        IO.readFloats(of.resolve("reach/day/time_s.tif")),
        told.out() + Files.readString(of.resolve("mobility/open-buggy/areas.csv")));
  }

  /** Cells with a verdict that were compared. */
  private static int neverBetter(Products all, Products less, String what) {
    int lost = 0;
    for (int i = 0; i < N * N; i++) {
      String where = what + " cell " + i;
      boolean judged = less.cls.values()[i] > 0;
      lost += judged ? 0 : 1;
      assertTrue(
          !judged || (all.cls.values()[i] > 0 && less.cls.values()[i] >= all.cls.values()[i]),
          where);
      assertTrue(!(less.speed.values()[i] > all.speed.values()[i] * (1 + 1e-6)), where + " speed");
      boolean moving = !Float.isNaN(less.speed.values()[i]);
      assertTrue(!moving || !Float.isNaN(all.speed.values()[i]), where + " moves");
      // 1 surely, 2 possibly, else not: surely may become possibly or nothing, never the reverse.
      assertTrue(less.state.values()[i] != 1 || all.state.values()[i] == 1, where + " surely");
      assertTrue(less.state.values()[i] != 2 || all.state.values()[i] > 0, where + " possibly");
      // Fronts that come another way differ by no more than they are good to (0.5 %).
      assertTrue(
          !(less.time.values()[i] < all.time.values()[i] * (1 - 5e-3)),
          where + " time " + all.time.values()[i] + " " + less.time.values()[i]);
    }
    assertTrue(lost > 0, what);
    return N * N - lost;
  }

  @Test
  void missingDataNeverImprovesAnything() throws IOException {
    Random random = new Random(13);
    int compared = 0;
    // Within two cells of the wheel spacing, one and none: on white noise no law explains a break.
    for (int cells : new int[] {1, 2, 5}) {
      cellM = cells;
      double[][] layers = layers(random);
      addWalls(layers[0], random);
      for (int k = 0; k < 3; k++) {
        grid(LAYERS[k], layers[k]);
      }
      long areas = random.nextLong();
      keepOut(areas, 1);
      Products strict = run("no-verdict", "no-verdict");
      Products stated = run("0.3", "worst");
      for (int k = 0; k < 3; k++) {
        String what = cells + " m, " + LAYERS[k];
        grid(LAYERS[k], without(layers[k], random));
        compared += neverBetter(strict, run("no-verdict", "no-verdict"), what + " no-verdict");
        compared += neverBetter(stated, run("0.3", "worst"), what + " worst");
        grid(LAYERS[k], layers[k]);
      }
      keepOut(areas, 4);
      compared +=
          neverBetter(
              strict, run("no-verdict", "no-verdict"), cells + " m, further keep-out areas");
    }
    Validation.holds(
        "3-missing-data",
        "taking data away from heights, rocks or soils, or adding keep-out areas, improves no class,"
            + " speed or reach; random ground with walls on cells of 1, 2 and 5 m, each rule for"
            + " what is missing",
        "own derivation",
        "C",
        compared > 10_000);
  }

  /** What is missing has no verdict, with a count; what the job states instead has the worst. */
  @Test
  void missingGroundIsCountedAndNamed() throws IOException {
    double[] flat = new double[N * N];
    double[] rocks = new double[N * N];
    double[] soil = new double[N * N];
    Arrays.fill(soil, 1);
    // The west tenth has no rock data; of the east tenth one half has a class that nobody named.
    for (int i = 0; i < N * N; i++) {
      rocks[i] = i % N < 4 ? VOID : 0;
      soil[i] = i % N < 36 ? 1 : i / N < N / 2 ? 7 : VOID;
    }
    grid("ground.asc", flat);
    grid("rocks.asc", rocks);
    grid("soil.asc", soil);
    Products strict = run("no-verdict", "no-verdict");
    int row = N / 2;
    assertEquals(0, strict.cls.values()[row * N + 3], "no rock data");
    assertEquals(1, strict.cls.values()[row * N + 4]);
    assertEquals(0, strict.cls.values()[(row - 1) * N + 37], "a class that nobody named");
    assertEquals(0, strict.cls.values()[(row + 1) * N + 37], "no soil data");
    assertTrue(strict.said.contains("no rock data"), strict.said);
    assertTrue(strict.said.contains("no soil data"), strict.said);
    assertTrue(strict.said.contains("no verdict,no rock data,"), strict.said);
    assertTrue(strict.said.contains("no verdict,no soil data,"), strict.said);
    Products stated = run("0.3", "worst");
    assertTrue(stated.cls.values()[row * N + 3] > 1, "the stated rocks");
    assertTrue(stated.cls.values()[row * N + 37] > 0, "some soil of the job's");
    assertTrue(
        stated.speed.values()[row * N + 37] <= stated.speed.values()[row * N + 20],
        "the worst of both soils");
    assertTrue(stated.said.contains("hazard.rock_no_data"), stated.said);
    assertTrue(stated.said.contains("soils.no_data"), stated.said);
    String page = Files.readString(dir.resolve("out/gaps/index.html"));
    String cautions = page.substring(page.indexOf("<section id=\"cautions\">"));
    assertTrue(
        cautions
            .substring(0, cautions.indexOf("</section>"))
            .contains("assumed, the coverage that hazard.rock_no_data states"));
    String assumed = Flow.scarpway("explain", job("0.3"), "3.5", "20.5").ok().out();
    assertTrue(assumed.contains("30.0 % of the ground, assumed"), assumed);
    assertTrue(assumed.matches("(?s).*inside a keep-out area +got no +allowed no +ok.*"), assumed);
    assertTrue(!assumed.contains("1.000 > 0.000"), assumed);
    String nobody = Flow.scarpway("explain", job("no-verdict"), "3.5", "20.5").ok().out();
    assertTrue(nobody.contains("no verdict: no rock data"), nobody);
    assertTrue(
        nobody.matches("(?s).*rocks +so many rocks[^\\n]*not known[^\\n]*no verdict.*"), nobody);
    assertTrue(!nobody.contains("% of the ground"), nobody);
    // Less than what the raster holds elsewhere is no worst case.
    rocks[row * N + 20] = 0.2;
    grid("rocks.asc", rocks);
    Flow.Outcome refused = Flow.scarpway("run", job("0.1"), "--out", dir.resolve("out"), "--quiet");
    assertEquals(2, refused.code(), "a stated most that the raster exceeds");
    assertTrue(refused.err().contains("rocks.asc: rock coverage is 0.2000"), refused.err());
  }

  /** One void in a hundred: summary, report and table state the same share, with the remedy. */
  @Test
  void scatteredVoidsAreToldWithTheGroundThatTheyCost() throws IOException {
    grid("rocks.asc", new double[N * N]);
    double[] soil = new double[N * N];
    Arrays.fill(soil, 1);
    grid("soil.asc", soil);
    Random random = new Random(4);
    for (int share : new int[] {0, 100, 30}) {
      double[] height = new double[N * N];
      int voids = 0;
      for (int i = 0; i < N * N; i++) {
        int row = i / N;
        boolean near = Math.hypot(row - N / 2.0, i % N - N / 2.0) < 7;
        height[i] = share > 0 && !near && random.nextInt(share) == 0 ? VOID : 0;
        voids += height[i] == VOID ? 1 : 0;
      }
      grid("ground.asc", height);
      Products p = run("no-verdict", "no-verdict");
      int lost = 0;
      for (byte c : p.cls.values()) {
        lost += c == 0 ? 1 : 0;
      }
      double pct = 100.0 * lost / (N * N);
      String what = share + ": " + p.said;
      assertTrue(share == 0 || (voids > 3 && lost > 3 * voids), what);
      assertTrue(
          p.said.contains(
              String.format(Locale.ROOT, "NO VERDICT on %.1f %% of all cells: no elevation", pct)),
          what);
      assertTrue(
          p.said.contains(
              String.format(
                  Locale.ROOT, "no verdict,no elevation,%d,%.6f,%.3f", lost, lost * 1e-6, pct)),
          what);
      double voidPct = 100.0 * voids / (N * N);
      String remedy =
          String.format(
              Locale.ROOT,
              "No verdict on %d cells (%.1f %%) for want of heights: %d cells (%.1f %%) hold",
              lost,
              pct,
              voids,
              voidPct);
      assertEquals(share > 0, p.said.contains(remedy), what);
      assertEquals(share > 0, p.said.contains("dem.voids: {fill: {max_gap_cells: 3"), what);
      assertEquals(share > 0, p.said.contains(voids + " cells ("), what);
      assertTrue(!p.said.contains("and are no-go"), what);
      String page = Files.readString(dir.resolve("out/gaps/index.html"));
      assertTrue(page.contains("no elevation there, beside it or beyond the edge on "), what);
    }
  }

  /** By GDAL: what a mask of all polygons leaves is judged and open, cell by cell. */
  @Test
  void polygonsHoldEveryCellThatIsNotOpen() throws IOException {
    double[][] layers = layers(new Random(77));
    for (int i = 0; i < N * N; i++) {
      int row = i / N;
      layers[1][i] = Math.hypot(row - N / 2.0, i % N - N / 2.0) < 8 ? 0 : layers[1][i];
    }
    for (int k = 0; k < 3; k++) {
      grid(LAYERS[k], without(layers[k], new Random(k)));
    }
    byte[] cls = run("no-verdict", "no-verdict").cls.values();
    byte[] told = new byte[N * N];
    Arrays.fill(told, (byte) 1);
    DataSource file = ogr.Open(dir.resolve("out/gaps/mobility/open-buggy/no_go.gpkg").toString());
    Layer layer = file.GetLayer(0);
    for (Feature f = layer.GetNextFeature(); f != null; f = layer.GetNextFeature()) {
      boolean noGo = f.GetFieldAsString("class").equals("no-go");
      assertTrue(noGo || f.GetFieldAsString("class").equals("no verdict"));
      for (int i = 0; i < N * N; i++) {
        Geometry centre = new Geometry(ogrConstants.wkbPoint);
        centre.AddPoint_2D(i % N + 0.5, N - i / N - 0.5);
        if (f.GetGeometryRef().Contains(centre)) {
          told[i] = (byte) (noGo ? 3 : 0);
        }
      }
    }
    file.delete();
    int[] of = new int[4];
    for (int i = 0; i < N * N; i++) {
      assertEquals(cls[i] == 2 ? 1 : cls[i], told[i], "cell " + i);
      of[cls[i]]++;
    }
    assertTrue(of[0] > 100 && of[3] > 10 && of[1] + of[2] > 100, Arrays.toString(of));
  }

  /** Wherever it is, beside what is missing too, and before anything is written. */
  @Test
  void rocksThatMayNotBeAreRefusedByEveryCommandBeforeTheRun() throws IOException {
    Random random = new Random(31);
    double[][] layers = layers(random);
    for (int k = 0; k < 3; k++) {
      grid(LAYERS[k], layers[k]);
    }
    run("0.3", "worst");
    double[] wrong = {-0.01, 0.5, 1.5, 30, 0.35};
    for (int trial = 0; trial < 12; trial++) {
      int at = random.nextInt(N * N);
      double[] rocks = layers[1].clone();
      // The neighbour has no data; far from every place, or not.
      rocks[at ^ 1] = VOID;
      rocks[at] = wrong[trial % wrong.length];
      grid("rocks.asc", rocks);
      Path job = job(trial % 3 == 0 && rocks[at] != 0.35 ? "no-verdict" : "0.3");
      Path out = dir.resolve("refused");
      for (String command : new String[] {"check", "plan", "run"}) {
        Flow.Outcome told =
            switch (command) {
              case "check" -> Flow.scarpway(command, job);
              case "plan" -> Flow.scarpway(command, job, "--out", out);
              default -> Flow.scarpway(command, job, "--out", out, "--quiet");
            };
        String what = command + " " + at + " " + rocks[at] + "\n" + told.err();
        assertEquals(2, told.code(), what);
        assertEquals(1, told.errLines().size(), what);
        String place =
            String.format(Locale.ROOT, "at row %d, column %d of the file", at / N, at % N);
        assertTrue(told.err().contains("rocks.asc: rock coverage is "), what);
        assertTrue(told.err().contains(place), what);
      }
      assertTrue(!Files.exists(out.resolve("gaps/terrain")), "nothing is written");
    }
  }

  private Path job(String rockNoData) throws IOException {
    Path job = dir.resolve("job.yaml");
    return Files.writeString(
        job,
        Files.readString(job).replaceFirst("rock_no_data: [^,]*", "rock_no_data: " + rockNoData));
  }
}

package org.scarpway.dem;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.DemRequest.VoidRule;
import org.scarpway.dem.DemRequest.Window;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.crs.CrsWriter;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.raster.RasterHeader.Affine;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;

class DemReaderTest {
  private static final String MOON =
      CrsWriter.wkt(MapCrs.local("moon", 1_737_400, 1_737_400, 30, -85));
  private static final String MOON_DEGREES = CrsWriter.wkt(MapCrs.lonLat(Body.MOON));
  private static final Affine TEN_M = new Affine(1000, 10, 0, 5000, 0, -10);

  private final FakeRasters io = new FakeRasters();

  private static DemRequest request(List<Path> files) {
    return new DemRequest(
        files, Body.MOON, null, null, VoidRule.NO_GO, 0, null, null, 1_000_000, false);
  }

  private static DemRequest window(Path file, Window w, Double cellM) {
    return new DemRequest(
        List.of(file), Body.MOON, w, cellM, VoidRule.NO_GO, 0, null, null, 1_000_000, false);
  }

  private static DemRequest voids(Path file, VoidRule rule, int gap) {
    return new DemRequest(
        List.of(file), Body.MOON, null, null, rule, gap, null, null, 1_000_000, false);
  }

  private Dem read(DemRequest request) {
    return read(request, 2);
  }

  private Dem read(DemRequest request, int threads) {
    try (Workers workers = new Workers(threads)) {
      return DemRows.open(request, io, workers).whole(Progress.NONE);
    }
  }

  private String refusal(DemRequest request) {
    String line = assertThrows(UserError.class, () -> read(request)).getMessage();
    assertFalse(line.contains("\n"), line);
    return line;
  }

  private static double hills(double x, double y) {
    return 40 * Math.sin(x / 90) + 25 * Math.cos(y / 70) + 0.01 * x;
  }

  @Test
  void northUpMetresAreCopied() {
    Path f = io.add("a", 6, 5, TEN_M, MOON, (r, c) -> 10 * r + c + 0.25);
    Dem dem = read(request(List.of(f)));
    GridSpec g = dem.heightM().spec();
    assertEquals(6, g.rows());
    assertEquals(5, g.cols());
    assertEquals(1000, g.westM());
    assertEquals(5000, g.northM());
    assertEquals(MOON, g.crsWkt());
    assertEquals(0, dem.datumM());
    assertEquals(34.25f, dem.heightM().at(3, 4));
    assertEquals(List.of(), dem.warnings());
  }

  @Test
  void southUpAndEastFirstRastersAreTurnedExactly() {
    Path plain = io.add("n", 6, 5, TEN_M, MOON, (r, c) -> 10 * r + c);
    Path south =
        io.add("s", 6, 5, new Affine(1000, 10, 0, 4940, 0, 10), MOON, (r, c) -> 10 * (5 - r) + c);
    Path both =
        io.add(
            "b",
            6,
            5,
            new Affine(1050, -10, 0, 4940, 0, 10),
            MOON,
            (r, c) -> 10 * (5 - r) + (4 - c));
    float[] want = read(request(List.of(plain))).heightM().values();
    for (Path f : List.of(south, both)) {
      Dem dem = read(request(List.of(f)));
      assertArrayEquals(want, dem.heightM().values());
      assertEquals(5000, dem.heightM().spec().northM());
      assertEquals(1000, dem.heightM().spec().westM());
    }
    Dem part = read(window(both, new Window(1025, 4970, false, 30, 40), null));
    assertEquals(4990, part.heightM().spec().northM());
    assertEquals(11f, part.heightM().at(0, 0));
  }

  @Test
  void rotatedRasterIsTurnedWithoutMovingItsPlane() {
    double a = Math.toRadians(33);
    Affine t =
        new Affine(
            2000, 10 * Math.cos(a), 10 * Math.sin(a), 7000, 10 * Math.sin(a), -10 * Math.cos(a));
    FakeRasters.Height plane =
        (r, c) ->
            0.3 * GridPlan.x(t, c + 0.5, r + 0.5) - 0.2 * GridPlan.y(t, c + 0.5, r + 0.5) + 2000;
    Path f = io.add("r", 60, 80, t, MOON, plane);
    Dem dem = read(request(List.of(f)));
    GridSpec g = dem.heightM().spec();
    assertEquals(10, g.cellXM(), 1e-9);
    assertEquals(10, g.cellYM(), 1e-9);
    double[] p = new double[2];
    int within = 0;
    for (int r = 0; r < g.rows(); r++) {
      for (int c = 0; c < g.cols(); c++) {
        GridPlan.invert(t, g.xM(c), g.yM(r), p);
        boolean inside = p[0] > 0.5 && p[1] > 0.5 && p[0] < 79.5 && p[1] < 59.5;
        float z = dem.heightM().at(r, c);
        if (inside) {
          assertEquals(0.3 * g.xM(c) - 0.2 * g.yM(r) + 2000, z, 2e-3);
          within++;
        } else if (p[0] < 0 || p[1] < 0 || p[0] > 80 || p[1] > 60) {
          assertTrue(Float.isNaN(z));
        }
      }
    }
    assertTrue(within > 4400, within + " cells");
  }

  @Test
  void quarterTurnIsExact() {
    Affine t = new Affine(0, 0, 10, 0, 10, 0);
    Path f = io.add("q", 4, 7, t, MOON, (r, c) -> 100 * r + c);
    Dem dem = read(request(List.of(f)));
    GridSpec g = dem.heightM().spec();
    assertEquals(7, g.rows());
    assertEquals(4, g.cols());
    for (int r = 0; r < 7; r++) {
      for (int c = 0; c < 4; c++) {
        assertEquals(100 * c + (6 - r), dem.heightM().at(r, c), 1e-4);
      }
    }
  }

  @Test
  void cellsThatAreNotSquareStay() {
    Path f = io.add("o", 4, 4, new Affine(0, 20, 0, 0, 0, -5), MOON, (r, c) -> r);
    GridSpec g = read(request(List.of(f))).heightM().spec();
    assertEquals(20, g.cellXM());
    assertEquals(5, g.cellYM());
  }

  @Test
  void coarserCellsAreMeansAndFinerOnesAreInterpolated() {
    Path f = io.add("c", 12, 12, TEN_M, MOON, (r, c) -> r * r + 3 * c * c);
    Dem coarse = read(window(f, null, 30.0));
    assertEquals(4, coarse.heightM().spec().rows());
    double sum = 0;
    for (int r = 3; r < 6; r++) {
      for (int c = 6; c < 9; c++) {
        sum += r * r + 3 * c * c;
      }
    }
    assertEquals(sum / 9, coarse.heightM().at(1, 2), 1e-4);
    Dem fine = read(window(f, null, 5.0));
    assertEquals(24, fine.heightM().spec().rows());
    assertTrue(fine.warnings().toString().contains("adds no detail"));
    Path plane = io.add("p", 12, 12, TEN_M, MOON, (r, c) -> 2.5 * r - c);
    Dem uneven = read(window(plane, null, 25.0));
    for (int r = 1; r < 3; r++) {
      for (int c = 1; c < 3; c++) {
        double want = 2.5 * (2.5 * (r + 0.5) - 0.5) - (2.5 * (c + 0.5) - 0.5);
        assertEquals(want, uneven.heightM().at(r, c), 1e-4);
      }
    }
  }

  @Test
  void aVoidVoidsEveryCoarserCellThatNeedsIt() {
    Path f =
        io.add("v", 12, 12, TEN_M, MOON, (r, c) -> r == 4 && c == 7 ? Double.NaN : r + 0.5 * c);
    Dem dem = read(window(f, null, 30.0));
    for (int r = 0; r < 4; r++) {
      for (int c = 0; c < 4; c++) {
        assertEquals(r == 1 && c == 2, Float.isNaN(dem.heightM().at(r, c)));
      }
    }
  }

  @Test
  void earlierFilesOfAMosaicCountAndLaterOnesFillTheirVoids() {
    Path a = io.add("a", 4, 4, TEN_M, MOON, (r, c) -> c == 3 ? Double.NaN : 1);
    Path b =
        io.add("b", 4, 4, new Affine(1020, 10, 0, 5010, 0, -10), MOON, (r, c) -> 2 + 0.001 * r);
    Dem dem = read(request(List.of(a, b)));
    GridSpec g = dem.heightM().spec();
    assertEquals(5, g.rows());
    assertEquals(6, g.cols());
    assertEquals(5010, g.northM());
    assertTrue(Float.isNaN(dem.heightM().at(0, 0)));
    assertEquals(1f, dem.heightM().at(1, 2));
    assertEquals(2.001f, dem.heightM().at(1, 3));
    assertEquals(2f, dem.heightM().at(0, 2));
  }

  @Test
  void mosaicsOfDifferentGridsAreRefused() {
    Path a = io.add("a", 4, 4, TEN_M, MOON, (r, c) -> 1);
    Path shifted = io.add("b", 4, 4, new Affine(1044, 10, 0, 5000, 0, -10), MOON, (r, c) -> 2);
    Path larger = io.add("c", 4, 4, new Affine(1040, 20, 0, 5000, 0, -20), MOON, (r, c) -> 2);
    Path elsewhere = io.add("d", 4, 4, TEN_M, MOON_DEGREES, (r, c) -> 2);
    assertTrue(refusal(request(List.of(a, shifted))).contains("shifted by 0.4"));
    assertTrue(refusal(request(List.of(a, larger))).contains("cells of 20.0 x 20.0"));
    assertTrue(refusal(request(List.of(a, elsewhere))).contains("reproject one"));
    assertTrue(refusal(request(List.of())).contains("dem.source"));
  }

  @Test
  void windowsAreSnappedToCellsAndThoseOutsideAreRefused() {
    Path f = io.add("w", 50, 50, TEN_M, MOON, (r, c) -> 100 * r + c);
    Dem dem = read(window(f, new Window(1204, 4797, false, 100, 60), null));
    GridSpec g = dem.heightM().spec();
    assertEquals(10, g.cols());
    assertEquals(6, g.rows());
    assertEquals(0, (g.westM() - 1000) % 10, 1e-9);
    int row = (int) Math.round((5000 - g.northM()) / 10);
    int col = (int) Math.round((g.westM() - 1000) / 10);
    assertEquals(100f * row + col, dem.heightM().at(0, 0));
    String line = refusal(window(f, new Window(9000, 0, false, 100, 100), null));
    assertTrue(line.contains("x 1000 to 1500, y 4500 to 5000"), line);
    assertTrue(refusal(window(f, new Window(1200, 4800, false, 0, 5), null)).contains("above 0"));
    assertTrue(refusal(window(f, new Window(1200, 4800, false, 10, 10), null)).contains("3 x 3"));
    Dem cut = read(window(f, new Window(1000, 5000, false, 100, 100), null));
    assertEquals(5, cut.heightM().spec().cols());
    assertTrue(cut.warnings().toString().contains("cut at its edge"));
    double[] lonLat = CrsText.read(MOON).toLonLat(1204, 4797);
    Dem same = read(window(f, new Window(lonLat[0] + 360, lonLat[1], true, 100, 60), null));
    assertArrayEquals(dem.heightM().values(), same.heightM().values());
  }

  @Test
  void degreesBecomeMetresAboutTheCentreAndFollowTheGround() {
    double cell = 0.002;
    Affine t = new Affine(41, cell, 0, -43, 0, -cell);
    MapCrs local = MapCrs.local("moon", 1_737_400, 1_737_400, 41.1, -43.1);
    Path f =
        io.add(
            "d",
            100,
            100,
            t,
            MOON_DEGREES,
            (r, c) -> {
              double[] p = local.fromLonLat(41 + (c + 0.5) * cell, -43 - (r + 0.5) * cell);
              return 500 + 0.2 * p[0] - 0.1 * p[1];
            });
    Dem dem = read(request(List.of(f)));
    GridSpec g = dem.heightM().spec();
    assertTrue(CrsText.read(g.crsWkt()).sameAs(local), g.crsWkt());
    double perDegree = Math.PI / 180 * 1_737_400;
    double geometricMean = cell * perDegree * Math.sqrt(Math.cos(Math.toRadians(43.1)));
    assertEquals(geometricMean, g.cellXM(), 0.005 * geometricMean);
    assertEquals(g.cellXM(), g.cellYM());
    assertEquals(0, Math.IEEEremainder(g.westM(), g.cellXM()), 1e-6);
    int held = 0;
    for (int r = 0; r < g.rows(); r++) {
      for (int c = 0; c < g.cols(); c++) {
        double[] ground = local.toLonLat(g.xM(c), g.yM(r));
        double col = (ground[0] - 41) / cell;
        double row = (-43 - ground[1]) / cell;
        if (col > 0.5 && row > 0.5 && col < 99.5 && row < 99.5) {
          assertEquals(500 + 0.2 * g.xM(c) - 0.1 * g.yM(r), dem.heightM().at(r, c), 0.01);
          held++;
        }
      }
    }
    assertTrue(held > 9000, held + " cells");
  }

  @Test
  void aWindowAcrossTheSeamOfAGlobeAndOverThePoleIsWhole() {
    Affine t = new Affine(0, 1, 0, 90, 0, -1);
    FakeRasters.Height z =
        (r, c) ->
            1000 * Math.cos(Math.toRadians(c + 0.5)) * Math.cos(Math.toRadians(90 - (r + 0.5)));
    Path globe = io.add("g", 180, 360, t, MOON_DEGREES, z);
    Dem seam = read(window(globe, new Window(0, 5, true, 300_000, 300_000), 10_000.0));
    Dem pole = read(window(globe, new Window(0, -90, true, 300_000, 300_000), 10_000.0));
    for (boolean overPole : new boolean[] {false, true}) {
      Dem dem = overPole ? pole : seam;
      GridSpec g = dem.heightM().spec();
      MapCrs local = CrsText.read(g.crsWkt());
      for (int r = 0; r < g.rows(); r++) {
        for (int c = 0; c < g.cols(); c++) {
          double[] ground = local.toLonLat(g.xM(c), g.yM(r));
          double want =
              1000 * Math.cos(Math.toRadians(ground[0])) * Math.cos(Math.toRadians(ground[1]));
          assertEquals(want, dem.heightM().at(r, c), overPole ? 6 : 1, r + ", " + c);
        }
      }
    }
    String line = refusal(request(List.of(globe)));
    assertTrue(line.contains("too wide for one plane map"), line);
  }

  @Test
  void mapsThatStretchTheGroundAreDrawnTrueToScale() {
    String wkt =
        "PROJCS[\"eqc\","
            + MOON_DEGREES
            + ",PROJECTION[\"Equirectangular\"],PARAMETER[\"standard_parallel_1\",0],"
            + "UNIT[\"metre\",1]]";
    double north13 = 13 * Math.PI / 180 * 1_737_400;
    for (int k : new int[] {1, 4}) {
      Path f =
          io.add("t" + k, 20, 20, new Affine(0, 100, 0, k * north13, 0, -100), wkt, (r, c) -> r);
      Dem dem = read(request(List.of(f)));
      assertTrue(dem.warnings().toString().contains("true to scale"));
      double cos = Math.cos(Math.toRadians(13 * k));
      assertEquals(100 * cos, dem.heightM().spec().cellXM(), 0.1);
      assertEquals(100, dem.heightM().spec().cellYM());
      assertEquals(20, dem.heightM().spec().cols());
      // Cells of the map's own size are asked for as they are.
      assertEquals(
          dem.heightM().spec(),
          read(new DemRequest(
                  List.of(f),
                  Body.MOON,
                  null,
                  100.0,
                  VoidRule.NO_GO,
                  0,
                  null,
                  null,
                  1_000_000,
                  false))
              .heightM()
              .spec());
    }
    // Scale that differs by the latitude over the raster.
    Path left =
        io.add("l", 20, 20, new Affine(0, 9000, 0, 4 * north13, 0, -9000), wkt, (r, c) -> r);
    Dem moved = read(request(List.of(left)));
    assertTrue(moved.warnings().toString().contains("carried over to a local"));
    double cos = Math.cos(Math.toRadians(49));
    assertEquals(9000 * Math.sqrt(cos), moved.heightM().spec().cellXM(), 60);
  }

  @Test
  void cellsBeyondAPoleAreRefusedAndThoseThatStandForItAreNot() {
    // By hand: the middle of an outer row lies half a cell inside the outer edge.
    for (double edge : new double[] {90, 90.5, 90.5001, 90.75, 91, 120}) {
      for (boolean south : new boolean[] {false, true}) {
        Affine t = new Affine(-180, 1, 0, south ? 180 - edge : edge, 0, -1);
        Path file = io.add("globe " + edge + south, 180, 360, t, MOON_DEGREES, (r, c) -> r);
        DemRequest request = window(file, new Window(10, 10, true, 2e5, 2e5), 10_000.0);
        if (edge > 90.5005) {
          assertTrue(refusal(request).contains("latitude"), () -> refusal(request));
        } else {
          assertEquals(20, read(request).heightM().spec().rows());
        }
      }
    }
  }

  @Test
  void aGlobeOnOneMapIsRefusedButAWindowOfItIsRead() {
    String wkt =
        "PROJCS[\"eqc\","
            + MOON_DEGREES
            + ",PROJECTION[\"Equirectangular\"],PARAMETER[\"central_meridian\",180],"
            + "UNIT[\"metre\",1]]";
    double half = Math.PI / 2 * 1_737_400;
    Affine t = new Affine(-2 * half, half / 45, 0, half, 0, -half / 45);
    Path globe = io.add("globe", 90, 180, t, wkt, (r, c) -> 40 * r + 0.5);
    assertTrue(refusal(request(List.of(globe))).contains("too wide for one plane map"));
    Dem dem = read(window(globe, new Window(100, 60, true, 300_000, 300_000), 15_000.0));
    GridSpec g = dem.heightM().spec();
    double[] ground = CrsText.read(g.crsWkt()).toLonLat(g.xM(3), g.yM(16));
    assertEquals(40 * ((90 - ground[1]) / 2 - 0.5) + 0.5, dem.heightM().at(16, 3), 0.5);
  }

  @Test
  void feetBecomeMetresInMapAndHeight() {
    String feet =
        "PROJCS[\"f\","
            + CrsWriter.wkt(MapCrs.lonLat(Body.EARTH))
            + ",PROJECTION[\"Transverse_Mercator\"],PARAMETER[\"central_meridian\",-75],"
            + "UNIT[\"US survey foot\",0.304800609601219]]";
    Affine t = new Affine(1000, 10, 0, 2000, 0, -10);
    Path f = io.add("f", 5, 5, t, feet, "Float32", "US survey foot", (r, c) -> 1000 + r);
    DemRequest onEarth =
        new DemRequest(
            List.of(f), Body.EARTH, null, null, VoidRule.NO_GO, 0, null, null, 100, false);
    Dem dem = read(onEarth);
    double foot = 1200.0 / 3937;
    assertEquals(10 * foot, dem.heightM().spec().cellXM(), 1e-9);
    assertEquals(1000 * foot, dem.heightM().spec().westM(), 1e-6);
    assertEquals(1, CrsText.read(dem.heightM().spec().crsWkt()).metresPerUnit());
    assertEquals(1003 * foot, dem.heightM().at(3, 0), 1e-4);
    Path odd = io.add("o", 5, 5, TEN_M, MOON, "Float32", "cubits", (r, c) -> r + 0.5);
    assertTrue(read(request(List.of(odd))).warnings().toString().contains("'cubits'"));
  }

  @Test
  void heightsFromTheCentreOfTheBodyKeepTheirMillimetres() {
    Path f =
        io.add(
            "k", 40, 40, TEN_M, MOON, "Float64", "m", (r, c) -> 1_737_400 + hills(10 * c, 10 * r));
    Dem dem = read(request(List.of(f)));
    assertEquals(1_737_400, dem.datumM());
    for (int r = 0; r < 40; r++) {
      for (int c = 0; c < 40; c++) {
        assertEquals(hills(10 * c, 10 * r), dem.heightM().at(r, c), 1e-5);
      }
    }
    Path km = io.add("km", 4, 4, TEN_M, MOON, "Float64", "km", (r, c) -> 1737.4 + 1e-6 * r);
    Dem fromKm = read(request(List.of(km)));
    assertEquals(1_737_400, fromKm.datumM());
    assertEquals(0.003, fromKm.heightM().at(3, 0), 1e-6);
    Path high = io.add("h", 4, 4, TEN_M, MOON, (r, c) -> 21_300 + 0.001 * r);
    Dem plateau = read(request(List.of(high)));
    assertEquals(21_000, plateau.datumM());
    assertEquals(300.003, plateau.heightM().at(3, 0), 1e-4);
  }

  @Test
  void voidsFollowTheRule() {
    Path f =
        io.add(
            "v",
            20,
            20,
            TEN_M,
            MOON,
            (r, c) -> r >= 5 && r < 8 && c > 2 && c < 9 ? Double.NaN : 2.0 * r - 0.5 * c);
    Dem kept = read(voids(f, VoidRule.NO_GO, 0));
    assertTrue(Float.isNaN(kept.heightM().at(6, 5)));
    assertTrue(kept.warnings().toString().contains("18 cells (4.50 %)"));
    Dem filled = read(voids(f, VoidRule.FILL, 3));
    assertEquals(2.0 * 6 - 0.5 * 5, filled.heightM().at(6, 5), 1e-5);
    assertTrue(filled.warnings().toString().contains("18 void cells (4.50 %)"));
    Dem narrow = read(voids(f, VoidRule.FILL, 2));
    assertTrue(Float.isNaN(narrow.heightM().at(6, 5)));
    String line = refusal(voids(f, VoidRule.FAIL, 0));
    assertTrue(line.contains("18 of 400 cells") && line.contains("x 1035.00, y 4945.00"), line);
    Path empty = io.add("e", 5, 5, TEN_M, MOON, (r, c) -> Double.NaN);
    assertTrue(refusal(voids(empty, VoidRule.NO_GO, 0)).contains("no height in any cell"));
  }

  @Test
  void undeclaredNoDataIsRefused() {
    for (double filler : new double[] {-9999, -32768, -3.4e38, 1e20}) {
      Path f = io.add("u", 9, 9, TEN_M, MOON, (r, c) -> r == 0 ? filler : 100 + r + 0.5 * c);
      String line = refusal(request(List.of(f)));
      assertTrue(line.contains("look like no data"), line);
    }
  }

  @Test
  void filesWithoutAMapAreRefusedUnlessTheJobSaysMetres() {
    Path f = io.add("x", 5, 5, TEN_M, "", (r, c) -> r + 0.5);
    assertTrue(refusal(request(List.of(f))).contains("dem.units: metres"));
    DemRequest local =
        new DemRequest(List.of(f), Body.MOON, null, null, VoidRule.NO_GO, 0, null, null, 100, true);
    Dem dem = read(local);
    assertEquals("", dem.heightM().spec().crsWkt());
    assertEquals(1, dem.warnings().size());
  }

  @Test
  void anotherBodyOrAGridTooLargeIsRefused() {
    Path mars =
        io.add(
            "m",
            5,
            5,
            TEN_M,
            CrsWriter.wkt(MapCrs.local("mars", 3_396_190, 3_396_190, 0, 0)),
            (r, c) -> r);
    String line = refusal(request(List.of(mars)));
    assertTrue(line.contains("that of mars") && line.contains("moon"), line);
    Path large = io.add("l", 30, 30, TEN_M, MOON, (r, c) -> r);
    assertTrue(refusal(window(large, null, 0.01)).contains("at most 1000000"));
    Path custom =
        io.add(
            "q",
            5,
            5,
            TEN_M,
            CrsWriter.wkt(MapCrs.local("egg", 250e3, 240e3, 5, 5)),
            (r, c) -> r + 0.3);
    Body egg = new Body("egg", 250e3, 240e3, 0.1);
    DemRequest onEgg =
        new DemRequest(List.of(custom), egg, null, null, VoidRule.NO_GO, 0, null, null, 99, false);
    assertEquals("egg", read(onEgg).body().name());
  }

  @Test
  void threadsDoNotChangeABit() {
    double a = Math.toRadians(-12);
    Affine t =
        new Affine(0, 4 * Math.cos(a), 4 * Math.sin(a), 0, 4 * Math.sin(a), -4 * Math.cos(a));
    Path f =
        io.add(
            "t",
            700,
            650,
            t,
            MOON,
            (r, c) -> (r * 31 + c * 17) % 101 == 0 ? Double.NaN : hills(c, r));
    DemRequest fill =
        new DemRequest(
            List.of(f), Body.MOON, null, 3.0, VoidRule.FILL, 4, null, null, 10_000_000, false);
    float[] one = read(fill, 1).heightM().values();
    float[] three = read(fill, 3).heightM().values();
    for (int i = 0; i < one.length; i++) {
      assertEquals(Float.floatToRawIntBits(one[i]), Float.floatToRawIntBits(three[i]));
    }
  }

  @Test
  void wholeMetresAreTold() {
    Path f = io.add("i", 5, 5, TEN_M, MOON, "Int16", "m", (r, c) -> r * c);
    String warnings = read(request(List.of(f))).warnings().toString();
    assertTrue(warnings.contains("steps of 1 m") && warnings.contains("2.86 deg"), warnings);
  }

  /** Whatever heights are rounded to and counted from, it is told; fine heights are not. */
  @Test
  void heightsRoundedToAnyStepAreTold() {
    double[] steps = {5, 2, 1, 0.5, 0.3048, 0.25, 0.2, 0.1};
    for (double step : steps) {
      for (double fromM : new double[] {0, -2400, 1200}) {
        Path f =
            io.add(
                "q" + step + fromM,
                40,
                40,
                TEN_M,
                MOON,
                "Float32",
                "m",
                (r, c) -> (float) (step * Math.rint((fromM + 60 * hills(c, r)) / step)));
        String warnings = read(request(List.of(f))).warnings().toString();
        String told = "steps of " + GridPlan.shortly(step) + " m";
        assertTrue(warnings.contains(told), told + ": " + warnings);
      }
    }
    Path fine =
        io.add("fine", 40, 40, TEN_M, MOON, "Float32", "m", (r, c) -> (float) (60 * hills(c, r)));
    String warnings = read(request(List.of(fine))).warnings().toString();
    assertTrue(!warnings.contains("heights come in steps"), warnings);
  }
}

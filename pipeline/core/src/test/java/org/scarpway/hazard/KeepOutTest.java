package org.scarpway.hazard;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Location;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKTReader;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

class KeepOutTest {
  private static final GridSpec SPEC = new GridSpec(90, 120, 1, 1.5, -10, 100, "");

  private static Geometry wkt(String text) throws ParseException {
    return new WKTReader().read(text);
  }

  /** A wobbly ring around a point. */
  private static Geometry star(double x, double y, double radiusM, int vertices, long seed) {
    Random random = new Random(seed);
    Coordinate[] ring = new Coordinate[vertices + 1];
    for (int k = 0; k < vertices; k++) {
      double a = 2 * Math.PI * k / vertices;
      double r = radiusM * (0.7 + 0.3 * random.nextDouble());
      ring[k] = new Coordinate(x + r * Math.cos(a), y + r * Math.sin(a));
    }
    ring[vertices] = ring[0];
    return new GeometryFactory().createPolygon(ring);
  }

  private static void mark(Geometry area, GridSpec spec, byte[] mask, int mark) {
    new KeepOutCells(List.of(area), 0, spec, "areas").mark(0, spec.rows(), mask, mark);
  }

  private static void sameAsPointByPoint(Geometry area) {
    byte[] mask = new byte[SPEC.cells()];
    mark(area, SPEC, mask, 4);
    var locator = new IndexedPointInAreaLocator(area);
    int marked = 0;
    for (int row = 0; row < SPEC.rows(); row++) {
      for (int col = 0; col < SPEC.cols(); col++) {
        int where = locator.locate(new Coordinate(SPEC.xM(col), SPEC.yM(row)));
        if (where != Location.BOUNDARY) {
          boolean inside = mask[row * SPEC.cols() + col] == 4;
          assertEquals(where == Location.INTERIOR, inside, "row " + row + " col " + col);
          marked += inside ? 1 : 0;
        }
      }
    }
    assertTrue(marked > 0);
  }

  @Test
  void cellsWhoseCentreLiesInside() throws ParseException {
    for (int seed = 0; seed < 12; seed++) {
      Geometry island = star(40 + seed, 30 + 2 * seed, 45, 60, seed);
      Geometry hole = star(40 + seed, 30 + 2 * seed, 15, 9, seed + 100);
      Geometry islet = star(40 + seed, 30 + 2 * seed, 5, 7, seed + 200);
      sameAsPointByPoint(island.difference(hole).union(islet));
    }
    // Edges and vertices on cell centres, and a polygon larger than the grid.
    sameAsPointByPoint(
        wkt("POLYGON ((-9.5 99.25, 20.5 99.25, 20.5 60.25, -9.5 60.25, -9.5 99.25))"));
    sameAsPointByPoint(
        wkt(
            "POLYGON ((-500 -500, 500 -500, 500 500, -500 500, -500 -500), (0 0, 50 0, 25 50, 0 0))"));
  }

  @Test
  void cellsOfAWindowOfTheGrid() {
    Random random = new Random(18);
    int marked = 0;
    for (int n = 0; n < 40; n++) {
      Geometry area = star(40 + n, 30, 45, 60, n);
      var locator = new IndexedPointInAreaLocator(area);
      int firstRow = 1 + random.nextInt(60);
      int firstCol = 1 + random.nextInt(80);
      int rows = 1 + random.nextInt(SPEC.rows() - firstRow);
      int cols = 1 + random.nextInt(SPEC.cols() - firstCol);
      byte[] mask = new byte[rows * cols];
      new KeepOutCells(List.of(area), 0, SPEC, "areas")
          .mark(firstRow, firstCol, rows, cols, mask, 4);
      for (int i = 0; i < mask.length; i++) {
        double x = SPEC.xM(firstCol + i % cols);
        double y = SPEC.yM(firstRow + i / cols);
        boolean inside = locator.locate(new Coordinate(x, y)) == Location.INTERIOR;
        assertEquals(inside ? 4 : 0, mask[i], "cell " + i + " of window " + n);
        marked += inside ? 1 : 0;
      }
    }
    assertTrue(marked > 10_000, marked + " cells");
  }

  /**
   * Rectangles with edges on cell centres, on grids whose coordinates are not whole: a centre on
   * the northern or western edge is inside, one on the others outside, to the last bit.
   */
  @Test
  void edgesOnCellCentresAreDecidedByTheCentresThemselves() {
    Random random = new Random(17);
    for (int n = 0; n < 3000; n++) {
      GridSpec spec =
          new GridSpec(
              5 + random.nextInt(9),
              6 + random.nextInt(9),
              0.1 + random.nextDouble(),
              0.1 + random.nextDouble(),
              1e5 * random.nextGaussian(),
              1e5 * random.nextGaussian(),
              "");
      double[] xs = {spec.xM(random.nextInt(spec.cols())), spec.xM(random.nextInt(spec.cols()))};
      double[] ys = {spec.yM(random.nextInt(spec.rows())), spec.yM(random.nextInt(spec.rows()))};
      // Now and then beyond the grid, or a hair off the centre.
      xs[0] = n % 5 == 0 ? spec.westM() - 50 : n % 5 == 1 ? Math.nextUp(xs[0]) : xs[0];
      ys[0] = n % 7 == 0 ? spec.northM() + 50 : n % 7 == 1 ? Math.nextDown(ys[0]) : ys[0];
      double west = Math.min(xs[0], xs[1]);
      double east = Math.max(xs[0], xs[1]);
      double south = Math.min(ys[0], ys[1]);
      double north = Math.max(ys[0], ys[1]);
      if (west == east || south == north) {
        continue;
      }
      Geometry box = new GeometryFactory().toGeometry(new Envelope(west, east, south, north));
      byte[] mask = new byte[spec.cells()];
      mark(box, spec, mask, 1);
      for (int i = 0; i < mask.length; i++) {
        double x = spec.xM(i % spec.cols());
        double y = spec.yM(Math.floorDiv(i, spec.cols()));
        boolean inside = x >= west && x < east && y > south && y <= north;
        assertEquals(inside ? 1 : 0, mask[i], "cell " + i + " of grid " + n);
      }
    }
  }

  @Test
  void aSharedEdgeIsNeitherLostNorDoubled() throws ParseException {
    byte[] mask = new byte[SPEC.cells()];
    Geometry left = wkt("POLYGON ((-10 100, 30.5 100, 30.5 -35, -10 -35, -10 100))");
    Geometry right = wkt("POLYGON ((30.5 100, 110 100, 110 -35, 30.5 -35, 30.5 100))");
    new KeepOutCells(List.of(left, right), 0, SPEC, "areas").mark(0, SPEC.rows(), mask, 1);
    for (byte b : mask) {
      assertEquals(1, b);
    }
  }

  @Test
  void marginGrowsAndClosesHoles() throws ParseException {
    Geometry ring =
        wkt("POLYGON ((0 0, 40 0, 40 40, 0 40, 0 0), (18 18, 18 22, 22 22, 22 18, 18 18))");
    assertEquals(1600 - 16, KeepOut.area(List.of(ring), 0).getArea(), 1e-9);
    Geometry grown = KeepOut.area(List.of(ring), 3);
    assertEquals(1600 + 4 * 40 * 3 + Math.PI * 9, grown.getArea(), 0.5);
    Geometry line = wkt("LINESTRING (0 0, 50 0)");
    assertEquals(50 * 4 + Math.PI * 4, KeepOut.area(List.of(line), 2).getArea(), 0.2);
  }

  /**
   * Random polygons, lines and points, overlapping: a cell is kept out exactly where its centre
   * lies in one of them or no further away than the margin, by the distances of JTS.
   */
  @Test
  void cellsWithinTheMarginByDistance() throws ParseException {
    Random random = new Random(5);
    for (int n = 0; n < 40; n++) {
      List<Geometry> areas = new ArrayList<>();
      for (int k = 0; k < 4; k++) {
        double x = 110 * random.nextDouble();
        double y = 110 * random.nextDouble() - 30;
        areas.add(star(x, y, 1 + 25 * random.nextDouble(), 3 + random.nextInt(20), 10 * n + k));
      }
      areas.add(wkt("LINESTRING (10 80, 30 80, 30 40, " + random.nextInt(50) + " 7)"));
      areas.add(wkt("POINT (" + 90 * random.nextDouble() + " 33.25)"));
      double marginM = n % 4 == 0 ? 0 : 9 * random.nextDouble();
      byte[] mask = new byte[SPEC.cells()];
      new KeepOutCells(areas, marginM, SPEC, "areas").mark(0, SPEC.rows(), mask, 1);
      for (int i = 0; i < mask.length; i++) {
        var centre =
            new GeometryFactory()
                .createPoint(
                    new Coordinate(
                        SPEC.xM(i % SPEC.cols()), SPEC.yM(Math.floorDiv(i, SPEC.cols()))));
        double distanceM = areas.stream().mapToDouble(centre::distance).min().orElseThrow();
        boolean border =
            marginM == 0
                ? areas.stream().anyMatch(a -> a.getBoundary().distance(centre) < 1e-9)
                : Math.abs(distanceM - marginM) < 1e-9;
        boolean counts =
            marginM > 0
                ? distanceM <= marginM
                : areas.stream().anyMatch(a -> a.getDimension() == 2 && a.contains(centre));
        assertTrue(border || counts == (mask[i] == 1), "cell " + i + " of draw " + n);
      }
    }
  }

  /**
   * Ground of a soil is counted in cells too. Random polygons, a third of them with a hole, on
   * cells of random shape: the area of the cells is that of the polygon to half a cell along its
   * edges, and neither more nor less of it on the whole.
   */
  @Test
  void areaOfCellsIsThatOfThePolygon() {
    Random random = new Random(29);
    double sum = 0;
    double bound = 0;
    int draws = 300;
    for (int n = 0; n < draws; n++) {
      double cellXM = 0.3 + 2 * random.nextDouble();
      double cellYM = 0.3 + 2 * random.nextDouble();
      GridSpec spec = new GridSpec(130, 130, cellXM, cellYM, 1000, 2000, "");
      double radiusM = Math.min(cellXM, cellYM) * (2 + 58 * random.nextDouble());
      double x = 1000 + cellXM * (64 + 2 * random.nextDouble());
      double y = 2000 - cellYM * (64 + 2 * random.nextDouble());
      Geometry area = star(x, y, radiusM, 3 + random.nextInt(40), n);
      if (n % 3 == 0) {
        area = area.difference(star(x + radiusM / 9, y, radiusM / 3, 9, 1000 + n));
      }
      byte[] mask = new byte[spec.cells()];
      new KeepOutCells(List.of(area), 0, spec, "areas").mark(0, spec.rows(), mask, 1);
      long cells = 0;
      for (byte b : mask) {
        cells += b;
      }
      double offM2 = cells * spec.cellAreaM2() - area.getArea();
      double mostM2 = area.getLength() * Math.max(cellXM, cellYM) / 2;
      assertTrue(Math.abs(offM2) <= mostM2, offM2 + " m2 off, draw " + n);
      sum += offM2 / mostM2;
      bound += Math.abs(offM2) / mostM2;
    }
    assertTrue(Math.abs(sum / draws) < 0.02, "on average " + sum / draws);
    assertTrue(bound / draws > 0.001, "draws that are off at all");
  }

  /** Teeth much thinner than the margin: both cells and outline are there in seconds. */
  @Test
  void aCombOfThinTeeth() {
    int teeth = 5000;
    double wide = 80.0 / teeth;
    List<Coordinate> c = new ArrayList<>();
    for (int k = 0; k < teeth; k++) {
      c.add(new Coordinate(k * wide, 10));
      c.add(new Coordinate(k * wide, 90));
      c.add(new Coordinate((k + 0.5) * wide, 90));
      c.add(new Coordinate((k + 0.5) * wide, 10));
    }
    c.add(new Coordinate(80, 5));
    c.add(new Coordinate(0, 5));
    c.add(c.get(0));
    List<Geometry> comb =
        List.of(new GeometryFactory().createPolygon(c.toArray(Coordinate[]::new)));
    assertTimeout(
        Duration.ofSeconds(5),
        () -> {
          KeepOutCells cells = new KeepOutCells(comb, 1.5, SPEC, "areas");
          Geometry outline = new KeepOut(comb, 1.5, cells, SPEC).outline();
          // Between the teeth there is no room: a block with round corners, to a cell.
          assertEquals(80 * 85 + 2 * 1.5 * 165 + Math.PI * 2.25, outline.getArea(), 2 * 165);
          assertEquals(1, outline.getNumGeometries());
        });
  }

  @Test
  void moreRowsThanCanBeLaidOutAreRefusedWithASizeThatWorks() {
    GridSpec fine = new GridSpec(200_000, 2, 0.01, 0.01, 0, 2000, "");
    UserError e =
        assertThrows(
            UserError.class,
            () -> new KeepOutCells(List.of(star(0, 1000, 900, 5000, 3)), 400, fine, "areas"));
    assertTrue(e.getMessage().contains("simplify the polygons to "), e.getMessage());
    assertTrue(e.getMessage().contains("dem.cell_size_m"), e.getMessage());
  }

  @Test
  void aRingThatCrossesItselfIsRepaired() throws ParseException {
    Geometry bow = wkt("POLYGON ((0 0, 40 40, 40 0, 0 40, 0 0))");
    assertEquals(800, KeepOut.area(List.of(bow), 0).getArea(), 1e-9);
  }

  @Test
  void nothingToKeepOut() {
    Geometry none = KeepOut.area(List.of(), 5);
    assertTrue(none.isEmpty());
    byte[] mask = new byte[SPEC.cells()];
    mark(none, SPEC, mask, 1);
    for (byte b : mask) {
      assertEquals(0, b);
    }
  }

  @Test
  void aNegativeMarginIsRefused() {
    UserError e = assertThrows(UserError.class, () -> KeepOut.area(List.of(), -1));
    assertTrue(e.getMessage().contains("margin_m"), e.getMessage());
  }

  @Test
  @Tag("long")
  void aMillionVerticesTakeLinearTime() {
    GridSpec large = new GridSpec(1000, 1000, 1, 1, 0, 1000, "");
    Geometry coast = star(500, 500, 480, 1_000_000, 1);
    byte[] mask = new byte[large.cells()];
    assertTimeout(Duration.ofSeconds(20), () -> mark(coast, large, mask, 1));
    int marked = 0;
    for (byte b : mask) {
      marked += b;
    }
    assertEquals(coast.getArea(), marked, 0.05 * coast.getArea());
  }
}

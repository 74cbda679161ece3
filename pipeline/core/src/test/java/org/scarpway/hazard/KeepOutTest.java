package org.scarpway.hazard;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.prep.PreparedGeometry;
import org.locationtech.jts.geom.prep.PreparedGeometryFactory;
import org.locationtech.jts.geom.util.AffineTransformation;
import org.locationtech.jts.geom.util.LinearComponentExtracter;
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

  /** A cell of the grid, larger by a share of itself on every side. */
  private static Geometry cell(GridSpec spec, int row, int col, double larger) {
    double x = spec.xM(col);
    double y = spec.yM(row);
    double halfX = (0.5 + larger) * spec.cellXM();
    double halfY = (0.5 + larger) * spec.cellYM();
    return new GeometryFactory()
        .toGeometry(new Envelope(x - halfX, x + halfX, y - halfY, y + halfY));
  }

  /** By JTS: marked is what overlaps a cell, and what only touches its edge may be either. */
  private static int sameAsByCell(
      Geometry area, GridSpec spec, int firstRow, int firstCol, int cols, byte[] mask, int mark) {
    PreparedGeometry prepared = PreparedGeometryFactory.prepare(area);
    int marked = 0;
    for (int i = 0; i < mask.length; i++) {
      int row = firstRow + i / cols;
      int col = firstCol + i % cols;
      String where = "row " + row + " col " + col;
      if (mask[i] == 0) {
        assertFalse(prepared.intersects(cell(spec, row, col, -2 * KeepOutCells.ROUNDING)), where);
      } else {
        assertEquals(mark, mask[i], where);
        assertTrue(prepared.intersects(cell(spec, row, col, 1e-9)), where);
        marked++;
      }
    }
    return marked;
  }

  private static void sameAsByCell(Geometry area) {
    byte[] mask = new byte[SPEC.cells()];
    mark(area, SPEC, mask, 4);
    assertTrue(sameAsByCell(area, SPEC, 0, 0, SPEC.cols(), mask, 4) > 0);
  }

  @Test
  void cellsOfWhichAnyPartLiesInside() throws ParseException {
    for (int seed = 0; seed < 12; seed++) {
      Geometry island = star(40 + seed, 30 + 2 * seed, 45, 60, seed);
      Geometry hole = star(40 + seed, 30 + 2 * seed, 15, 9, seed + 100);
      Geometry islet = star(40 + seed, 30 + 2 * seed, 5, 7, seed + 200);
      sameAsByCell(island.difference(hole).union(islet));
      // Smaller than a cell, and much thinner than one.
      sameAsByCell(star(40 + 0.37 * seed, 30 + 0.41 * seed, 0.1, 5, seed));
      sameAsByCell(wkt("LINESTRING (0 " + 7 * seed + ", 99.7 " + 4 * seed + ")").buffer(0.01));
    }
    // Edges and vertices on cell centres, and a polygon larger than the grid.
    sameAsByCell(wkt("POLYGON ((-9.5 99.25, 20.5 99.25, 20.5 60.25, -9.5 60.25, -9.5 99.25))"));
    sameAsByCell(
        wkt(
            "POLYGON ((-500 -500, 500 -500, 500 500, -500 500, -500 -500), (0 0, 50 0, 25 50, 0 0))"));
  }

  @Test
  void cellsOfAWindowOfTheGrid() {
    Random random = new Random(18);
    int marked = 0;
    for (int n = 0; n < 40; n++) {
      Geometry area = star(40 + n, 30, 45, 60, n);
      int firstRow = 1 + random.nextInt(60);
      int firstCol = 1 + random.nextInt(80);
      int rows = 1 + random.nextInt(SPEC.rows() - firstRow);
      int cols = 1 + random.nextInt(SPEC.cols() - firstCol);
      byte[] mask = new byte[rows * cols];
      KeepOutCells cells = new KeepOutCells(List.of(area), 0, SPEC, "areas");
      cells.mark(firstRow, firstCol, rows, cols, mask, 4);
      marked += sameAsByCell(area, SPEC, firstRow, firstCol, cols, mask, 4);
      byte[] whole = new byte[SPEC.cells()];
      cells.mark(0, SPEC.rows(), whole, 4);
      for (int i = 0; i < mask.length; i++) {
        assertEquals(whole[(firstRow + i / cols) * SPEC.cols() + firstCol + i % cols], mask[i]);
      }
    }
    assertTrue(marked > 10_000, marked + " cells");
  }

  /**
   * Rectangles drawn along the edges of cells, on grids whose coordinates are not whole, or a hair
   * off them: the cells inside are taken and none beside them. So it is about points, lines and
   * areas as far from the edges of cells as the margin.
   */
  @Test
  void touchingIsNotInside() {
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
      double marginM = n % 2 == 0 ? 0 : 0.04 * random.nextDouble();
      int west = random.nextInt(spec.cols() - 1);
      int east = west + 1 + random.nextInt(spec.cols() - 1 - west);
      int north = random.nextInt(spec.rows() - 1);
      int south = north + 1 + random.nextInt(spec.rows() - 1 - north);
      double hairM = (n % 3 - 1) * 1e-10;
      Geometry box =
          new GeometryFactory()
              .toGeometry(
                  new Envelope(
                      spec.westM() + west * spec.cellXM() + marginM + hairM,
                      spec.westM() + east * spec.cellXM() - marginM + hairM,
                      spec.northM() - south * spec.cellYM() + marginM - hairM,
                      spec.northM() - north * spec.cellYM() - marginM - hairM));
      byte[] mask = new byte[spec.cells()];
      new KeepOutCells(List.of(box), marginM, spec, "areas").mark(0, spec.rows(), mask, 1);
      for (int i = 0; i < mask.length; i++) {
        int row = Math.floorDiv(i, spec.cols());
        int col = i % spec.cols();
        boolean inside = row >= north && row < south && col >= west && col < east;
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
   * Random polygons, turned at random, lines and points, overlapping, on cells of random shape: a
   * cell is kept out exactly where any of its points lies in one of them or nearer than the margin,
   * by the distances of JTS. So no point of the cells left free is nearer, every cell whose centre
   * is so near is among them, and none that is further away than the margin and its own diagonal.
   */
  @Test
  void cellsWithinTheMarginByDistance() throws ParseException {
    Random random = new Random(5);
    long kept = 0;
    for (int n = 0; n < 60; n++) {
      double cellXM = 0.5 + 4 * random.nextDouble();
      double cellYM = 0.5 + 4 * random.nextDouble();
      GridSpec spec = new GridSpec(40, 50, cellXM, cellYM, 300, 700, "");
      double wide = 50 * cellXM;
      double high = 40 * cellYM;
      List<Geometry> areas = new ArrayList<>();
      for (int k = 0; k < 3; k++) {
        double x = 300 + wide * random.nextDouble();
        double y = 700 - high * random.nextDouble();
        double radiusM = 0.1 + wide / 5 * random.nextDouble();
        areas.add(star(x, y, radiusM, 3 + random.nextInt(20), 10 * n + k));
      }
      double x = 300 + wide * random.nextDouble();
      double y = 700 - high * random.nextDouble();
      double thinM = cellXM / 20;
      Geometry strip =
          new GeometryFactory().toGeometry(new Envelope(x - wide, x + wide, y, y + thinM));
      double turn = n % 5 == 0 ? (n % 10) * Math.PI / 10 : Math.PI * random.nextDouble();
      areas.add(AffineTransformation.rotationInstance(turn, x, y).transform(strip));
      areas.add(wkt("LINESTRING (310 700, 320 690, 320 680, " + (300 + x / 9) + " 690)"));
      areas.add(wkt("POINT (" + (x - 7) + " " + (y + 5) + ")"));
      double marginM = n % 4 == 0 ? 0 : 9 * random.nextDouble();
      byte[] mask = new byte[spec.cells()];
      new KeepOutCells(areas, marginM, spec, "areas").mark(0, spec.rows(), mask, 1);
      for (int i = 0; i < mask.length; i++) {
        Geometry cell = cell(spec, Math.floorDiv(i, spec.cols()), i % spec.cols(), 0);
        double distanceM =
            areas.stream()
                .filter(a -> marginM > 0 || a.getDimension() == 2)
                .mapToDouble(cell::distance)
                .min()
                .orElseThrow();
        String where = "cell " + i + " of draw " + n + ", " + distanceM + " m, margin " + marginM;
        double slackM = 2 * KeepOutCells.ROUNDING * Math.max(cellXM, cellYM);
        if (mask[i] != 0) {
          assertTrue(distanceM <= marginM + 1e-9, where);
          kept++;
        } else if (marginM > 0) {
          assertTrue(distanceM >= marginM - slackM, where);
        } else {
          Geometry most = cell(spec, Math.floorDiv(i, spec.cols()), i % spec.cols(), -2e-6);
          assertTrue(areas.stream().noneMatch(a -> a.getDimension() == 2 && a.intersects(most)));
        }
      }
    }
    assertTrue(kept > 10_000, kept + " cells");
  }

  /**
   * Ground of a soil is counted in cells too. Random polygons, a third of them with a hole, on
   * cells of random shape: cells that lie in one as a whole are no more ground than the polygon,
   * all that it touches no less. The difference is what the outline crosses: an edge no more cells
   * than its length spans rows and columns, and two more. The mean of both is the area of the
   * polygon but for chance.
   */
  @Test
  void areaOfCellsHoldsThatOfThePolygon() {
    Random random = new Random(29);
    double sum = 0;
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
      new KeepOutCells(List.of(area), 0, spec, "areas")
          .mark(0, 0, spec.rows(), spec.cols(), mask, 1, 2);
      long whole = 0;
      long touched = 0;
      for (byte b : mask) {
        whole += b == 1 ? 1 : 0;
        touched += b == 0 ? 0 : 1;
      }
      double wholeM2 = whole * spec.cellAreaM2();
      double touchedM2 = touched * spec.cellAreaM2();
      assertTrue(wholeM2 <= area.getArea() && area.getArea() <= touchedM2, "draw " + n);
      double crossedM2 = 0;
      for (Object line : LinearComponentExtracter.getLines(area)) {
        Coordinate[] c = ((Geometry) line).getCoordinates();
        for (int k = 1; k < c.length; k++) {
          crossedM2 += 2 * spec.cellAreaM2() + Math.abs(c[k].x - c[k - 1].x) * cellYM;
          crossedM2 += Math.abs(c[k].y - c[k - 1].y) * cellXM;
        }
      }
      assertTrue(touchedM2 - wholeM2 <= crossedM2, "draw " + n);
      sum += ((touchedM2 + wholeM2) / 2 - area.getArea()) / crossedM2;
    }
    assertTrue(Math.abs(sum / draws) < 0.02, "on average " + sum / draws);
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
    // Edges much shorter than cells sweep all ground as far out as the furthest vertices.
    assertEquals(Math.PI * 480 * 480, marked, 2 * Math.PI * 480);
  }
}

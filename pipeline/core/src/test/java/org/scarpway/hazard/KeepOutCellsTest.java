package org.scarpway.hazard;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/** Cells about single edges and points by their distance, and how much is laid out at most. */
class KeepOutCellsTest {
  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  private static byte[] marked(Geometry area, double marginM, GridSpec spec) {
    byte[] mask = new byte[spec.cells()];
    new KeepOutCells(List.of(area), marginM, spec, "areas").mark(0, spec.rows(), mask, 1);
    return mask;
  }

  private static Geometry line(double... xy) {
    Coordinate[] c = new Coordinate[xy.length / 2];
    for (int i = 0; i < c.length; i++) {
      c[i] = new Coordinate(xy[2 * i], xy[2 * i + 1]);
    }
    return c.length == 1 ? GEOMETRY.createPoint(c[0]) : GEOMETRY.createLineString(c);
  }

  private static Geometry cell(GridSpec spec, int i) {
    double west = spec.xM(i % spec.cols()) - spec.cellXM() / 2;
    double south = spec.yM(Math.floorDiv(i, spec.cols())) - spec.cellYM() / 2;
    return GEOMETRY.toGeometry(
        new Envelope(west, west + spec.cellXM(), south, south + spec.cellYM()));
  }

  @Test
  void cellsAboutOneEdge() {
    Random random = new Random(71);
    int counted = 0;
    for (int n = 0; n < 2500; n++) {
      GridSpec spec =
          new GridSpec(14, 17, 0.5 + random.nextDouble(), 0.5 + random.nextDouble(), -6, 7, "");
      double[] s = new double[4];
      for (int i = 0; i < 4; i++) {
        s[i] = -8 + 18 * random.nextDouble();
      }
      // Along one axis, one place, beyond one side.
      s[2] = n % 6 == 0 || n % 6 == 1 ? s[0] : s[2];
      s[3] = n % 6 == 1 || n % 6 == 2 ? s[1] : s[3];
      double marginM = 4 * random.nextDouble() * random.nextDouble();
      Geometry edge = n % 6 == 1 ? line(s[0], s[1]) : line(s);
      byte[] mask = marked(edge, marginM, spec);
      for (int i = 0; i < mask.length; i++) {
        double apartM = cell(spec, i).distance(edge);
        if (Math.abs(apartM - marginM) > 4 * KeepOutCells.ROUNDING) {
          assertEquals(apartM < marginM ? 1 : 0, mask[i], "cell " + i + " of draw " + n);
          counted += mask[i];
        }
      }
    }
    assertTrue(counted > 30_000, counted + " cells");
  }

  /** Cells of 1 m, a margin that ends on their edges: what only touches it is free. */
  @Test
  void anEdgeJustOnTheMargin() {
    GridSpec spec = new GridSpec(20, 20, 1, 1, 0, 20, "");
    byte[] mask = marked(line(10.5, 10.5), 2.5, spec);
    // Row 9 is at 10.5 m from the south.
    for (int k = 0; k < 20; k++) {
      assertEquals(k >= 8 && k <= 12 ? 1 : 0, mask[9 * 20 + k], "column " + k);
      assertEquals(k >= 7 && k <= 11 ? 1 : 0, mask[k * 20 + 10], "row " + k);
    }
    byte[] along = marked(line(4.5, 10.5, 15.5, 10.5), 2.5, spec);
    byte[] up = marked(line(10.5, 4.5, 10.5, 15.5), 2.5, spec);
    for (int k = 0; k < 20; k++) {
      // Round the ends too: cells 1.5 m aside reach 2 m beyond.
      assertEquals(k >= 2 && k < 18 ? 1 : 0, along[9 * 20 + k], "column " + k);
      assertEquals(k >= 2 && k < 18 ? 1 : 0, along[7 * 20 + k], "column " + k);
      assertEquals(0, along[6 * 20 + k]);
      assertEquals(k >= 2 && k < 18 ? 1 : 0, along[11 * 20 + k], "column " + k);
      assertEquals(0, along[12 * 20 + k]);
      for (int row = 5; row < 15; row++) {
        assertEquals(k >= 8 && k <= 12 ? 1 : 0, up[row * 20 + k], row + ", " + k);
      }
    }
  }

  /** Lines and points are no ground: without a margin nothing is kept out. */
  @Test
  void linesAndPointsWithoutAMargin() {
    GridSpec spec = new GridSpec(20, 20, 1, 1, 0, 20, "");
    for (byte b : marked(line(0.5, 10.5, 19.5, 10.5, 19.5, 2.5), 0, spec)) {
      assertEquals(0, b);
    }
    for (byte b : marked(line(0.5, 10.5), 0, spec)) {
      assertEquals(0, b);
    }
    assertThrows(UserError.class, () -> marked(line(0.5, 10.5), -1, spec));
    assertThrows(UserError.class, () -> marked(line(0.5, 10.5), Double.NaN, spec));
  }

  /** A zigzag over all rows: each edge reaches one more than there are. */
  private static Geometry zigzag(int edges, double southM, double northM) {
    double[] xy = new double[2 * edges + 2];
    for (int i = 0; i <= edges; i++) {
      xy[2 * i] = i;
      xy[2 * i + 1] = i % 2 == 0 ? southM : northM;
    }
    return line(xy);
  }

  @Test
  void noMoreThanTwoHundredMillionRows() {
    GridSpec fine = new GridSpec(199_999, 2, 1, 0.01, 0, 1999.99, "");
    // 1000 edges over 200 000 rows each are just enough.
    for (byte b : marked(zigzag(1000, -10, 2010), 0, fine)) {
      assertEquals(0, b);
    }
    String told =
        assertThrows(UserError.class, () -> marked(zigzag(1001, -10, 2010), 0, fine)).getMessage();
    assertTrue(told.contains("areas"), told);
    assertTrue(
        told.contains("1001 edges of polygons with a margin of 0.000 m lie over 200200000 rows"),
        told);
    assertTrue(told.contains("at most 200000000") && told.contains("0.01"), told);
    // An edge from 500 to 510 m with a margin of 2 m reaches from 498 to 512 m: 1401 rows of 0.01
    // m, and one.
    Geometry few =
        GEOMETRY.createGeometryCollection(
            new Geometry[] {zigzag(2002, -10, 2010), line(0, 500.001, 1, 510.001)});
    told = assertThrows(UserError.class, () -> marked(few, 2, fine)).getMessage();
    long rows = 2002L * 200_000 + 1402;
    assertTrue(
        told.contains("2003 edges of polygons with a margin of 2.000 m lie over " + rows), told);
    // Half as many, on cells twice as large.
    assertTrue(told.contains("to 1000 vertices") && told.contains("0.02"), told);
  }

  /** More crossings than are sorted at a time: 4000 teeth over 600 rows, each half of its pitch. */
  @Test
  void aCombThatIsLaidOutInBands() {
    GridSpec spec = new GridSpec(600, 2000, 1, 1, 0, 600, "");
    int teeth = 4000;
    double pitch = 0.5;
    Coordinate[] c = new Coordinate[4 * teeth + 3];
    for (int k = 0; k < teeth; k++) {
      // Even teeth lie in a cell, odd ones beside its centre.
      c[4 * k] = new Coordinate(k * pitch + 0.4, 10);
      c[4 * k + 1] = new Coordinate(k * pitch + 0.4, 590);
      c[4 * k + 2] = new Coordinate(k * pitch + 0.6, 590);
      c[4 * k + 3] = new Coordinate(k * pitch + 0.6, 10);
    }
    c[4 * teeth] = new Coordinate(teeth * pitch, 5);
    c[4 * teeth + 1] = new Coordinate(0, 5);
    c[4 * teeth + 2] = c[0];
    byte[] mask = marked(GEOMETRY.createPolygon(c), 0, spec);
    for (int row = 0; row < 600; row++) {
      int from = row * 2000;
      boolean tooth = row >= 10 && row < 595;
      assertEquals(tooth ? 1 : 0, mask[from + 7], "row " + row);
      assertEquals(tooth ? 1 : 0, mask[from + 1990], "row " + row);
    }
  }

  /**
   * So many edges that all lie within each other's margins: 287 x 287 pairs are no more than 287 +
   * 2 (40 000 + 4 x 287), 288 x 288 are more than 288 + 2 (40 000 + 4 x 288). No outline is traced
   * on more than 100 000 000 cells.
   */
  @Test
  void outlinesMuchFinerThanTheirMargin() {
    GridSpec most = new GridSpec(10_000, 10_000, 1, 1, 0, 10_000, "");
    GridSpec more = new GridSpec(10_000, 10_001, 1, 1, 0, 10_000, "");
    List<Geometry> even = List.of(zigzag(287, 0, 1));
    List<Geometry> fine = List.of(zigzag(288, 0, 1));
    new KeepOut(even, 500, null, more);
    new KeepOut(fine, 500, null, most);
    UserError e = assertThrows(UserError.class, () -> new KeepOut(fine, 500, null, more));
    assertTrue(e.getMessage().contains("100010000 cells"), e.getMessage());
    // Edges that are further apart than their margins are no bundle, however many.
    new KeepOut(List.of(zigzag(288, 0, 1)), 0.2, null, more);
  }
}

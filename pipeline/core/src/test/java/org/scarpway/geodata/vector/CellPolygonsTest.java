package org.scarpway.geodata.vector;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Location;
import org.locationtech.jts.geom.MultiPolygon;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Memory;

class CellPolygonsTest {
  private static MultiPolygon trace(String... rows) {
    GridSpec spec = new GridSpec(rows.length, rows[0].length(), 2, 3, 100, 200, "");
    byte[] cells = new byte[spec.cells()];
    for (int i = 0; i < cells.length; i++) {
      cells[i] = (byte) (rows[i / spec.cols()].charAt(i % spec.cols()) == '#' ? 7 : 1);
    }
    MultiPolygon m = CellPolygons.trace(spec, cell -> cells[cell] == 7);
    assertTrue(m.isValid(), () -> "not valid: " + m);
    return m;
  }

  @Test
  void oneCellIsItsRectangle() {
    MultiPolygon m = trace("...", ".#.", "...");
    assertEquals("MULTIPOLYGON (((102 197, 104 197, 104 194, 102 194, 102 197)))", m.toText());
  }

  @Test
  void straightStretchesHaveNoPointsBetween() {
    assertEquals(5, trace("####", "####").getNumPoints());
    assertEquals(7, trace("####", "##..").getNumPoints());
  }

  @Test
  void cellsThatShareOnlyACornerAreApart() {
    assertEquals(2, trace("#.", ".#").getNumGeometries());
    assertEquals(2, trace(".#", "#.").getNumGeometries());
  }

  @Test
  void aHoleThatMeetsTheOutsideAtACornerStaysAHole() {
    MultiPolygon m = trace("####", "#.##", "##.#", "#..#", "##..");
    assertEquals(1, m.getNumGeometries());
    MultiPolygon pinched = trace("###", "#.#", "##.");
    assertEquals(1, ((Polygon) pinched.getGeometryN(0)).getNumInteriorRing());
    assertEquals(7 * 6, pinched.getArea());
  }

  @Test
  void islandsInHolesBelongToThemselves() {
    MultiPolygon m = trace("#####", "#...#", "#.#.#", "#...#", "#####");
    assertEquals(2, m.getNumGeometries());
    assertEquals(1, ((Polygon) m.getGeometryN(0)).getNumInteriorRing());
    assertEquals(0, ((Polygon) m.getGeometryN(1)).getNumInteriorRing());
  }

  @Test
  void nothingGivesAnEmptyShape() {
    assertTrue(trace("..", "..").isEmpty());
  }

  @Test
  void randomGridsAreValidWithTheAreaAndTheCellsOfTheSet() {
    Random random = new Random(17);
    for (int round = 0; round < 150; round++) {
      int rows = 1 + random.nextInt(30);
      int cols = 1 + random.nextInt(30);
      double share = random.nextDouble();
      GridSpec spec = new GridSpec(rows, cols, 5, 5, -1000, 7000, "");
      boolean[] in = new boolean[spec.cells()];
      int count = 0;
      for (int i = 0; i < in.length; i++) {
        in[i] = random.nextDouble() < share;
        count += in[i] ? 1 : 0;
      }
      MultiPolygon m = CellPolygons.trace(spec, cell -> in[cell]);
      assertTrue(m.isValid(), () -> "not valid: " + m);
      assertTrue(m.equalsExact(byStrips(spec, in, 1 + random.nextInt(rows))));
      assertEquals(count * spec.cellAreaM2(), m.getArea(), 1e-6);
      if (m.isEmpty()) {
        continue;
      }
      IndexedPointInAreaLocator locator = new IndexedPointInAreaLocator(m);
      for (int i = 0; i < in.length; i++) {
        Coordinate centre = new Coordinate(spec.xM(i % cols), spec.yM(i / cols));
        assertEquals(in[i], locator.locate(centre) == Location.INTERIOR);
      }
    }
  }

  /** The same from a set filled by strips, with everything in scratch files. */
  private static MultiPolygon byStrips(GridSpec spec, boolean[] in, int height) {
    Memory memory = new Memory();
    CellSet cells = new CellSet(spec, memory, memory.scratch());
    for (int row = 0; row < spec.rows(); row += height) {
      int first = row * spec.cols();
      cells.add(row, Math.min(height, spec.rows() - row), i -> in[first + i]);
    }
    return CellPolygons.multi(CellPolygons.of(cells, memory.scratch()));
  }

  /** A quarter of a million cells that touch only by corners took half a minute when it was not. */
  @Test
  void manyPartsStayLinear() {
    int n = 700;
    GridSpec spec = new GridSpec(n, n, 1, 1, 0, n, "");
    MultiPolygon chess =
        assertTimeout(
            Duration.ofSeconds(10), () -> CellPolygons.trace(spec, c -> (c / n + c % n) % 2 == 0));
    assertEquals(n * n / 2, chess.getNumGeometries());
    MultiPolygon comb = CellPolygons.trace(spec, c -> c / n == 0 || c % 2 == 0);
    assertEquals(1, comb.getNumGeometries());
  }
}

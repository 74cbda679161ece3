package org.scarpway.run.unit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Location;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.geodata.vector.CellPolygons;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Bytes;

/** Shares of codes in traced polygons against centres of cells that JTS finds inside. */
class CodeSharesTest {
  @Test
  void countsTheCellsThatAreInside() {
    Random random = new Random(8);
    int polygons = 0;
    for (int draw = 0; draw < 20; draw++) {
      int rows = 5 + random.nextInt(30);
      int cols = 5 + random.nextInt(30);
      GridSpec spec = new GridSpec(rows, cols, 2.5, 4, 1000, 500, "");
      byte[] codes = new byte[rows * cols];
      boolean[] inside = new boolean[codes.length];
      for (int i = 0; i < codes.length; i++) {
        codes[i] = (byte) (random.nextInt(200) + 1);
        codes[i] = random.nextBoolean() ? (byte) 3 : codes[i];
        inside[i] = random.nextDouble() < 0.6;
      }
      CodeShares shares = new CodeShares(spec, Bytes.of(codes));
      var all = CellPolygons.trace(spec, i -> inside[i]);
      for (int k = 0; k < all.getNumGeometries(); k++) {
        Polygon p = (Polygon) all.getGeometryN(k);
        IndexedPointInAreaLocator at = new IndexedPointInAreaLocator(p);
        double[] n = new double[256];
        double cells = 0;
        for (int i = 0; i < codes.length; i++) {
          Coordinate centre = new Coordinate(spec.xM(i % cols), spec.yM(i / cols));
          if (at.locate(centre) == Location.INTERIOR) {
            n[codes[i] & 0xFF]++;
            cells++;
          }
        }
        List<CodeShares.Share> told = shares.of(p);
        double sum = 0;
        double before = 1;
        for (CodeShares.Share s : told) {
          assertEquals(n[s.code()] / cells, s.share(), 1e-12);
          assertTrue(s.share() <= before);
          before = s.share();
          sum += s.share();
        }
        assertEquals(1, sum, 1e-9);
        polygons++;
      }
    }
    assertTrue(polygons > 100, polygons + " polygons");
  }
}

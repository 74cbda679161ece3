package org.scarpway.dem;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.geodata.crs.CrsWriter;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.raster.RasterHeader.Affine;
import org.scarpway.grid.Body;

class DemProbeTest {
  private final FakeRasters io = new FakeRasters();

  @Test
  void saysWhatARasterIs() {
    String wkt = CrsWriter.wkt(MapCrs.local("moon", 1_737_400, 1_737_400, 30, -85));
    Path f =
        io.add(
            "site.tif",
            30,
            40,
            new Affine(-100, 5, 0, 75, 0, -5),
            wkt,
            (r, c) -> r == 0 ? Double.NaN : r + 0.25 + 0.01 * (c % 3));
    DemProbe p = DemProbe.probe(f, io);
    assertEquals(Body.MOON, p.body().orElseThrow());
    assertEquals(5, p.cellXM());
    assertEquals(30, p.centreLonDeg(), 1e-9);
    assertEquals(-85, p.centreLatDeg(), 1e-9);
    assertEquals(40, p.voidCells());
    assertEquals(1200, p.seenCells());
    assertEquals(1.25, p.leastM());
    assertEquals(List.of(), p.warnings());
    String text = String.join("\n", p.lines());
    assertTrue(text.contains("40 columns x 30 rows"), text);
    assertTrue(text.contains("1.25 to 29.27 m (unit not named, metres assumed)"), text);
    assertTrue(text.contains("3.33 % of 1200 cells"), text);
  }

  @Test
  void degreesAreGivenInMetres() {
    Affine t = new Affine(10, 0.01, 0, 60.5, 0, -0.01);
    Path f = io.add("deg.tif", 100, 100, t, CrsWriter.wkt(MapCrs.lonLat(Body.MARS)), (r, c) -> 2.5);
    DemProbe p = DemProbe.probe(f, io);
    MapCrs mars = MapCrs.lonLat(Body.MARS);
    assertEquals(0.01 * mars.metresPerDegreeEast(60), p.cellXM(), 1e-6);
    assertEquals(0.01 * mars.metresPerDegreeNorth(60), p.cellYM(), 1e-6);
    assertTrue(p.warnings().toString().contains("degrees"));
  }

  @Test
  void aLargeRasterIsOnlySampled() {
    String wkt = CrsWriter.wkt(MapCrs.local("moon", 1_737_400, 1_737_400, 30, -85));
    Path f = io.add("big.tif", 5000, 4000, new Affine(0, 5, 0, 0, 0, -5), wkt, (r, c) -> r * 0.1);
    DemProbe p = DemProbe.probe(f, io);
    assertTrue(p.seenCells() <= 320_000, p.seenCells() + " cells");
    assertTrue(String.join("\n", p.lines()).contains("in a sample of"));
  }

  /** Shares that are not of everything never read as none or all, and no number is made up. */
  @Test
  void voidsAreToldAsTheRunTellsThem() {
    String wkt = CrsWriter.wkt(MapCrs.local("moon", 1_737_400, 1_737_400, 30, -85));
    Affine t = new Affine(0, 5, 0, 0, 0, -5);
    int[][] sizes = {{3, 3}, {60, 60}, {3000, 3000}, {5000, 4000}};
    for (int[] size : sizes) {
      int rows = size[0];
      int cols = size[1];
      // one height only, where a sample of rows does not look; one void only; none; all
      DemProbe one = probe(rows, cols, t, wkt, (r, c) -> r == 2 && c == 1 ? 7.5 : Double.NaN);
      assertEquals(7.5, one.leastM(), "the one height is found");
      DemProbe hole = probe(rows, cols, t, wkt, (r, c) -> r == 2 && c == 1 ? Double.NaN : 7.5);
      DemProbe none = probe(rows, cols, t, wkt, (r, c) -> Double.NaN);
      DemProbe full = probe(rows, cols, t, wkt, (r, c) -> 7.5);
      assertTrue(text(none).contains("run refuses the file"));
      assertTrue(text(none).contains("100.00 % of"));
      for (DemProbe p : List.of(one, hole)) {
        assertTrue(!text(p).matches("(?s).*voids +(100|0)\\.00 %.*"), text(p));
      }
      for (DemProbe p : List.of(one, hole, none, full)) {
        assertTrue(!text(p).matches("(?s).*(Infinity|NaN).*"), text(p));
      }
    }
  }

  private DemProbe probe(int rows, int cols, Affine t, String wkt, FakeRasters.Height z) {
    return DemProbe.probe(io.add("v.tif", rows, cols, t, wkt, z), io);
  }

  private static String text(DemProbe p) {
    return String.join("\n", p.lines());
  }

  @Test
  void aRasterWithoutAMapIsShownWithAWarning() {
    Path f = io.add("none.tif", 5, 5, new Affine(0, 2, 0, 0, 0, -2), "", (r, c) -> r + 0.5);
    DemProbe p = DemProbe.probe(f, io);
    assertTrue(Double.isNaN(p.centreLonDeg()));
    assertTrue(p.warnings().get(0).contains("dem.units: metres"));
    assertTrue(String.join("\n", p.lines()).contains("not named"));
  }
}

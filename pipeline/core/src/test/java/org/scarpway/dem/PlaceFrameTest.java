package org.scarpway.dem;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import org.gdal.osr.CoordinateTransformation;
import org.gdal.osr.SpatialReference;
import org.gdal.osr.osr;
import org.gdal.osr.osrConstants;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.scarpway.dem.DemRequest.VoidRule;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.raster.RasterHeader.Affine;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.grid.Body;
import org.scarpway.stage.UserError;

/** Places as people write them against PROJ (through GDAL), on every kind of grid. */
class PlaceFrameTest {
  private final FakeRasters io = new FakeRasters();

  private PlaceFrame frame(String wkt, Affine t, int rows, int cols, Body body) {
    Path file = io.add("ground", rows, cols, t, wkt, (r, c) -> r + c);
    return DemReader.frame(
        new DemRequest(
            List.of(file), body, null, null, VoidRule.NO_GO, 0, null, null, 1_000_000, true),
        io);
  }

  /**
   * A system, the corner and the cell of a raster in its own unit, the system of longitude and
   * latitude as the world counts them, and how far the two ways may differ (m): a millimetre, or
   * the two accuracies where a grid of corrections may be installed.
   */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "EPSG:4326; -113.2; 37.6; 0.0003; EPSG:4326; earth; 0.001",
        "EPSG:4267; -113.2; 37.6; 0.0003; EPSG:4326; earth; 0.001",
        "EPSG:4314; 9.0; 51.2; 0.0003; EPSG:4326; earth; 4",
        "EPSG:4275; 2.5; 48.5; 0.0003; EPSG:4326; earth; 3",
        "EPSG:32612; 300000; 4165000; 30; EPSG:4326; earth; 0.001",
        "EPSG:26712; 300000; 4165000; 30; EPSG:4326; earth; 0.001",
        "EPSG:26912; 300000; 4165000; 30; EPSG:4326; earth; 0.001",
        "EPSG:23032; 500000; 5500000; 30; EPSG:4326; earth; 3",
        "EPSG:27700; 400000; 300000; 30; EPSG:4326; earth; 3",
        "EPSG:30169; 5000; -20000; 30; EPSG:4326; earth; 0.001",
        "EPSG:28407; 7400000; 6200000; 30; EPSG:4326; earth; 0.001",
        "EPSG:2225; 6100000; 2100000; 100; EPSG:4326; earth; 0.001",
        "EPSG:3857; -12600000; 4520000; 30; EPSG:4326; earth; 0.001",
        "+proj=longlat +R=1737400 +no_defs; 200; -80; 0.001; +proj=longlat +R=1737400 +no_defs; moon; 0.001",
        "+proj=stere +lat_0=-90 +R=1737400 +units=m; 40000; 90000; 20; +proj=longlat +R=1737400; moon; 0.001",
        "+proj=eqc +lon_0=180 +a=3396190 +b=3396190; 100000; 3200000; 200; +proj=longlat +a=3396190 +b=3396190; mars; 0.001"
      })
  void placesAreWhereProjPutsThem(
      String system, double x0, double y0, double cell, String lonLat, String body, double tolM) {
    SpatialReference raster = srs(system);
    PlaceFrame f =
        frame(
            wkt(raster),
            new Affine(x0, cell, 0, y0, 0, -cell),
            120,
            160,
            body.equals("moon") ? Body.MOON : body.equals("mars") ? Body.MARS : Body.EARTH);
    CoordinateTransformation toWorld = osr.CreateCoordinateTransformation(raster, srs(lonLat));
    MapCrs grid = f.world().map();
    // The grid's own coordinates by PROJ, from what the run writes of its map.
    SpatialReference gridSrs = new SpatialReference();
    gridSrs.ImportFromWkt(f.grid().crsWkt());
    SpatialReference ownDegrees = gridSrs.CloneGeogCS();
    for (SpatialReference s : new SpatialReference[] {gridSrs, ownDegrees}) {
      s.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    }
    SpatialReference rasterDegrees = raster.CloneGeogCS();
    rasterDegrees.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    CoordinateTransformation toOwn = osr.CreateCoordinateTransformation(raster, rasterDegrees);
    CoordinateTransformation toGrid = osr.CreateCoordinateTransformation(ownDegrees, gridSrs);
    SplittableRandom random = new SplittableRandom(7);
    for (int i = 0; i < 40; i++) {
      double x = x0 + cell * 160 * (0.2 + 0.6 * random.nextDouble());
      double y = y0 - cell * 120 * (0.2 + 0.6 * random.nextDouble());
      double[] at = f.fromRaster(x, y);
      assertTrue(f.holds(at), "on the grid");
      double[] own = toOwn.TransformPoint(x, y);
      double[] want = toGrid.TransformPoint(own[0], own[1]);
      assertArrayEquals(new double[] {want[0], want[1]}, at, 1e-3, "metres of the grid");
      double[] back = f.toRaster(at[0], at[1]);
      assertArrayEquals(new double[] {x, y}, back, 1e-3 * cell / 30, "back to the raster");
      double[] world = toWorld.TransformPoint(x, y);
      double[] byLonLat = f.fromLonLat(world[0], world[1], "here");
      assertEquals(0, Math.hypot(byLonLat[0] - at[0], byLonLat[1] - at[1]), tolM, "by lon, lat");
      double[] told = f.world().toLonLat(at[0], at[1]);
      double eastM =
          Math.IEEEremainder(told[0] - world[0], 360) * grid.metresPerDegreeEast(world[1]);
      double northM = (told[1] - world[1]) * grid.metresPerDegreeNorth(world[1]);
      assertEquals(0, Math.hypot(eastM, northM), tolM, "told as lon, lat");
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, 95, 4.1e6, -4.1e6, 1e300})
  void whatIsNoPlaceOnADegreeGridIsNotOnIt(double y) {
    Affine t = new Affine(-113.2, 0.0003, 0, 37.6, 0, -0.0003);
    PlaceFrame f = frame(wkt(srs("EPSG:4326")), t, 120, 160, Body.EARTH);
    assertTrue(f.holds(f.fromRaster(-113.19, 37.59)));
    assertTrue(f.holds(f.fromRaster(-113.19 + 360, 37.59)), "counted 0 to 360");
    assertFalse(f.holds(f.fromRaster(-113.19, y)));
    assertFalse(f.holds(f.fromRaster(300_000 + y, 4_165_000)));
    assertTrue(f.range(false).startsWith("x in [-113.2"), f.range(false));
    assertTrue(f.range(true).contains("lat in [37.56"), f.range(true));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "LOCAL_CS[\"site\",UNIT[\"foot\",0.3048]]"})
  void aPlaneHasNoLongitude(String wkt) {
    PlaceFrame f = frame(wkt, new Affine(0, 10, 0, 1000, 0, -10), 20, 20, Body.MOON);
    double unit = wkt.isEmpty() ? 1 : 0.3048;
    assertArrayEquals(new double[] {50 * unit, 900 * unit}, f.fromRaster(50, 900), 1e-9);
    assertTrue(
        assertThrows(UserError.class, () -> f.fromLonLat(1, 2, "job.yaml:3"))
            .getMessage()
            .startsWith("job.yaml:3: longitude and latitude cannot be found"));
  }

  private static SpatialReference srs(String text) {
    RasterIos.gdal();
    SpatialReference s = new SpatialReference();
    assertEquals(0, s.SetFromUserInput(text));
    s.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    return s;
  }

  @SuppressWarnings("JdkObsolete") // the bindings ask for java.util.Vector
  private static String wkt(SpatialReference s) {
    String[] out = new String[1];
    assertEquals(0, s.ExportToWkt(out, new java.util.Vector<>(List.of("FORMAT=WKT1_GDAL"))));
    return out[0].replaceAll(",AXIS\\[[^\\]]*\\]", "");
  }
}

package org.scarpway.run.ground;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.gdal.gdal.Dataset;
import org.gdal.gdal.gdal;
import org.gdal.gdalconst.gdalconst;
import org.gdal.osr.CoordinateTransformation;
import org.gdal.osr.SpatialReference;
import org.gdal.osr.osr;
import org.gdal.osr.osrConstants;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.scarpway.dem.DemReader;
import org.scarpway.dem.DemRequest;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.product.OverlayRaster;
import org.scarpway.stage.UserError;

/** Layers in the system of the elevation file, in whatever unit, against PROJ (through GDAL). */
class OverlayInOwnSystemTest {
  private static final RasterIo IO = RasterIos.gdal();
  private static final int SIDE = 40;

  @TempDir Path dir;

  private static SpatialReference srs(String text) {
    SpatialReference s = new SpatialReference();
    assertEquals(0, s.SetFromUserInput(text));
    s.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    return s;
  }

  private Path file(String name, String system, int side, double[] transform, double[] values) {
    Path file = dir.resolve(name);
    Dataset d =
        gdal.GetDriverByName("GTiff")
            .Create(file.toString(), side, side, 1, gdalconst.GDT_Float32, new String[0]);
    d.SetGeoTransform(transform);
    d.SetProjection(srs(system).ExportToWkt());
    d.GetRasterBand(1).WriteRaster(0, 0, side, side, values);
    d.delete();
    return file;
  }

  private PlaceFrame frame(String system, double x0, double y0, double cell, Body body) {
    double[] t = {x0, cell, 0, y0, 0, -cell};
    Path dem = file("dem.tif", system, SIDE, t, new double[SIDE * SIDE]);
    return DemReader.frame(
        new DemRequest(
            List.of(dem),
            body,
            null,
            null,
            DemRequest.VoidRule.NO_GO,
            0,
            null,
            null,
            100_000,
            true),
        IO);
  }

  /** Row and column on the grid, with fractions, of a pixel's centre. */
  private static double[] onGrid(
      double[] t, int row, int col, CoordinateTransformation[] way, GridSpec grid, double turn) {
    double x = t[0] + (col + 0.5) * t[1] + (row + 0.5) * t[2] + turn;
    double y = t[3] + (col + 0.5) * t[4] + (row + 0.5) * t[5];
    for (CoordinateTransformation part : way) {
      double[] to = part.TransformPoint(x, y);
      x = to[0];
      y = to[1];
    }
    return new double[] {(grid.northM() - y) / grid.cellYM(), (x - grid.westM()) / grid.cellXM()};
  }

  /**
   * System, corner and cell of the elevation file, turn of x between both files, by how many
   * degrees the layer is rotated, system of the layer and its unit in that of the file.
   */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "EPSG:2231; 3000000; 1300000; 300; 0; 0; EPSG:2231; 1; earth",
        "EPSG:2231; 3000000; 1300000; 300; 0; 0; EPSG:26953; 0.3048006096012192; earth",
        "EPSG:26953; 914000; 400000; 100; 0; 0; EPSG:2231; 3.280833333333333; earth",
        "EPSG:2231; 3000000; 1300000; 300; 0; 25; EPSG:2231; 1; earth",
        "EPSG:32612; 300000; 4100000; 90; 0; 25; +proj=utm +zone=12 +datum=WGS84 +units=us-ft; 3.280833333333333; earth",
        "EPSG:4326; -112; 37; 0.001; 0; 0; EPSG:4326; 1; earth",
        "EPSG:4326; -112; 37; 0.001; 0; 40; EPSG:4326; 1; earth",
        "EPSG:4326; -112; 37; 0.001; 360; 0; EPSG:4326; 1; earth",
        "+proj=longlat +R=1737400 +no_defs; 35; -60; .0041; 0; 0; +proj=longlat +R=1737400; 1; moon",
        "+proj=longlat +R=1737400 +no_defs; 200; -80; .01; -360; 0; +proj=longlat +R=1737400; 1; moon",
        "+proj=longlat +R=1737400 +no_defs; 35; 84; .02; 0; 0; +proj=longlat +R=1737400; 1; moon",
      })
  void everyPixelCountsWhereProjPutsIt(
      String system,
      double x0,
      double y0,
      double cell,
      double turn,
      double turnedDeg,
      String own,
      double unit,
      String body) {
    PlaceFrame frame = frame(system, x0, y0, cell, body.equals("moon") ? Body.MOON : Body.EARTH);
    GridSpec grid = frame.grid();
    SpatialReference from = srs(own);
    SpatialReference to = new SpatialReference();
    to.ImportFromWkt(grid.crsWkt());
    to.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    SpatialReference fromDegrees = from.CloneGeogCS();
    SpatialReference toDegrees = to.CloneGeogCS();
    for (SpatialReference s : new SpatialReference[] {fromDegrees, toDegrees}) {
      s.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    }
    // One datum: no way of PROJ's own between two names of it.
    CoordinateTransformation[] way = {
      osr.CreateCoordinateTransformation(from, fromDegrees),
      osr.CreateCoordinateTransformation(toDegrees, to)
    };
    Random random = new Random(11);
    int known = 0;
    int missing = 0;
    for (int trial = 0; trial < 6; trial++) {
      int side = 24 << trial % 3;
      double pixel = unit * cell * SIDE * (1.05 + 0.4 * random.nextDouble()) / side;
      double cos = Math.cos(Math.toRadians(turnedDeg));
      double sin = Math.sin(Math.toRadians(turnedDeg));
      double midX = unit * (x0 + cell * SIDE * (0.45 + 0.1 * random.nextDouble())) + turn;
      double midY = unit * (y0 - cell * SIDE * (0.45 + 0.1 * random.nextDouble()));
      double half = side / 2.0 * pixel;
      double[] t = {
        midX - half * (cos + sin),
        pixel * cos,
        pixel * sin,
        midY + half * (cos - sin),
        pixel * sin,
        -pixel * cos
      };
      double[] values = new double[side * side];
      for (int i = 0; i < values.length; i++) {
        values[i] = random.nextInt(400) == 0 ? Double.NaN : (float) (0.4 * random.nextDouble());
      }
      Path file = file("layer" + trial + ".tif", own, side, t, values);
      OverlayRaster overlay = OverlayRaster.open(grid, frame, file, IO, MostRocks.RULE);
      float[] all = overlay.rows(0, grid.rows()).values();

      float[] least = new float[grid.cells()];
      float[] most = new float[grid.cells()];
      boolean[] inside = new boolean[values.length];
      Arrays.fill(least, -1);
      Arrays.fill(most, -1);
      for (int i = 0; i < values.length; i++) {
        double[] at = onGrid(t, i / side, i % side, way, grid, -turn);
        inside[i] = spread(at, 0, (float) values[i], grid, least);
        // Boxes about turned cells reach into their neighbours, and so do pixels without a centre.
        double reach = (turnedDeg == 0 ? 2.2 : 3) * Math.max(1, SIDE / (double) side);
        spread(at, reach, (float) values[i], grid, most);
      }
      for (int c = 0; c < all.length; c++) {
        String where = "trial " + trial + " cell " + c;
        if (Float.isNaN(least[c])) {
          assertTrue(Float.isNaN(all[c]), where + " has a pixel without data");
        } else if (Float.isNaN(all[c])) {
          missing++;
        } else {
          assertTrue(all[c] >= least[c], where + ": " + all[c] + " hides " + least[c]);
          assertTrue(Float.isNaN(most[c]) || all[c] <= most[c], where + " takes pixels from afar");
          known++;
        }
      }
      boolean[] seen = new boolean[values.length];
      overlay.eachPixel((v, row, col) -> seen[row * side + col] = true);
      for (int i = 0; i < seen.length; i++) {
        assertTrue(seen[i] || !inside[i], "pixel " + i + " over the ground is looked at");
      }
      int row = grid.rows() / 3;
      int col = grid.cols() / 3;
      float[] part = overlay.window(row, col, 5, 7).values();
      for (int i = 0; i < part.length; i++) {
        assertEquals(all[(row + i / 7) * grid.cols() + col + i % 7], part[i], "part of the whole");
      }
    }
    assertTrue(known > 1.5 * missing, known + " cells known, " + missing + " not");
  }

  /** Takes a value to all cells within reach of a place; the largest stays, NaN above all. */
  private static boolean spread(
      double[] at, double reach, float value, GridSpec grid, float[] largest) {
    boolean any = false;
    for (int r = (int) Math.floor(at[0] - reach); r <= at[0] + reach; r++) {
      for (int c = (int) Math.floor(at[1] - reach); c <= at[1] + reach; c++) {
        if (grid.holds(r, c)) {
          int cell = r * grid.cols() + c;
          largest[cell] = Math.max(largest[cell], value);
          any = true;
        }
      }
    }
    return any;
  }

  @Test
  void aRefusalNamesTheSystemOfTheElevationFile() {
    PlaceFrame frame = frame("EPSG:4326", -112, 37, 0.001, Body.EARTH);
    double[] t = {300_000, 100, 0, 4_100_000, 0, -100};
    Path file = file("utm.tif", "EPSG:32612", SIDE, t, new double[SIDE * SIDE]);
    String told =
        assertThrows(
                UserError.class,
                () -> OverlayRaster.open(frame.grid(), frame, file, IO, MostRocks.RULE))
            .getMessage();
    assertTrue(told.contains("utm.tif: its reference system 'WGS 84 / UTM zone 12N'"), told);
    assertTrue(told.contains("dem.source, 'WGS 84' (EPSG:4326); reproject it"), told);
    assertFalse(told.contains("transverse Mercator"), told);
  }
}

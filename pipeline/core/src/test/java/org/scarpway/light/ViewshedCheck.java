package org.scarpway.light;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.gdal.gdal.Dataset;
import org.gdal.gdal.gdal;
import org.gdal.gdalconst.gdalconstConstants;
import org.gdal.osr.SpatialReference;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.dem.HeightRows;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.validation.Validation;

/**
 * Sight of a mast against gdal_viewshed. Its traps first: curvature is that of the body only with a
 * reference system of the body, with a coefficient of refraction unless told otherwise on Earth,
 * and without a reference system there is none, whatever was asked for.
 */
class ViewshedCheck {
  private static final String SOURCE = "gdal_viewshed 3.6";
  private static final double CELL_M = 10;

  @TempDir Path dir;

  @BeforeAll
  static void gdalIsThere() {
    RasterIos.best();
  }

  private Path raster(String name, int n, float[] z, SpatialReference crs) {
    Path file = dir.resolve(name);
    Dataset d =
        gdal.GetDriverByName("GTiff")
            .Create(file.toString(), n, n, 1, gdalconstConstants.GDT_Float32);
    if (crs != null) {
      d.SetProjection(crs.ExportToWkt());
    }
    d.SetGeoTransform(new double[] {500_000, CELL_M, 0, 100_000 + n * CELL_M, 0, -CELL_M});
    d.GetRasterBand(1).WriteRaster(0, 0, n, n, z);
    d.delete();
    return file;
  }

  /** Cells in sight, by row and column. */
  private boolean[] seen(Path raster, int n, int row, int col, double eyeM, String... more)
      throws Exception {
    Path out = dir.resolve("seen.tif");
    List<String> command =
        new ArrayList<>(
            List.of(
                "gdal_viewshed",
                "-q",
                "-ox",
                Double.toString(500_000 + (col + 0.5) * CELL_M),
                "-oy",
                Double.toString(100_000 + (n - row - 0.5) * CELL_M),
                "-oz",
                Double.toString(eyeM)));
    command.addAll(List.of(more));
    command.addAll(List.of(raster.toString(), out.toString()));
    Process p = new ProcessBuilder(command).redirectErrorStream(true).start();
    String said = new String(p.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, p.waitFor(), said);
    Dataset d = gdal.Open(out.toString(), gdalconstConstants.GA_ReadOnly);
    int[] v = new int[n * n];
    d.GetRasterBand(1).ReadRaster(0, 0, n, n, v);
    d.delete();
    boolean[] seen = new boolean[n * n];
    for (int i = 0; i < seen.length; i++) {
      seen[i] = v[i] > 0;
    }
    return seen;
  }

  private static SpatialReference moon() {
    SpatialReference s = new SpatialReference();
    s.ImportFromProj4("+proj=stere +lat_0=-90 +lon_0=0 +k=1 +R=1737400 +units=m +no_defs");
    return s;
  }

  /** How far the level ground is seen to the east of its middle (m). */
  private double radiusM(SpatialReference crs, double eyeM, String... more) throws Exception {
    int n = 1301;
    Path file = raster("flat.tif", n, new float[n * n], crs);
    boolean[] seen = seen(file, n, 650, 650, eyeM, more);
    int far = 650;
    while (far + 1 < n && seen[650 * n + far + 1]) {
      far++;
    }
    return (far - 650) * CELL_M;
  }

  @Test
  void itsTraps() throws Exception {
    SpatialReference utm = new SpatialReference();
    utm.ImportFromEPSG(32633);
    String arc = "R acos(R/(R+h)), seen by " + SOURCE;
    Validation.near(
        "14.9-F1",
        "visible radius on the Moon, eye 10 m (m)",
        arc,
        "R",
        5894.7,
        radiusM(moon(), 10, "-cc", "1"),
        10);
    Validation.near(
        "14.9-F2",
        "visible radius on the Moon, eye 2 m, no coefficient given (m)",
        arc,
        "R",
        2636.2,
        radiusM(moon(), 2),
        10);
    Validation.near(
        "14.9-F2-cc",
        "the same with coefficient 0.85714 (m)",
        arc,
        "R",
        2847.4,
        radiusM(moon(), 2, "-cc", "0.85714"),
        10);
    Validation.near(
        "14.9-F3",
        "visible radius on Earth, eye 2 m, no coefficient given: refraction (m)",
        arc,
        "R",
        5455.7,
        radiusM(utm, 2),
        10);
    Validation.near(
        "14.9-F3-cc",
        "the same with coefficient 1: none (m)",
        arc,
        "R",
        5051.0,
        radiusM(utm, 2, "-cc", "1"),
        10);
    Validation.near(
        "14.9-F4",
        "without a reference system all of the raster is seen (m)",
        SOURCE,
        "R",
        6500,
        radiusM(null, 2, "-cc", "1"),
        0);
  }

  @Test
  void sightOverRoughGround() throws Exception {
    int n = 301;
    Random random = new Random(12);
    float[] z = new float[n * n];
    for (int k = 0; k < 150; k++) {
      double x = random.nextInt(n);
      double y = random.nextInt(n);
      double w = 4 + random.nextInt(30);
      double h = random.nextGaussian() * w;
      for (int i = 0; i < z.length; i++) {
        z[i] +=
            (float)
                (h
                    * Math.exp(
                        -(Math.pow(i % n - x, 2) + Math.pow(Math.floorDiv(i, n) - y, 2))
                            / (w * w)));
      }
    }
    boolean[] theirs =
        seen(raster("rough.tif", n, z, moon()), n, 150, 150, 10, "-cc", "1", "-tz", "0");
    GridSpec spec = new GridSpec(n, n, CELL_M, CELL_M, 500_000, 100_000 + n * CELL_M, "");
    Sight sight =
        new Sight(SweepGround.of(HeightRows.of(new FloatGrid(spec, z)), null), null, 1_737_400);
    Sight.Mast mast = new Sight.Mast(150, 150, 10);
    int same = 0;
    int ours = 0;
    int both = 0;
    for (int i = 0; i < z.length; i++) {
      boolean seen = sight.neededM(mast, null, i / n, i % n) <= 0.02;
      same += seen == theirs[i] ? 1 : 0;
      ours += seen ? 1 : 0;
      both += theirs[i] ? 1 : 0;
    }
    Validation.near(
        "14.9-rough-same",
        "cells on which sight of a mast over rough ground agrees (share)",
        SOURCE + " with a lunar reference system; its borders differ by its method",
        "R",
        1,
        (double) same / z.length,
        0.05);
    Validation.near(
        "14.9-rough-share",
        "share of cells in sight, ours less theirs",
        SOURCE,
        "R",
        0,
        (double) (ours - both) / z.length,
        0.03);
  }
}

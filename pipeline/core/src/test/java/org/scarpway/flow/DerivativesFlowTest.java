package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.validation.Validation;

/**
 * Terrain products of whole jobs on elevation models of packages, cell by cell against two general
 * raster programs: gdaldem and terra for R. Those work on the heights that the job analysed.
 */
class DerivativesFlowTest {
  private static final RasterIo IO = RasterIos.gdal();
  private static final String GDALDEM = "gdaldem, run beside this test";
  private static final String TERRA = "terra for R, run beside this test";

  /** Below this slope (deg) the direction of a gradient drowns in the rounding of heights. */
  private static final double NO_ASPECT_DEG = 1;

  @TempDir Path dir;

  @Test
  void faultZone() throws Exception {
    compare("fault", RegistryDems.jacksboro(dir), "");
  }

  @Test
  void town() throws Exception {
    compare("town", Flow.DATA.resolve("olinda.tif"), "");
  }

  @Test
  void countryWithVoids() throws Exception {
    compare("country", Flow.DATA.resolve("elev.tif"), "");
  }

  @Test
  void crater() throws Exception {
    compare("crater", RegistryDems.volcano(dir), "units: metres, ");
  }

  private Path run(String name, Path dem, String demKeys, String slope) throws Exception {
    Path vehicle = dir.resolve("tester.yaml");
    Files.writeString(
        vehicle,
        """
        scarpway: 1
        vehicle: tester
        body: {length_m: 3.0, width_m: 2.0, clearance_m: 2.0}
        limits: {}
        drive: {speed_ms: 5}
        """);
    Path job = dir.resolve("job.yaml");
    Files.writeString(
        job,
        """
        scarpway: 1
        job: %s
        body: earth
        dem: {%ssource: %s}
        terrain:
          slope: %s
          also: [mean-difference, topographic-position, range]
        vehicles: [tester.yaml]
        """
            .formatted(name, demKeys, dem, slope));
    Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    return dir.resolve("out").resolve(name);
  }

  private void compare(String name, Path dem, String demKeys) throws Exception {
    Path out = run(name, dem, demKeys, "horn");
    Path heights = out.resolve("terrain/elevation.tif");
    Path slope = out.resolve("terrain/slope_deg.tif");
    Path aspect = out.resolve("terrain/aspect_deg.tif");
    Path difference = out.resolve("derivatives/mean_difference_m.tif");
    Path position = out.resolve("derivatives/topographic_position_m.tif");
    Path range = out.resolve("derivatives/range_m.tif");

    same(name, "riley", GDALDEM, out.resolve("terrain/ruggedness_m.tif"), gdaldem(heights, "TRI"));
    same(name, "wilson", GDALDEM, difference, gdaldem(heights, "TRI", "-alg", "Wilson"));
    same(name, "position", GDALDEM, position, gdaldem(heights, "TPI"));
    same(name, "range", GDALDEM, range, gdaldem(heights, "roughness"));
    sameAspect(name, GDALDEM, aspect, gdaldem(heights, "aspect"), slope);

    terra(heights);
    same(name, "slope", TERRA, slope, dir.resolve("slope8.tif"));
    sameAspect(name, TERRA, aspect, dir.resolve("aspect.tif"), slope);
    same(name, "wilson", TERRA, difference, dir.resolve("TRI.tif"));
    same(name, "position", TERRA, position, dir.resolve("TPI.tif"));
    same(name, "range", TERRA, range, dir.resolve("roughness.tif"));

    Path four = run(name + "-four", dem, demKeys, "zevenbergen-thorne");
    same(
        name,
        "slope-four",
        TERRA,
        four.resolve("terrain/slope_deg.tif"),
        dir.resolve("slope4.tif"));
    same(
        name,
        "slope-four",
        GDALDEM,
        four.resolve("terrain/slope_deg.tif"),
        gdaldem(heights, "slope", "-alg", "ZevenbergenThorne"));
  }

  private Path gdaldem(Path heights, String what, String... options) throws Exception {
    Path theirs = dir.resolve("gdaldem-" + what + options.length + ".tif");
    List<Object> command = new ArrayList<>(List.of("gdaldem", what, "-q", heights, theirs));
    command.addAll(List.of(options));
    Flow.tool(command.toArray()).ok();
    return theirs;
  }

  /** Without a projected reference system it would take the cells for degrees. */
  private void terra(Path heights) throws Exception {
    String script =
        """
        suppressMessages(library(terra))
        a <- commandArgs(TRUE)
        x <- rast(a[1])
        crs(x) <- "+proj=utm +zone=33 +datum=WGS84"
        put <- function(r, f) {
          writeRaster(r, file.path(a[2], f), datatype="FLT4S", NAflag=-9999, overwrite=TRUE)
        }
        put(terrain(x, "slope", unit="degrees", neighbors=8), "slope8.tif")
        put(terrain(x, "slope", unit="degrees", neighbors=4), "slope4.tif")
        put(terrain(x, "aspect", unit="degrees", neighbors=8), "aspect.tif")
        for (v in c("TRI", "TPI", "roughness")) put(terrain(x, v), paste0(v, ".tif"))
        """;
    Path file = dir.resolve("terra.R");
    Files.writeString(file, script);
    Flow.tool("Rscript", "--vanilla", file, heights, dir).ok();
  }

  private static void same(String dem, String what, String tool, Path mine, Path theirs) {
    float[] a = values(mine);
    float[] b = values(theirs);
    double worst = 0;
    int compared = 0;
    int onlyOne = 0;
    // The reference takes the range of what is left of a window with voids; ours is void there.
    boolean leavesVoidsOut = tool.equals(TERRA) && what.equals("range");
    // It asks for all eight neighbours, though the method takes four.
    boolean wantsCorners = tool.equals(GDALDEM) && what.equals("slope-four");
    for (int i = 0; i < b.length; i++) {
      if (Float.isNaN(a[i]) || Float.isNaN(b[i])) {
        boolean differ = Float.isNaN(a[i]) != Float.isNaN(b[i]);
        boolean known = Float.isNaN(a[i]) ? leavesVoidsOut : wantsCorners;
        onlyOne += differ && !known ? 1 : 0;
      } else {
        worst = Math.max(worst, Math.abs(a[i] - b[i]));
        compared++;
      }
    }
    assertTrue(compared > 0.4 * b.length, "compared " + compared + " of " + b.length);
    record(dem, what, tool, compared, worst, what.startsWith("slope") ? 1e-4 : 2.5e-4);
    assertEquals(
        0, onlyOne, tool + " " + dem + " " + what + ": cells with a value in one of the two only");
  }

  private static void sameAspect(String dem, String tool, Path mine, Path theirs, Path slope) {
    float[] a = values(mine);
    float[] b = values(theirs);
    float[] slopeDeg = values(slope);
    double worst = 0;
    int compared = 0;
    for (int i = 0; i < b.length; i++) {
      if (slopeDeg[i] > NO_ASPECT_DEG) {
        worst = Math.max(worst, Math.abs(Math.IEEEremainder(a[i] - b[i], 360)));
        compared++;
      }
    }
    assertTrue(compared > 0.05 * b.length, "compared " + compared + " of " + b.length);
    record(dem, "aspect", tool, compared, worst, 5e-3);
  }

  private static void record(
      String dem, String what, String tool, int cells, double worst, double tolerance) {
    Validation.near(
        "12-flow-" + (tool.equals(TERRA) ? "terra" : "gdaldem") + "-" + what + "-" + dem,
        "largest difference of "
            + what
            + " over "
            + cells
            + " cells, "
            + (what.startsWith("slope") || what.equals("aspect") ? "deg" : "m"),
        tool,
        "R",
        0,
        worst,
        tolerance);
  }

  private static float[] values(Path file) {
    var h = IO.header(file);
    float[] z = new float[h.rows() * h.cols()];
    IO.read(h, 0, 0, h.rows(), h.cols(), 0, z);
    return z;
  }
}

package org.scarpway.flow;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.validation.Validation;

/** Known traps that only a whole job shows, each by name. */
class TrapFlowTest {
  private static final RasterIo IO = RasterIos.gdal();

  @TempDir Path dir;

  private void vehicle() throws Exception {
    Files.writeString(
        dir.resolve("tester.yaml"),
        """
        scarpway: 1
        vehicle: tester
        body: {length_m: 3.0, width_m: 2.0, clearance_m: 2.0}
        limits: {}
        drive: {speed_ms: 5}
        """);
  }

  private static float[] values(Path file) {
    var h = IO.header(file);
    float[] z = new float[h.rows() * h.cols()];
    IO.read(h, 0, 0, h.rows(), h.cols(), 0, z);
    return z;
  }

  @Test
  void timesAreAlongTheGround() throws Exception {
    vehicle();
    // A plane of 20 deg that rises north, cells of 10 m.
    double t = Math.tan(Math.toRadians(20));
    StringBuilder text =
        new StringBuilder("ncols 61\nnrows 61\nxllcorner 0\nyllcorner 0\ncellsize 10\n");
    for (int row = 0; row < 61; row++) {
      for (int col = 0; col < 61; col++) {
        text.append(String.format(Locale.ROOT, "%.5f", (60 - row) * 10 * t));
        text.append(col < 60 ? ' ' : '\n');
      }
    }
    Files.writeString(dir.resolve("plane.asc"), text);
    Path job = dir.resolve("slope.yaml");
    Files.writeString(
        job,
        """
        scarpway: 1
        job: slope
        body: moon
        dem: {source: plane.asc, units: metres}
        vehicles: [tester.yaml]
        bases: {alpha: [305, 105]}
        reach:
          - {name: up, from: alpha, home: none, budget: {drive_h: 1}}
        """);
    Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    float[] timeS = values(dir.resolve("out/slope/reach/up/time_s.tif"));
    // 400 m of plan up the fall line at 5 m/s.
    Validation.nearRel(
        "11-8-surface-time",
        "400 m of plan up a plane of 20 deg at 5 m/s: surface length counts, s",
        "closed form: 1.064178 m of ground per metre of plan",
        "C",
        400 * 1.064178 / 5,
        timeS[10 * 61 + 30],
        1e-4);
  }

  @Test
  void scaleAndOffsetOfTheFileCount() throws Exception {
    vehicle();
    Path plain = RegistryDems.volcano(dir);
    Path tagged = dir.resolve("tagged.tif");
    Flow.tool(
            "gdal_translate",
            "-q",
            "-ot",
            "Int16",
            "-a_scale",
            "0.5",
            "-a_offset",
            "100",
            plain,
            tagged)
        .ok();
    Path job = dir.resolve("tagged.yaml");
    Files.writeString(
        job,
        """
        scarpway: 1
        job: tagged
        body: earth
        dem: {source: tagged.tif, units: metres}
        vehicles: [tester.yaml]
        """);
    Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    float[] z = values(dir.resolve("out/tagged/terrain/elevation.tif"));
    float[] raw = values(plain);
    double worst = 0;
    for (int i = 0; i < z.length; i++) {
      worst = Math.max(worst, Math.abs(z[i] - (0.5 * raw[i] + 100)));
    }
    Validation.near(
        "11-9-scale-offset",
        "heights of a file whose tags say half, plus 100 m: largest difference over "
            + z.length
            + " cells, m",
        "GDAL raster data model: value = scale * cell + offset",
        "R",
        0,
        worst,
        1e-5);
  }

  /** A slope of 20.5 deg is no-go for a limit of 20 deg, however long its map draws the ground. */
  @Test
  void slopesOfPolarMapsAreThoseOfTheGround() throws Exception {
    Files.writeString(
        dir.resolve("tester.yaml"),
        """
        scarpway: 1
        vehicle: tester
        body: {length_m: 30.0, width_m: 20.0, clearance_m: 2.0}
        limits: {climb_deg: 20, descend_deg: 20, side_deg: 3}
        drive: {speed_ms: 5}
        """);
    double[] latitudeDeg = {85, 75, 70, 60, 70};
    double[] drawn = {1, 1, 1, 1, 0.97};
    for (int i = 0; i < latitudeDeg.length; i++) {
      double lat = Math.toRadians(latitudeDeg[i]);
      // Snyder 1987, eq. 21-33 with the scale at the pole (from memory).
      double k = drawn[i] * 2 / (1 + Math.sin(lat));
      double southM = drawn[i] * 2 * 1_737_400 * Math.tan((Math.PI / 2 - lat) / 2);
      double riseM = 20 / k * Math.tan(Math.toRadians(20.5));
      StringBuilder text = new StringBuilder("ncols 40\nnrows 40\nxllcorner -400\nyllcorner ");
      text.append(String.format(Locale.ROOT, "%.3f", southM - 400)).append("\ncellsize 20\n");
      for (int c = 0; c < 1600; c++) {
        text.append(String.format(Locale.ROOT, "%.5f", c % 40 * riseM));
        text.append(c % 40 < 39 ? ' ' : '\n');
      }
      Files.writeString(dir.resolve("polar.asc"), text);
      String name = "polar" + i;
      Flow.tool(
              "gdal_translate",
              "-q",
              "-a_srs",
              "+proj=stere +lat_0=-90 +lon_0=0 +k=" + drawn[i] + " +R=1737400 +units=m",
              dir.resolve("polar.asc"),
              dir.resolve(name + ".tif"))
          .ok();
      Path job = dir.resolve(name + ".yaml");
      Files.writeString(
          job,
          """
          scarpway: 1
          job: %s
          body: moon
          dem: {source: %s.tif}
          vehicles: [tester.yaml]
          """
              .formatted(name, name));
      Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
      Path out = dir.resolve("out/" + name);
      String where =
          String.format(
              Locale.ROOT, "polar stereographic map at %.0f deg, k %.4f", latitudeDeg[i], k);
      Validation.near(
          "11-10-polar-slope-" + i,
          "plane of 20.5 deg on a " + where,
          "Snyder 1987 (from memory): k = 2 k0 / (1 + sin of latitude)",
          "C",
          20.5,
          values(out.resolve("terrain/slope_deg.tif"))[20 * 40 + 20],
          0.02);
      Validation.near(
          "11-10-polar-class-" + i,
          "its class for a vehicle that climbs 20 deg: 3 is no-go; " + where,
          "closed form",
          "C",
          3,
          values(out.resolve("mobility/tester/class.tif"))[20 * 40 + 20],
          0);
      Validation.nearRel(
          "11-10-polar-cell-" + i,
          "size of its cells of 20 m of the map on the ground (m), " + where,
          "Snyder 1987 (from memory): k = 2 k0 / (1 + sin of latitude)",
          "C",
          20 / k,
          IO.header(out.resolve("terrain/slope_deg.tif")).transform().xCol(),
          2e-3);
    }
  }
}

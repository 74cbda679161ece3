package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.RasterIo;
import org.scarpway.geodata.RasterIos;
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

  @Test
  void polarStereographicStretchIsTold() throws Exception {
    vehicle();
    double[] latitudeDeg = {85, 75, 60};
    String[] said = new String[3];
    for (int k = 0; k < 3; k++) {
      double southM = 2 * 1_737_400 * Math.tan(Math.toRadians(90 - latitudeDeg[k]) / 2);
      StringBuilder text = new StringBuilder("ncols 40\nnrows 40\nxllcorner -400\nyllcorner ");
      text.append(String.format(Locale.ROOT, "%.3f", southM - 400)).append("\ncellsize 20\n");
      for (int i = 0; i < 1600; i++) {
        text.append(i % 40 / 4.0).append(i % 40 < 39 ? ' ' : '\n');
      }
      Files.writeString(dir.resolve("polar.asc"), text);
      String name = "polar" + (int) latitudeDeg[k];
      Flow.tool(
              "gdal_translate",
              "-q",
              "-a_srs",
              "+proj=stere +lat_0=-90 +lon_0=0 +k=1 +R=1737400 +units=m",
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
      said[k] = Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok().out();
    }
    assertEquals(false, said[0].contains("stretches"), said[0]);
    // k = 2 / (1 + sin 75): 1.7 %; 2 / (1 + sin 60): 7.2 %.
    Validation.holds(
        "11-10-polar-stretch",
        "a polar stereographic map at 75 deg is told to stretch by up to 1.7 %, one at 60 deg to be"
            + " carried over to local metres, one at 85 deg (0.19 %) is left",
        "Snyder 1987 (from memory): k = 2 / (1 + sin of latitude)",
        "C",
        said[1].contains("stretches the ground by up to 1.7 %")
            && said[2].contains("stretches the ground by up to 7.2 %")
            && said[2].contains("local"));
  }
}

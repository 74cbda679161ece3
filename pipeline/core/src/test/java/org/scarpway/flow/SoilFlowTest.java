package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

/**
 * Whole jobs on soils by place: classes of a raster, areas over them, a class that nobody named.
 */
class SoilFlowTest {
  private static final RasterIo IO = RasterIos.best();
  @TempDir static Path dir;
  private static Path job;
  private static Flow.Outcome run;
  private static Path rover;

  /**
   * West of x = 72 200 the raster says 1 (compact), east of it 2 (slope soil), its north strip 9,
   * which no class names; an area of wet, hardly bearing soil lies over the middle.
   */
  @BeforeAll
  static void runOnce() throws IOException {
    Path plain = DemoJob.write(dir);
    IO.header(Flow.ROOT.resolve("sample-dem/orrel-bench.tif"));
    String crs = IO.header(Flow.ROOT.resolve("sample-dem/orrel-bench.tif")).crsWkt();
    GridSpec spec = new GridSpec(80, 80, 10, 10, 71_900, 94_450, crs);
    FloatGrid classes = FloatGrid.empty(spec);
    for (int row = 0; row < 80; row++) {
      for (int col = 0; col < 80; col++) {
        boolean north = spec.yM(row) > 94_350;
        classes.values()[row * 80 + col] = north ? 9 : spec.xM(col) < 72_200 ? 1 : 2;
      }
    }
    IO.write(dir.resolve("classes.tif"), classes, BandInfo.of("soil class", "1"));
    Files.writeString(
        dir.resolve("soft.geojson"),
        """
        {"type": "FeatureCollection", "scarpway:coordinates": "projected", "features": [
          {"type": "Feature", "properties": {}, "geometry": {"type": "Polygon", "coordinates":
            [[[72250, 94000], [72350, 94000], [72350, 94100], [72250, 94100], [72250, 94000]]]}}]}
        """);
    Files.writeString(
        dir.resolve("soft.yaml"),
        """
        soil: soft
        bekker: {n: 1, kc: 100, kphi: 20000}
        shear: {cohesion_pa: 10, friction_deg: 5, k_m: 0.02}
        """);
    String text = Files.readString(plain);
    text = text.substring(0, text.indexOf("corridors:")).replace("job: corner", "job: soils");
    Path soils = Flow.ROOT.resolve("configs/soils");
    job =
        Files.writeString(
            dir.resolve("soils.yaml"),
            text
                + """
                soils:
                  raster: classes.tif
                  classes: {1: %s, 2: %s}
                  areas: [{polygons: soft.geojson, soil: soft.yaml}]
                """
                    .formatted(
                        soils.resolve("lunar-compact.yaml"), soils.resolve("lunar-slope.yaml")));
    run = Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    rover = dir.resolve("out/soils/mobility/pressurised-rover");
  }

  private static int cell(ByteGrid grid, double x, double y) {
    return grid.spec().cellOf(x, y);
  }

  @Test
  void eachPlaceHasItsSoil() {
    ByteGrid soil = IO.readBytes(rover.resolve("soil.tif"));
    // 1 is the vehicle's own; then the job's soils in the order that it names them.
    assertEquals(2, soil.values()[cell(soil, 72_100, 94_000)]);
    assertEquals(3, soil.values()[cell(soil, 72_500, 94_000)]);
    assertEquals(4, soil.values()[cell(soil, 72_300, 94_050)]);
    assertEquals(5, soil.values()[cell(soil, 72_100, 94_380)], "not known");
    assertTrue(run.out().contains("values without a class under soils.classes (9)"), run.out());
    assertTrue(run.out().contains("no soil data"), run.out());
    ByteGrid cls = IO.readBytes(rover.resolve("class.tif"));
    assertEquals(0, cls.values()[cell(cls, 72_100, 94_380)], "no verdict on a soil nobody knows");
  }

  @Test
  void soilDecidesWhoDrivesThere() throws IOException {
    ByteGrid cls = IO.readBytes(rover.resolve("class.tif"));
    ByteGrid limit = IO.readBytes(rover.resolve("limit.tif"));
    int soft = cell(cls, 72_300, 94_050);
    assertEquals(3, cls.values()[soft], "soft soil carries nothing");
    assertEquals(18, limit.values()[soft], "wheels sink in beyond the belly");
    FloatGrid energy = IO.readFloats(rover.resolve("energy_jm.tif"));
    assertTrue(Float.isNaN(energy.values()[soft]));
    assertTrue(Files.readString(rover.resolve("areas.csv")).contains("wheel sinkage"));
    // Reach enters it nowhere, and goes round it to all ground behind it that is not no-go.
    FloatGrid time = IO.readFloats(dir.resolve("out/soils/reach/rover-day/time_s.tif"));
    int behind = 0;
    for (double y = 94_010; y < 94_100; y += 5) {
      for (double x = 72_260; x <= 72_340; x += 5) {
        assertTrue(Float.isNaN(time.values()[cell(cls, x, y)]), x + ", " + y);
      }
      for (double x = 72_360; x < 72_500; x += 5) {
        boolean drivable = cls.values()[cell(cls, x, y)] != 3;
        assertEquals(drivable, time.values()[cell(cls, x, y)] > 0, x + ", " + y);
        behind += drivable ? 1 : 0;
      }
    }
    assertTrue(behind > 250, behind + " places behind it");
  }

  @Test
  void explainNamesTheSoilAndItsLimits() {
    String there =
        Flow.scarpway("explain", job, 72_300, 94_050, "--out", dir.resolve("out")).ok().out();
    assertTrue(there.contains("soil: soft, deepest wheel sinks"), there);
    assertTrue(there.contains("soil traction"), there);
    assertTrue(there.matches("(?s).*grade that the soil carries[^\\n]*EXCEEDED.*"), there);
    String west =
        Flow.scarpway("explain", job, 72_100, 94_000, "--out", dir.resolve("out")).ok().out();
    assertTrue(west.contains("soil: lunar-compact"), west);
    String nobody =
        Flow.scarpway("explain", job, 72_100, 94_380, "--out", dir.resolve("out")).ok().out();
    assertTrue(nobody.contains("soil: not known, nor sinkage, slip and pull on it\n"), nobody);
    assertFalse(nobody.contains("deepest wheel"), nobody);
    assertTrue(
        nobody.matches("(?s).*step height +got \\S+ +allowed not known .*no verdict.*"), nobody);
  }

  @Test
  void shippedExampleRuns() throws IOException {
    Path out = dir.resolve("shipped");
    Flow.scarpway("run", Flow.ROOT.resolve("configs/jobs/soils.yaml"), "--out", out, "--quiet")
        .ok();
    ByteGrid soil = IO.readBytes(out.resolve("orrel-soils/mobility/open-buggy/soil.tif"));
    assertEquals(2, soil.values()[cell(soil, 74_350 + 250, 94_750)], "wall of the crater");
    assertEquals(1, soil.values()[cell(soil, 74_350, 94_750)], "its floor");
    assertEquals(3, soil.values()[cell(soil, 72_150, 93_950)], "yard of the base");
    assertEquals(1, soil.values()[cell(soil, 73_000, 94_400)], "plain");
  }

  /** Wet clay bears the truck once, not fifty times: slow, or no-go for many passes. */
  @Test
  void passesDecideOnSoftGroundOfTheEarth() throws IOException {
    Path field = Files.createDirectories(dir.resolve("field"));
    StringBuilder flat = new StringBuilder("ncols 40\nnrows 40\nxllcorner 0\nyllcorner 0\n");
    flat.append("cellsize 5\nNODATA_value -9999\n");
    for (int row = 0; row < 40; row++) {
      flat.append("100 ".repeat(40)).append('\n');
    }
    Files.writeString(field.resolve("flat.asc"), flat);
    String truck =
        Files.readString(Flow.ROOT.resolve("configs/vehicles/field-truck.yaml"))
            + "soil: "
            + Flow.ROOT.resolve("configs/soils/wet-clay.yaml")
            + "\n";
    Files.writeString(field.resolve("once.yaml"), truck);
    Files.writeString(
        field.resolve("often.yaml"),
        truck
            .replace("vehicle: field-truck", "vehicle: field-truck-often")
            .replaceFirst("passes: 1 ", "passes: 50 "));
    Path many =
        Files.writeString(
            field.resolve("job.yaml"),
            """
            scarpway: 1
            job: clay
            body: earth
            dem: {source: flat.asc, units: metres}
            vehicles: [once.yaml, often.yaml]
            """);
    Flow.scarpway("run", many, "--out", field.resolve("out"), "--quiet").ok();
    Path mobility = field.resolve("out/clay/mobility");
    ByteGrid once = IO.readBytes(mobility.resolve("field-truck/class.tif"));
    ByteGrid often = IO.readBytes(mobility.resolve("field-truck-often/class.tif"));
    assertEquals(2, once.values()[once.spec().cellOf(100, 100)]);
    assertEquals(3, often.values()[often.spec().cellOf(100, 100)]);
    ByteGrid limit = IO.readBytes(mobility.resolve("field-truck-often/limit.tif"));
    assertEquals(11, limit.values()[limit.spec().cellOf(100, 100)], "soil traction");
    String there =
        Flow.scarpway("explain", many, 100, 100, "--out", field.resolve("out")).ok().out();
    assertTrue(there.contains("the same, 50 passes: slow where exceeded"), there);
    assertTrue(there.matches("(?s).*vehicle cone index, 50 passes[^\\n]*EXCEEDED.*"), there);
  }
}

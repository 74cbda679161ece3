package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.validation.Validation;

/** Whole jobs on elevation models that Debian and npm packages carry. */
class RegistryFlowTest {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final RasterIo IO = RasterIos.gdal();

  /** Drives anywhere but on the steepest ground, at one speed. */
  private static final String TESTER =
      """
      scarpway: 1
      vehicle: tester
      body: {length_m: 3.0, width_m: 2.0, clearance_m: 2.0}
      limits: {climb_deg: 30, descend_deg: 30, side_deg: 30}
      drive: {speed_ms: 5}
      """;

  private static final List<String> PRODUCTS =
      List.of(
          "run.json",
          "index.html",
          "stac/catalog.json",
          "figures/mobility-tester.svg",
          "figures/mobility-tester.png",
          "figures/reach-there-and-back.svg",
          "figures/reach-there-and-back.png",
          "figures/corridor-across.svg",
          "figures/corridor-across.png",
          "terrain/elevation.tif",
          "terrain/slope_deg.tif",
          "terrain/aspect_deg.tif",
          "terrain/roughness_m.tif",
          "terrain/step_m.tif",
          "terrain/ruggedness_m.tif",
          "terrain/convexity_m.tif",
          "terrain/slope_classes.csv",
          "hazard/hazard.tif",
          "hazard/causes.tif",
          "mobility/tester/class.tif",
          "mobility/tester/limit.tif",
          "mobility/tester/headings_pct.tif",
          "mobility/tester/speed_ms.tif",
          "mobility/tester/energy_jm.tif",
          "mobility/tester/no_go.gpkg",
          "mobility/tester/areas.csv",
          "reach/there-and-back/time_s.tif",
          "reach/there-and-back/energy_j.tif",
          "reach/there-and-back/home_time_s.tif",
          "reach/there-and-back/state.tif",
          "reach/there-and-back/binding.tif",
          "reach/there-and-back/gap_width_m.tif",
          "reach/there-and-back/bands.gpkg",
          "reach/there-and-back/targets.csv",
          "reach/there-and-back/summary.csv",
          "corridor/across/excess_pct.tif",
          "corridor/across/corridor.gpkg",
          "corridor/across/centreline.gpkg",
          "corridor/across/profile.csv",
          "corridor/across/route.csv",
          "corridor/across/pinch_points.csv",
          "corridor/across/alternatives.csv");

  private static final List<String> GEOJSON =
      List.of("mobility/tester/no_go.geojson", "reach/there-and-back/bands.geojson");

  @TempDir Path dir;

  @Test
  void faultZoneInDegrees() throws Exception {
    Path dem = RegistryDems.jacksboro(dir);
    // Two flat valley floors of the array.
    Path out = run(dem, "", "{lon: -84.361667, lat: 36.66}", "{lon: -84.216667, lat: 36.591667}");
    GridSpec spec = sameGrid(out);
    // One degree of latitude at 36.59 N is 110 972 m, of longitude 89 490 m (meridian and parallel
    // arc series of the ellipsoid of 1984): cells of 92.48 m by 74.57 m, or one size between.
    assertTrue(spec.cellXM() > 74.5 && spec.cellXM() < 92.6, spec::toString);
    assertTrue(spec.cellYM() > 74.5 && spec.cellYM() < 92.6, spec::toString);
    Validation.nearRel(
        "12-flow-fault-area",
        "analysed area of the fault zone DEM against its degrees, km2",
        "parallel and meridian arcs of the ellipsoid of 1984",
        "C",
        344 / 1200.0 * 110.972 * 403 / 1200.0 * 89.490,
        known(out) * spec.cellAreaM2() / 1e6,
        0.01);
    // Interpolation can only lose the extremes.
    heights(out, 236, 1076, 12);
    slopeAsGdaldem("fault", out, out.resolve("terrain/elevation.tif"));
    inside(out, -84.41376, 36.44624, -84.0779, 36.73293);
    hashed(out, dem, dir.resolve("job.yaml"), dir.resolve("tester.yaml"));
  }

  @Test
  void townInMetres() throws Exception {
    Path dem = Flow.DATA.resolve("olinda.tif");
    Path out = run(dem, "", "[292600, 9114776]", "[298000, 9116936]");
    GridSpec spec = sameGrid(out);
    assertEquals(111, spec.rows());
    assertEquals(111, spec.cols());
    assertEquals(89.99406734945116, spec.cellXM(), 1e-9);
    assertEquals(288776.25, spec.westM(), 1e-3);
    heights(out, -1, 88, 0);
    slopeAsGdaldem("town", out, dem);
    inside(out, -34.917, -8.042, -34.824, -7.949);
    hashed(out, dem, dir.resolve("job.yaml"), dir.resolve("tester.yaml"));
  }

  @Test
  void countryWithVoidsInDegrees() throws Exception {
    Path dem = Flow.DATA.resolve("elev.tif");
    Path out = run(dem, "", "{lon: 5.995833, lat: 49.5375}", "{lon: 6.2125, lat: 49.620833}");
    GridSpec spec = sameGrid(out);
    assertTrue(spec.cellXM() > 595 && spec.cellXM() < 928, spec::toString);
    // At 49.8 N a degree is 111 225 m by 72 000 m. Interpolation needs heights on all sides, so the
    // area lies between that of the cells with heights and that of those ringed by them.
    double cellKm2 = 111.225 * 72.000 / 120 / 120;
    double areaKm2 = known(out) * spec.cellAreaM2() / 1e6;
    Validation.holds(
        "12-flow-country-area",
        "area with heights of a DEM with voids: at most that of its cells, at least that of the"
            + " cells without a void beside them",
        "parallel and meridian arcs of the ellipsoid of 1984",
        "C",
        areaKm2 <= 1.005 * cellKm2 * withHeights(Flow.DATA.resolve("elev.tif"), 0)
            && areaKm2 >= 0.995 * cellKm2 * withHeights(Flow.DATA.resolve("elev.tif"), 1));
    heights(out, 141, 547, 12);
    slopeAsGdaldem("country", out, out.resolve("terrain/elevation.tif"));
    inside(out, 5.7416, 49.4416, 6.5334, 50.1917);
  }

  @Test
  void craterTiedToNoPlace() throws Exception {
    Path dem = RegistryDems.volcano(dir);
    Path out = run(dem, "  units: metres\n", "[265, 445]", "[765, 525]");
    GridSpec spec = sameGrid(out);
    assertEquals(87, spec.cols());
    assertEquals(61, spec.rows());
    assertEquals(10, spec.cellXM());
    heights(out, 94, 195, 0);
    slopeAsGdaldem("crater", out, dem);
    for (String name : GEOJSON) {
      assertFalse(Files.exists(out.resolve(name)), name + " of a place that is on no body");
    }
  }

  @Test
  void fieldTruckOnTheFaultZone() throws Exception {
    Path dem = RegistryDems.jacksboro(dir);
    Path truck = Flow.ROOT.resolve("configs/vehicles/field-truck.yaml");
    Path job = dir.resolve("truck.yaml");
    Files.writeString(
        job,
        """
        scarpway: 1
        job: truck
        body: earth
        dem: {source: %s}
        vehicles: [%s]
        """
            .formatted(dem, truck));
    Flow.Outcome o = Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    assertEquals("", o.err());
    float[] speed =
        IO.readFloats(dir.resolve("out/truck/mobility/field-truck/speed_ms.tif")).values();
    for (float s : speed) {
      assertTrue(Float.isNaN(s) || (s >= 0 && s <= 8.0f), "speed " + s);
    }
  }

  private Path run(Path dem, String demLines, String alpha, String beta) throws Exception {
    Files.writeString(dir.resolve("tester.yaml"), TESTER);
    Path job = dir.resolve("job.yaml");
    Files.writeString(
        job,
        """
        scarpway: 1
        job: registry
        body: earth
        dem:
          source: %s
        %svehicles: [tester.yaml]
        bases:
          alpha: %s
          beta: %s
        reach:
          - name: there-and-back
            from: alpha
            budget: {drive_h: 1}
            home: drive-back
            bands: [20min, 1h]
        corridors:
          - {name: across, via: [alpha, beta], cost: time, within_pct: [5, 10], alternatives: 1}
        """
            .formatted(dem, demLines, alpha, beta));
    Flow.scarpway("check", job).ok();
    Flow.Outcome o = Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    assertEquals("", o.err());
    assertTrue(o.out().contains("not clearance to drive"), o.out());
    Path out = dir.resolve("out/registry");
    for (String name : PRODUCTS) {
      assertTrue(Files.size(out.resolve(name)) > 0, name);
    }
    readers(out);
    catalogue(out);
    return out;
  }

  /** Every raster covers the same cells; returns the grid. */
  private static GridSpec sameGrid(Path out) throws IOException {
    GridSpec first = IO.readFloats(out.resolve("terrain/elevation.tif")).spec();
    for (String name : Flow.files(out)) {
      if (name.endsWith(".tif")) {
        var h = IO.header(out.resolve(name));
        assertEquals(first.rows(), h.rows(), name);
        assertEquals(first.cols(), h.cols(), name);
        assertEquals(first.westM(), h.transform().x0(), name);
        assertEquals(first.northM(), h.transform().y0(), name);
        assertEquals(first.cellXM(), h.transform().xCol(), name);
        assertEquals(-first.cellYM(), h.transform().yRow(), name);
      }
    }
    return first;
  }

  /** Cells with heights in all cells as near as that. */
  private static int withHeights(Path dem, int around) {
    var h = IO.header(dem);
    float[] z = new float[h.rows() * h.cols()];
    IO.read(h, 0, 0, h.rows(), h.cols(), 0, z);
    int n = 0;
    for (int r = around; r < h.rows() - around; r++) {
      for (int c = around; c < h.cols() - around; c++) {
        boolean all = true;
        for (int dr = -around; dr <= around; dr++) {
          for (int dc = -around; dc <= around; dc++) {
            all &= !Float.isNaN(z[(r + dr) * h.cols() + c + dc]);
          }
        }
        n += all ? 1 : 0;
      }
    }
    return n;
  }

  private static long known(Path out) {
    long n = 0;
    for (float z : IO.readFloats(out.resolve("terrain/elevation.tif")).values()) {
      n += Float.isNaN(z) ? 0 : 1;
    }
    return n;
  }

  /** The range of the product is that of the source, but for what resampling may lose. */
  private static void heights(Path out, double leastM, double mostM, double lossM) {
    var header = IO.header(out.resolve("terrain/elevation.tif"));
    float[] z = new float[header.rows() * header.cols()];
    IO.read(header, 0, 0, header.rows(), header.cols(), 0, z);
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (float v : z) {
      if (!Float.isNaN(v)) {
        least = Math.min(least, v);
        most = Math.max(most, v);
      }
    }
    assertTrue(least >= leastM - 1e-3 && least <= leastM + lossM + 1e-3, "lowest " + least);
    assertTrue(most <= mostM + 1e-3 && most >= mostM - lossM - 1e-3, "highest " + most);
  }

  private void slopeAsGdaldem(String name, Path out, Path dem) throws Exception {
    Path theirs = dir.resolve("gdaldem.tif");
    Flow.tool("gdaldem", "slope", "-q", dem, theirs, "-co", "COMPRESS=DEFLATE").ok();
    FloatGrid a = IO.readFloats(out.resolve("terrain/slope_deg.tif"));
    var header = IO.header(theirs);
    float[] b = new float[a.values().length];
    IO.read(header, 0, 0, header.rows(), header.cols(), 0, b);
    double worst = 0;
    int compared = 0;
    int onlyOne = 0;
    for (int i = 0; i < b.length; i++) {
      if (Float.isNaN(a.values()[i]) || Float.isNaN(b[i])) {
        onlyOne += Float.isNaN(a.values()[i]) == Float.isNaN(b[i]) ? 0 : 1;
      } else {
        worst = Math.max(worst, Math.abs(a.values()[i] - b[i]));
        compared++;
      }
    }
    assertTrue(compared > 0.4 * b.length, "compared " + compared + " of " + b.length);
    Validation.near(
        "12-flow-slope-" + name,
        "largest difference of slope over "
            + compared
            + " cells ("
            + onlyOne
            + " more have a value in one only), deg",
        "gdaldem slope (Horn), run beside this test",
        "R",
        0,
        worst,
        // It sums eight float heights of some 1000 m over cells of 75 m: 2.4e-4 m / 600 m is 2e-5
        // degrees for each rounding.
        1e-4);
    assertEquals(0, onlyOne, "cells with a slope in one of the two only");
  }

  /** Longitude first, and nothing beyond the source. */
  private static void inside(Path out, double west, double south, double east, double north)
      throws IOException {
    for (String name : GEOJSON) {
      int[] seen = {0};
      for (JsonNode f : JSON.readTree(out.resolve(name).toFile()).get("features")) {
        points(f.get("geometry").get("coordinates"), west, south, east, north, seen);
      }
      // Gentle ground has no no-go to draw.
      assertTrue(seen[0] > 3 || name.contains("no_go"), name + " has " + seen[0] + " points");
    }
  }

  private static void points(
      JsonNode node, double west, double south, double east, double north, int[] seen) {
    if (node.get(0).isNumber()) {
      double lon = node.get(0).asDouble();
      double lat = node.get(1).asDouble();
      // A metric grid about a window in degrees reaches some cells beyond it.
      double slack = 0.02;
      assertTrue(lon >= west - slack && lon <= east + slack, "longitude " + lon);
      assertTrue(lat >= south - slack && lat <= north + slack, "latitude " + lat);
      seen[0]++;
    } else {
      for (JsonNode n : node) {
        points(n, west, south, east, north, seen);
      }
    }
  }

  /** Independent programs accept every raster as cloud-optimised and every GeoPackage as valid. */
  private static void readers(Path out) throws Exception {
    String script =
        """
        import sys
        from osgeo_utils.samples import validate_cloud_optimized_geotiff as cog, validate_gpkg
        for f in sys.argv[1:]:
            if f.endswith('.tif'):
                warnings, errors, _ = cog.validate(f, full_check=True)
                assert not errors, (f, errors)
            else:
                errors = validate_gpkg.check(f, warning_msg=False)
                assert not errors, (f, errors)
        """;
    List<String> command = new ArrayList<>(List.of("/usr/bin/python3", "-c", script));
    for (String name : Flow.files(out)) {
      if (name.endsWith(".tif") || name.endsWith(".gpkg")) {
        command.add(out.resolve(name).toString());
      }
    }
    Flow.tool(command.toArray()).ok();
  }

  private static void hashed(Path out, Path... inputs) throws IOException {
    JsonNode run = JSON.readTree(out.resolve("run.json").toFile());
    TreeSet<String> sums = new TreeSet<>();
    run.get("inputs").forEach(n -> sums.add(n.get("sha256").asText()));
    TreeSet<String> wanted = new TreeSet<>();
    for (Path p : inputs) {
      wanted.add(Flow.sha256(p));
    }
    assertEquals(wanted, sums);
    assertTrue(run.get("stages").get("terrain").get("cells").asLong() > 0);
    assertFalse(run.get("stages").get("terrain").get("cached").asBoolean());
  }

  private static void catalogue(Path out) throws IOException {
    Path stac = out.resolve("stac");
    TreeSet<String> listed = new TreeSet<>();
    for (JsonNode link : JSON.readTree(stac.resolve("catalog.json").toFile()).get("links")) {
      Path item = stac.resolve(link.get("href").asText());
      assertTrue(Files.isRegularFile(item), item::toString);
      if (link.get("rel").asText().equals("item")) {
        JsonNode json = JSON.readTree(item.toFile());
        assertNotNull(json.get("properties").get("datetime"));
        for (JsonNode l : json.get("links")) {
          assertTrue(Files.isRegularFile(stac.resolve(l.get("href").asText())), l::toString);
        }
        for (JsonNode asset : json.get("assets")) {
          Path file = stac.resolve(asset.get("href").asText()).normalize();
          assertTrue(Files.isRegularFile(file), file::toString);
          listed.add(out.relativize(file).toString());
        }
      }
    }
    TreeSet<String> there = new TreeSet<>(Flow.files(out));
    there.removeIf(n -> !n.matches(".*/[^.]+\\.(tif|gpkg|geojson|csv|gpx|png|svg)"));
    assertEquals(there, listed);
  }
}

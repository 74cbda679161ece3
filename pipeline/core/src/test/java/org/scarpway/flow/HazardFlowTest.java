package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.function.IntPredicate;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.hazard.Hazard;
import org.scarpway.validation.Validation;
import org.scarpway.vehicle.Limit;

/** Hazard products of whole jobs on invented ground of 1 m cells. */
class HazardFlowTest {
  private static final RasterIo IO = RasterIos.gdal();
  private static final int ROWS = 90;
  private static final int COLS = 120;

  @TempDir Path dir;

  private void grid(String name, IntToDoubleFunction value) throws IOException {
    StringBuilder text = new StringBuilder();
    text.append("ncols ").append(COLS).append("\nnrows ").append(ROWS);
    text.append("\nxllcorner 1000\nyllcorner 2000\ncellsize 1\n");
    for (int i = 0; i < ROWS * COLS; i++) {
      text.append(String.format(Locale.ROOT, "%.6f", value.applyAsDouble(i)));
      text.append(i % COLS < COLS - 1 ? ' ' : '\n');
    }
    Files.writeString(dir.resolve(name), text);
  }

  /**
   * Drives at one speed; three metres wide, clears and climbs 0.35 m, so rocks of 0.7 m block it.
   */
  private Path run(String name, String hazard) throws Exception {
    Files.writeString(
        dir.resolve("wide.yaml"),
        """
        scarpway: 1
        vehicle: wide
        body: {length_m: 4.0, width_m: 3.0, clearance_m: 0.35}
        limits: {climb_deg: 25, descend_deg: 25, side_deg: 20, step_m: 0.35}
        drive: {speed_ms: 2}
        """);
    Path job = dir.resolve(name + ".yaml");
    Files.writeString(
        job,
        """
        scarpway: 1
        job: %s
        body: moon
        dem: {source: ground.asc, units: metres}
        hazard: {%s}
        vehicles: [wide.yaml]
        """
            .formatted(name, hazard));
    Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    return dir.resolve("out").resolve(name);
  }

  private static float[] values(Path file) {
    var h = IO.header(file);
    float[] z = new float[h.rows() * h.cols()];
    IO.read(h, 0, 0, h.rows(), h.cols(), 0, z);
    return z;
  }

  private static int count(float[] values, IntPredicate wanted) {
    int n = 0;
    for (float v : values) {
      n += wanted.test((int) v) ? 1 : 0;
    }
    return n;
  }

  @Test
  void rocksByPlace() throws Exception {
    grid("ground.asc", i -> 10);
    grid("rocks.asc", i -> i % COLS < 60 ? 0.05 : 0.10);
    Path out = run("rocks", "rock_coverage: rocks.asc");
    float[] hits = values(out.resolve("hazard/hits_per_km.tif"));
    float[] free = values(out.resolve("hazard/mean_free_path_m.tif"));
    String source = "Golombek and Rapp 1997";
    int west = 40 * COLS + 30;
    int east = 40 * COLS + 90;
    Validation.near(
        "3-flow-hits-k.05",
        "raster of rocks to product, hits per km",
        source,
        "C",
        11.308,
        hits[west],
        6e-4);
    Validation.near("3-flow-hits-k.10", "the same", source, "C", 58.467, hits[east], 6e-4);
    Validation.near(
        "3-flow-free-k.05",
        "raster of rocks to product, mean free path, m",
        source,
        "C",
        88.43,
        free[west],
        6e-3);
    float[] detour = values(out.resolve("hazard/detour_factor.tif"));
    assertTrue(detour[west] > 1 && detour[east] > detour[west]);
    float[] hazard = values(out.resolve("hazard/hazard.tif"));
    assertTrue(hazard[west] > 0 && hazard[east] > hazard[west]);
    // One coverage everywhere is the same in words.
    Path one = run("one", "rock_coverage: 0.05");
    assertEquals(hits[west], values(one.resolve("hazard/hits_per_km.tif"))[west], 1e-4);
  }

  @Test
  void keepOutWithAHoleAndAMargin() throws Exception {
    grid("ground.asc", i -> 10);
    Files.writeString(
        dir.resolve("areas.geojson"),
        """
        {"type": "FeatureCollection", "scarpway:coordinates": "projected", "features": [
          {"type": "Feature", "properties": {}, "geometry": {"type": "Polygon", "coordinates": [
            [[1020, 2020], [1080, 2020], [1080, 2070], [1020, 2070], [1020, 2020]],
            [[1035, 2035], [1035, 2055], [1065, 2055], [1065, 2035], [1035, 2035]]]}}]}
        """);
    Path out = run("kept", "keep_out: [areas.geojson], margin_m: 2");
    // Half the width of 3 m and the margin of 2 m.
    double m = 3.5;
    double want = 60 * 50 + 2 * (60 + 50) * m + Math.PI * m * m - (30 - 2 * m) * (20 - 2 * m);
    Validation.nearRel(
        "3-flow-keep-out-area",
        "rectangle with a rectangular hole, margin 3.5 m, rounded outside: area of keep_out.gpkg, m2",
        "closed form",
        "C",
        want,
        areaM2(out.resolve("hazard/keep_out.gpkg")),
        2e-4);
    float[] causes = values(out.resolve("hazard/causes.tif"));
    int marked = count(causes, c -> (c & Hazard.Cause.KEEP_OUT.bit()) != 0);
    // Whole cells outside and inside, and at each corner those whose own corner is near enough.
    int corner = 0;
    for (int k = 0; k < 16; k++) {
      corner += Math.hypot(k % 4, Math.floorDiv(k, 4)) < m ? 1 : 0;
    }
    Validation.near(
        "3-flow-keep-out-cells",
        "the same as cells of causes.tif, every cell that it touches",
        "counted",
        "C",
        60 * 50 + 2 * (60 + 50) * 4 + 4 * corner - (30 - 2 * 4) * (20 - 2 * 4),
        marked,
        0);
    // The middle of the hole is free, its rim is not.
    assertEquals(0, (int) causes[(ROWS - 1 - 45) * COLS + 50] & Hazard.Cause.KEEP_OUT.bit());
    assertEquals(16, (int) causes[(ROWS - 1 - 45) * COLS + 37] & Hazard.Cause.KEEP_OUT.bit());
  }

  private double areaM2(Path gpkg) throws Exception {
    Path json = dir.resolve("area.geojson");
    Flow.tool("ogr2ogr", "-q", "-f", "GeoJSON", json, gpkg).ok();
    double sum = 0;
    for (JsonNode f : new ObjectMapper().readTree(json.toFile()).get("features")) {
      for (JsonNode polygon : f.get("geometry").get("coordinates")) {
        for (int ring = 0; ring < polygon.size(); ring++) {
          sum += (ring == 0 ? 1 : -1) * Math.abs(shoelace(polygon.get(ring)));
        }
      }
    }
    return sum;
  }

  private static double shoelace(JsonNode ring) {
    double twice = 0;
    for (int k = 1; k < ring.size(); k++) {
      JsonNode a = ring.get(k - 1);
      JsonNode b = ring.get(k);
      twice +=
          a.get(0).asDouble() * b.get(1).asDouble() - b.get(0).asDouble() * a.get(1).asDouble();
    }
    return twice / 2;
  }

  @Test
  void gapsAndPockets() throws Exception {
    // Voids wall off an alley of 12 cells and a room of 8 x 8. Step and slope are not known within
    // a wheel spacing of 3 m of a void, which leaves 6 cells of the alley and 2 x 2 of the room.
    grid(
        "ground.asc",
        i -> {
          int row = i / COLS;
          int col = i % COLS;
          boolean alley = col >= 60 && col < 72;
          boolean room = row >= 40 && row < 48 && col >= 90 && col < 98;
          boolean wall = row >= 30 && row < 60 && col >= 10 && col < 110;
          return wall && !alley && !room ? -9999 : 10;
        });
    Path ground = dir.resolve("ground.asc");
    Files.writeString(
        ground,
        Files.readString(ground).replace("cellsize 1\n", "cellsize 1\nNODATA_value -9999\n"));
    int alley = 45 * COLS + 65;
    int room = 43 * COLS + 93;
    int tight = Hazard.Cause.NARROW.bit() | Hazard.Cause.POCKET.bit();
    float[] any = values(run("any", "min_gap_m: 0, turning_m: 0").resolve("hazard/causes.tif"));
    assertEquals(0, count(any, c -> (c & tight) != 0));
    // By the vehicle's own width of 3 m the room is too narrow; by its diagonal of 5 m alone it is
    // a pocket.
    float[] auto = values(run("auto", "margin_m: 0").resolve("hazard/causes.tif"));
    assertEquals(0, (int) auto[alley]);
    assertEquals(Hazard.Cause.NARROW.bit(), (int) auto[room]);
    float[] turn = values(run("turn", "min_gap_m: 0").resolve("hazard/causes.tif"));
    assertEquals(Hazard.Cause.POCKET.bit(), (int) turn[room]);
    assertEquals(4, count(turn, c -> (c & tight) != 0));
    float[] exact = values(run("exact", "min_gap_m: 6").resolve("hazard/causes.tif"));
    assertEquals(0, (int) exact[alley]);
    Path broad = run("broad", "min_gap_m: 6.1");
    float[] narrow = values(broad.resolve("hazard/causes.tif"));
    assertEquals(Hazard.Cause.NARROW.bit(), (int) narrow[alley]);
    assertEquals(0, (int) narrow[20 * COLS + 65]);
    assertEquals(3, (int) values(broad.resolve("mobility/wide/class.tif"))[alley]);
    assertEquals(Limit.ROOM.code(), (int) values(broad.resolve("mobility/wide/limit.tif"))[alley]);
  }
}

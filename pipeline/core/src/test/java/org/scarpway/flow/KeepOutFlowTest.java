package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.util.AffineTransformation;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;

/** Whole jobs about keep-out ground thinner than their cells, on level ground. */
class KeepOutFlowTest {
  private static final RasterIo IO = RasterIos.best();
  private static final int SIDE = 40;
  private static final double WIDTH_M = 3;

  @TempDir Path dir;

  private Path run(String name, double cellM, Geometry area, double marginM, boolean turns)
      throws IOException {
    StringBuilder text = new StringBuilder();
    text.append("ncols ").append(SIDE).append("\nnrows ").append(SIDE);
    text.append("\nxllcorner 1000\nyllcorner 2000\ncellsize ").append(cellM).append('\n');
    text.append(("10 ".repeat(SIDE).strip() + "\n").repeat(SIDE));
    Files.writeString(dir.resolve("ground.asc"), text);
    StringBuilder ring = new StringBuilder();
    for (Coordinate c : area.getCoordinates()) {
      ring.append(ring.isEmpty() ? "" : ", ").append("[" + c.x + ", " + c.y + "]");
    }
    Files.writeString(
        dir.resolve("area.geojson"),
        """
        {"type": "FeatureCollection", "scarpway:coordinates": "projected", "features": [
          {"type": "Feature", "properties": {}, "geometry":
            {"type": "Polygon", "coordinates": [[%s]]}}]}
        """
            .formatted(ring));
    Files.writeString(
        dir.resolve("wide.yaml"),
        """
        scarpway: 1
        vehicle: wide
        body: {length_m: 4.0, width_m: %s, clearance_m: 0.35}
        limits: {climb_deg: 25, descend_deg: 25, side_deg: 20, step_m: 0.35}
        drive: {speed_ms: 2%s}
        """
            .formatted(WIDTH_M, turns ? ", turn_radius_m: 7" : ""));
    double end = SIDE * cellM;
    Path job = dir.resolve(name + ".yaml");
    Files.writeString(
        job,
        String.format(
            Locale.ROOT,
            """
            scarpway: 1
            job: %s
            body: moon
            dem: {source: ground.asc, units: metres}
            hazard: {keep_out: [area.geojson], margin_m: %s}
            vehicles: [wide.yaml]
            bases: {west: [%s, %s], east: [%s, %s]}
            reach:
              - {name: r, from: west, budget: {drive_h: 1}, home: none, bands: [1h]}
            corridors:
              - {name: c, via: [west, east], cost: time, within_pct: [5]}
            """,
            name,
            marginM,
            1000 + 0.04 * end,
            2000 + 0.5 * end,
            1000 + 0.96 * end,
            2000 + 0.5 * end));
    Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    return dir.resolve("out").resolve(name);
  }

  /** A strip across the way from west to east, turned by up to half a right angle. */
  private static Geometry strip(double cellM, double thickM, double longM, double turn) {
    double middle = SIDE * cellM / 2;
    double x = 1000 + middle + 0.31 * cellM;
    double y = 2000 + middle;
    Envelope upright = new Envelope(x - thickM / 2, x + thickM / 2, y - longM / 2, y + longM / 2);
    Geometry box = new GeometryFactory().toGeometry(upright);
    return AffineTransformation.rotationInstance(turn, x, y).transform(box);
  }

  /** Random strips, cells, margins and turning circles: by JTS no line comes nearer. */
  @Test
  void linesKeepTheWholeBodyAway() throws IOException {
    Random random = new Random(31);
    for (int n = 0; n < 8; n++) {
      double cellM = 3 + 9 * random.nextDouble();
      double longM = SIDE * cellM * (0.3 + 0.3 * random.nextDouble());
      double turn = n % 4 == 0 ? 0 : (random.nextDouble() - 0.5) * Math.PI / 2;
      Geometry area = strip(cellM, cellM * (0.02 + 0.5 * random.nextDouble()), longM, turn);
      double marginM = n % 3 == 0 ? 0 : 6 * random.nextDouble();
      Path out = run("lines" + n, cellM, area, marginM, n % 2 == 0);
      Coordinate[] line;
      try (CSVParser table =
          CSVParser.parse(
              out.resolve("corridor/c/profile.csv"),
              StandardCharsets.UTF_8,
              CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get())) {
        List<CSVRecord> rows = table.getRecords();
        line =
            rows.stream()
                .map(
                    r ->
                        new Coordinate(
                            Double.parseDouble(r.get("x_m")), Double.parseDouble(r.get("y_m"))))
                .toArray(Coordinate[]::new);
      }
      double distanceM = new GeometryFactory().createLineString(line).distance(area);
      String where = "draw " + n + ": " + distanceM + " m with a margin of " + marginM;
      // Places in the table are rounded.
      assertTrue(distanceM >= marginM + WIDTH_M / 2 - 0.02, where);
      assertTrue(distanceM <= marginM + WIDTH_M / 2 + 2.5 * cellM, where);
    }
  }

  /** A trench of a twentieth of a cell from edge to edge of the ground parts it. */
  @Test
  void nothingIsReachedBehindAThinStrip() throws IOException {
    Random random = new Random(7);
    for (int n = 0; n < 4; n++) {
      double cellM = 10 + 10 * random.nextDouble();
      double turn = n == 0 ? 0 : (random.nextDouble() - 0.5) * Math.PI / 2;
      Geometry area = strip(cellM, cellM / 20, 3 * SIDE * cellM, turn);
      Path out = dir.resolve("out/behind" + n);
      try {
        run("behind" + n, cellM, area, 0, false);
      } catch (AssertionError noWay) {
        // The corridor has no answer; the reach has.
        assertTrue(Files.exists(out.resolve("reach/r/state.tif")), noWay.getMessage());
      }
      var state = IO.readBytes(out.resolve("reach/r/state.tif"));
      int reached = 0;
      for (int i = 0; i < state.values().length; i++) {
        double x = state.spec().xM(i % SIDE);
        double y = state.spec().yM(Math.floorDiv(i, SIDE));
        // East of the line through the middle of the strip.
        double middle = 1000 + SIDE * cellM / 2 + 0.31 * cellM;
        double side =
            (x - middle) * Math.cos(turn) + (y - 2000 - SIDE * cellM / 2) * Math.sin(turn);
        reached += state.values()[i] == 1 ? 1 : 0;
        assertTrue(side < 0 || state.values()[i] == 0, "draw " + n + " cell " + i);
      }
      assertTrue(reached > SIDE * SIDE / 4, reached + " cells");
    }
  }

  /**
   * Random rectangles about the ground of 1000 to 1400 by 2000 to 2400 m: those farther from it
   * than margin and half width are told by check and run alike, by their numbers.
   */
  @Test
  void areasBeyondTheGroundAreTold() throws IOException {
    run("told", 10, strip(10, 5, 100, 0), 2, false);
    Random random = new Random(5);
    List<String> features = new ArrayList<>();
    List<String> outside = new ArrayList<>();
    for (int n = 1; n <= 9; n++) {
      double west = 800 + 700 * random.nextDouble();
      double south = 1800 + 700 * random.nextDouble();
      double side = 5 + 60 * random.nextDouble();
      features.add(
          """
          {"type": "Feature", "properties": {}, "geometry": {"type": "Polygon", "coordinates":
            [[[%1$s, %2$s], [%3$s, %2$s], [%3$s, %4$s], [%1$s, %4$s], [%1$s, %2$s]]]}}
          """
              .formatted(west, south, west + side, south + side));
      double reachM = 2 + WIDTH_M / 2;
      boolean inX = west <= 1400 + reachM && west + side >= 1000 - reachM;
      boolean inY = south <= 2400 + reachM && south + side >= 2000 - reachM;
      if (!inX || !inY) {
        outside.add(String.valueOf(n));
      }
    }
    assertTrue(outside.size() > 1 && outside.size() < 9, outside.toString());
    Files.writeString(
        dir.resolve("area.geojson"),
        "{\"type\": \"FeatureCollection\", \"scarpway:coordinates\": \"projected\","
            + " \"features\": ["
            + String.join(",", features)
            + "]}");
    Path job = dir.resolve("told.yaml");
    // Without the questions, which the random areas may close.
    String text = Files.readString(job);
    Files.writeString(job, text.substring(0, text.indexOf("bases:")));
    String line =
        "warning: area.geojson: %d of 9 areas (%s): each lies outside the ground and closes nothing"
            .formatted(outside.size(), String.join(", ", outside));
    for (Flow.Outcome o :
        List.of(
            Flow.scarpway("check", job).ok(),
            Flow.scarpway("run", job, "--out", dir.resolve("out2")).ok())) {
      assertTrue((o.out() + o.err()).contains(line), line + " in " + o.out() + o.err());
    }
  }
}

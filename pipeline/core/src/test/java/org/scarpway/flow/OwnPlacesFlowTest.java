package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Tables give places as the job does, in the raster's own system, whatever map the ground is
 * measured on: a polar map at 75 degrees, which draws 1.7 % too long, and a grid of degrees.
 */
class OwnPlacesFlowTest {
  @TempDir Path dir;

  private static List<CSVRecord> read(Path file) throws IOException {
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (CSVParser rows = CSVParser.parse(file, StandardCharsets.UTF_8, format)) {
      return rows.getRecords();
    }
  }

  private void holds(String name, String srs, double west, double south, double cell)
      throws IOException, InterruptedException {
    StringBuilder grid =
        new StringBuilder(
            String.format(
                Locale.ROOT,
                "ncols 60%nnrows 60%nxllcorner %.9f%nyllcorner %.9f%ncellsize %.9f%n",
                west,
                south,
                cell));
    grid.append("0 ".repeat(60).trim().concat("\n").repeat(60));
    Files.writeString(dir.resolve(name + ".asc"), grid);
    Flow.tool(
            "gdal_translate",
            "-q",
            "-a_srs",
            srs,
            dir.resolve(name + ".asc"),
            dir.resolve(name + ".tif"))
        .ok();
    Files.writeString(
        dir.resolve("cart.yaml"),
        """
        scarpway: 1
        vehicle: cart
        body: {length_m: 3.0, width_m: 2.0, clearance_m: 0.4}
        limits: {climb_deg: 20, descend_deg: 20, side_deg: 15}
        drive: {speed_ms: 3}
        """);
    List<double[]> places = new ArrayList<>();
    StringBuilder targets = new StringBuilder("name,x,y\n");
    for (int i = 0; i < 3; i++) {
      double[] p = {west + (8.3 + 20 * i) * cell, south + (44.4 - 15 * i) * cell};
      places.add(p);
      targets.append(String.format(Locale.ROOT, "t%d,%.9f,%.9f%n", i, p[0], p[1]));
    }
    Files.writeString(dir.resolve(name + ".csv"), targets);
    Path job = dir.resolve(name + ".yaml");
    Files.writeString(
        job,
        String.format(
            Locale.ROOT,
            """
            scarpway: 1
            job: %s
            body: moon
            dem: {source: %s.tif}
            vehicles: [cart.yaml]
            bases: {camp: [%.9f, %.9f]}
            targets: %s.csv
            reach: [{name: day, from: camp, budget: {drive_h: 3}}]
            corridors: [{name: way, via: [t0, t1, t2]}]
            """,
            name,
            name,
            west + 30 * cell,
            south + 30 * cell,
            name));
    Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    Path out = dir.resolve("out/" + name);
    double near = 2e-3 * cell;
    for (String table :
        List.of("reach/day/targets.csv", "corridor/way/stops.csv", "reach/day/audit.csv")) {
      List<CSVRecord> rows = read(out.resolve(table));
      assertTrue(rows.size() >= 3, table);
      for (int i = 0; i < 3; i++) {
        double most = table.contains("audit") ? 0.51 * cell : near;
        assertEquals(places.get(i)[0], Double.parseDouble(rows.get(i).get("x")), most, table);
        assertEquals(places.get(i)[1], Double.parseDouble(rows.get(i).get("y")), most, table);
      }
    }
    List<CSVRecord> line = read(out.resolve("corridor/way/profile.csv"));
    CSVRecord first = line.get(0);
    assertEquals(places.get(0)[0], Double.parseDouble(first.get("x")), 0.51 * cell);
    assertEquals(places.get(0)[1], Double.parseDouble(first.get("y")), 0.51 * cell);
  }

  @Test
  void tablesSpeakOfPlacesAsTheJobDoes() throws Exception {
    // Radius of 75 degrees south on the map: 2 R tan(7.5 deg).
    double south = 2 * 1_737_400 * Math.tan(Math.toRadians(7.5));
    holds("polar", "+proj=stere +lat_0=-90 +lon_0=0 +k=1 +R=1737400 +units=m", -300, south, 10);
    holds("degrees", "+proj=longlat +R=1737400", 20, -10, 0.0004);
  }
}

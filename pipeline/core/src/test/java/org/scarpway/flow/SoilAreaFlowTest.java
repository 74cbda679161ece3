package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.util.AffineTransformation;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;

/** Whole jobs about soil polygons whose outlines are not those of cells, on level ground. */
class SoilAreaFlowTest {
  private static final RasterIo IO = RasterIos.best();
  private static final int SIDE = 40;
  private static final GeometryFactory SHAPES = new GeometryFactory();

  @TempDir Path dir;

  private void polygon(String name, Geometry area) throws IOException {
    StringBuilder ring = new StringBuilder();
    for (Coordinate c : area.getCoordinates()) {
      ring.append(ring.isEmpty() ? "" : ", ").append("[" + c.x + ", " + c.y + "]");
    }
    Files.writeString(
        dir.resolve(name),
        """
        {"type": "FeatureCollection", "scarpway:coordinates": "projected", "features": [
          {"type": "Feature", "properties": {}, "geometry":
            {"type": "Polygon", "coordinates": [[%s]]}}]}
        """
            .formatted(ring));
  }

  private Path run(String name, double cellM, String own, String areas) throws IOException {
    StringBuilder text = new StringBuilder();
    text.append("ncols ").append(SIDE).append("\nnrows ").append(SIDE);
    text.append("\nxllcorner 1000\nyllcorner 2000\ncellsize ").append(cellM).append('\n');
    text.append(("10 ".repeat(SIDE).strip() + "\n").repeat(SIDE));
    Files.writeString(dir.resolve("ground.asc"), text);
    Files.writeString(
        dir.resolve("mud.yaml"),
        """
        soil: mud
        bekker: {n: 1.0, kc: 10, kphi: 8000}
        shear: {cohesion_pa: 10, friction_deg: 12, k_m: 0.0178}
        """);
    Path firm = Flow.ROOT.resolve("configs/soils/lunar-compact.yaml");
    Files.copy(firm, dir.resolve("firm.yaml"), StandardCopyOption.REPLACE_EXISTING);
    Path rover = Flow.ROOT.resolve("configs/vehicles/pressurised-rover.yaml");
    Files.writeString(
        dir.resolve("rover.yaml"),
        Files.readString(rover).replaceFirst("(?m)^soil: \\S+", "soil: " + own));
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
            vehicles: [rover.yaml]
            soils: {areas: [%s]}
            """,
            name,
            areas));
    Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    return dir.resolve("out").resolve(name).resolve("mobility/pressurised-rover");
  }

  private static Geometry box(double west, double south, double wide, double high, double turn) {
    Geometry box = SHAPES.toGeometry(new Envelope(west, west + wide, south, south + high));
    return AffineTransformation.rotationInstance(turn, west, south).transform(box);
  }

  private static Geometry cell(GridSpec spec, int i, double larger) {
    double x = spec.xM(i % SIDE);
    double y = spec.yM(Math.floorDiv(i, SIDE));
    double half = (0.5 + larger) * spec.cellXM();
    return SHAPES.toGeometry(new Envelope(x - half, x + half, y - half, y + half));
  }

  /**
   * Two random polygons, one over the other: each cell has the soil that all of it has by JTS, and
   * otherwise that of several.
   */
  @Test
  void everySoilInACellCounts() throws IOException {
    Random random = new Random(23);
    int several = 0;
    for (int n = 0; n < 4; n++) {
      double cellM = 4 + 8 * random.nextDouble();
      double sideM = SIDE * cellM;
      Geometry[] areas = new Geometry[2];
      for (int k = 0; k < 2; k++) {
        areas[k] =
            box(
                1000 + sideM * (0.1 + 0.4 * random.nextDouble()),
                2000 + sideM * (0.1 + 0.4 * random.nextDouble()),
                sideM * (0.01 + 0.5 * random.nextDouble()),
                sideM * (0.01 + 0.5 * random.nextDouble()),
                n == 0 ? 0 : Math.PI / 2 * random.nextDouble());
        polygon("area" + k + ".geojson", areas[k]);
      }
      Path out =
          run(
              "draw" + n,
              cellM,
              Flow.ROOT.resolve("configs/soils/lunar-loose.yaml").toString(),
              "{polygons: area0.geojson, soil: mud.yaml},"
                  + " {polygons: area1.geojson, soil: firm.yaml}");
      ByteGrid soil = IO.readBytes(out.resolve("soil.tif"));
      for (int i = 0; i < soil.values().length; i++) {
        Geometry most = cell(soil.spec(), i, -1e-5);
        // 1 is the vehicle's own, 2 mud, 3 firm, 4 not known, 5 several.
        int want = 1;
        for (int k = 0; k < 2; k++) {
          want = areas[k].covers(most) ? 2 + k : areas[k].intersects(most) ? 5 : want;
        }
        assertEquals(want, soil.values()[i], "draw " + n + " cell " + i);
        several += want == 5 ? 1 : 0;
      }
    }
    assertTrue(several > 200, several + " cells of several soils");
  }

  /** A track narrower than the vehicle, over the centres of cells, carries nobody over mud. */
  @Test
  void aThinTrackDoesNotMakeMudFirm() throws IOException {
    polygon("track.geojson", box(990, 2000 + 20.5 * 10 - 0.4, 500, 0.8, 0));
    Path out = run("track", 10, "mud.yaml", "{polygons: track.geojson, soil: firm.yaml}");
    for (byte c : IO.readBytes(out.resolve("class.tif")).values()) {
      assertTrue(c == 3 || c == 0, "class " + c);
    }
  }

  /** Mud between the centres of cells stops a vehicle all the same. */
  @Test
  void aThinStripOfMudIsNotLost() throws IOException {
    polygon("strip.geojson", box(1000 + 20 * 10 - 0.2, 1990, 0.4, 500, 0));
    Path out =
        run(
            "strip",
            10,
            Flow.ROOT.resolve("configs/soils/lunar-compact.yaml").toString(),
            "{polygons: strip.geojson, soil: mud.yaml}");
    byte[] cls = IO.readBytes(out.resolve("class.tif")).values();
    for (int row = 2; row < SIDE - 2; row++) {
      assertEquals(3, cls[row * SIDE + 19]);
      assertEquals(3, cls[row * SIDE + 20]);
      assertTrue(cls[row * SIDE + 18] < 3 && cls[row * SIDE + 21] < 3, "row " + row);
    }
  }

  /** A polygon with x and y exchanged has no soil of the ground. */
  @Test
  void aSoilBesideTheGroundIsTold() throws IOException {
    polygon("swapped.geojson", box(2100, 1100, 50, 50, 0));
    run("beside", 10, "mud.yaml", "{polygons: swapped.geojson, soil: firm.yaml}");
    String line = "swapped.geojson: area 1 lies outside the ground and sets no soil";
    String run = Files.readString(dir.resolve("out/beside/run.json"));
    assertTrue(run.contains(line), run);
    Flow.Outcome check = Flow.scarpway("check", dir.resolve("beside.yaml")).ok();
    assertTrue(check.out().contains("warning: " + line), check.out());
  }
}

package org.scarpway.sample;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.flow.Table;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.geodata.vector.PolygonFile;
import org.scarpway.geodata.vector.PolygonReader;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

class DemoScenarioTest {
  private static final long MAX_BYTES = 4_000_000;

  @TempDir static Path dir;

  private static final RasterIo IO = RasterIos.gdal();
  private static List<Path> files;

  @BeforeAll
  static void writeOnce() {
    files = DemoScenario.write(dir, IO);
  }

  @Test
  void filesAreSmallAndNothingElseIsLeft() throws Exception {
    long bytes = 0;
    for (Path f : files) {
      bytes += Files.size(f);
    }
    assertTrue(bytes < MAX_BYTES, "the scenario takes " + bytes + " bytes");
    try (var all = Files.list(dir)) {
      assertEquals(files.size(), all.count());
    }
  }

  @Test
  void filesReadBack() {
    FloatGrid heights = IO.readFloats(dir.resolve(DemoScenario.HEIGHTS));
    assertArrayEquals(DemoGroundTest.HEIGHTS.values(), heights.values());
    GridSpec g = heights.spec();
    assertTrue(g.sameCellsAs(DemoScenario.spec()));
    assertTrue(IO.readFloats(dir.resolve(DemoScenario.ROCKS)).spec().sameCellsAs(g));

    Envelope ground = new Envelope(g.westM(), g.eastM(), g.southM(), g.northM());
    PolygonFile keepOut = PolygonReader.read(dir.resolve(DemoScenario.KEEP_OUT));
    assertEquals(PolygonFile.Placement.FILE_CRS, keepOut.placement());
    assertEquals(List.of(), keepOut.warnings());
    assertTrue(ground.contains(keepOut.polygons().get(0).getEnvelopeInternal()));

    Table targets = Table.read(dir.resolve(DemoScenario.TARGETS));
    assertTrue(
        List.of("name", "x", "y", "weight", "stay_min", "walk_count")
            .containsAll(targets.header()));
    assertEquals(8, targets.rows().size());
    for (Table.Row r : targets.rows()) {
      Coordinate c = new Coordinate(r.number("x"), r.number("y"));
      assertTrue(ground.contains(c), r.where());
      assertTrue(
          !keepOut.polygons().get(0).contains(new GeometryFactory().createPoint(c)), r.where());
    }
    DemoScenario.bases().forEach((name, xy) -> assertTrue(ground.contains(xy[0], xy[1]), name));
  }

  /** Cells, not bytes, of the rasters: another GDAL may pack them otherwise. */
  @Test
  void sampleDemIsWhatTheSeedGives() throws Exception {
    Path committed = Path.of(System.getProperty("scarpway.root"), "sample-dem");
    for (String raster : List.of(DemoScenario.HEIGHTS, DemoScenario.ROCKS)) {
      assertArrayEquals(
          IO.readFloats(dir.resolve(raster)).values(),
          IO.readFloats(committed.resolve(raster)).values(),
          raster);
    }
    for (String file : List.of(DemoScenario.KEEP_OUT, DemoScenario.TARGETS, DemoScenario.README)) {
      assertEquals(-1, Files.mismatch(dir.resolve(file), committed.resolve(file)), file);
    }
  }

  @Test
  void theReadmeNamesThePlaces() throws Exception {
    String readme =
        new String(
            DemoScenario.class.getResourceAsStream("/sample/README.md").readAllBytes(),
            java.nio.charset.StandardCharsets.UTF_8);
    DemoScenario.bases()
        .forEach(
            (name, xy) ->
                assertTrue(
                    readme.contains("**" + name + "** (" + (int) xy[0] + ", " + (int) xy[1] + ")"),
                    name));
    for (String file : List.of(DemoScenario.HEIGHTS, DemoScenario.ROCKS, DemoScenario.KEEP_OUT)) {
      assertTrue(readme.contains(file), file);
    }
    assertTrue(readme.contains(String.valueOf(DemoGround.SEED)));
  }
}

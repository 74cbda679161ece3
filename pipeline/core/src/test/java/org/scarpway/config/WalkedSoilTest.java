package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The worst soil of a job, of whatever vehicle or place, is the one that its walker walks on. */
class WalkedSoilTest {
  @TempDir Path dir;

  private static String soil(String name, double factor) {
    return JobFolder.SOIL.replace("loose", name)
        + (Double.isNaN(factor) ? "" : "walking_factor: " + factor + "\n");
  }

  @Test
  void theWorstOfAllSoilsCounts() {
    JobFolder folder = new JobFolder(dir);
    folder.write("classes.tif", "");
    folder.spoil(
        "job.yaml",
        "walker: walker.yaml",
        "walker: walker.yaml\nsoils: {raster: classes.tif, classes: {1: a.yaml, 2: b.yaml},"
            + " areas: [{polygons: areas.geojson, soil: c.yaml}]}");
    double no = Double.NaN;
    double[][] cases = {
      {no, no, no, no, 1}, {1.1, no, no, no, 1.1}, {1.1, 1.8, no, no, 1.8},
      {1.1, 1.2, 2.1, 1.5, 2.1}, {2.1, 1, 1, 1, 2.1}, {no, 1, 1.2, 1.5, 1.5}
    };
    for (double[] c : cases) {
      folder.write("soil.yaml", soil("own", c[0]));
      folder.write("a.yaml", soil("a", c[1]));
      folder.write("b.yaml", soil("b", c[2]));
      folder.write("c.yaml", soil("c", c[3]));
      assertEquals(c[4], JobReader.read(folder.job(), Map.of()).walker().terrainFactor());
    }
  }
}

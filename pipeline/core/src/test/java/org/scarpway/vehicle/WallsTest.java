package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayDeque;
import java.util.List;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.Dem;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainStage;

/**
 * A wall across all ground, higher than the vehicle's step, in any direction: no way leads over it
 * on cells that show steps, and on coarser ones the notes tell how high it is.
 */
class WallsTest {
  private static final Vehicle ROVER = Vehicles.full();
  private static final double[] CELLS_M = {1, 2.5, 5, 10, 15};
  private static final double[] HEIGHTS_M = {0.5, 0.7, 1, 2, 3.4, 4};
  private static final int SIZE = 40;

  /** Ground with a wall through its middle. */
  private record Wall(Grounds.Surface ground, double azimuth, double highM, double x0, double y0) {
    double side(double x, double y) {
      return (x - x0) * Math.cos(azimuth) + (y - y0) * Math.sin(azimuth);
    }

    double heightM(double x, double y) {
      return ground.heightM(x, y) + (side(x, y) > 0 ? highM : 0);
    }
  }

  private static Grounds.Surface tilted(Random random, double degrees) {
    double azimuth = 2 * Math.PI * random.nextDouble();
    double t = Math.tan(Math.toRadians(degrees));
    return (x, y) -> t * (x * Math.cos(azimuth) + y * Math.sin(azimuth));
  }

  /** Waves from 400 m down to 4 m with heights as their length to the power of 0.8. */
  private static Grounds.Surface rough(Random random, double highM) {
    double[] wave = new double[4 * 30];
    for (int k = 0; k < 30; k++) {
      double lengthM = 400 * Math.pow(0.86, k);
      double a = 2 * Math.PI * random.nextDouble();
      wave[4 * k] = 2 * Math.PI / lengthM * Math.cos(a);
      wave[4 * k + 1] = 2 * Math.PI / lengthM * Math.sin(a);
      wave[4 * k + 2] = 2 * Math.PI * random.nextDouble();
      wave[4 * k + 3] = highM * Math.pow(lengthM / 400, 0.8);
    }
    return (x, y) -> {
      double z = 0;
      for (int k = 0; k < wave.length; k += 4) {
        z += wave[k + 3] * Math.sin(wave[k] * x + wave[k + 1] * y + wave[k + 2]);
      }
      return z;
    };
  }

  /**
   * @param samples along a side of a cell: 1 for heights of points, more for means of cells
   */
  private static FloatGrid heights(Wall wall, GridSpec spec, int samples) {
    FloatGrid grid = FloatGrid.empty(spec);
    for (int i = 0; i < spec.cells(); i++) {
      double sum = 0;
      for (int s = 0; s < samples * samples; s++) {
        double dx = ((s % samples + 0.5) / samples - 0.5) * spec.cellXM();
        int down = s / samples;
        double dy = ((down + 0.5) / samples - 0.5) * spec.cellYM();
        int row = i / SIZE;
        sum += wall.heightM(spec.xM(i % SIZE) + dx, spec.yM(row) + dy);
      }
      grid.values()[i] = (float) (sum / samples / samples);
    }
    return grid;
  }

  private static Mobility mobility(FloatGrid height, Workers workers) {
    double cellM = height.spec().cellM();
    TerrainParams params =
        new TerrainParams(TerrainParams.SlopeMethod.HORN, Math.max(4.28, 3 * cellM), 2.6, 3.4);
    Terrain t =
        TerrainStage.compute(
            new Dem(height, 0, Body.MOON, List.of()), params, workers, Progress.NONE);
    return MobilityStage.compute(
        t, Grounds.noHazard(height.spec()), ROVER, Body.MOON, workers, Progress.NONE);
  }

  /** Cells on the far side that can be come to from the near side over open cells. */
  private static int crossed(Mobility m, Wall wall) {
    GridSpec spec = m.cls().spec();
    boolean[] seen = new boolean[spec.cells()];
    ArrayDeque<Integer> open = new ArrayDeque<>();
    for (int i = 0; i < spec.cells(); i++) {
      int row = i / SIZE;
      if (wall.side(spec.xM(i % SIZE), spec.yM(row)) < 0 && m.field().allowed(i) != 0) {
        seen[i] = true;
        open.add(i);
      }
    }
    assertTrue(!open.isEmpty(), "nothing open on the near side");
    int far = 0;
    while (!open.isEmpty()) {
      int i = open.remove();
      for (int k = 0; k < 9; k++) {
        int row = i / SIZE + k / 3 - 1;
        int col = i % SIZE + k % 3 - 1;
        int to = row * SIZE + col;
        if (spec.holds(row, col) && !seen[to] && m.field().allowed(to) != 0) {
          seen[to] = true;
          open.add(to);
          far += wall.side(spec.xM(col), spec.yM(row)) > 2 * spec.cellM() ? 1 : 0;
        }
      }
    }
    return far;
  }

  private static void check(Wall wall, double cellM, int samples, String on, Workers workers) {
    GridSpec spec = Grounds.square(SIZE, cellM);
    Mobility m = mobility(heights(wall, spec, samples), workers);
    if (cellM <= 4 * 2.6) {
      assertEquals(0, crossed(m, wall), on);
      return;
    }
    Matcher told =
        Pattern.compile("with up to ([0-9.]+) m: there may be walls").matcher(m.notes().toString());
    assertTrue(told.find(), on + m.notes());
    assertTrue(Double.parseDouble(told.group(1)) > 0.79 * wall.highM(), on + told.group());
    assertTrue(m.unresolved().limits().contains(Limit.STEP), on);
  }

  @Test
  void noWayLeadsOverAWallThatTheCellsShow() {
    Random random = new Random(20);
    try (Workers workers = new Workers(1)) {
      for (double cellM : CELLS_M) {
        for (double highM : HEIGHTS_M) {
          for (int k = 0; k < 12; k++) {
            double azimuth = k < 8 ? Math.PI / 4 * k : 2 * Math.PI * random.nextDouble();
            double x0 = cellM * (SIZE / 2.0 + random.nextDouble());
            double y0 = cellM * (SIZE / 2.0 + random.nextDouble());
            Grounds.Surface ground =
                k % 2 == 0 ? (x, y) -> 0 : tilted(random, 6 * random.nextDouble());
            Wall wall = new Wall(ground, azimuth, highM, x0, y0);
            String on =
                String.format("wall of %s m, cells of %s m, azimuth %.3f", highM, cellM, azimuth);
            check(wall, cellM, 1, on + ", points ", workers);
            check(wall, cellM, 5, on + ", means ", workers);
          }
        }
      }
    }
  }

  /** Some cells of the wall come out lower by what the ground does there anyhow. */
  @Test
  void aWallOnRoughGroundHasNoGaps() {
    Random random = new Random(21);
    try (Workers workers = new Workers(1)) {
      for (int k = 0; k < 40; k++) {
        double cellM = k % 2 == 0 ? 5 : 1;
        double azimuth = 2 * Math.PI * random.nextDouble();
        double middleM = cellM * SIZE / 2;
        double highM = cellM == 5 ? 1.5 + random.nextDouble() : 0.6 + random.nextDouble();
        Wall wall = new Wall(rough(random, 4), azimuth, highM, middleM, middleM);
        check(wall, cellM, k % 4 < 2 ? 1 : 5, "wall " + k + " of " + highM + " m ", workers);
      }
    }
  }
}

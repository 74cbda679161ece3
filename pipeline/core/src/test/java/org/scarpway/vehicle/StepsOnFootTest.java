package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayDeque;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

/** Steps of planes and walls, whose heights are what they were made with. */
class StepsOnFootTest {
  private static final int N = 25;
  private static final double STEEPEST = Math.tan(Math.toRadians(20));

  private static StepsOnFoot of(GridSpec spec, Terrain t) {
    return new StepsOnFoot(
        t.heightM().values(), spec.rows(), spec.cols(), spec.cellXM(), spec.cellYM(), STEEPEST);
  }

  private static Walker walker(double maxStepM) {
    return Walkers.walker(
        "w", "tobler", List.of(), 1, 20, maxStepM, 7, 1, null, null, null, null, null);
  }

  private static TraversalCost walk(Terrain t, double maxStepM) {
    Hazard none = Grounds.noHazard(t.heightM().spec());
    try (Workers workers = new Workers(1)) {
      return WalkStage.compute(
              t, none.causes(), walker(maxStepM), Body.MOON, workers, Progress.NONE)
          .field();
    }
  }

  @Test
  void planesWithinTheSlopeLimitHaveNoStepAndSteeperOnesHaveTheRest() {
    Random random = new Random(1);
    for (int i = 0; i < 60; i++) {
      double cell = new double[] {1, 5, 10}[i % 3];
      GridSpec spec = new GridSpec(9, 9, cell, cell * 1.5, 0, 0, "");
      double slope = Math.toRadians(random.nextDouble() * 40);
      double azimuth = random.nextDouble() * 2 * Math.PI;
      double east = Math.tan(slope) * Math.sin(azimuth);
      double north = Math.tan(slope) * Math.cos(azimuth);
      double most = 0;
      for (int k = 0; k < 8; k++) {
        double dx = cell * new int[] {-1, 0, 1, -1, 1, -1, 0, 1}[k];
        double dy = 1.5 * cell * new int[] {1, 1, 1, 0, 0, -1, -1, -1}[k];
        most = Math.max(most, east * dx + north * dy - STEEPEST * Math.hypot(dx, dy));
      }
      StepsOnFoot steps = of(spec, Grounds.plane(spec, east, north));
      for (int k = 0; k < 25; k++) {
        assertEquals(most, steps.largestM(2 + k / 5, 2 + k % 5), 1e-4);
      }
    }
  }

  /** A wall of any direction, up or down, on ground that slopes any way: its whole height. */
  @Test
  void aWallIsAStepOfItsHeightOnAnySlope() {
    Random random = new Random(2);
    for (int i = 0; i < 300; i++) {
      Wall w = new Wall(random, new double[] {1, 5, 10}[i % 3], random.nextDouble() * 19);
      StepsOnFoot steps = of(w.spec, w.ground);
      double largest = 0;
      for (int row = 2; row < N - 2; row++) {
        for (int col = 2; col < N - 2; col++) {
          double step = steps.largestM(row, col);
          largest = Math.max(largest, step);
          assertEquals(0, w.besideWall(row * N + col) ? 0 : step, 1e-4);
        }
      }
      assertEquals(w.heightM, largest, 1e-3);
    }
  }

  /**
   * Walls above the limit are crossed nowhere, many of those below it are; a lower limit opens
   * nothing. Ways lead from open cell to open cell among eight neighbours.
   */
  @Test
  void wallsAboveTheLimitAreCrossedNowhere() {
    Random random = new Random(3);
    int crossed = 0;
    for (int i = 0; i < 300; i++) {
      Wall w = new Wall(random, new double[] {1, 5, 10}[i % 3], random.nextDouble() * 12);
      TraversalCost above = walk(w.ground, w.heightM - 0.01);
      assertFalse(w.crossed(above), () -> "wall of " + w.heightM + " m crossed");
      TraversalCost lower = walk(w.ground, 0.2);
      for (int cell = 0; cell < N * N; cell++) {
        assertTrue(lower.allowed(cell) == 0 || above.allowed(cell) != 0);
      }
      crossed += w.crossed(walk(w.ground, w.heightM + 0.01)) ? 1 : 0;
    }
    assertTrue(crossed > 100, "crossed " + crossed);
  }

  /** Taking heights away opens nothing, wherever they were. */
  @Test
  void missingHeightsOpenNothing() {
    Random random = new Random(4);
    for (int i = 0; i < 40; i++) {
      Wall w = new Wall(random, 5, random.nextDouble() * 15);
      TraversalCost before = walk(w.ground, 0.5);
      for (int k = 0; k < 6; k++) {
        w.ground.heightM().values()[random.nextInt(N * N)] = Float.NaN;
      }
      TraversalCost after = walk(w.ground, 0.5);
      for (int cell = 0; cell < N * N; cell++) {
        assertTrue(after.allowed(cell) == 0 || before.allowed(cell) != 0);
        assertTrue(after.allowed(cell) == 0 || !Float.isNaN(w.ground.heightM().values()[cell]));
      }
    }
  }

  /** Rows of a strip with two more on either side are those of the whole. */
  @Test
  void stripsGiveWhatTheWholeGives() {
    Wall w = new Wall(new Random(5), 5, 10);
    TraversalCost whole = walk(w.ground, 0.5);
    for (int row = 0; row < N; row++) {
      int from = Math.max(0, row - WalkStage.HALO_ROWS);
      int to = Math.min(N, row + 1 + WalkStage.HALO_ROWS);
      GridSpec part = w.spec.part(from, 0, to - from, N);
      Terrain t = Grounds.of(part, w, 0, 0, 0);
      for (int i = 0; i < part.cells(); i++) {
        t.gradEast().values()[i] = w.ground.gradEast().values()[from * N + i];
        t.gradNorth().values()[i] = w.ground.gradNorth().values()[from * N + i];
      }
      try (Workers workers = new Workers(1)) {
        Walking strip =
            WalkStage.compute(
                t,
                Grounds.noHazard(part).causes(),
                walker(0.5),
                Body.MOON,
                row - from,
                1,
                workers,
                Progress.NONE);
        for (int col = 0; col < N; col++) {
          int cell = (row - from) * N + col;
          assertEquals(whole.allowed(row * N + col), strip.field().allowed(cell));
        }
        assertTrue(strip.gentleCells() == N && strip.steppedCells() <= N);
      }
    }
  }

  /** A straight wall through the middle half of a square on a plane. */
  private static final class Wall implements Grounds.Surface {
    final GridSpec spec;
    final double heightM;
    final Terrain ground;
    private final double east;
    private final double north;
    private final double wallEast;
    private final double wallNorth;
    private final double offsetM;

    Wall(Random random, double cellM, double slopeDeg) {
      spec = Grounds.square(N, cellM);
      double azimuth = random.nextDouble() * 2 * Math.PI;
      double direction = random.nextDouble() * 2 * Math.PI;
      east = Math.tan(Math.toRadians(slopeDeg)) * Math.sin(azimuth);
      north = Math.tan(Math.toRadians(slopeDeg)) * Math.cos(azimuth);
      wallEast = Math.sin(direction);
      wallNorth = Math.cos(direction);
      heightM = 0.5 + 3.5 * random.nextDouble();
      offsetM = (random.nextDouble() - 0.5) * 6 * cellM;
      ground = Grounds.of(spec, this, 0, 0, 0);
      java.util.Arrays.fill(ground.gradEast().values(), (float) east);
      java.util.Arrays.fill(ground.gradNorth().values(), (float) north);
    }

    private double beyondM(double xM, double yM) {
      double middle = N * spec.cellXM() / 2;
      return wallEast * (xM - middle) + wallNorth * (yM - middle) - offsetM;
    }

    @Override
    public double heightM(double xM, double yM) {
      return east * xM + north * yM + (beyondM(xM, yM) > 0 ? heightM : 0);
    }

    private boolean beyond(int cell) {
      return beyondM(spec.xM(cell % N), spec.yM(cell / N)) > 0;
    }

    boolean besideWall(int cell) {
      for (int k = 0; k < 25; k++) {
        int r = cell / N + k / 5 - 2;
        int c = cell % N + k % 5 - 2;
        if (spec.holds(r, c) && beyond(r * N + c) != beyond(cell)) {
          return true;
        }
      }
      return false;
    }

    /** Whether open cells lead from one side to the other. */
    boolean crossed(TraversalCost field) {
      boolean[] seen = new boolean[N * N];
      ArrayDeque<Integer> queue = new ArrayDeque<>();
      for (int cell = 0; cell < N * N; cell++) {
        if (field.allowed(cell) != 0 && !beyond(cell)) {
          seen[cell] = true;
          queue.add(cell);
        }
      }
      while (!queue.isEmpty()) {
        int cell = queue.remove();
        for (int k = 0; k < 9; k++) {
          int r = cell / N + k / 3 - 1;
          int c = cell % N + k % 3 - 1;
          int to = r * N + c;
          if (spec.holds(r, c) && !seen[to] && field.allowed(to) != 0) {
            if (beyond(to)) {
              return true;
            }
            seen[to] = true;
            queue.add(to);
          }
        }
      }
      return false;
    }
  }
}

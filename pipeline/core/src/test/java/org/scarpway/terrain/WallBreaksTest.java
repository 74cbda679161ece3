package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * Vertical walls on planes, their heights averaged over the cells that they cut, worked out in
 * closed form: what a wall is measured as wherever it lies, and what errors of the heights make of
 * it.
 */
class WallBreaksTest {
  private static final int SIZE = 16;

  /** Share of a cell that lies beyond a wall; its middle lies so far beyond, in cells across. */
  private static double beyond(double across, boolean corners) {
    if (!corners) {
      return Math.max(0, Math.min(1, 0.5 + across));
    }
    // Rows and columns summed: a cell reaches one to either side, widest at its middle.
    double rest = 1 - Math.min(1, Math.abs(across));
    return across < 0 ? rest * rest / 2 : 1 - rest * rest / 2;
  }

  private static double across(int i, int[] axis, double lineAt) {
    return axis[0] * (i / SIZE - 8) + axis[1] * (i % SIZE - 8) - lineAt;
  }

  private static float[] ground(int[] axis, double lineAt, double wallM, Random random) {
    boolean corners = axis[0] != 0 && axis[1] != 0;
    double down = random.nextDouble() - 0.5;
    double right = random.nextDouble() - 0.5;
    float[] z = new float[SIZE * SIZE];
    for (int i = 0; i < z.length; i++) {
      double wall = wallM * beyond(across(i, axis, lineAt), corners);
      int row = i / SIZE;
      z[i] = (float) (down * row + right * (i % SIZE) + wall);
    }
    return z;
  }

  private static float[] steps(GroundLaw law, double spacingM, float[] z) {
    float[] stepM = new float[z.length];
    new Breaks(law, spacingM, 1, 0.5).raise(z, SIZE, SIZE, 0, SIZE, stepM);
    return stepM;
  }

  private static GroundLaw bounds(double pairM, double twoM) {
    double[] pair = new double[4];
    double[] two = new double[4];
    Arrays.fill(pair, pairM);
    Arrays.fill(two, twoM);
    return new GroundLaw(null, pair, two);
  }

  private interface Cell {
    void at(int i, double across);
  }

  private static void eachInside(int[] axis, double lineAt, Cell cell) {
    for (int i = 0; i < SIZE * SIZE; i++) {
      boolean inside = Math.min(i / SIZE, i % SIZE) >= 4 && Math.max(i / SIZE, i % SIZE) < 12;
      if (inside) {
        cell.at(i, across(i, axis, lineAt));
      }
    }
  }

  /** Up and down, along the cells and across their corners, on any incline: its height at least. */
  @Test
  void aWallThatCutsACellHasItsWholeHeightThere() {
    Random random = new Random(41);
    for (int n = 0; n < 1500; n++) {
      int[] axis = GroundLaw.AXES[n % 4];
      double reach = axis[0] != 0 && axis[1] != 0 ? 1 : 0.5;
      double wallM = (0.1 + 2.9 * random.nextDouble()) * (random.nextBoolean() ? 1 : -1);
      double any = random.nextDouble();
      // Anywhere, right between two cells, and close to that.
      double share = n % 5 == 0 ? 0 : n % 5 == 1 ? 0.15 * any : n % 5 == 2 ? 1 - 0.15 * any : any;
      double lineAt = reach * (2 * share - 1);
      float[] z = ground(axis, lineAt, wallM, random);
      for (double spacingM : new double[] {2, 1.7, 0.5}) {
        float[] stepM = steps(spacingM < 2 ? bounds(0, 0) : null, spacingM, z);
        eachInside(
            axis,
            lineAt,
            (i, off) -> {
              double got = stepM[i];
              if (Math.abs(off) <= reach) {
                assertTrue(got > Math.abs(wallM) - 1e-5, wallM + " m at " + lineAt + ": " + got);
              } else if (Math.abs(off) > 5 * reach) {
                assertEquals(0, got, 1e-5);
              }
            });
      }
    }
  }

  /** Where a law explains rises over two cells: what rises within one, at least half of it. */
  @Test
  void aWallNeverHasLessThanWhatRisesBetweenTwoCells() {
    Random random = new Random(42);
    for (int n = 0; n < 400; n++) {
      int[] axis = GroundLaw.AXES[n % 2];
      double wallM = (0.1 + 2.9 * random.nextDouble()) * (random.nextBoolean() ? 1 : -1);
      double share = random.nextDouble();
      double lineAt = share - 0.5;
      float[] stepM = steps(bounds(9, 9), 1.7, ground(axis, lineAt, wallM, random));
      double most = Math.abs(wallM) * Math.max(share, 1 - share);
      eachInside(
          axis,
          lineAt,
          (i, off) -> {
            if (Math.abs(off) <= 0.5) {
              assertEquals(most, stepM[i], 1e-5);
            }
          });
    }
  }

  /** Ground whose slope grows or shrinks evenly, and feet and crests of slopes, have no break. */
  @Test
  void bentGroundHasNone() {
    Random random = new Random(43);
    for (int n = 0; n < 200; n++) {
      double[] k = random.doubles(6, -0.1, 0.1).toArray();
      int at = 3 + random.nextInt(10);
      float[] z = new float[SIZE * SIZE];
      for (int i = 0; i < z.length; i++) {
        int y = i / SIZE;
        double x = i % SIZE;
        double bent = k[0] * x + k[1] * y + k[2] * x * x + k[3] * x * y + k[4] * y * y;
        z[i] = (float) (n % 2 == 0 ? bent : k[0] * y + k[5] * Math.max(0, x - at));
      }
      for (double spacingM : new double[] {2, 1.7, 0.5}) {
        float[] stepM = steps(spacingM < 2 ? bounds(0, 0) : null, spacingM, z);
        eachInside(GroundLaw.AXES[0], 0, (i, off) -> assertEquals(0, stepM[i], 1e-5));
      }
    }
  }

  /**
   * What is drawn about walls of all shares breaks a limit no more often, in any cell, than is said
   * from what was measured: 400 draws, four standard deviations of a count.
   */
  @Test
  void limitsBreakNoMoreOftenThanIsSaid() {
    int draws = 400;
    Random random = new Random(44);
    double limitM = 0.3;
    for (int n = 0; n < 16; n++) {
      double spacingM = n % 2 == 0 ? 2 : 1.7;
      double sigmaM = 0.002 + 0.02 * random.nextDouble();
      GridSpec spec = TestGround.spec(SIZE, SIZE, 1, 1);
      TerrainParams params =
          new TerrainParams(SlopeMethod.HORN, 2, spacingM, 3, sigmaM, null, null);
      StepError error =
          StepError.of(
              params, FootprintFit.footprint(params, spec), new HeightError(sigmaM, 0), spec);
      // Breaks alone.
      StepError breaks = new StepError(0, 1, error.pairSigmaM(), error.twoSigmaM());
      float[] z = new float[SIZE * SIZE];
      for (int row = 0; row < SIZE; row++) {
        double share = row % 3 == 0 ? 0 : 0.2 * random.nextDouble();
        double wallM = 0.1 + 0.35 * random.nextDouble();
        for (int col = 0; col < SIZE; col++) {
          double wall = col < 8 ? 0 : col == 8 ? share : 1;
          z[row * SIZE + col] = (float) (wallM * wall + 0.05 * random.nextDouble());
        }
      }
      GroundLaw law = spacingM < 2 ? bounds(0, 0) : null;
      float[] measuredM = steps(law, spacingM, z);
      int[] over = new int[z.length];
      for (int draw = 0; draw < draws; draw++) {
        float[] drawn = z.clone();
        for (int i = 0; i < z.length; i++) {
          drawn[i] += (float) (sigmaM * random.nextGaussian());
        }
        float[] stepM = steps(law, spacingM, drawn);
        for (int i = 0; i < z.length; i++) {
          over[i] += stepM[i] > limitM ? 1 : 0;
        }
      }
      eachInside(
          GroundLaw.AXES[0],
          0,
          (i, off) -> {
            double p = breaks.broken(limitM - measuredM[i]);
            double often = over[i] / (double) draws;
            double scatter = Math.sqrt(Math.max(p * (1 - p), 1e-3) / draws);
            assertTrue(often < p + 4 * scatter, "cell " + i + ": " + often + ", said " + p);
          });
    }
  }
}

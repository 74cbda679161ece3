package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.EnumSet;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/** Strips of any height have the derivatives and the figures over lags of all ground at once. */
class DerivativeStripsTest {
  private static final int ROWS = 131;
  private static final int COLS = 57;

  @Test
  void stripsHaveTheValuesOfAllRows() {
    Random random = new Random(12);
    for (int round = 0; round < 12; round++) {
      GridSpec spec = TestGround.spec(ROWS, COLS, 1, 0.8);
      float[] z = new float[spec.cells()];
      for (int i = 0; i < z.length; i++) {
        z[i] = (float) (4 * Math.sin(i / 31.0) + 0.02 * random.nextGaussian());
        z[i] = random.nextInt(900) == 0 ? Float.NaN : z[i];
      }
      TerrainParams params = new TerrainParams(SlopeMethod.HORN, 4 + round, 2.1, 3);
      HeightRows heights = HeightRows.of(new FloatGrid(spec, z));
      EnumSet<Derivative> all = EnumSet.allOf(Derivative.class);
      try (Workers workers = new Workers(1 + round % 2)) {
        TerrainStrips strips = new TerrainStrips(heights, params);
        Terrain whole = strips.window(new FloatGrid(spec, z), workers).terrain();
        Map<Derivative, FloatGrid> want =
            DerivativeStage.compute(whole, params, all, workers, Progress.NONE);
        int halo = DerivativeStage.haloRows(params, spec);
        int height = 1 + random.nextInt(70);
        for (int row = 0; row < ROWS; row += height) {
          int rows = Math.min(height, ROWS - row);
          int top = Math.max(0, row - halo);
          Terrain part = part(whole, top, Math.min(ROWS, row + rows + halo) - top);
          Map<Derivative, FloatGrid> got =
              DerivativeStage.strip(
                  part, row - top, rows, heights, params, all, workers, Progress.NONE);
          for (Derivative d : all) {
            for (int i = 0; i < rows * COLS; i++) {
              assertEquals(
                  want.get(d).values()[row * COLS + i],
                  got.get(d).values()[(row - top) * COLS + i],
                  d + " in strips of " + height + ", row " + (row + Math.floorDiv(i, COLS)));
            }
          }
        }
      }
    }
  }

  private static Terrain part(Terrain whole, int top, int rows) {
    return new Terrain(
        part(whole.heightM(), top, rows),
        part(whole.slopeDeg(), top, rows),
        part(whole.gradEast(), top, rows),
        part(whole.gradNorth(), top, rows),
        part(whole.roughnessM(), top, rows),
        part(whole.stepM(), top, rows),
        part(whole.convexityM(), top, rows));
  }

  private static FloatGrid part(FloatGrid whole, int top, int rows) {
    FloatGrid part = FloatGrid.empty(whole.spec().part(top, 0, rows, COLS));
    System.arraycopy(whole.values(), top * COLS, part.values(), 0, rows * COLS);
    return part;
  }
}

package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

class SlopeMonteCarloTest {
  private static final GridSpec SPEC = TestGround.spec(30, 44, 5, 6);

  private static SlopeSpread spread(float[] z, SlopeMethod method, int n, long seed, int threads) {
    TerrainParams params = new TerrainParams(method, 40, 5, 10, 0.5, 12.0, 10.0);
    try (Workers workers = new Workers(threads)) {
      Terrain terrain =
          TerrainStage.compute(TestGround.dem(SPEC, z), params, workers, Progress.NONE);
      return SlopeDraws.spread(terrain, params, n, seed, workers, Progress.NONE);
    }
  }

  @Test
  void oneSeedIsOneAnswerForAnyNumberOfThreads() {
    float[] z = TestGround.rough(30, 44, 3);
    for (SlopeMethod m : SlopeMethod.values()) {
      SlopeSpread one = spread(z, m, 7, 5, 1);
      SlopeSpread two = spread(z, m, 7, 5, 2);
      assertArrayEquals(one.sigmaDeg().values(), two.sigmaDeg().values());
      assertArrayEquals(one.biasDeg().values(), two.biasDeg().values());
      assertArrayEquals(one.overLimit01().values(), two.overLimit01().values());
      float other = spread(z, m, 7, 6, 2).sigmaDeg().at(15, 20);
      assertTrue(other > 0 && other != one.sigmaDeg().at(15, 20));
    }
  }

  /** A void takes the slopes whose window touches it and changes no other. */
  @Test
  void aVoidStaysAVoid() {
    float[] z = TestGround.rough(30, 44, 3);
    SlopeSpread whole = spread(z, SlopeMethod.HORN, 4, 1, 2);
    z[15 * 44 + 20] = Float.NaN;
    SlopeSpread holed = spread(z, SlopeMethod.HORN, 4, 1, 2);
    for (int i = 0; i < z.length; i++) {
      int row = i / 44;
      int col = i % 44;
      boolean edge = row == 0 || col == 0 || row == 29 || col == 43;
      boolean near = Math.abs(row - 15) <= 1 && Math.abs(col - 20) <= 1;
      boolean gone = edge || near;
      sameOrVoid(gone, whole.sigmaDeg().values()[i], holed.sigmaDeg().values()[i], i);
      sameOrVoid(gone, whole.biasDeg().values()[i], holed.biasDeg().values()[i], i);
      sameOrVoid(gone, whole.overLimit01().values()[i], holed.overLimit01().values()[i], i);
      assertTrue(edge || whole.sigmaDeg().values()[i] > 0, "cell " + i);
    }
  }

  private static void sameOrVoid(boolean gone, float whole, float holed, int cell) {
    assertEquals(gone ? Float.NaN : whole, holed, "cell " + cell);
  }

  @Test
  void theCovarianceIsTheFormula() {
    try (Workers workers = new Workers(2)) {
      for (double lengthM : new double[] {3, 17, 60}) {
        ErrorField field =
            new ErrorField("terrain.monte_carlo", SPEC, 0.4, lengthM, 1, null, workers);
        for (int[] lag : new int[][] {{0, 0}, {0, 1}, {1, 0}, {1, 1}, {3, 2}, {0, 43}, {29, 43}}) {
          double distanceM = Math.hypot(lag[0] * SPEC.cellYM(), lag[1] * SPEC.cellXM());
          assertEquals(
              0.16 * Math.exp(-distanceM / lengthM),
              field.covarianceM2(lag[0], lag[1]),
              5e-5 * 0.16,
              lengthM + " m, lag " + lag[0] + " " + lag[1]);
        }
      }
    }
  }

  @Test
  void aCorrelationTooLongForMemoryIsRefused() {
    try (Workers workers = new Workers(1)) {
      UserError e =
          assertThrows(
              UserError.class,
              () -> new ErrorField("terrain.monte_carlo", SPEC, 1, 1e7, 1, null, workers));
      assertTrue(e.getMessage().contains("terrain.monte_carlo"), e.getMessage());
    }
  }

  /** In strips of any height, and with everything kept in a scratch file: the same bits. */
  @Test
  void stripsAndScratchFilesChangeNothing() {
    float[] z = TestGround.rough(30, 44, 6);
    z[9 * 44 + 7] = Float.NaN;
    for (SlopeMethod m : SlopeMethod.values()) {
      for (Double lengthM : new Double[] {null, 12.0}) {
        TerrainParams params = new TerrainParams(m, 18, 5, 10, 0.5, lengthM, 10.0);
        try (Workers workers = new Workers(2)) {
          Terrain terrain =
              TerrainStage.compute(TestGround.dem(SPEC, z), params, workers, Progress.NONE);
          SlopeSpread whole = SlopeDraws.spread(terrain, params, 5, 4, workers, Progress.NONE);
          HeightRows heights = HeightRows.of(terrain.heightM());
          for (int stripRows : new int[] {1, 9, 17, 29}) {
            SlopeMonteCarlo cut =
                new SlopeMonteCarlo(
                    SPEC,
                    heights.lowestM(),
                    heights.highestM(),
                    params,
                    workers.memory().scratch(),
                    stripRows);
            cut.measured(0, terrain);
            cut.draw(5, 4, workers, Progress.NONE);
            for (int row = 0; row < 30; row += 11) {
              int rows = Math.min(11, 30 - row);
              SlopeSpread part = cut.rows(row, rows);
              sameRows(whole.sigmaDeg(), part.sigmaDeg(), row);
              sameRows(whole.biasDeg(), part.biasDeg(), row);
              sameRows(whole.overLimit01(), part.overLimit01(), row);
            }
          }
        }
      }
    }
  }

  private static void sameRows(FloatGrid whole, FloatGrid part, int row) {
    float[] rows = Arrays.copyOfRange(whole.values(), row * 44, row * 44 + part.values().length);
    assertArrayEquals(rows, part.values());
  }
}

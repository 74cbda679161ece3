package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.scarpway.dem.Dem;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.terrain.TerrainStrips.Strip;

class TerrainStripsTest {
  private static final int ROWS = 331;
  private static final int COLS = 203;

  /** Rough ground with voids of several sizes, on cells that are not square. */
  private static FloatGrid ground(double cellXM, double cellYM) {
    GridSpec spec = new GridSpec(ROWS, COLS, cellXM, cellYM, 100, 5000, "");
    float[] z = new float[spec.cells()];
    Random random = new Random(11);
    for (int i = 0; i < z.length; i++) {
      int row = i / COLS;
      int col = i % COLS;
      z[i] = (float) (40 * Math.sin(row / 23.0) + 0.7 * col + random.nextGaussian());
      boolean hole = Math.hypot(row - 130, col - 90) < 12 || random.nextInt(2000) == 0;
      z[i] = hole ? Float.NaN : z[i];
    }
    return new FloatGrid(spec, z);
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void stripsGiveTheBitsOfTheWhole(boolean coarse) {
    // Coarse cells carry roughness and step down to the vehicle; on fine ones the disc is wide.
    FloatGrid heightM = ground(coarse ? 8 : 0.5, coarse ? 11 : 0.3);
    TerrainParams params =
        new TerrainParams(
            coarse ? SlopeMethod.HORN : SlopeMethod.FOOTPRINT_PLANE,
            7,
            2.5,
            3.1,
            0.4,
            coarse ? null : 3.0,
            20.0);
    TerrainLayers whole;
    try (Workers one = new Workers(1)) {
      Dem dem = new Dem(heightM, 0, Body.MOON, List.of());
      whole = TerrainStage.layers(dem, params, one, Progress.NONE);
    }
    if (coarse) {
      assertNotNull(whole.terrain().extrapolation().roughness());
    } else {
      assertNull(whole.terrain().extrapolation());
    }
    for (int threads = 1; threads <= 2; threads++) {
      for (int height : new int[] {7, 64, ROWS}) {
        try (Workers workers = new Workers(threads)) {
          TerrainStrips strips = new TerrainStrips(HeightRows.of(heightM), params);
          assertEquals(whole.terrain().extrapolation(), strips.extrapolation());
          assertEquals(whole.notes(), strips.notes());
          for (int row = 0; row < ROWS; row += height) {
            Strip s = strips.strip(row, Math.min(height, ROWS - row), workers, Progress.NONE);
            String where = threads + " threads, rows of " + height + " from " + row;
            assertRows(whole.terrain().slopeDeg(), s, s.layers().terrain().slopeDeg(), where);
            assertRows(whole.aspectDeg(), s, s.layers().aspectDeg(), where);
            assertRows(whole.terrain().gradEast(), s, s.layers().terrain().gradEast(), where);
            assertRows(whole.terrain().gradNorth(), s, s.layers().terrain().gradNorth(), where);
            assertRows(whole.terrain().roughnessM(), s, s.layers().terrain().roughnessM(), where);
            assertRows(whole.terrain().stepM(), s, s.layers().terrain().stepM(), where);
            assertRows(whole.ruggednessM(), s, s.layers().ruggednessM(), where);
            assertRows(whole.terrain().convexityM(), s, s.layers().terrain().convexityM(), where);
            assertRows(
                whole.errors().orElseThrow().slopeDeg(),
                s,
                s.layers().errors().orElseThrow().slopeDeg(),
                where);
            assertRows(
                whole.errors().orElseThrow().aspectDeg(),
                s,
                s.layers().errors().orElseThrow().aspectDeg(),
                where);
            assertRows(
                whole.errors().orElseThrow().overLimit01().orElseThrow(),
                s,
                s.layers().errors().orElseThrow().overLimit01().orElseThrow(),
                where);
            assertRows(whole.terrain().heightM(), s, s.layers().terrain().heightM(), where);
          }
        }
      }
    }
  }

  /** A step shows where both sides of a cell tell the wheels apart: the longer one decides. */
  @Test
  void aStepIsEstimatedWhereTheLongerSideOfACellExceedsTheWheelSpacing() {
    for (double[] cell : new double[][] {{4, 6}, {6, 4}}) {
      FloatGrid heightM = ground(cell[0], cell[1]);
      for (double spacingM : new double[] {3, 4, 5, 5.999, 6, 7}) {
        TerrainParams params = new TerrainParams(SlopeMethod.HORN, 40, spacingM, 30);
        Extrapolation e = new TerrainStrips(HeightRows.of(heightM), params).extrapolation();
        if (spacingM >= 6) {
          assertNull(e);
        } else {
          assertNull(e.roughness());
          assertEquals(6, e.step().fromM());
          assertEquals(spacingM, e.step().toM());
          assertEquals(Math.pow(spacingM / 6, e.law().hurstLow()), e.step().factor(), 1e-12);
        }
      }
    }
  }

  private static void assertRows(FloatGrid whole, Strip strip, FloatGrid part, String where) {
    for (int row = 0; row < strip.rows(); row++) {
      for (int col = 0; col < COLS; col++) {
        assertEquals(
            Float.floatToRawIntBits(whole.at(strip.firstRow() + row, col)),
            Float.floatToRawIntBits(part.at(strip.skipRows() + row, col)),
            where);
      }
    }
  }
}

package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.scarpway.terrain.SlopeError.GradientSigma;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/** Errors of slope and aspect on level and nearly level ground, and cell by cell. */
class SlopeErrorTest {
  @Test
  void nothingIsLessKnownThanAnyAspectAtAll() {
    // An angle that is anything from -180 to 180 deg: uniform, standard deviation 360 / sqrt 12.
    double any = 360 / Math.sqrt(12);
    GradientSigma sigma = new GradientSigma(0.02, 0.03);
    float[] east = {1e-6f, 0, 0.4f, Float.NaN, 0.3f, 0};
    float[] north = {0, 0, 0, 0.1f, -0.4f, 1e-4f};
    float[] slope = new float[6];
    float[] aspect = new float[6];
    SlopeError.fill(east, north, 3, 0, 2, sigma, slope, aspect);
    assertEquals(any, aspect[0], 1e-4);
    assertTrue(Float.isNaN(aspect[1]), "level ground has no aspect");
    // Due east: the aspect turns with the northward error, the slope changes with the eastward.
    assertEquals(Math.toDegrees(0.03 / 0.4), aspect[2], 1e-4);
    assertEquals(Math.toDegrees(0.02 / (1 + 0.16)), slope[2], 1e-5);
    assertTrue(Float.isNaN(slope[3]) && Float.isNaN(aspect[3]));
    // Along (0.6, -0.8) and across it (0.8, 0.6).
    double along = Math.hypot(0.6 * 0.02, 0.8 * 0.03);
    double across = Math.hypot(0.8 * 0.02, 0.6 * 0.03);
    assertEquals(Math.toDegrees(along / 1.25), slope[4], 1e-5);
    assertEquals(Math.toDegrees(across / 0.5), aspect[4], 1e-4);
    assertEquals(any, aspect[5], 1e-4);
    // Level: one number for both directions, the root mean square.
    double both = Math.sqrt((0.02 * 0.02 + 0.03 * 0.03) / 2);
    assertEquals(Math.toDegrees(both), slope[1], 1e-5);
    assertEquals(Double.POSITIVE_INFINITY, SlopeError.aspectSigmaDeg(0, 0, sigma));
  }

  /**
   * The double sum of weights times covariance, written out over all pairs of cells: cells of
   * unequal sides, independent errors (length 0) and correlated ones.
   */
  @ParameterizedTest
  @CsvSource({"0,0,0", "1,1,2", "2,1,2", "1,3,3", "3,2,4"})
  void isTheDoubleSumOverAllPairsOfCells(int halfCols, int halfRows, int halfDiagonal) {
    double cellXM = 2;
    double cellYM = 5;
    Footprint f = halfCols == 0 ? null : new Footprint(halfCols, halfRows, halfDiagonal);
    for (SlopeMethod method : SlopeMethod.values()) {
      if ((f != null) != (method == SlopeMethod.FOOTPRINT_PLANE)) {
        continue;
      }
      int hc = f == null ? 1 : halfCols;
      int hr = f == null ? 1 : halfRows;
      double[] side =
          switch (method) {
            case HORN -> new double[] {1, 2, 1};
            case EVANS_YOUNG -> new double[] {1, 1, 1};
            default -> new double[] {0, 1, 0};
          };
      List<double[]> cells = new ArrayList<>();
      double xx = 0;
      double yy = 0;
      for (int y = -hr; y <= hr; y++) {
        for (int x = -hc; x <= hc; x++) {
          if (f == null || Math.abs(x) + Math.abs(y) <= halfDiagonal) {
            double wx = f == null ? x * side[y + 1] : x;
            double wy = f == null ? y * side[x + 1] : y;
            cells.add(new double[] {x * cellXM, y * cellYM, wx, wy});
            // Both kinds of weights must give a unit plane the gradient 1.
            xx += wx * x * cellXM;
            yy += wy * y * cellYM;
          }
        }
      }
      for (double lengthM : new double[] {0, 1.5, 4, 30}) {
        double east = 0;
        double north = 0;
        for (double[] a : cells) {
          for (double[] b : cells) {
            double apart = Math.hypot(a[0] - b[0], a[1] - b[1]);
            double like = apart == 0 ? 1 : lengthM == 0 ? 0 : Math.exp(-apart / lengthM);
            east += a[2] * b[2] * like;
            north += a[3] * b[3] * like;
          }
        }
        Double given = lengthM == 0 ? null : lengthM;
        GradientSigma got = SlopeError.gradientSigma(method, f, cellXM, cellYM, 0.3, given);
        assertEquals(0.3 * Math.sqrt(east) / xx, got.east(), 1e-12, method + " " + lengthM);
        assertEquals(0.3 * Math.sqrt(north) / yy, got.north(), 1e-12, method + " " + lengthM);
      }
    }
  }

  @Test
  void theRootMeanSquareStandsForBoth() {
    assertEquals(5, new GradientSigma(1, 7).mean(), 1e-12);
    // d atan g = dg / (1 + g2).
    assertEquals(
        Math.toDegrees(0.03 / 1.25),
        SlopeError.slopeSigmaDeg(0, 0.5, new GradientSigma(9, 0.03)),
        1e-12);
  }

  @Test
  void onlyTheRowsAskedForAreFilled() {
    float[] slope = new float[8];
    float[] aspect = new float[8];
    Arrays.fill(slope, -1);
    Arrays.fill(aspect, -1);
    float[] g = new float[8];
    Arrays.fill(g, 0.1f);
    SlopeError.fill(g, g, 2, 1, 3, new GradientSigma(0.01, 0.01), slope, aspect);
    for (int i = 0; i < 8; i++) {
      assertEquals(i < 2 || i >= 6, slope[i] == -1, "cell " + i);
      assertEquals(i < 2 || i >= 6, aspect[i] == -1, "cell " + i);
    }
  }
}

package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Convexity on quadrics, with the sag of a parabola, and by chords laid one by one. */
class ConvexityTest {

  /** z = (a x2 + 2 b x y + c y2) / 2 of metres east and north, on cells of 2 and 3 m. */
  private static float[] quadric(double a, double b, double c) {
    float[] z = new float[49];
    for (int i = 0; i < z.length; i++) {
      double x = 2.0 * (i % 7 - 3);
      double y = 3.0 * (3 - i / 7);
      z[i] = (float) ((a * x * x + 2 * b * x * y + c * y * y) / 2 + 0.25 * x - 0.5 * y);
    }
    return z;
  }

  /** The least eigenvalue of the second derivatives, sag = curvature * chord2 / 8. */
  @ParameterizedTest
  @CsvSource({
    // Ridges towards north and east, dome, bowl.
    "-0.25, 0, 0, -0.25",
    "0, 0, -0.25, -0.25",
    "-0.25, 0, -0.25, -0.25",
    "0.5, 0, 0.25, 0.25",
    // Saddle on the diagonals: +-b. Eigenvalues of ((1, 2), (2, -2)) / 8: (2, -3) / 8.
    "0, 0.25, 0, -0.25",
    "0.125, 0.25, -0.25, -0.375",
    "-0.25, 0.25, 0.125, -0.375",
    // ((2, 2), (2, 5)) / 16: (1, 6) / 16; ((2, -2), (-2, 5)) / 16 the same.
    "0.125, 0.125, 0.3125, 0.0625",
    "0.125, -0.125, 0.3125, 0.0625"
  })
  void coarseCellsGiveTheSharpestBend(double a, double b, double c, double least) {
    float[] out = new float[49];
    Arrays.fill(out, -9);
    Convexity.fill(quadric(a, b, c), 7, 7, 1, 6, 2, 3, 4, out);
    for (int i = 0; i < 49; i++) {
      int row = i / 7;
      int col = i % 7;
      if (row < 1 || row > 5) {
        assertEquals(-9, out[i]);
      } else if (col < 1 || col > 5) {
        assertTrue(Float.isNaN(out[i]));
      } else {
        assertEquals(-least * 4 * 4 / 8, out[i], 1e-5, "cell " + i);
      }
    }
  }

  @Test
  void cellsUpToHalfTheChordAreFine() {
    assertFalse(Convexity.fromCurvature(4, 2, 2));
    assertFalse(Convexity.fromCurvature(0.6, 0.3, 0.1));
    assertTrue(Convexity.fromCurvature(4, 2.01, 1));
    assertTrue(Convexity.fromCurvature(4, 1, 2.01));
    assertEquals(1, Convexity.haloCells(4, 2));
    assertEquals(2, Convexity.haloCells(4.1, 2));
    assertEquals(3, Convexity.haloCells(0.6, 0.1));
    assertEquals(1, Convexity.haloCells(1, 50));
  }

  /** One chord every 22.5 deg of half a turn, both ends on the bilinear surface. */
  @ParameterizedTest
  @CsvSource({"1, 1, 4", "1, 1, 5.3", "2, 1, 5", "1, 2, 6.6", "0.5, 0.75, 3"})
  void fineCellsAreLaidUnderEightChords(double cellXM, double cellYM, double chordM) {
    int rows = 17;
    int cols = 19;
    float[] z = TestGround.rough(rows, cols, 21);
    z[3 * cols + 12] = Float.NaN;
    float[] out = new float[z.length];
    Arrays.fill(out, -9);
    Convexity.fill(z, rows, cols, 1, 16, cellXM, cellYM, chordM, out);
    int halfCols = (int) Math.ceil(chordM / 2 / cellXM - 1e-6);
    int halfRows = (int) Math.ceil(chordM / 2 / cellYM - 1e-6);
    for (int row = 0; row < rows; row++) {
      for (int col = 0; col < cols; col++) {
        double got = out[row * cols + col];
        String where = "row " + row + " col " + col;
        if (row < 1 || row >= 16) {
          assertEquals(-9, got, where);
          continue;
        }
        double want = Double.NEGATIVE_INFINITY;
        if (Math.min(row, rows - 1 - row) < halfRows || Math.min(col, cols - 1 - col) < halfCols) {
          want = Double.NaN;
        }
        for (int k = 0; k < 8 && !Double.isNaN(want); k++) {
          double dx = chordM / 2 * Math.sin(Math.toRadians(22.5 * k)) / cellXM;
          double dy = chordM / 2 * Math.cos(Math.toRadians(22.5 * k)) / cellYM;
          double ends = at(z, cols, row - dy, col + dx) + at(z, cols, row + dy, col - dx);
          want = Math.max(want, z[row * cols + col] - ends / 2);
        }
        assertEquals(want, got, 2e-6, where);
      }
    }
  }

  /** Bilinear height at a place between cells; what has no weight does not matter. */
  private static double at(float[] z, int cols, double y, double x) {
    double sum = 0;
    for (int row = (int) Math.floor(y - 1); row <= y + 1; row++) {
      for (int col = (int) Math.floor(x - 1); col <= x + 1; col++) {
        double weight = Math.max(0, 1 - Math.abs(row - y)) * Math.max(0, 1 - Math.abs(col - x));
        if (weight > 1e-8) {
          sum += weight * z[row * cols + col];
        }
      }
    }
    return sum;
  }
}

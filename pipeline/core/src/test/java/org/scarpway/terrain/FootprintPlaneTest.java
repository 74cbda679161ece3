package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FootprintPlaneTest {
  private static final int ROWS = 90;
  private static final int COLS = 110;

  @ParameterizedTest
  @CsvSource({"1,1,1", "1,1,2", "2,2,2", "3,3,4", "5,3,6", "3,6,7", "9,9,13", "20,20,28", "4,4,8"})
  void equalsAPlaneFittedCellByCell(int halfCols, int halfRows, int halfDiagonal) {
    Footprint f = new Footprint(halfCols, halfRows, halfDiagonal);
    float[] z = TestGround.rough(ROWS, COLS, 3);
    z[40 * COLS + 70] = Float.NaN;
    z[3] = Float.NaN;
    float[][] got = fill(z, ROWS, COLS, 0, ROWS, f);
    for (int row = 0; row < ROWS; row++) {
      for (int col = 0; col < COLS; col++) {
        int i = row * COLS + col;
        double[] want = plane(z, row, col, f);
        for (int k = 0; k < 3; k++) {
          if (Double.isNaN(want[k])) {
            assertTrue(Float.isNaN(got[k][i]), "row " + row + " col " + col + " output " + k);
          } else {
            assertEquals(want[k], got[k][i], 2e-6, "row " + row + " col " + col + " output " + k);
          }
        }
      }
    }
  }

  /** Gradient and RMS by summing over the footprint. */
  private static double[] plane(float[] z, int row, int col, Footprint f) {
    double[] none = {Double.NaN, Double.NaN, Double.NaN};
    if (row < f.halfRows()
        || row >= ROWS - f.halfRows()
        || col < f.halfCols()
        || col >= COLS - f.halfCols()) {
      return none;
    }
    double z0 = z[row * COLS + col];
    double sum = 0;
    double xz = 0;
    double yz = 0;
    for (int dy = -f.halfRows(); dy <= f.halfRows(); dy++) {
      for (int dx = -f.halfWidth(dy); dx <= f.halfWidth(dy); dx++) {
        double d = z[(row + dy) * COLS + col + dx] - z0;
        sum += d;
        xz += dx * d;
        yz += dy * d;
      }
    }
    double p = xz / f.sumDx2();
    double q = yz / f.sumDy2();
    double mean = sum / f.cells();
    double squares = 0;
    for (int dy = -f.halfRows(); dy <= f.halfRows(); dy++) {
      for (int dx = -f.halfWidth(dy); dx <= f.halfWidth(dy); dx++) {
        double r = z[(row + dy) * COLS + col + dx] - z0 - mean - p * dx - q * dy;
        squares += r * r;
      }
    }
    return new double[] {p / 5, -q / 7, Math.sqrt(squares / f.cells())};
  }

  @ParameterizedTest
  @CsvSource({"1,1,1", "1,1,2", "3,3,4", "9,9,13"})
  void bandsAndStripsGiveTheSameBytes(int halfCols, int halfRows, int halfDiagonal) {
    Footprint f = new Footprint(halfCols, halfRows, halfDiagonal);
    float[] z = TestGround.rough(ROWS, COLS, 4);
    z[50 * COLS + 20] = Float.NaN;
    float[][] whole = fill(z, ROWS, COLS, 0, ROWS, f);
    for (int band : new int[] {1, 7, 64}) {
      float[][] pieces = new float[3][z.length];
      for (int from = 0; from < ROWS; from += band) {
        int to = Math.min(ROWS, from + band);
        int first = Math.max(0, from - halfRows);
        int end = Math.min(ROWS, to + halfRows);
        float[] strip = Arrays.copyOfRange(z, first * COLS, end * COLS);
        float[][] part = fill(strip, end - first, COLS, from - first, to - first, f);
        for (int k = 0; k < 3; k++) {
          System.arraycopy(
              part[k], (from - first) * COLS, pieces[k], from * COLS, (to - from) * COLS);
        }
      }
      for (int k = 0; k < 3; k++) {
        assertArrayEquals(whole[k], pieces[k], "bands of " + band);
      }
    }
  }

  @Test
  void columnBlocksGiveTheSameAsNarrowGround() {
    Footprint f = new Footprint(2, 2, 3);
    int cols = 2600;
    float[] z = TestGround.rough(12, cols, 5);
    float[][] wide = fill(z, 12, cols, 0, 12, f);
    int west = 1020;
    int width = 30;
    float[] narrow = new float[12 * width];
    for (int row = 0; row < 12; row++) {
      System.arraycopy(z, row * cols + west, narrow, row * width, width);
    }
    float[][] part = fill(narrow, 12, width, 0, 12, f);
    for (int row = 2; row < 10; row++) {
      for (int col = 2; col < width - 2; col++) {
        for (int k = 0; k < 3; k++) {
          assertEquals(wide[k][row * cols + west + col], part[k][row * width + col]);
        }
      }
    }
  }

  @Test
  void largestReliefStillFits() {
    Footprint f = Footprint.disc(30, 1, 1);
    int side = 2 * f.halfRows() + 1;
    float[] z = new float[side * side];
    for (int i = 0; i < z.length; i++) {
      z[i] = (i % side + i / side) % 2 == 0 ? -10_000 : 10_000;
    }
    HeightScale scale = HeightScale.of(-10_000, 10_000, f);
    float[][] out = new float[3][z.length];
    FootprintPlane.fill(z, side, side, 0, side, f, scale, 1, 1, out[0], out[1], out[2]);
    assertEquals(10_000, out[2][z.length / 2], 5);
    assertEquals(0, out[0][z.length / 2], 1e-9);
  }

  @Test
  void discsAreMetByOctagons() {
    int[] want = {5, 9, 13, 21, 25, 37};
    double[] radius = {1, 1.5, 2, 2.3, 2.9, 3.2};
    for (int k = 0; k < want.length; k++) {
      assertEquals(want[k], Footprint.disc(radius[k], 1, 1).cells(), "radius " + radius[k]);
    }
    for (double r : new double[] {5, 10, 25, 50, 120}) {
      double cells = Footprint.disc(r, 1, 1).cells();
      assertEquals(1, cells / (Math.PI * r * r), 0.03, "area for radius " + r);
    }
    Footprint flat = Footprint.disc(50, 5, 10);
    assertEquals(1, flat.cells() * 50 / (Math.PI * 50 * 50), 0.05);
  }

  private static float[][] fill(float[] z, int rows, int cols, int from, int to, Footprint f) {
    float[][] out = new float[3][z.length];
    HeightScale scale = HeightScale.of(-100, 100, f);
    FootprintPlane.fill(z, rows, cols, from, to, f, scale, 5, 7, out[0], out[1], out[2]);
    return out;
  }
}

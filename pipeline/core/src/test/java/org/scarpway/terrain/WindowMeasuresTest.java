package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Measures of ruggedness by the sums that define them, cell by cell. */
class WindowMeasuresTest {
  private static final int ROWS = 11;
  private static final int COLS = 13;
  private static final int FROM = 1;
  private static final int TO = 10;

  private interface Definition {
    double at(int row, int col);
  }

  private static float[] out() {
    float[] out = new float[ROWS * COLS];
    Arrays.fill(out, -9);
    return out;
  }

  private static void same(Definition want, float[] got, int halfRows, int halfCols) {
    for (int row = 0; row < ROWS; row++) {
      for (int col = 0; col < COLS; col++) {
        boolean inside =
            row >= halfRows && row < ROWS - halfRows && col >= halfCols && col < COLS - halfCols;
        double expected = row < FROM || row >= TO ? -9 : inside ? want.at(row, col) : Double.NaN;
        double found = got[row * COLS + col];
        double near = Double.isNaN(expected) ? 1e-6 : 2e-6 * Math.max(1, Math.abs(expected));
        assertEquals(expected, found, near, row + ", " + col);
      }
    }
  }

  private static double[] window(float[] z, int row, int col) {
    double[] nine = new double[9];
    int n = 0;
    for (int y = row - 1; y <= row + 1; y++) {
      for (int x = col - 1; x <= col + 1; x++) {
        nine[n++] = z[y * COLS + x];
      }
    }
    return nine;
  }

  @Test
  void measuresOfNineCells() {
    float[] z = TestGround.rough(ROWS, COLS, 31);
    z[5 * COLS + 9] = Float.NaN;
    float[] deviation = out();
    WindowDeviation.fill(z, ROWS, COLS, FROM, TO, deviation);
    float[] riley = out();
    RileyRuggedness.fill(z, ROWS, COLS, FROM, TO, riley);
    float[] meanDifference = out();
    float[] position = out();
    float[] range = out();
    WilsonRuggedness.fill(z, ROWS, COLS, FROM, TO, meanDifference, position, range);
    same(
        (row, col) -> {
          double[] w = window(z, row, col);
          double mean = Arrays.stream(w).average().orElseThrow();
          return Math.sqrt(Arrays.stream(w).map(h -> (h - mean) * (h - mean)).sum() / 9);
        },
        deviation,
        1,
        1);
    same(
        (row, col) -> {
          double[] w = window(z, row, col);
          return Math.sqrt(Arrays.stream(w).map(h -> (h - w[4]) * (h - w[4])).sum());
        },
        riley,
        1,
        1);
    same(
        (row, col) -> {
          double[] w = window(z, row, col);
          return Arrays.stream(w).map(h -> Math.abs(h - w[4])).sum() / 8;
        },
        meanDifference,
        1,
        1);
    same(
        (row, col) -> {
          double[] w = window(z, row, col);
          return w[4] - (Arrays.stream(w).sum() - w[4]) / 8;
        },
        position,
        1,
        1);
    same(
        (row, col) -> {
          double[] w = window(z, row, col);
          return Arrays.stream(w).max().orElseThrow() - Arrays.stream(w).min().orElseThrow();
        },
        range,
        1,
        1);
    float[] alone = out();
    WilsonRuggedness.fill(z, ROWS, COLS, FROM, TO, null, alone, null);
    assertTrue(Arrays.equals(position, alone));
    alone = out();
    WilsonRuggedness.fill(z, ROWS, COLS, FROM, TO, alone, null, null);
    assertTrue(Arrays.equals(meanDifference, alone));
    alone = out();
    WilsonRuggedness.fill(z, ROWS, COLS, FROM, TO, null, null, alone);
    assertTrue(Arrays.equals(range, alone));
  }

  @ParameterizedTest
  @CsvSource({"1", "2"})
  void oneLessTheMeanOfUnitNormals(int radius) {
    float[] east = TestGround.rough(ROWS, COLS, 32);
    float[] north = TestGround.rough(ROWS, COLS, 33);
    north[4 * COLS + 8] = Float.NaN;
    float[] got = out();
    VectorRuggedness.fill(east, north, ROWS, COLS, FROM, TO, radius, got);
    same(
        (row, col) -> {
          double[] sum = new double[3];
          int n = 0;
          for (int y = row - radius; y <= row + radius; y++) {
            for (int x = col - radius; x <= col + radius; x++) {
              // By angles: slope and aspect as in the source.
              double slope = Math.atan(Math.hypot(east[y * COLS + x], north[y * COLS + x]));
              double aspect = Math.atan2(-east[y * COLS + x], -north[y * COLS + x]);
              sum[0] += Math.sin(slope) * Math.sin(aspect);
              sum[1] += Math.sin(slope) * Math.cos(aspect);
              sum[2] += Math.cos(slope);
              n++;
            }
          }
          return 1 - Math.sqrt(sum[0] * sum[0] + sum[1] * sum[1] + sum[2] * sum[2]) / n;
        },
        got,
        radius,
        radius);
  }

  @ParameterizedTest
  @CsvSource({"1,1,1", "1,1,2", "2,1,2", "2,3,4"})
  void theLargestResidualIsThatOfThePlaneFitted(int halfCols, int halfRows, int halfDiagonal) {
    Footprint f = new Footprint(halfCols, halfRows, halfDiagonal);
    float[] z = TestGround.rough(ROWS, COLS, 34);
    z[5 * COLS + 9] = Float.NaN;
    float[] east = out();
    float[] north = out();
    FootprintPlane.fill(
        z, ROWS, COLS, 0, ROWS, f, HeightScale.of(-100, 100, f), 2, 5, east, north, out());
    float[] got = out();
    FootprintPlane.fillLargestResidual(z, ROWS, COLS, FROM, TO, f, 2, 5, east, north, got);
    same(
        (row, col) -> {
          List<double[]> cells = new ArrayList<>();
          double mean = 0;
          double xz = 0;
          double yz = 0;
          double xx = 0;
          double yy = 0;
          for (int dy = -halfRows; dy <= halfRows; dy++) {
            for (int dx = -halfCols; dx <= halfCols; dx++) {
              if (Math.abs(dx) + Math.abs(dy) <= halfDiagonal) {
                double h = z[(row + dy) * COLS + col + dx];
                cells.add(new double[] {dx, dy, h});
                mean += h;
                xz += dx * h;
                yz += dy * h;
                xx += dx * dx;
                yy += dy * dy;
              }
            }
          }
          mean /= cells.size();
          double most = 0;
          for (double[] c : cells) {
            most = Math.max(most, Math.abs(c[2] - mean - xz / xx * c[0] - yz / yy * c[1]));
          }
          return most;
        },
        got,
        halfRows,
        halfCols);
  }

  /** The table of Riley et al. 1999: 0-80, 81-116, 117-161, 162-239, 240-497, 498-958, 959 m on. */
  @ParameterizedTest
  @CsvSource({
    "0, level",
    "80.9, level",
    "81, nearly level",
    "116.9, nearly level",
    "117, slightly rugged",
    "162, intermediately rugged",
    "240, moderately rugged",
    "497.9, moderately rugged",
    "498, highly rugged",
    "958.9, highly rugged",
    "959, extremely rugged",
    "1e5, extremely rugged"
  })
  void classesOfTheSource(double ruggednessM, String name) {
    assertEquals(name, RileyRuggedness.className(ruggednessM));
  }

  @ParameterizedTest
  @CsvSource({"1,0,1", "0,1,1", "2,1,1", "0,2,3", "2,0,2", "2,2,1", "0,3,1", "1,3,1"})
  void deviationsAndMediansOverALag(int lagRows, int lagCols, int rowStep) {
    float[] z = TestGround.rough(ROWS, COLS, 35);
    z[5 * COLS + 9] = Float.NaN;
    List<Double> found = new ArrayList<>();
    List<Double> all = new ArrayList<>();
    for (int row = 0; row < ROWS - lagRows; row++) {
      for (int col = 0; col < COLS - lagCols; col++) {
        double d = (double) z[(row + lagRows) * COLS + col + lagCols] - z[row * COLS + col];
        if (!Double.isNaN(d)) {
          all.add(d);
          if (row % rowStep == 0) {
            found.add(d);
          }
        }
      }
    }
    double mean = found.stream().mapToDouble(d -> d).average().orElseThrow();
    double variance =
        found.stream().mapToDouble(d -> (d - mean) * (d - mean)).average().orElseThrow();
    double square = all.stream().mapToDouble(d -> d * d).average().orElseThrow();
    assertEquals(
        Math.sqrt(variance),
        RmsDeviation.detrended(z, ROWS, COLS, lagRows, lagCols, rowStep),
        1e-9);
    assertEquals(Math.sqrt(square), RmsDeviation.of(z, ROWS, COLS, lagRows, lagCols), 1e-9);

    double baselineM = 7;
    List<Double> slopes = new ArrayList<>();
    for (int row = 2 * lagRows; row < ROWS - 2 * lagRows; row += rowStep) {
      for (int col = 2 * lagCols; col < COLS - 2 * lagCols; col++) {
        double[] h = new double[5];
        for (int k = -2; k <= 2; k++) {
          h[k + 2] = z[(row + k * lagRows) * COLS + col + k * lagCols];
        }
        double d = Math.abs((h[3] - h[1]) / baselineM - (h[4] - h[0]) / (2 * baselineM));
        if (!Double.isNaN(d)) {
          slopes.add(d);
        }
      }
    }
    slopes.sort(null);
    int n = slopes.size();
    double median =
        n % 2 == 1 ? slopes.get(n / 2) : (slopes.get(n / 2 - 1) + slopes.get(n / 2)) / 2;
    assertEquals(
        median,
        MedianDifferentialSlope.of(z, ROWS, COLS, lagRows, lagCols, baselineM, rowStep),
        1e-12);
  }

  @Test
  void groundTooSmallOrAskedWrongly() {
    float[] z = new float[9];
    assertTrue(Double.isNaN(RmsDeviation.of(z, 3, 3, 3, 0)));
    assertTrue(Double.isNaN(RmsDeviation.of(z, 3, 3, 0, 3)));
    assertTrue(Double.isNaN(MedianDifferentialSlope.of(z, 3, 3, 1, 0, 1, 1)));
    assertTrue(Double.isNaN(MedianDifferentialSlope.of(z, 3, 3, 0, 1, 1, 1)));
    int[][] wrong = {{-1, 2, 1}, {2, -1, 1}, {0, 0, 1}, {1, 0, 0}};
    for (int[] w : wrong) {
      assertThrows(
          IllegalArgumentException.class, () -> RmsDeviation.detrended(z, 3, 3, w[0], w[1], w[2]));
      assertThrows(
          IllegalArgumentException.class,
          () -> MedianDifferentialSlope.of(z, 3, 3, w[0], w[1], 1, w[2]));
    }
  }
}

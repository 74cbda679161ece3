package org.scarpway.reach;

import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.MoveField;

/**
 * Room between barriers: exact Euclidean distances to the nearest barrier, counted from its edge
 * (Felzenszwalb &amp; Huttenlocher 2012, <i>Distance transforms of sampled functions</i>, Theory of
 * Computing 8:415-428; from memory), infinite without any. The edge of the grid is no barrier.
 *
 * <p>Distances are kept at the centres, corners and edge middles of all cells, a lattice of half
 * cells. The narrowest place between two barrier cells is the middle between their nearest points,
 * and that is always a point of this lattice; so the width of a passage, twice the largest distance
 * across it, is exact, whether the passage is an odd or even number of cells wide, straight or
 * slanting.
 */
final class Clearance {
  private final GridSpec spec;
  private final int rows;
  private final int cols;
  private final float[] widthM;

  private Clearance(GridSpec spec, float[] widthM) {
    this.spec = spec;
    this.rows = 2 * spec.rows() + 1;
    this.cols = 2 * spec.cols() + 1;
    this.widthM = widthM;
  }

  static Clearance of(MoveField field, Workers workers) {
    GridSpec spec = field.spec();
    int rows = 2 * spec.rows() + 1;
    int cols = 2 * spec.cols() + 1;
    float[] squareM2 = new float[Math.multiplyExact(rows, cols)];
    workers.overRows(
        rows,
        (from, to) -> {
          for (int r = from; r < to; r++) {
            markBarriers(field, squareM2, r);
          }
        });
    toNearest(spec, squareM2, workers);
    workers.overRows(
        rows,
        (from, to) -> {
          for (int i = from * cols; i < to * cols; i++) {
            squareM2[i] = (float) (2 * Math.sqrt(squareM2[i]));
          }
        });
    return new Clearance(spec, squareM2);
  }

  /** 0 on the points of barrier cells, their edges included; infinite elsewhere. */
  private static void markBarriers(MoveField field, float[] squareM2, int row) {
    GridSpec spec = field.spec();
    int cols = 2 * spec.cols() + 1;
    int above = Math.max(0, (row - 1) / 2);
    int below = Math.min(spec.rows() - 1, row / 2);
    for (int c = 0; c < cols; c++) {
      int left = Math.max(0, (c - 1) / 2);
      int right = Math.min(spec.cols() - 1, c / 2);
      boolean barrier =
          field.allowed(above * spec.cols() + left) == 0
              || field.allowed(above * spec.cols() + right) == 0
              || field.allowed(below * spec.cols() + left) == 0
              || field.allowed(below * spec.cols() + right) == 0;
      squareM2[row * cols + c] = barrier ? 0 : Float.POSITIVE_INFINITY;
    }
  }

  /** Squared distance (m2) of every lattice point to the nearest one that holds 0. */
  private static void toNearest(GridSpec spec, float[] squareM2, Workers workers) {
    int rows = 2 * spec.rows() + 1;
    int cols = 2 * spec.cols() + 1;
    workers.overRows(
        rows,
        (from, to) -> {
          for (int r = from; r < to; r++) {
            alongRow(squareM2, r * cols, cols, spec.cellXM() / 2);
          }
        });
    workers.overRows(
        cols,
        (from, to) -> {
          double[] f = new double[rows];
          int[] apex = new int[rows];
          double[] start = new double[rows + 1];
          for (int c = from; c < to; c++) {
            alongColumn(squareM2, c, cols, spec.cellYM() / 2, f, apex, start);
          }
        });
  }

  /** Distance (m) of every lattice point to the nearest of some cell centres. */
  float[] toCentresM(Iterable<Integer> cells, Workers workers) {
    float[] square = new float[widthM.length];
    java.util.Arrays.fill(square, Float.POSITIVE_INFINITY);
    for (int cell : cells) {
      square[centre(cell)] = 0;
    }
    toNearest(spec, square, workers);
    for (int i = 0; i < square.length; i++) {
      square[i] = (float) Math.sqrt(square[i]);
    }
    return square;
  }

  /** Lattice rows. */
  int rows() {
    return rows;
  }

  /** Lattice columns. */
  int cols() {
    return cols;
  }

  /** Lattice point in the middle of a cell. */
  int centre(int cell) {
    return (2 * (cell / spec.cols()) + 1) * cols + 2 * (cell % spec.cols()) + 1;
  }

  /** Easting of a lattice point (m). */
  double xM(int point) {
    return spec.westM() + point % cols * spec.cellXM() / 2;
  }

  /** Northing of a lattice point (m). */
  double yM(int point) {
    int row = point / cols;
    return spec.northM() - row * spec.cellYM() / 2;
  }

  GridSpec spec() {
    return spec;
  }

  /** Diameter of the largest disc about a lattice point that touches no barrier (m). */
  float widthAtM(int point) {
    return widthM[point];
  }

  /** Diameter of the largest disc about the cell's centre that touches no barrier (m). */
  float widthM(int cell) {
    return widthM[centre(cell)];
  }

  private static void alongRow(float[] squareM2, int first, int cols, double stepM) {
    double d = Double.POSITIVE_INFINITY;
    for (int i = first; i < first + cols; i++) {
      d = squareM2[i] == 0 ? 0 : d + stepM;
      squareM2[i] = (float) d;
    }
    d = Double.POSITIVE_INFINITY;
    for (int i = first + cols - 1; i >= first; i--) {
      d = squareM2[i] == 0 ? 0 : d + stepM;
      double near = Math.min(d, squareM2[i]);
      squareM2[i] = (float) (near * near);
    }
  }

  /** Lower envelope of the parabolas that stand on the column's values. */
  private static void alongColumn(
      float[] squareM2, int col, int cols, double stepM, double[] f, int[] apex, double[] start) {
    int rows = f.length;
    double step2 = stepM * stepM;
    for (int r = 0; r < rows; r++) {
      f[r] = squareM2[r * cols + col] / step2;
    }
    int k = -1;
    for (int q = 0; q < rows; q++) {
      if (f[q] == Double.POSITIVE_INFINITY) {
        continue;
      }
      double s = Double.NEGATIVE_INFINITY;
      while (k >= 0) {
        int p = apex[k];
        s = ((f[q] + (double) q * q) - (f[p] + (double) p * p)) / (2.0 * (q - p));
        if (s > start[k]) {
          break;
        }
        k--;
      }
      k++;
      apex[k] = q;
      start[k] = k == 0 ? Double.NEGATIVE_INFINITY : s;
    }
    if (k < 0) {
      return;
    }
    int at = 0;
    for (int r = 0; r < rows; r++) {
      while (at < k && start[at + 1] <= r) {
        at++;
      }
      double d = r - apex[at];
      squareM2[r * cols + col] = (float) ((d * d + f[apex[at]]) * step2);
    }
  }
}

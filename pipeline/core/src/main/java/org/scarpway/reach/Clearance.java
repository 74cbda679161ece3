package org.scarpway.reach;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.MoveField;

/**
 * Room between barriers. The clearance of a cell is the exact Euclidean distance from its centre to
 * the centre of the nearest barrier cell (Felzenszwalb &amp; Huttenlocher 2012, <i>Distance
 * transforms of sampled functions</i>, Theory of Computing 8:415-428; from memory), infinite
 * without any. The edge of the grid is no barrier.
 *
 * <p>The width of a passage is twice the clearance of the widest cell across it, less one cell: a
 * passage n cells wide along a grid axis measures n cells for odd n, n - 1 for even n, never more.
 */
final class Clearance {
  private final GridSpec spec;
  private final float[] widthM;

  private Clearance(GridSpec spec, float[] widthM) {
    this.spec = spec;
    this.widthM = widthM;
  }

  static Clearance of(MoveField field, Workers workers) {
    GridSpec spec = field.spec();
    int rows = spec.rows();
    int cols = spec.cols();
    double[] squareM2 = new double[spec.cells()];
    workers.overRows(rows, (from, to) -> alongRows(field, squareM2, from, to));
    workers.overRows(
        cols,
        (from, to) -> {
          double[] f = new double[rows];
          int[] apex = new int[rows];
          double[] start = new double[rows + 1];
          for (int c = from; c < to; c++) {
            alongColumn(squareM2, c, cols, spec.cellYM(), f, apex, start);
          }
        });
    float[] widthM = new float[spec.cells()];
    double cell = spec.cellM();
    for (int i = 0; i < widthM.length; i++) {
      widthM[i] = (float) Math.max(0, 2 * Math.sqrt(squareM2[i]) - cell);
    }
    return new Clearance(spec, widthM);
  }

  /** Width of the passage that the cell is the middle of (m); infinite without barriers. */
  float widthM(int cell) {
    return widthM[cell];
  }

  private static void alongRows(MoveField field, double[] squareM2, int from, int to) {
    int cols = field.spec().cols();
    double cellM = field.spec().cellXM();
    for (int r = from; r < to; r++) {
      double d = Double.POSITIVE_INFINITY;
      for (int c = 0; c < cols; c++) {
        int i = r * cols + c;
        d = field.allowed(i) == 0 ? 0 : d + cellM;
        squareM2[i] = d;
      }
      d = Double.POSITIVE_INFINITY;
      for (int c = cols - 1; c >= 0; c--) {
        int i = r * cols + c;
        d = field.allowed(i) == 0 ? 0 : d + cellM;
        double near = Math.min(d, squareM2[i]);
        squareM2[i] = near * near;
      }
    }
  }

  /** Lower envelope of the parabolas that stand on the column's values. */
  private static void alongColumn(
      double[] squareM2, int col, int cols, double cellM, double[] f, int[] apex, double[] start) {
    int rows = f.length;
    double cell2 = cellM * cellM;
    for (int r = 0; r < rows; r++) {
      f[r] = squareM2[r * cols + col] / cell2;
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
      squareM2[r * cols + col] = (d * d + f[apex[at]]) * cell2;
    }
  }

  /**
   * Width (m) of the narrowest passage on the widest way from each cell to the base, whatever the
   * headings: the largest, over all ways, of the least width (maximum capacity paths: Hu 1961,
   * <i>The maximum capacity route problem</i>, Operations Research 9(6):898-900; from memory). NaN
   * where there is no way. Without barriers the length of the grid's diagonal.
   */
  void fillWidestWayM(MoveField field, int base, float[] gapM) {
    int cols = spec.cols();
    Arrays.fill(gapM, Float.NaN);
    double topM = Math.hypot(cols * spec.cellXM(), spec.rows() * spec.cellYM());
    double[] lackM = new double[widthM.length];
    BucketQueue queue = new BucketQueue(lackM, topM / 4096);
    gapM[base] = (float) Math.min(topM, widthM[base]);
    lackM[base] = topM - gapM[base];
    queue.add(base);
    boolean[] waiting = new boolean[widthM.length];
    waiting[base] = true;
    for (int cell = queue.poll(); cell >= 0; cell = queue.poll()) {
      if (!waiting[cell]) {
        continue;
      }
      waiting[cell] = false;
      int row = cell / cols;
      int col = cell % cols;
      for (int dr = -1; dr <= 1; dr++) {
        for (int dc = -1; dc <= 1; dc++) {
          int to = cell + dr * cols + dc;
          if ((dr == 0 && dc == 0)
              || !spec.holds(row + dr, col + dc)
              || field.allowed(to) == 0
              || (dr != 0
                  && dc != 0
                  && (field.allowed(cell + dr * cols) == 0 || field.allowed(cell + dc) == 0))) {
            continue;
          }
          float through = Math.min(gapM[cell], widthM[to]);
          if (!(gapM[to] >= through)) {
            gapM[to] = through;
            waiting[to] = true;
            lackM[to] = topM - through;
            queue.add(to);
          }
        }
      }
    }
  }
}

package org.scarpway.terrain;

/**
 * Least-squares plane over a footprint of any size: its gradient (rise over run) and the RMS of the
 * residuals (m, N in the denominator), which is the roughness: a smooth tilted plane has 0.
 *
 * <p>The footprint is an {@link Footprint octagon}. When its centre moves one cell east, it gains
 * the cells along its east edge and loses those along its west edge; each edge is a vertical and
 * two diagonal runs of cells, and the sum along each run is itself updated from row to row. So the
 * cost per cell is independent of the size. Heights are whole numbers of a {@link HeightScale}
 * quantum and all sums are exact (64-bit wrap-around cancels, because the final value always fits),
 * so the result does not depend on the position of bands, blocks or tiles.
 *
 * <p>With the centre as origin, sum dx = sum dy = sum dx dy = 0, so the plane is: p = sum(dx z) /
 * sum dx2, q = sum(dy z) / sum dy2, mean z; residual sum of squares = sum z2 - (sum z)2/N - p2 sum
 * dx2 - q2 sum dy2.
 */
public final class FootprintPlane {
  /** Columns per block: the running sums of a block then fit in the core's cache. */
  private static final int BLOCK_COLS = 1024;

  private FootprintPlane() {}

  /**
   * @param heightM heights, m; rows up to {@code footprint.halfRows()} beyond the computed ones are
   *     read
   * @param gradEast out: rise over run towards east
   * @param gradNorth out: rise over run towards north
   * @param roughnessM out: RMS residual
   */
  public static void fill(
      float[] heightM,
      int rows,
      int cols,
      int fromRow,
      int toRow,
      Footprint footprint,
      HeightScale scale,
      double cellXM,
      double cellYM,
      float[] gradEast,
      float[] gradNorth,
      float[] roughnessM) {
    int halfRows = footprint.halfRows();
    int halfCols = footprint.halfCols();
    for (int row = fromRow; row < toRow; row++) {
      Edges.leaveInterior(gradEast, rows, cols, row, halfRows, halfCols);
      Edges.leaveInterior(gradNorth, rows, cols, row, halfRows, halfCols);
      Edges.leaveInterior(roughnessM, rows, cols, row, halfRows, halfCols);
    }
    int first = Math.max(fromRow, halfRows);
    int end = Math.min(toRow, rows - halfRows);
    if (first >= end || cols <= 2 * halfCols) {
      return;
    }
    if (footprint.equals(Footprint.SMALLEST)) {
      fillSmallest(heightM, cols, first, end, cellXM, cellYM, gradEast, gradNorth, roughnessM);
      return;
    }
    int blockCols = Math.max(BLOCK_COLS, 8 * halfCols);
    for (int col = halfCols; col < cols - halfCols; col += blockCols) {
      int endCol = Math.min(cols - halfCols, col + blockCols);
      FootprintBlock block =
          new FootprintBlock(heightM, cols, first, end, col, endCol, footprint, scale);
      for (int row = first; row < end; row++) {
        block.fillRow(row, cellXM, cellYM, gradEast, gradNorth, roughnessM);
      }
    }
  }

  /** Like fill for 3 x 3 cells, where nine reads are cheaper than running sums. */
  private static void fillSmallest(
      float[] heightM,
      int cols,
      int fromRow,
      int toRow,
      double cellXM,
      double cellYM,
      float[] gradEast,
      float[] gradNorth,
      float[] roughnessM) {
    double eastScale = 1 / (6 * cellXM);
    double northScale = 1 / (6 * cellYM);
    for (int row = fromRow; row < toRow; row++) {
      int first = row * cols;
      for (int col = 1; col < cols - 1; col++) {
        int i = first + col;
        int n = i - cols;
        int s = i + cols;
        double z = heightM[i];
        double a = heightM[n - 1] - z;
        double b = heightM[n] - z;
        double c = heightM[n + 1] - z;
        double d = heightM[i - 1] - z;
        double e = heightM[i + 1] - z;
        double f = heightM[s - 1] - z;
        double g = heightM[s] - z;
        double h = heightM[s + 1] - z;
        double sum = (a + h) + (b + g) + (c + f) + (d + e);
        double east = (c - a) + (e - d) + (h - f);
        double north = (a - f) + (b - g) + (c - h);
        double squares = (a * a + h * h) + (b * b + g * g) + (c * c + f * f) + (d * d + e * e);
        double residual = squares - sum * sum / 9 - (east * east + north * north) / 6;
        // A void must give NaN in all three outputs, even where it has no weight.
        double guard = 0 * sum;
        gradEast[i] = (float) (east * eastScale + guard);
        gradNorth[i] = (float) (north * northScale + guard);
        roughnessM[i] = (float) Math.sqrt(Math.max(0, residual) / 9);
      }
    }
  }

  /**
   * Largest distance (m) of a cell of the footprint above or below the plane. Reads every cell of
   * the footprint, so the cost grows with its area.
   */
  public static void fillLargestResidual(
      float[] heightM,
      int rows,
      int cols,
      int fromRow,
      int toRow,
      Footprint footprint,
      double cellXM,
      double cellYM,
      float[] gradEast,
      float[] gradNorth,
      float[] largestM) {
    int n = footprint.cells();
    for (int row = fromRow; row < toRow; row++) {
      if (!Edges.leaveInterior(
          largestM, rows, cols, row, footprint.halfRows(), footprint.halfCols())) {
        continue;
      }
      for (int col = footprint.halfCols(); col < cols - footprint.halfCols(); col++) {
        int i = row * cols + col;
        double z = heightM[i];
        double p = gradEast[i] * cellXM;
        double q = -gradNorth[i] * cellYM;
        double sum = 0;
        double high = Double.NEGATIVE_INFINITY;
        double low = Double.POSITIVE_INFINITY;
        for (int dy = -footprint.halfRows(); dy <= footprint.halfRows(); dy++) {
          int w = footprint.halfWidth(dy);
          for (int dx = -w; dx <= w; dx++) {
            double d = heightM[i + dy * cols + dx] - z;
            sum += d;
            d -= p * dx + q * dy;
            high = Math.max(high, d);
            low = Math.min(low, d);
          }
        }
        double mean = sum / n;
        largestM[i] = (float) Math.max(high - mean, mean - low);
      }
    }
  }
}

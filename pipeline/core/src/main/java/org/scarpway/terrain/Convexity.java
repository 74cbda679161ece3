package org.scarpway.terrain;

/**
 * Convexity (m): the height of the ground at a cell above the middle of a chord as long as the
 * wheelbase whose ends lie on the ground, maximised over the headings. Negative where the ground
 * lies below the chord on every heading.
 *
 * <p>Geometry, no source. With cells of at most half the chord: 8 chords (16 headings), ends
 * interpolated bilinearly. With coarser cells the ends would lie between the same few heights and
 * the result would reflect only the interpolation, so the ground is modelled as a quadric through
 * the neighbours: largest convex curvature * chord2 / 8, over all headings.
 */
public final class Convexity {
  static final int CHORDS = 8;
  private static final int CORNERS = 8;

  private Convexity() {}

  /** True if cells are too coarse for a chord, so that curvature is used instead. */
  public static boolean fromCurvature(double chordM, double cellXM, double cellYM) {
    return chordM / 2 < Math.max(cellXM, cellYM) * (1 - 1e-9);
  }

  static int haloCells(double chordM, double cellM) {
    return Math.max(1, (int) Math.ceil(chordM / 2 / cellM * (1 - 1e-9)));
  }

  /**
   * @param chordM length of the chord, the wheelbase (m)
   * @param convexityM output (m)
   */
  public static void fill(
      float[] heightM,
      int rows,
      int cols,
      int fromRow,
      int toRow,
      double cellXM,
      double cellYM,
      double chordM,
      float[] convexityM) {
    if (fromCurvature(chordM, cellXM, cellYM)) {
      fillFromCurvature(heightM, rows, cols, fromRow, toRow, cellXM, cellYM, chordM, convexityM);
      return;
    }
    int halfCols = haloCells(chordM, cellXM);
    int halfRows = haloCells(chordM, cellYM);
    int[] offset = new int[CHORDS * CORNERS];
    double[] weight = new double[CHORDS * CORNERS];
    for (int k = 0; k < CHORDS; k++) {
      double azimuth = Math.PI * k / CHORDS;
      double dx = chordM / 2 * Math.sin(azimuth) / cellXM;
      double dy = -chordM / 2 * Math.cos(azimuth) / cellYM;
      addEnd(dx, dy, cols, offset, weight, k * CORNERS);
      addEnd(-dx, -dy, cols, offset, weight, k * CORNERS + CORNERS / 2);
    }
    for (int row = fromRow; row < toRow; row++) {
      if (!Edges.leaveInterior(convexityM, rows, cols, row, halfRows, halfCols)) {
        continue;
      }
      for (int col = halfCols; col < cols - halfCols; col++) {
        int i = row * cols + col;
        double z = heightM[i];
        double lowest = Double.POSITIVE_INFINITY;
        for (int k = 0; k < offset.length; k += CORNERS) {
          double ends =
              (weight[k] * (heightM[i + offset[k]] - z)
                      + weight[k + 1] * (heightM[i + offset[k + 1]] - z))
                  + (weight[k + 2] * (heightM[i + offset[k + 2]] - z)
                      + weight[k + 3] * (heightM[i + offset[k + 3]] - z))
                  + ((weight[k + 4] * (heightM[i + offset[k + 4]] - z)
                          + weight[k + 5] * (heightM[i + offset[k + 5]] - z))
                      + (weight[k + 6] * (heightM[i + offset[k + 6]] - z)
                          + weight[k + 7] * (heightM[i + offset[k + 7]] - z)));
          // min propagates NaN, so a void under the end of any chord gives NaN.
          lowest = Math.min(lowest, ends);
        }
        convexityM[i] = (float) (-0.5 * lowest);
      }
    }
  }

  /** Returns the rise above a chord of the given columns and rows, as a sum of heights. */
  static HeightSum ofChord(double cols, double rows) {
    int[] offset = new int[CORNERS];
    double[] weight = new double[CORNERS];
    // The row stride exceeds any chord, so that offsets are unique.
    int stride = 4 * (int) Math.ceil(Math.abs(cols) + Math.abs(rows) + 1);
    addEnd(cols / 2, rows / 2, stride, offset, weight, 0);
    addEnd(-cols / 2, -rows / 2, stride, offset, weight, CORNERS / 2);
    HeightSum sum = new HeightSum().add(0, 0, 1);
    for (int i = 0; i < CORNERS; i++) {
      int row = Math.floorDiv(offset[i] + stride / 2, stride);
      sum.add(row, offset[i] - row * stride, -0.5 * weight[i]);
    }
    return sum;
  }

  /** Returns the rise from curvature along a unit vector, as a sum of heights. */
  static HeightSum ofCurvature(
      double chordM, double cellXM, double cellYM, double east, double north) {
    double scale = -chordM * chordM / 8;
    double xx = scale * east * east / (cellXM * cellXM);
    double yy = scale * north * north / (cellYM * cellYM);
    double xy = scale * 2 * east * north / (4 * cellXM * cellYM);
    return new HeightSum()
        .add(0, 0, -2 * (xx + yy))
        .add(0, -1, xx)
        .add(0, 1, xx)
        .add(-1, 0, yy)
        .add(1, 0, yy)
        .add(-1, 1, xy)
        .add(1, -1, xy)
        .add(-1, -1, -xy)
        .add(1, 1, -xy);
  }

  /**
   * Adds the bilinear corners of the point (dx, dy) cells away; a corner with zero weight is not
   * read.
   */
  private static void addEnd(
      double dx, double dy, int cols, int[] offset, double[] weight, int at) {
    // Avoid that rounding makes an end on a cell centre read the next cell.
    double x = Math.rint(dx * 1e9) / 1e9;
    double y = Math.rint(dy * 1e9) / 1e9;
    int x0 = (int) Math.floor(x);
    int y0 = (int) Math.floor(y);
    double fx = x - x0;
    double fy = y - y0;
    int base = y0 * cols + x0;
    int eastward = fx > 0 ? 1 : 0;
    int southward = fy > 0 ? cols : 0;
    offset[at] = base;
    weight[at] = (1 - fx) * (1 - fy);
    offset[at + 1] = base + eastward;
    weight[at + 1] = fx * (1 - fy);
    offset[at + 2] = base + southward;
    weight[at + 2] = (1 - fx) * fy;
    offset[at + 3] = base + eastward + southward;
    weight[at + 3] = fx * fy;
  }

  private static void fillFromCurvature(
      float[] heightM,
      int rows,
      int cols,
      int fromRow,
      int toRow,
      double cellXM,
      double cellYM,
      double chordM,
      float[] convexityM) {
    double scale = chordM * chordM / 8;
    for (int row = fromRow; row < toRow; row++) {
      if (!Edges.leaveInterior(convexityM, rows, cols, row, 1, 1)) {
        continue;
      }
      for (int col = 1; col < cols - 1; col++) {
        int i = row * cols + col;
        int n = i - cols;
        int s = i + cols;
        double z = heightM[i];
        double xx = ((heightM[i - 1] - z) + (heightM[i + 1] - z)) / (cellXM * cellXM);
        double yy = ((heightM[n] - z) + (heightM[s] - z)) / (cellYM * cellYM);
        double xy =
            ((heightM[n + 1] - z)
                    + (heightM[s - 1] - z)
                    - (heightM[n - 1] - z)
                    - (heightM[s + 1] - z))
                / (4 * cellXM * cellYM);
        // Smallest eigenvalue of the Hessian: the heading of largest convex curvature.
        double half = (xx - yy) / 2;
        double bend = (xx + yy) / 2 - Math.sqrt(half * half + xy * xy);
        convexityM[i] = (float) (-bend * scale);
      }
    }
  }
}

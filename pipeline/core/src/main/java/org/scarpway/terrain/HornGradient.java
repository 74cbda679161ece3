package org.scarpway.terrain;

/**
 * Gradient (rise over run) by the third-order finite difference over 3 x 3 cells with weights 1 2
 * 1.
 *
 * <p>Source: Horn B.K.P. 1981, <i>Hill shading and the reflectance map</i>, Proc. IEEE 69(1):14-47.
 * Exact on a plane; on a cubic of x the bias is the third derivative * cell2 / 6. Insensitive to a
 * spike of one cell, which roughness and step detect. Window: all nine cells.
 */
public final class HornGradient {
  private HornGradient() {}

  /**
   * @param heightM heights, m
   * @param gradEast out: rise over run towards east
   * @param gradNorth out: rise over run towards north
   */
  public static void fill(
      float[] heightM,
      int rows,
      int cols,
      int fromRow,
      int toRow,
      double cellXM,
      double cellYM,
      float[] gradEast,
      float[] gradNorth) {
    double eastScale = 1 / (8 * cellXM);
    double northScale = 1 / (8 * cellYM);
    for (int row = fromRow; row < toRow; row++) {
      boolean inside = Edges.leaveInterior(gradEast, rows, cols, row, 1, 1);
      Edges.leaveInterior(gradNorth, rows, cols, row, 1, 1);
      if (!inside) {
        continue;
      }
      int first = row * cols;
      for (int col = 1; col < cols - 1; col++) {
        int i = first + col;
        int n = i - cols;
        int s = i + cols;
        double nw = heightM[n - 1];
        double ne = heightM[n + 1];
        double sw = heightM[s - 1];
        double se = heightM[s + 1];
        double acrossEast = (double) heightM[i + 1] - heightM[i - 1];
        double acrossNorth = (double) heightM[n] - heightM[s];
        // Not part of the formula: NaN if a cell that one of the components does not use is void.
        double guard = heightM[i] + acrossEast + acrossNorth;
        guard -= guard;
        double east = (ne - nw) + 2 * acrossEast + (se - sw);
        double north = (nw - sw) + 2 * acrossNorth + (ne - se);
        gradEast[i] = (float) (east * eastScale + guard);
        gradNorth[i] = (float) (north * northScale + guard);
      }
    }
  }
}

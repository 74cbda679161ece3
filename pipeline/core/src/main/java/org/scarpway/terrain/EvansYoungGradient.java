package org.scarpway.terrain;

/**
 * Gradient (rise over run) by the least-squares quadratic over 3 x 3 cells (equal weights).
 *
 * <p>Source: Evans I.S. 1972 in Chorley (ed.), <i>Spatial Analysis in Geomorphology</i>, 17-90;
 * Young M. 1978; the same gradient as Sharpnack and Akin 1969, Photogramm. Eng. 35:247-248. Least
 * affected by independent height errors of the 3 x 3 methods. Window: all nine cells.
 */
public final class EvansYoungGradient {
  private EvansYoungGradient() {}

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
    double eastScale = 1 / (6 * cellXM);
    double northScale = 1 / (6 * cellYM);
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
        double east = (ne - nw) + acrossEast + (se - sw);
        double north = (nw - sw) + acrossNorth + (ne - se);
        gradEast[i] = (float) (east * eastScale + guard);
        gradNorth[i] = (float) (north * northScale + guard);
      }
    }
  }
}

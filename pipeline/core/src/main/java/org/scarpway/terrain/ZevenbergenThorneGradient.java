package org.scarpway.terrain;

/**
 * Gradient (rise over run) by the second-order finite difference of the four neighbours.
 *
 * <p>Source: Zevenbergen L.W. and Thorne C.R. 1987, <i>Quantitative analysis of land surface
 * topography</i>, Earth Surf. Process. Landforms 12:47-56; the same gradient as Fleming and Hoffer
 * 1979. Best of the 3 x 3 methods on smooth ground, worst under independent height errors. Window:
 * the centre and its four neighbours.
 */
public final class ZevenbergenThorneGradient {
  private ZevenbergenThorneGradient() {}

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
    double eastScale = 1 / (2 * cellXM);
    double northScale = 1 / (2 * cellYM);
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
        double centre = heightM[i];
        // A void anywhere in the window must give NaN in both components.
        double guard =
            ((double) heightM[n] - heightM[s])
                + ((double) heightM[i + 1] - heightM[i - 1])
                + centre;
        guard -= guard;
        gradEast[i] = (float) (((double) heightM[i + 1] - heightM[i - 1]) * eastScale + guard);
        gradNorth[i] = (float) (((double) heightM[n] - heightM[s]) * northScale + guard);
      }
    }
  }
}

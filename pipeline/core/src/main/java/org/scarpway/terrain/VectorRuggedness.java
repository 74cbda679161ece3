package org.scarpway.terrain;

/**
 * Vector ruggedness (0 to 1, dimensionless): 1 minus the length of the mean unit normal over a
 * square window. A plane has 0 whatever its slope.
 *
 * <p>Source: Sappington J.M., Longshore K.M. and Thompson D.B. 2007, <i>Quantifying landscape
 * ruggedness for animal habitat analysis</i>, J. Wildl. Manage. 71(5):1419-1426. The cost grows
 * with the window's area.
 */
public final class VectorRuggedness {
  private VectorRuggedness() {}

  /**
   * @param radiusCells half width of the window: 1 is 3 x 3 cells
   */
  public static void fill(
      float[] gradEast,
      float[] gradNorth,
      int rows,
      int cols,
      int fromRow,
      int toRow,
      int radiusCells,
      float[] ruggedness01) {
    int side = 2 * radiusCells + 1;
    for (int row = fromRow; row < toRow; row++) {
      if (!Edges.leaveInterior(ruggedness01, rows, cols, row, radiusCells, radiusCells)) {
        continue;
      }
      for (int col = radiusCells; col < cols - radiusCells; col++) {
        double x = 0;
        double y = 0;
        double up = 0;
        for (int r = row - radiusCells; r <= row + radiusCells; r++) {
          for (int i = r * cols + col - radiusCells; i <= r * cols + col + radiusCells; i++) {
            double east = gradEast[i];
            double north = gradNorth[i];
            double length = Math.sqrt(1 + east * east + north * north);
            x -= east / length;
            y -= north / length;
            up += 1 / length;
          }
        }
        double mean = Math.sqrt(x * x + y * y + up * up) / (side * side);
        ruggedness01[row * cols + col] = (float) Math.max(0, 1 - mean);
      }
    }
  }
}

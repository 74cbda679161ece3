package org.scarpway.terrain;

/**
 * Terrain ruggedness index (m): root of the sum of squared height differences to the eight
 * neighbours.
 *
 * <p>Source: Riley S.J., DeGloria S.D. and Elliot R. 1999, <i>A terrain ruggedness index that
 * quantifies topographic heterogeneity</i>, Intermountain J. Sci. 5(1-4):23-27. Not detrended: a
 * plane of slope S on square cells h has sqrt(6) h tan S.
 */
public final class RileyRuggedness {
  /** Class names of the source, from level to extremely rugged; it meant cells of about 1 km. */
  private static final String[] CLASSES = {
    "level",
    "nearly level",
    "slightly rugged",
    "intermediately rugged",
    "moderately rugged",
    "highly rugged",
    "extremely rugged"
  };

  /**
   * Smallest cell size (m) for which the classes are reported: half of that in the source; own
   * choice.
   */
  public static final double CLASSES_FROM_M = 500;

  private static final int[] LAST_METRE = {80, 116, 161, 239, 497, 958};

  private RileyRuggedness() {}

  public static void fill(
      float[] heightM, int rows, int cols, int fromRow, int toRow, float[] ruggednessM) {
    for (int row = fromRow; row < toRow; row++) {
      if (!Edges.leaveInterior(ruggednessM, rows, cols, row, 1, 1)) {
        continue;
      }
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
        ruggednessM[i] =
            (float)
                Math.sqrt((a * a + b * b) + (c * c + d * d) + (e * e + f * f) + (g * g + h * h));
      }
    }
  }

  /**
   * Returns the class of the source's table. The table lists whole metres; a value between two
   * classes belongs to the lower one until it reaches the next whole metre.
   */
  public static String className(double ruggednessM) {
    int k = 0;
    while (k < LAST_METRE.length && ruggednessM >= LAST_METRE[k] + 1) {
      k++;
    }
    return CLASSES[k];
  }
}

package org.scarpway.terrain;

/**
 * Curvature of the ground (1/m) from 3 x 3 cells. Positive is convex: the ground bulges up.
 *
 * <p>By the least-squares quadratic: Evans I.S. 1972 in Chorley (ed.), <i>Spatial Analysis in
 * Geomorphology</i>; Florinsky I.V. 1998, <i>Accuracy of local topographic variables derived from
 * digital elevation models</i>, Int. J. Geogr. Inf. Sci. 12(1):47-61: profile is the normal
 * curvature along the fall line (kv), tangential the normal curvature across it (kh), plan the
 * curvature of the contour line, mean half the sum of profile and tangential. By the partial
 * quartic: Zevenbergen and Thorne 1987, with their formulas as printed and no factor of 100;
 * profile = -2(DG2+EH2+FGH)/(G2+H2), plan = 2(DH2+EG2-FGH)/(G2+H2), total = -2(D+E).
 *
 * <p>On exactly level ground there is no fall line: all but mean and total are NaN there. An output
 * array that is null is not computed.
 */
public final class Curvature {
  private Curvature() {}

  /** Computes curvatures by the least-squares quadratic. */
  public static void fillLeastSquares(
      float[] heightM,
      int rows,
      int cols,
      int fromRow,
      int toRow,
      double cellXM,
      double cellYM,
      float[] profilePerM,
      float[] tangentialPerM,
      float[] planPerM,
      float[] meanPerM) {
    float[][] outs = {profilePerM, tangentialPerM, planPerM, meanPerM};
    for (int row = fromRow; row < toRow; row++) {
      if (!Edges.leaveInteriorOfAll(outs, rows, cols, row, 1, 1)) {
        continue;
      }
      for (int col = 1; col < cols - 1; col++) {
        int i = row * cols + col;
        double z1 = heightM[i - cols - 1];
        double z2 = heightM[i - cols];
        double z3 = heightM[i - cols + 1];
        double z4 = heightM[i - 1];
        double z5 = heightM[i];
        double z6 = heightM[i + 1];
        double z7 = heightM[i + cols - 1];
        double z8 = heightM[i + cols];
        double z9 = heightM[i + cols + 1];
        double p = ((z3 - z1) + (z6 - z4) + (z9 - z7)) / (6 * cellXM);
        double q = ((z1 - z7) + (z2 - z8) + (z3 - z9)) / (6 * cellYM);
        double r = (z1 + z3 + z4 + z6 + z7 + z9 - 2 * (z2 + z5 + z8)) / (3 * cellXM * cellXM);
        double t = (z1 + z2 + z3 + z7 + z8 + z9 - 2 * (z4 + z5 + z6)) / (3 * cellYM * cellYM);
        double s = (z3 + z7 - z1 - z9) / (4 * cellXM * cellYM);
        double g2 = p * p + q * q;
        double w = Math.sqrt(1 + g2);
        double along = p * p * r + 2 * p * q * s + q * q * t;
        double across = q * q * r - 2 * p * q * s + p * p * t;
        if (profilePerM != null) {
          profilePerM[i] = (float) (-along / (g2 * w * w * w));
        }
        if (tangentialPerM != null) {
          tangentialPerM[i] = (float) (-across / (g2 * w));
        }
        if (planPerM != null) {
          planPerM[i] = (float) (-across / (g2 * Math.sqrt(g2)));
        }
        if (meanPerM != null) {
          double sum = (1 + q * q) * r - 2 * p * q * s + (1 + p * p) * t;
          meanPerM[i] = (float) (-sum / (2 * w * w * w));
        }
      }
    }
  }

  /** Computes curvatures by the partial quartic. */
  public static void fillQuartic(
      float[] heightM,
      int rows,
      int cols,
      int fromRow,
      int toRow,
      double cellXM,
      double cellYM,
      float[] profilePerM,
      float[] planPerM,
      float[] totalPerM) {
    float[][] outs = {profilePerM, planPerM, totalPerM};
    for (int row = fromRow; row < toRow; row++) {
      if (!Edges.leaveInteriorOfAll(outs, rows, cols, row, 1, 1)) {
        continue;
      }
      for (int col = 1; col < cols - 1; col++) {
        int i = row * cols + col;
        double west = heightM[i - 1];
        double east = heightM[i + 1];
        double north = heightM[i - cols];
        double south = heightM[i + cols];
        double z = heightM[i];
        double d = ((west + east) / 2 - z) / (cellXM * cellXM);
        double e = ((north + south) / 2 - z) / (cellYM * cellYM);
        double f =
            ((double) heightM[i - cols + 1]
                    + heightM[i + cols - 1]
                    - heightM[i - cols - 1]
                    - heightM[i + cols + 1])
                / (4 * cellXM * cellYM);
        double g = (east - west) / (2 * cellXM);
        double h = (north - south) / (2 * cellYM);
        double g2 = g * g + h * h;
        if (profilePerM != null) {
          profilePerM[i] = (float) (-2 * (d * g * g + e * h * h + f * g * h) / g2);
        }
        if (planPerM != null) {
          planPerM[i] = (float) (2 * (d * h * h + e * g * g - f * g * h) / g2);
        }
        if (totalPerM != null) {
          // The corners have no weight, yet a void there must give NaN.
          totalPerM[i] = (float) (-2 * (d + e) + 0 * f);
        }
      }
    }
  }
}

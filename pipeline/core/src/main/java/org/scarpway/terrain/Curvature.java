package org.scarpway.terrain;

/**
 * Curvature of the ground (1/m) from 3 x 3 cells. Positive is convex: the ground bulges up.
 *
 * <p>Normal curvatures along the fall line (kv), across it (kh) and their mean (H) from the
 * least-squares quadratic (from memory): Evans 1972; Florinsky I.V. 1998, <i>Accuracy of local
 * topographic variables derived from digital elevation models</i>, Int. J. Geogr. Inf. Sci.
 * 12(1):47-61. Profile, plan and total curvature from the partial quartic: Zevenbergen and Thorne
 * 1987, with their formulas as printed and no factor of 100; there profile =
 * -2(DG2+EH2+FGH)/(G2+H2) and plan = 2(DH2+EG2-FGH)/(G2+H2). On exactly level ground there is no
 * fall line: profile, plan, kv and kh are NaN there, mean and total are not.
 */
public final class Curvature {
  private Curvature() {}

  /** Along the fall line, across it, and mean. */
  public static void fillNormal(
      float[] heightM,
      int rows,
      int cols,
      int fromRow,
      int toRow,
      double cellXM,
      double cellYM,
      float[] alongPerM,
      float[] acrossPerM,
      float[] meanPerM) {
    for (int row = fromRow; row < toRow; row++) {
      boolean inside = Edges.leaveInterior(alongPerM, rows, cols, row, 1, 1);
      Edges.leaveInterior(acrossPerM, rows, cols, row, 1, 1);
      Edges.leaveInterior(meanPerM, rows, cols, row, 1, 1);
      if (!inside) {
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
        alongPerM[i] = (float) (-(p * p * r + 2 * p * q * s + q * q * t) / (g2 * w * w * w));
        acrossPerM[i] = (float) (-(q * q * r - 2 * p * q * s + p * p * t) / (g2 * w));
        meanPerM[i] =
            (float) (-((1 + q * q) * r - 2 * p * q * s + (1 + p * p) * t) / (2 * w * w * w));
      }
    }
  }

  /** Profile, plan and total curvature of Zevenbergen and Thorne. */
  public static void fillZevenbergenThorne(
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
    for (int row = fromRow; row < toRow; row++) {
      boolean inside = Edges.leaveInterior(profilePerM, rows, cols, row, 1, 1);
      Edges.leaveInterior(planPerM, rows, cols, row, 1, 1);
      Edges.leaveInterior(totalPerM, rows, cols, row, 1, 1);
      if (!inside) {
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
        // A void corner must show in the total as well, which does not use the corners.
        double voidGuard = 0 * f;
        profilePerM[i] = (float) (-2 * (d * g * g + e * h * h + f * g * h) / g2);
        planPerM[i] = (float) (2 * (d * h * h + e * g * g - f * g * h) / g2);
        totalPerM[i] = (float) (-2 * (d + e) + voidGuard);
      }
    }
  }
}

package org.scarpway.site;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;

/**
 * Statistics of the ground inside a landing ellipse, over the cells whose centres lie in it (at
 * least the cell of its centre). Touchdowns follow a bivariate normal distribution whose 99 %
 * contour is the ellipse, truncated there. Cells without elevation, and ground outside the grid,
 * have a hazard of 1.
 */
final class EllipseGround {
  /** Exponent of the density at the contour that contains 99 %: ln 100. */
  private static final double EDGE = StrictMath.log(100);

  private final double a;
  private final double b;
  private final double sin;
  private final double cos;

  private float[] slopesDeg = new float[64];
  private int slopes;
  private double slopeSum;
  private double hazardSum;
  private double safeWeight;
  private double weight;
  private long cells;
  private long voids;

  EllipseGround(LandingEllipse ellipse, SiteGround ground) {
    GridSpec g = ground.spec();
    double xM = ellipse.xM();
    double yM = ellipse.yM();
    a = ellipse.longM() / 2;
    b = ellipse.shortM() / 2;
    sin = StrictMath.sin(StrictMath.toRadians(ellipse.gridAzimuthDeg()));
    cos = StrictMath.cos(StrictMath.toRadians(ellipse.gridAzimuthDeg()));
    double halfX = Math.sqrt(a * a * sin * sin + b * b * cos * cos);
    double halfY = Math.sqrt(a * a * cos * cos + b * b * sin * sin);
    int top = Math.max(0, g.rowOf(yM + halfY));
    int bottom = Math.min(g.rows() - 1, g.rowOf(yM - halfY));
    int left = Math.max(0, g.colOf(xM - halfX));
    int right = Math.min(g.cols() - 1, g.colOf(xM + halfX));
    float[] slopeDeg = new float[g.cols()];
    float[] hazard01 = new float[g.cols()];
    for (int row = top; row <= bottom; row++) {
      ground.readSlopeDeg(row, slopeDeg);
      ground.readHazard01(row, hazard01);
      for (int col = left; col <= right; col++) {
        double r2 = radius2(g.xM(col) - xM, g.yM(row) - yM);
        if (r2 <= 1) {
          add(slopeDeg[col], hazard01[col], StrictMath.exp(-EDGE * r2));
        }
      }
    }
    if (cells == 0 && g.cellOf(xM, yM) >= 0) {
      ground.readSlopeDeg(g.rowOf(yM), slopeDeg);
      ground.readHazard01(g.rowOf(yM), hazard01);
      add(slopeDeg[g.colOf(xM)], hazard01[g.colOf(xM)], 1);
    }
    boolean whole =
        xM - halfX >= g.westM()
            && xM + halfX <= g.eastM()
            && yM - halfY >= g.southM()
            && yM + halfY <= g.northM();
    if (!whole) {
      addOutside(Math.PI * a * b / g.cellAreaM2());
    }
  }

  private double radius2(double east, double north) {
    double along = east * sin + north * cos;
    double across = east * cos - north * sin;
    return along * along / (a * a) + across * across / (b * b);
  }

  private void add(float slopeDeg, float hazard01, double density) {
    cells++;
    weight += density;
    if (Float.isNaN(slopeDeg) || Float.isNaN(hazard01)) {
      voids++;
      hazardSum += 1;
      return;
    }
    if (slopes == slopesDeg.length) {
      slopesDeg = Arrays.copyOf(slopesDeg, 2 * slopes);
    }
    slopesDeg[slopes++] = slopeDeg;
    slopeSum += slopeDeg;
    hazardSum += hazard01;
    safeWeight += density * (1 - hazard01);
  }

  /**
   * Adds the part of the ellipse outside the grid, given the number of cells of the whole ellipse.
   */
  private void addOutside(double allCells) {
    long outside = Math.max(0, Math.round(allCells) - cells);
    cells += outside;
    voids += outside;
    hazardSum += outside;
    weight = Math.max(weight, allCells * 0.99 / EDGE);
  }

  double meanSlopeDeg() {
    return slopes == 0 ? Double.NaN : slopeSum / slopes;
  }

  /**
   * Nearest-rank percentile: the smallest slope that at least this share of the cells does not
   * exceed.
   */
  double slopeDegOf(double share) {
    if (slopes == 0) {
      return Double.NaN;
    }
    float[] sorted = Arrays.copyOf(slopesDeg, slopes);
    Arrays.sort(sorted);
    return sorted[Math.max(0, (int) Math.ceil(share * slopes) - 1)];
  }

  double meanHazard01() {
    return cells == 0 ? 1 : hazardSum / cells;
  }

  double noHazard01() {
    return weight == 0 ? 0 : safeWeight / weight;
  }

  double voidPct() {
    return cells == 0 ? 100 : 100.0 * voids / cells;
  }
}

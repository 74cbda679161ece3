package org.scarpway.validation;

import java.util.Random;
import java.util.function.DoubleBinaryOperator;
import org.scarpway.terrain.EvansYoungGradient;
import org.scarpway.terrain.HornGradient;
import org.scarpway.terrain.SlopeAspect;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.terrain.ZevenbergenThorneGradient;

/** Test grounds and what the gradient kernels make of them. */
final class Ground {
  final int rows;
  final int cols;
  final double cellXM;
  final double cellYM;
  final float[] heightM;

  Ground(int rows, int cols, double cellXM, double cellYM, float[] heightM) {
    this.rows = rows;
    this.cols = cols;
    this.cellXM = cellXM;
    this.cellYM = cellYM;
    this.heightM = heightM;
  }

  /** Heights given row by row from the north-west. */
  static Ground window(double cellXM, double cellYM, double... heights) {
    int side = (int) Math.sqrt(heights.length);
    float[] z = new float[heights.length];
    for (int i = 0; i < z.length; i++) {
      z[i] = (float) heights[i];
    }
    return new Ground(side, side, cellXM, cellYM, z);
  }

  /**
   * Heights of z(x east, y north) about (centreXM, centreYM), less the height there, so that float
   * storage does not blur what is checked.
   */
  static Ground of(
      int rows,
      int cols,
      double cellM,
      double centreXM,
      double centreYM,
      DoubleBinaryOperator surface) {
    float[] z = new float[rows * cols];
    double datum = surface.applyAsDouble(centreXM, centreYM);
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < cols; c++) {
        double x = centreXM + (c - cols / 2) * cellM;
        double y = centreYM - (r - rows / 2) * cellM;
        z[r * cols + c] = (float) (surface.applyAsDouble(x, y) - datum);
      }
    }
    return new Ground(rows, cols, cellM, cellM, z);
  }

  static Ground noise(int rows, int cols, double sigmaM, long seed) {
    Random random = new Random(seed);
    float[] z = new float[rows * cols];
    for (int i = 0; i < z.length; i++) {
      z[i] = (float) (sigmaM * random.nextGaussian());
    }
    return new Ground(rows, cols, 1, 1, z);
  }

  int centre() {
    return rows / 2 * cols + cols / 2;
  }

  /** Gradient east and north of every cell. */
  float[][] gradient(SlopeMethod method) {
    float[] east = new float[heightM.length];
    float[] north = new float[heightM.length];
    switch (method) {
      case HORN -> HornGradient.fill(heightM, rows, cols, 0, rows, cellXM, cellYM, east, north);
      case ZEVENBERGEN_THORNE ->
          ZevenbergenThorneGradient.fill(heightM, rows, cols, 0, rows, cellXM, cellYM, east, north);
      case EVANS_YOUNG ->
          EvansYoungGradient.fill(heightM, rows, cols, 0, rows, cellXM, cellYM, east, north);
      case FOOTPRINT_PLANE -> throw new IllegalArgumentException("not a 3 x 3 method");
    }
    return new float[][] {east, north};
  }

  /** Slope and aspect (deg) of every cell. */
  float[][] slopeAspect(SlopeMethod method) {
    float[][] g = gradient(method);
    float[] slope = new float[heightM.length];
    float[] aspect = new float[heightM.length];
    SlopeAspect.fill(g[0], g[1], cols, 0, rows, slope, aspect);
    return new float[][] {slope, aspect};
  }

  double slopeDeg(SlopeMethod method) {
    return slopeAspect(method)[0][centre()];
  }

  double aspectDeg(SlopeMethod method) {
    return slopeAspect(method)[1][centre()];
  }

  double gradientLength(SlopeMethod method) {
    float[][] g = gradient(method);
    return Math.hypot(g[0][centre()], g[1][centre()]);
  }
}

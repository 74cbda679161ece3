package org.scarpway.terrain;

import java.util.EnumSet;
import java.util.Map;
import java.util.Set;

/**
 * Computes the optional derivatives of a strip of ground, under the rule of {@link TerrainRows}:
 * every array has the shape of the strip, and rows within half a footprint (at least one row) of
 * its north or south edge are valid only where that is the edge of the ground.
 */
final class DerivativeRows {
  private static final Set<Derivative> LEAST_SQUARES =
      EnumSet.of(
          Derivative.PROFILE_CURVATURE,
          Derivative.TANGENTIAL_CURVATURE,
          Derivative.PLAN_CURVATURE,
          Derivative.MEAN_CURVATURE);
  private static final Set<Derivative> QUARTIC =
      EnumSet.of(
          Derivative.PROFILE_CURVATURE_QUARTIC,
          Derivative.PLAN_CURVATURE_QUARTIC,
          Derivative.TOTAL_CURVATURE_QUARTIC);
  private static final Set<Derivative> WILSON =
      EnumSet.of(Derivative.MEAN_DIFFERENCE, Derivative.TOPOGRAPHIC_POSITION, Derivative.RANGE);

  private final Footprint footprint;
  private final HeightScale scale;
  private final double cellXM;
  private final double cellYM;

  DerivativeRows(Footprint footprint, HeightScale scale, double cellXM, double cellYM) {
    this.footprint = footprint;
    this.scale = scale;
    this.cellXM = cellXM;
    this.cellYM = cellYM;
  }

  /** Heights with gradient and slope by the job's method, all of one shape. */
  static final class Strip {
    private final float[] heightM;
    private final float[] gradEast;
    private final float[] gradNorth;
    private final float[] slopeDeg;
    private final int rows;
    private final int cols;

    Strip(
        float[] heightM,
        float[] gradEast,
        float[] gradNorth,
        float[] slopeDeg,
        int rows,
        int cols) {
      this.heightM = heightM;
      this.gradEast = gradEast;
      this.gradNorth = gradNorth;
      this.slopeDeg = slopeDeg;
      this.rows = rows;
      this.cols = cols;
    }
  }

  /**
   * @param plane scratch for the gradient and residual of the footprint plane, three arrays of the
   *     shape of the strip; null unless {@link Derivative#LARGEST_RESIDUAL} is among the outputs
   */
  void fill(Strip g, int from, int to, Map<Derivative, float[]> out, float[][] plane) {
    if (out.keySet().stream().anyMatch(LEAST_SQUARES::contains)) {
      Curvature.fillLeastSquares(
          g.heightM,
          g.rows,
          g.cols,
          from,
          to,
          cellXM,
          cellYM,
          out.get(Derivative.PROFILE_CURVATURE),
          out.get(Derivative.TANGENTIAL_CURVATURE),
          out.get(Derivative.PLAN_CURVATURE),
          out.get(Derivative.MEAN_CURVATURE));
    }
    if (out.keySet().stream().anyMatch(QUARTIC::contains)) {
      Curvature.fillQuartic(
          g.heightM,
          g.rows,
          g.cols,
          from,
          to,
          cellXM,
          cellYM,
          out.get(Derivative.PROFILE_CURVATURE_QUARTIC),
          out.get(Derivative.PLAN_CURVATURE_QUARTIC),
          out.get(Derivative.TOTAL_CURVATURE_QUARTIC));
    }
    if (out.keySet().stream().anyMatch(WILSON::contains)) {
      WilsonRuggedness.fill(
          g.heightM,
          g.rows,
          g.cols,
          from,
          to,
          out.get(Derivative.MEAN_DIFFERENCE),
          out.get(Derivative.TOPOGRAPHIC_POSITION),
          out.get(Derivative.RANGE));
    }
    float[] heightDeviation = out.get(Derivative.HEIGHT_DEVIATION);
    if (heightDeviation != null) {
      WindowDeviation.fill(g.heightM, g.rows, g.cols, from, to, heightDeviation);
    }
    float[] slopeDeviation = out.get(Derivative.SLOPE_DEVIATION);
    if (slopeDeviation != null) {
      WindowDeviation.fill(g.slopeDeg, g.rows, g.cols, from, to, slopeDeviation);
    }
    float[] ruggedness = out.get(Derivative.VECTOR_RUGGEDNESS);
    if (ruggedness != null) {
      VectorRuggedness.fill(g.gradEast, g.gradNorth, g.rows, g.cols, from, to, 1, ruggedness);
    }
    float[] residual = out.get(Derivative.LARGEST_RESIDUAL);
    if (residual != null) {
      largestResidual(g, from, to, plane, residual);
    }
  }

  private void largestResidual(Strip g, int from, int to, float[][] plane, float[] out) {
    FootprintPlane.fill(
        g.heightM, g.rows, g.cols, from, to, footprint, scale, cellXM, cellYM, plane[0], plane[1],
        plane[2]);
    FootprintPlane.fillLargestResidual(
        g.heightM, g.rows, g.cols, from, to, footprint, cellXM, cellYM, plane[0], plane[1], out);
  }
}

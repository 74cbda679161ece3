package org.scarpway.terrain;

import org.scarpway.terrain.SlopeError.GradientSigma;

/**
 * Computes the derivatives of a strip of ground in two passes over its rows: {@link #plane} for the
 * footprint plane and roughness, then {@link #rest} for everything else. Every array has the shape
 * of the strip; rows within {@link #haloRows} of its north or south edge are valid only where that
 * edge is the edge of the ground. Bands of one strip may be computed by several threads.
 */
final class TerrainRows {
  private final TerrainParams params;
  private final Footprint footprint;
  private final HeightScale scale;
  private final Extrapolation extrapolation;
  private final Breaks breaks;
  private final GradientSigma gradientSigma;
  private final SlopeOverLimit slopeOverLimit;
  private final double cellXM;
  private final double cellYM;

  TerrainRows(
      TerrainParams params,
      Footprint footprint,
      HeightScale scale,
      Extrapolation extrapolation,
      Breaks breaks,
      double cellXM,
      double cellYM) {
    this.params = params;
    this.footprint = footprint;
    this.scale = scale;
    this.extrapolation = extrapolation;
    this.breaks = breaks;
    this.cellXM = cellXM;
    this.cellYM = cellYM;
    this.gradientSigma =
        params.verticalSigmaM() == null
            ? null
            : SlopeError.gradientSigma(
                params.slope(),
                footprint,
                cellXM,
                cellYM,
                params.verticalSigmaM(),
                params.correlationLengthM());
    this.slopeOverLimit =
        gradientSigma == null || params.slopeLimitDeg() == null
            ? null
            : new SlopeOverLimit(
                Math.tan(Math.toRadians(params.slopeLimitDeg())), gradientSigma.mean());
  }

  /** Number of rows north and south of a row that are required for it to have values. */
  static int leastRows(TerrainParams params, Footprint footprint, double cellYM) {
    return Math.max(
        footprint.halfRows(),
        Math.max(
            StepHeight.haloCells(params.wheelSpacingM(), cellYM),
            Convexity.haloCells(params.wheelbaseM(), cellYM)));
  }

  /** Number of halo rows: {@link #leastRows}, or those that breaks use if these are more. */
  static int haloRows(TerrainParams params, Footprint footprint, double cellYM) {
    return Math.max(Breaks.HALO_ROWS, leastRows(params, footprint, cellYM));
  }

  void plane(float[] heightM, int rows, int cols, int fromRow, int toRow, TerrainArrays out) {
    FootprintPlane.fill(
        heightM,
        rows,
        cols,
        fromRow,
        toRow,
        footprint,
        scale,
        cellXM,
        cellYM,
        out.planeEast,
        out.planeNorth,
        out.roughnessM);
    if (extrapolation != null && extrapolation.roughness() != null) {
      multiply(out.roughnessM, cols, fromRow, toRow, extrapolation.roughness().factor());
    }
  }

  /**
   * Computes everything else row by row, so that heights and gradients of a row are still in cache
   * when reused.
   */
  void rest(float[] heightM, int rows, int cols, int fromRow, int toRow, TerrainArrays out) {
    for (int row = fromRow; row < toRow; row++) {
      gradient(heightM, rows, cols, row, out);
      SlopeAspect.fill(
          out.gradEast, out.gradNorth, cols, row, row + 1, out.slopeDeg, out.aspectDeg);
      RileyRuggedness.fill(heightM, rows, cols, row, row + 1, out.ruggednessM);
      StepHeight.fill(
          heightM,
          rows,
          cols,
          row,
          row + 1,
          cellXM,
          cellYM,
          params.wheelSpacingM(),
          out.planeEast,
          out.planeNorth,
          out.stepM);
      Convexity.fill(
          heightM, rows, cols, row, row + 1, cellXM, cellYM, params.wheelbaseM(), out.convexityM);
    }
    breaks.raise(heightM, rows, cols, fromRow, toRow, out.stepM);
    if (out.slopeSigmaDeg != null) {
      SlopeError.fill(
          out.gradEast,
          out.gradNorth,
          cols,
          fromRow,
          toRow,
          gradientSigma,
          out.slopeSigmaDeg,
          out.aspectSigmaDeg);
    }
    if (out.slopeOverLimit01 != null) {
      slopeOverLimit.fill(out.gradEast, out.gradNorth, cols, fromRow, toRow, out.slopeOverLimit01);
    }
  }

  private void gradient(float[] heightM, int rows, int cols, int row, TerrainArrays out) {
    // The footprint plane's gradient is already computed: planeEast is gradEast then.
    Gradients.fill(
        params.slope(),
        heightM,
        rows,
        cols,
        row,
        row + 1,
        cellXM,
        cellYM,
        out.gradEast,
        out.gradNorth);
  }

  private static void multiply(float[] values, int cols, int fromRow, int toRow, double factor) {
    for (int i = fromRow * cols; i < toRow * cols; i++) {
      values[i] = (float) (values[i] * factor);
    }
  }
}

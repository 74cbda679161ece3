package org.scarpway.terrain;

import org.scarpway.grid.GridSpec;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * Baselines (m) over which the layers of a terrain are measured.
 *
 * @param slopeM baseline of the gradient
 * @param roughness footprint of the roughness
 * @param step distance between the heights that a step is computed from
 * @param convexityM chord of the convexity; twice the cell size if it comes from curvature
 * @param breakM distance between neighbouring gradients
 */
public record Lengths(
    double slopeM, Length roughness, Length step, double convexityM, double breakM) {
  /**
   * Largest ratio of the measured baseline to the baseline of a vehicle's limit at which the limit
   * still decides. Roughness and steps grow with length, so up to this ratio the verdict is
   * conservative without closing all ground. Own choice.
   */
  private static final double MEANT_RATIO = 4;

  /**
   * The same ratio for quantities that smoothing reduces (slopes, breaks in slope and crests):
   * close to 1. Own choice.
   */
  private static final double SMOOTHED_RATIO = 1.25;

  private static final double ROUNDING = 1e-9;

  /**
   * Baselines of one layer.
   *
   * @param shortestM shortest baseline over which the cells can measure it, or the vehicle's own
   * @param givenM baseline that its values refer to, measured or by the scaling law
   */
  public record Length(double shortestM, double givenM) {
    /** True if the cells resolve a limit that refers to the given baseline. */
    public boolean shows(double meantM) {
      return within(shortestM, meantM);
    }

    /** True if the cells or the scaling law give the layer at the given baseline. */
    public boolean decides(double meantM) {
      return shows(meantM) || within(givenM, meantM);
    }
  }

  /** True if a baseline is close enough to the one that a limit refers to. */
  public static boolean within(double lengthM, double meantM) {
    return lengthM <= MEANT_RATIO * meantM * (1 + ROUNDING);
  }

  /** Like {@link #within}, for quantities that are smaller over longer baselines. */
  public static boolean atLength(double lengthM, double meantM) {
    return lengthM <= SMOOTHED_RATIO * meantM * (1 + ROUNDING);
  }

  static Lengths of(
      TerrainParams params, Footprint footprint, Extrapolation extrapolation, GridSpec spec) {
    double baselineM = footprint.baselineM(spec.cellXM(), spec.cellYM());
    double shortestM = Footprint.SMALLEST.baselineM(spec.cellXM(), spec.cellYM());
    double cellM = Math.max(spec.cellXM(), spec.cellYM());
    double wheelbaseM = params.wheelbaseM();
    boolean coarse = Convexity.fromCurvature(wheelbaseM, spec.cellXM(), spec.cellYM());
    return new Lengths(
        slopeM(params, footprint, spec),
        new Length(
            Math.min(shortestM, baselineM),
            given(
                baselineM,
                extrapolation == null ? null : extrapolation.roughness(),
                extrapolation)),
        new Length(
            Math.max(cellM, params.wheelSpacingM()),
            given(
                Math.max(cellM, params.wheelSpacingM()),
                extrapolation == null ? null : extrapolation.step(),
                extrapolation)),
        coarse ? 2 * cellM : wheelbaseM,
        cellM);
  }

  static double slopeM(TerrainParams params, Footprint footprint, GridSpec spec) {
    return params.slope() == SlopeMethod.FOOTPRINT_PLANE
        ? footprint.baselineM(spec.cellXM(), spec.cellYM())
        : 2 * spec.cellM();
  }

  private static double given(
      double measuredM, Extrapolation.Scale scale, Extrapolation extrapolation) {
    return scale == null || extrapolation.law() == null ? measuredM : scale.toM();
  }
}

package org.scarpway.terrain;

import org.scarpway.grid.GridSpec;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * Over which lengths (m) the layers of a terrain are measured.
 *
 * @param slopeM baseline of the gradient
 * @param roughness footprint of the roughness
 * @param step between the heights that a step is told from
 * @param convexityM chord of the convexity; twice the cell where it comes from curvature
 * @param breakM between neighbouring gradients
 */
public record Lengths(
    double slopeM, Length roughness, Length step, double convexityM, double breakM) {
  /**
   * How many times the length that a vehicle's limit is meant for may be exceeded and the limit
   * still decide: roughness and steps grow with length, so up to there the verdict errs to the side
   * of caution without shutting all ground. Own choice.
   */
  private static final double MEANT_RATIO = 4;

  /**
   * The same for what smoothing makes smaller, slopes, breaks in slope and crests: about the length
   * itself. Own choice.
   */
  private static final double SMOOTHED_RATIO = 1.25;

  private static final double ROUNDING = 1e-9;

  /**
   * One layer.
   *
   * @param shortestM shortest length that the cells show it over, or the vehicle's own
   * @param givenM length that its values stand for: measured, or by the scaling law
   */
  public record Length(double shortestM, double givenM) {
    /** Whether the cells show what a limit says that is meant for a length. */
    public boolean shows(double meantM) {
      return within(shortestM, meantM);
    }

    /** The same, or the scaling law says. */
    public boolean decides(double meantM) {
      return shows(meantM) || within(givenM, meantM);
    }
  }

  /** Whether a length is near enough to the one that a limit is meant for. */
  public static boolean within(double lengthM, double meantM) {
    return lengthM <= MEANT_RATIO * meantM * (1 + ROUNDING);
  }

  /** The same for what is less over a longer length. */
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

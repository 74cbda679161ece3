package org.scarpway.terrain;

/**
 * Parameters of the terrain derivatives.
 *
 * @param slope gradient method used for slope, aspect and mobility
 * @param baselineM diameter of the footprint disc for roughness and the footprint plane (m)
 * @param wheelSpacingM distance within which a height step counts (m)
 * @param wheelbaseM chord over which convexity is measured (m)
 * @param verticalSigmaM one-sigma error of a height (m); null if unknown, then there are no error
 *     figures
 * @param correlationLengthM distance (m) over which the covariance of that error falls to 1/e, null
 *     for independent cells
 * @param slopeLimitDeg slope whose exceedance probability is requested (degrees), null for none
 */
public record TerrainParams(
    SlopeMethod slope,
    double baselineM,
    double wheelSpacingM,
    double wheelbaseM,
    Double verticalSigmaM,
    Double correlationLengthM,
    Double slopeLimitDeg) {

  /**
   * Checks the values.
   *
   * @throws IllegalArgumentException if a length or an error is not positive and finite, or if the
   *     limit is outside (0, 90) degrees
   */
  public TerrainParams {
    requirePositive("baselineM", baselineM);
    requirePositive("wheelSpacingM", wheelSpacingM);
    requirePositive("wheelbaseM", wheelbaseM);
    if (verticalSigmaM != null) {
      requirePositive("verticalSigmaM", verticalSigmaM);
    }
    if (correlationLengthM != null) {
      requirePositive("correlationLengthM", correlationLengthM);
    }
    if (slopeLimitDeg != null && !(slopeLimitDeg > 0 && slopeLimitDeg < 90)) {
      throw new IllegalArgumentException("slopeLimitDeg must be in (0, 90), got " + slopeLimitDeg);
    }
  }

  /** Creates parameters without error figures. */
  public TerrainParams(
      SlopeMethod slope, double baselineM, double wheelSpacingM, double wheelbaseM) {
    this(slope, baselineM, wheelSpacingM, wheelbaseM, null, null, null);
  }

  private static void requirePositive(String name, double value) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(name + " must be positive and finite, got " + value);
    }
  }

  /** Published gradient methods. */
  public enum SlopeMethod {
    /** Third-order finite difference, Horn 1981. */
    HORN,
    /** Second-order finite difference, Zevenbergen and Thorne 1987. */
    ZEVENBERGEN_THORNE,
    /** Six-parameter least squares over 3 x 3 cells, Evans 1972, Young 1978. */
    EVANS_YOUNG,
    /** Least-squares plane over the footprint disc. */
    FOOTPRINT_PLANE
  }
}

package org.scarpway.terrain;

/**
 * How the ground is measured.
 *
 * @param slope which published estimate of the gradient feeds slope, aspect and mobility
 * @param baselineM diameter of the footprint disc for roughness and the footprint plane
 * @param wheelSpacingM distance within which a height step counts (m)
 * @param wheelbaseM chord over which convexity is measured (m)
 */
public record TerrainParams(
    SlopeMethod slope, double baselineM, double wheelSpacingM, double wheelbaseM) {

  /** The published estimates. */
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

package org.scarpway.vehicle;

/**
 * What a driven rigid wheel can pull: thrust less compaction resistance (N) (Wong 2008, ch. 2, from
 * memory). On a slope the wheel's load is W cos(slope) and the pull must carry W sin(slope).
 */
public final class DrawbarPull {
  private DrawbarPull() {}

  /** Pull (N) of one wheel on the level at a slip. */
  public static double newtons(
      Soil soil,
      double widthM,
      double diameterM,
      double contactLengthM,
      double loadN,
      double slip) {
    double sinkageM = BekkerSinkage.wheelM(soil.bekker(), widthM, diameterM, loadN);
    return JanosiShear.thrustN(soil.shear(), widthM * contactLengthM, contactLengthM, loadN, slip)
        - CompactionResistance.newtons(soil.bekker(), widthM, sinkageM);
  }

  /**
   * Slip at which one wheel of weight share {@code weightN} climbs a slope; infinite where even
   * full slip does not.
   */
  public static double slipOnSlope(
      Soil soil,
      double widthM,
      double diameterM,
      double contactLengthM,
      double weightN,
      double slopeDeg) {
    double loadN = weightN * Math.cos(Math.toRadians(slopeDeg));
    double neededN = weightN * Math.sin(Math.toRadians(slopeDeg));
    if (newtons(soil, widthM, diameterM, contactLengthM, loadN, 1) < neededN) {
      return Double.POSITIVE_INFINITY;
    }
    double low = 0;
    double high = 1;
    for (int i = 0; i < 60; i++) {
      double mid = 0.5 * (low + high);
      if (newtons(soil, widthM, diameterM, contactLengthM, loadN, mid) < neededN) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return high;
  }
}

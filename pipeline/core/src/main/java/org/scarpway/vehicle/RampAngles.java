package org.scarpway.vehicle;

/**
 * Ramp angles (deg) that a vehicle body clears, including the arc of the wheel as in the definition
 * of the approach angle in 49 CFR 523.2 (tangent to the static loaded tyre arc). A wheel of radius
 * 0 gives the simple forms 2 atan(2c / wheelbase) and atan(c / overhang), which are never larger.
 */
public final class RampAngles {
  private RampAngles() {}

  /** Ramp breakover angle (deg), with the belly lowest at mid wheelbase. */
  public static double breakoverDeg(double clearanceM, double wheelbaseM, double radiusM) {
    return 2 * approachDeg(clearanceM, wheelbaseM / 2, radiusM);
  }

  /**
   * Approach or departure angle (deg).
   *
   * @param overhangM distance from the axle to the end of the body (m)
   * @return the angle; 90 where the wheel reaches beyond the body
   */
  public static double approachDeg(double clearanceM, double overhangM, double radiusM) {
    double drop = clearanceM - radiusM;
    double d = Math.sqrt(overhangM * overhangM + drop * drop);
    if (d <= radiusM) {
      return 90;
    }
    return Math.min(90, Math.toDegrees(Math.asin(radiusM / d) + Math.atan2(drop, overhangM)));
  }

  /** Radius (m) of the round crest on which the belly just grounds: (c2 + (wheelbase/2)2) / 2c. */
  public static double crestRadiusM(double clearanceM, double wheelbaseM) {
    return (clearanceM * clearanceM + wheelbaseM * wheelbaseM / 4) / (2 * clearanceM);
  }
}

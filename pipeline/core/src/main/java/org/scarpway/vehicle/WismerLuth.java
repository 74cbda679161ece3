package org.scarpway.vehicle;

/**
 * Thrust and resistance of driven tyres on soil as functions of the wheel numeric Cn = CI b d / W
 * (Wismer &amp; Luth 1974, <i>Off-road traction prediction for wheeled vehicles</i>; the resistance
 * formula is from a secondary text). Forces are divided by the wheel's load. Valid for tyres about
 * 0.3 as wide as their diameter on soil that is not too soft or loose.
 */
public final class WismerLuth {
  private WismerLuth() {}

  /**
   * Wheel numeric; cone index in pascals with the load in newtons, or both in thousands of them.
   */
  public static double numeric(double conePa, double widthM, double diameterM, double loadN) {
    return conePa * widthM * diameterM / loadN;
  }

  public static double resistance(double numeric) {
    return 1.2 / numeric + 0.04;
  }

  /** Thrust at a slip. */
  public static double gross(double numeric, double slip) {
    return -0.75 * Math.expm1(-0.3 * numeric * slip);
  }
}

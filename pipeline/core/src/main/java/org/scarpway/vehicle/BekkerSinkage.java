package org.scarpway.vehicle;

/**
 * Sinkage of a rigid wheel in soil of pressure p = (kc/b + kphi) z^n (Bekker 1969, <i>Introduction
 * to Terrain-Vehicle Systems</i>): z = [3W / ((3 - n)(kc + b kphi) sqrt(D))]^(2/(2n+1)) (Wong 2008,
 * <i>Theory of Ground Vehicles</i>, 4th ed., ch. 2). Meant for small sinkage, z below about D/6; n
 * below 3.
 */
public final class BekkerSinkage {
  private BekkerSinkage() {}

  /** Sinkage (m) of a rigid wheel under a load (N). */
  public static double wheelM(Soil.Bekker soil, double widthM, double diameterM, double loadN) {
    double stiffness = (3 - soil.n()) * (soil.kc() + widthM * soil.kphi()) * Math.sqrt(diameterM);
    return Math.pow(3 * loadN / stiffness, 2 / (2 * soil.n() + 1));
  }

  /** Length (m) of the arc of a rigid wheel that touches the soil: r acos(1 - z/r). */
  public static double contactLengthM(double radiusM, double sinkageM) {
    return radiusM * Math.acos(Math.max(-1, 1 - sinkageM / radiusM));
  }
}

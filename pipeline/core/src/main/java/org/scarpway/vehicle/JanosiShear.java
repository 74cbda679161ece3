package org.scarpway.vehicle;

/**
 * Thrust (N) of a wheel limited by the shear strength of the soil: H = (A c + W tan phi) [1 - (K /
 * s l)(1 - exp(-s l / K))] (Janosi &amp; Hanamoto 1961, <i>Analytical determination of drawbar pull
 * as a function of slip for tracked vehicles in deformable soils</i>, 1st international conference
 * on the mechanics of soil-vehicle systems, Turin), with contact area A, contact length l and slip
 * s.
 */
public final class JanosiShear {
  private JanosiShear() {}

  /** Thrust at full shear (N). */
  public static double fullN(Soil.Shear soil, double areaM2, double loadN) {
    return areaM2 * soil.cohesionPa() + loadN * Math.tan(Math.toRadians(soil.frictionDeg()));
  }

  /** Share of the full thrust at a slip, [0, 1); contact length and shear modulus in metres. */
  public static double share(double slip, double contactLengthM, double shearModulusM) {
    double x = slip * contactLengthM / shearModulusM;
    return x < 1e-5 ? x / 2 : 1 + Math.expm1(-x) / x;
  }
}

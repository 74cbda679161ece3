package org.scarpway.vehicle;

/**
 * Ground under a wheel: Bekker pressure-sinkage (n, kc in N/m^(n+1), kphi in N/m^(n+2)) and
 * Janosi-Hanamoto shear (cohesion in Pa, friction angle in degrees, shear modulus in m), or a
 * rating cone index on Earth. A block that is not given is null.
 *
 * @param walkingFactor terrain factor: energy of walking on this soil divided by that on a firm
 *     even way, for {@link MetabolicEquation#PANDOLF}
 */
public record Soil(
    String name, Bekker bekker, Shear shear, Double ratingConeIndex, Double walkingFactor) {

  public record Bekker(double n, double kc, double kphi) {
    /**
     * True if the pressure under a wheel of this width rises with depth. A negative kc is allowed
     * within this bound.
     */
    public boolean bears(double widthM) {
      return kc + widthM * kphi > 0;
    }
  }

  public record Shear(double cohesionPa, double frictionDeg, double kM) {}

  /** True if the soil defines a motion resistance. */
  public boolean resists() {
    return bekker != null || ratingConeIndex != null;
  }
}

package org.scarpway.vehicle;

/**
 * Ground under a wheel: Bekker pressure-sinkage (n, kc in N/m^(n+1), kphi in N/m^(n+2)) and
 * Janosi-Hanamoto shear (cohesion in Pa, friction angle in degrees, shear modulus in m), or a
 * rating cone index on Earth. A null block is not given.
 *
 * @param walkingFactor what walking on it takes over what it takes on a firm even way, for {@link
 *     MetabolicEquation#PANDOLF}
 */
public record Soil(
    String name, Bekker bekker, Shear shear, Double ratingConeIndex, Double walkingFactor) {
  /** Where nothing is known of walking. */
  public Soil(String name, Bekker bekker, Shear shear, Double ratingConeIndex) {
    this(name, bekker, shear, ratingConeIndex, null);
  }

  public record Bekker(double n, double kc, double kphi) {
    /** Whether pressure under a wheel rises with depth: kc may be negative, not so much as this. */
    public boolean bears(double widthM) {
      return kc + widthM * kphi > 0;
    }
  }

  public record Shear(double cohesionPa, double frictionDeg, double kM) {}

  /** Whether it tells a motion resistance. */
  public boolean resists() {
    return bekker != null || ratingConeIndex != null;
  }
}

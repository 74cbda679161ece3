package org.scarpway.sample;

/**
 * A simple impact crater: parabolic bowl, raised rim, and ejecta whose thickness falls off with the
 * cube of distance (McGetchin et al. 1973). Fresh bowls are 0.196 D^1.01 deep and their rims 0.036
 * D^1.014 high, D in km (Pike 1977); wear reduces both in proportion.
 *
 * @param uM metres east of the south-west corner
 * @param vM metres north of the south-west corner
 * @param freshness 1 fresh, towards 0 worn flat
 */
record Crater(double uM, double vM, double diameterM, double freshness) {
  /** Radius (in crater radii) to which ejecta are computed. */
  static final double EXTENT = 3;

  double radiusM() {
    return diameterM / 2;
  }

  double depthM() {
    return freshness * 1000 * 0.196 * StrictMath.pow(diameterM / 1000, 1.01);
  }

  double rimM() {
    return freshness * 1000 * 0.036 * StrictMath.pow(diameterM / 1000, 1.014);
  }

  /**
   * Returns the height change (m) at a distance in radii from the centre, for depth and rim height
   * as above; depth is measured from the rim.
   */
  static double profileM(double radii, double depthM, double rimM) {
    if (radii >= EXTENT) {
      return 0;
    }
    if (radii <= 1) {
      return rimM - depthM * (1 - radii * radii);
    }
    double fade = (EXTENT - radii) / (EXTENT - 1);
    return rimM * fade / (radii * radii * radii);
  }
}

package org.scarpway.geodata.projection;

/** Position on the sphere from angular distance and direction, for azimuthal projections. */
final class Sphere {
  private Sphere() {}

  /**
   * Snyder 1987, eqs. 20-14 and 20-15, with atan2 instead of asin, which keeps precision near the
   * poles.
   *
   * @param sin0 sine of the latitude of the centre; {@code cos0} is its cosine
   * @param rho length of (east, north)
   * @param c angular distance (rad)
   * @param out longitude from the centre's meridian and latitude (rad)
   */
  static void fromCentre(
      double sin0, double cos0, double east, double north, double rho, double c, double[] out) {
    double sinC = Math.sin(c);
    double cosC = Math.cos(c);
    double e = rho == 0 ? 0 : sinC * east / rho;
    double n = rho == 0 ? 0 : sinC * north / rho;
    double out0 = cosC * cos0 - n * sin0;
    out[0] = Math.atan2(e, out0);
    out[1] = Math.atan2(cosC * sin0 + n * cos0, Math.sqrt(e * e + out0 * out0));
  }
}

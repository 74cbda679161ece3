package org.scarpway.light;

/** Room that a radio link asks for, and what an edge in its way costs. */
public final class RadioPath {
  /** Light (m/s). */
  private static final double LIGHT_MS = 299_792_458;

  private RadioPath() {}

  /**
   * Radius (m) of the first Fresnel zone: sqrt(wavelength d1 d2 / d).
   *
   * @param frequencyMhz frequency (MHz), positive
   * @param fromM distance to one end (m)
   * @param toM distance to the other end (m)
   */
  public static double fresnelM(double frequencyMhz, double fromM, double toM) {
    double wavelengthM = LIGHT_MS / (frequencyMhz * 1e6);
    return StrictMath.sqrt(wavelengthM * fromM * toM / (fromM + toM));
  }

  /**
   * Loss (dB) behind a single sharp edge, by the approximation of Recommendation ITU-R P.526: 6.0
   * at grazing sight, 0 where the edge lies below -0.78.
   *
   * @param v height of the edge above the straight line in Fresnel radii, times the square root of
   *     2
   */
  public static double edgeLossDb(double v) {
    if (v <= -0.78) {
      return 0;
    }
    double w = v - 0.1;
    return 6.9 + 20 * StrictMath.log10(StrictMath.sqrt(w * w + 1) + w);
  }
}

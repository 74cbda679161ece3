package org.scarpway.terrain;

/**
 * Extrapolation of roughness and step from the scale of the cells down to that of the vehicle: an
 * estimate, not a measurement.
 *
 * @param law the fit over the whole ground, null if it could not be fitted (level or very small
 *     ground); values then remain as measured
 * @param roughness scaling of roughness, null if the cells resolve the footprint
 * @param step scaling of steps, null if the cells resolve the wheel spacing
 */
public record Extrapolation(SelfAffine law, Scale roughness, Scale step) {

  /**
   * Scaling from the measured length to the required length (m), and the factor on the value.
   *
   * @param factor factor by the lowest exponent of the law's interval, so that the reduction is too
   *     small in 99 of 100 cases; 1 without a law
   * @param fitted factor by the fitted exponent
   */
  public record Scale(double fromM, double toM, double factor, double fitted) {

    static Scale of(SelfAffine law, double fromM, double toM) {
      if (law == null) {
        return new Scale(fromM, toM, 1, 1);
      }
      double ratio = toM / fromM;
      return new Scale(fromM, toM, Math.pow(ratio, law.hurstLow()), Math.pow(ratio, law.hurst()));
    }
  }
}

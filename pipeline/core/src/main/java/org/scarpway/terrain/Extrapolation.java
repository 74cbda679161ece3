package org.scarpway.terrain;

/**
 * How roughness and step were carried from the scale of the cells down to that of the vehicle: an
 * estimate, not a measurement.
 *
 * @param law the fit over the whole ground, null where it could not be fitted (level or tiny
 *     ground); values are then left as measured
 * @param roughness null where the footprint was resolved
 * @param step null where the wheel spacing was resolved
 */
public record Extrapolation(SelfAffine law, Scale roughness, Scale step) {

  /**
   * From the length that was measured to the length that is meant (m), and the factor on the value.
   *
   * @param factor by the least exponent of the law's interval, so that too little is taken off in
   *     99 of 100 cases; 1 without a law
   * @param fitted by the exponent itself
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

package org.scarpway.terrain;

/**
 * Error of the heights: normal, with the same standard deviation everywhere and covariance sigma2
 * exp(-distance / length) between cells.
 *
 * @param sigmaM standard deviation (m), above 0
 * @param lengthM correlation length (m), 0 for independent errors
 */
public record HeightError(double sigmaM, double lengthM) {

  public HeightError {
    if (!(sigmaM > 0) || !(lengthM >= 0)) {
      throw new IllegalArgumentException(
          "sigma must be positive and length 0 or more, got " + sigmaM + " and " + lengthM);
    }
  }

  /** Returns the error from the parameters, null if unknown. */
  static HeightError of(TerrainParams params) {
    if (params.verticalSigmaM() == null) {
      return null;
    }
    Double length = params.correlationLengthM();
    return new HeightError(params.verticalSigmaM(), length == null ? 0 : length);
  }

  /** Correlation of the errors of two heights at the given distance. */
  static double correlation(double alongM, double acrossM, double lengthM) {
    double distanceM = Math.sqrt(alongM * alongM + acrossM * acrossM);
    if (distanceM == 0) {
      return 1;
    }
    return lengthM == 0 ? 0 : Math.exp(-distanceM / lengthM);
  }
}

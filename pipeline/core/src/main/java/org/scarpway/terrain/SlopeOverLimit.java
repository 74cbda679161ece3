package org.scarpway.terrain;

/**
 * Probability (0 to 1) that the slope exceeds a limit, given the measured gradient and its error:
 * {@link RiceGradient#exceedance} of the magnitude of the gradient, interpolated in a table with an
 * error below 2e-5.
 */
public final class SlopeOverLimit {
  private static final int STEPS = 1024;

  private final double from;
  private final double perGradient;
  private final double[] table = new double[STEPS + 1];

  /**
   * @param limit rise over run
   * @param sigma error of a gradient component, above 0; if the two differ, their root mean square
   */
  public SlopeOverLimit(double limit, double sigma) {
    if (!(limit > 0) || !(sigma > 0)) {
      throw new IllegalArgumentException(
          "limit and sigma must be positive, got " + limit + " and " + sigma);
    }
    from = Math.max(0, limit - RiceGradient.FAR * sigma);
    double span = limit + RiceGradient.FAR * sigma - from;
    perGradient = STEPS / span;
    for (int k = 0; k <= STEPS; k++) {
      table[k] = RiceGradient.exceedance(from + span * k / STEPS, limit, sigma);
    }
  }

  public void fill(
      float[] gradEast,
      float[] gradNorth,
      int cols,
      int fromRow,
      int toRow,
      float[] probability01) {
    for (int i = fromRow * cols; i < toRow * cols; i++) {
      double east = gradEast[i];
      double north = gradNorth[i];
      double at = (Math.sqrt(east * east + north * north) - from) * perGradient;
      if (at >= 0 && at < STEPS) {
        int k = (int) at;
        probability01[i] = (float) (table[k] + (at - k) * (table[k + 1] - table[k]));
      } else {
        probability01[i] = at < 0 ? 0f : at >= STEPS ? 1f : Float.NaN;
      }
    }
  }
}

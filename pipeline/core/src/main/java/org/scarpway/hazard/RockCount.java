package org.scarpway.hazard;

/**
 * What a figure of rock coverage counts, and by which law sizes follow from it.
 *
 * @param aboveM rocks of at least this diameter count; 0 for all
 * @param exponent null for the exponential law of {@link RockModel}; otherwise the number of rocks
 *     of at least a diameter D goes with D to minus this
 */
public record RockCount(double aboveM, Double exponent) {
  /** All rocks, exponential law. */
  public static final RockCount ALL = new RockCount(0, null);

  /** Below this the area of small rocks would have no bound. */
  public static final double LEAST_EXPONENT = 2.05;

  public RockCount {
    if (!(aboveM >= 0) || Double.isInfinite(aboveM)) {
      throw new IllegalArgumentException("aboveM must be 0 or more, got " + aboveM);
    }
    if (exponent != null && !(exponent >= LEAST_EXPONENT && aboveM > 0)) {
      throw new IllegalArgumentException(
          "an exponent must be " + LEAST_EXPONENT + " or more, above a diameter; got " + exponent);
    }
  }

  /** Largest coverage of such rocks that the law was fitted for. */
  public double most() {
    return exponent != null ? RockLaw.MOST_FITTED : RockLaw.fitted(RockLaw.MOST_FITTED, aboveM);
  }
}

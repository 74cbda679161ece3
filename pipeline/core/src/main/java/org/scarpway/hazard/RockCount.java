package org.scarpway.hazard;

/**
 * The rocks included in a coverage figure, and the law of their size distribution.
 *
 * @param aboveM minimum diameter (m) of the rocks included; 0 for all
 * @param exponent null for the exponential law of {@link RockModel}; otherwise the exponent of a
 *     power law, in which the number of rocks of at least a diameter D is proportional to
 *     D^-exponent
 */
public record RockCount(double aboveM, Double exponent) {
  /** All rocks, exponential law. */
  public static final RockCount ALL = new RockCount(0, null);

  /** Smallest exponent: lower ones give an unbounded area of small rocks. */
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

  /** Largest coverage by these rocks for which the law was fitted. */
  public double most() {
    return exponent != null ? RockLaw.MOST_FITTED : RockLaw.fitted(RockLaw.MOST_FITTED, aboveM);
  }
}

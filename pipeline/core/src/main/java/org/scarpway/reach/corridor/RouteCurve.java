package org.scarpway.reach.corridor;

/**
 * Classes of curve radius in route reconnaissance (STANAG 2253 as taught in Engineer subcourse
 * EN5622): a radius up to 25 m is an obstruction, one of 25.1 to 45 m is reported. Radii are
 * therefore compared to the decimetre.
 */
public enum RouteCurve {
  /** Radius up to 25 m. */
  OBSTRUCTION(25, "obstruction"),
  /** Radius from 25.1 m to 45 m. */
  REPORTED(45, "to be reported"),
  /** Radius above 45 m. */
  OPEN(Double.POSITIVE_INFINITY, "none to report");

  private final double mostM;
  private final String label;

  RouteCurve(double mostM, String label) {
    this.mostM = mostM;
    this.label = label;
  }

  /** Words that users see. */
  public String label() {
    return label;
  }

  /** Smallest radius of the next wider class (m). */
  double beyondM() {
    return mostM + 0.1;
  }

  /**
   * Returns the class of a radius.
   *
   * @param radiusM curve radius (m); 0 for a turn on the spot, infinite for a straight line
   */
  public static RouteCurve of(double radiusM) {
    double m = Math.rint(10 * radiusM) / 10;
    return m <= OBSTRUCTION.mostM ? OBSTRUCTION : m <= REPORTED.mostM ? REPORTED : OPEN;
  }
}

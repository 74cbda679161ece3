package org.scarpway.reach.corridor;

/**
 * How tight a curve is, by the classes of route reconnaissance (STANAG 2253 as taught in Engineer
 * subcourse EN5622): a radius up to 25 m is an obstruction, one of 25.1 to 45 m is reported. So
 * radii count to a decimetre.
 */
public enum RouteCurve {
  OBSTRUCTION(25, "obstruction"),
  REPORTED(45, "to be reported"),
  OPEN(Double.POSITIVE_INFINITY, "none to report");

  private final double mostM;
  private final String label;

  RouteCurve(double mostM, String label) {
    this.mostM = mostM;
    this.label = label;
  }

  public String label() {
    return label;
  }

  /** Least radius that is of a wider class (m). */
  double beyondM() {
    return mostM + 0.1;
  }

  /**
   * @param radiusM 0 where the vehicle turns on the spot, infinite where it does not turn
   */
  public static RouteCurve of(double radiusM) {
    double m = Math.rint(10 * radiusM) / 10;
    return m <= OBSTRUCTION.mostM ? OBSTRUCTION : m <= REPORTED.mostM ? REPORTED : OPEN;
  }
}

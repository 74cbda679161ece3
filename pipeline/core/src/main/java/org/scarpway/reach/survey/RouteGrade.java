package org.scarpway.reach.survey;

/**
 * Classes of grade in route reconnaissance (STANAG 2253 as taught in Engineer subcourse EN5622):
 * the grade in percent is rounded up; from 5 % it must be recorded, from 7 % it is an obstruction.
 */
public enum RouteGrade {
  /** Need not be recorded. */
  BELOW_5(0, "below 5 %"),
  /** Must be recorded. */
  FROM_5(5, "5 to below 7 %"),
  /** An obstruction. */
  FROM_7(7, "7 to below 10 %"),
  /** An obstruction. */
  FROM_10(10, "10 to below 14 %"),
  /** An obstruction. */
  FROM_14(14, "14 % or more");

  /**
   * Tolerance, so that float storage of a gradient does not raise a whole percentage to the next
   * one.
   */
  private static final double WHOLE_PCT = 1e-3;

  private final int fromPct;
  private final String label;

  RouteGrade(int fromPct, String label) {
    this.fromPct = fromPct;
    this.label = label;
  }

  /** Smallest percentage (rounded up) of the class. */
  public int fromPct() {
    return fromPct;
  }

  /** Words that users see. */
  public String label() {
    return label;
  }

  /** True if the class is an obstruction: 7 % or more. */
  public boolean obstructs() {
    return fromPct >= FROM_7.fromPct;
  }

  /** Absolute grade in percent, rounded up, from rise over run (up or down). */
  public static int pct(double grade) {
    return (int) Math.ceil(Math.abs(100 * grade) - WHOLE_PCT);
  }

  /**
   * Returns the class of a percentage.
   *
   * @param pct absolute grade (%), rounded up
   */
  public static RouteGrade of(int pct) {
    RouteGrade found = BELOW_5;
    for (RouteGrade g : values()) {
      found = pct >= g.fromPct ? g : found;
    }
    return found;
  }
}

package org.scarpway.reach.question;

/**
 * One line of the summary table, such as reachable area, 12.3, km2.
 *
 * @param name words for the figure
 * @param value amount in {@code unit}, NaN if it is not known
 * @param unit unit of the value, such as km2
 */
public record ReachFigure(String name, double value, String unit) {
  /** Longest walk home from any surely reached cell (h), by the rule walk-back. */
  public static final String LONGEST_WALK = "longest time of a walk home";

  static final String SURELY = "surely reachable area";
  static final String POSSIBLY = "possibly reachable area, undecided";

  /** True if this figure is the surely or the possibly reached area. */
  public boolean tellsReachedArea() {
    return name.equals(SURELY) || name.equals(POSSIBLY);
  }
}

package org.scarpway.reach.question;

import java.util.List;

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

  /** Length of the longest walk home from any surely reached cell (km), by the rule walk-back. */
  public static final String FARTHEST_WALK = "longest walk home";

  /** Narrowest passage on the widest way home of any surely reached cell (m). */
  static final String NARROWEST = "narrowest passage that reach depends on";

  private static final String EAST = "east coordinate of the one nearest to the base";
  private static final String NORTH = "north coordinate of the one nearest to the base";

  static final String SURELY = "surely reachable area";
  static final String POSSIBLY = "possibly reachable area, undecided";

  /** True if this figure is the surely or the possibly reached area. */
  public boolean tellsReachedArea() {
    return name.equals(SURELY) || name.equals(POSSIBLY);
  }

  /** The place of the narrowest passage: east and north coordinate (m). */
  static List<ReachFigure> narrowestAt(double xM, double yM) {
    return List.of(new ReachFigure(EAST, xM, "m"), new ReachFigure(NORTH, yM, "m"));
  }

  /** True for a coordinate, which is not rounded to significant digits. */
  public boolean tellsCoordinate() {
    return name.equals(EAST) || name.equals(NORTH);
  }
}

package org.scarpway.run.unit;

import java.util.Collection;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.ShownMobility;
import org.scarpway.vehicle.Unresolved;

/**
 * Limits of some vehicles that the cells do not resolve. They apply equally to all ground that a
 * vehicle may enter, so everything that it reaches relies on the other limits alone.
 */
final class NotShown {
  private NotShown() {}

  /**
   * Returns names in the order of the limits' codes, for a cell of a table; empty if all are
   * resolved.
   */
  static String limits(Collection<ShownMobility> vehicles) {
    return names(vehicles.stream().map(ShownMobility::unresolved).toList());
  }

  /**
   * @param unresolved of each vehicle, null if the cells resolve all of its limits
   */
  static String names(List<Unresolved> unresolved) {
    TreeSet<Limit> limits = new TreeSet<>();
    for (Unresolved u : unresolved) {
      if (u != null) {
        limits.addAll(u.limits());
      }
    }
    return limits.stream().map(Limit::label).collect(Collectors.joining("; "));
  }
}

package org.scarpway.run.unit;

import java.util.Collection;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.Mobility;

/**
 * Limits that the cells do not show, of some vehicles. They are the same on all ground that a
 * vehicle may enter, so all that it reaches rests on what the other limits say.
 */
final class NotShown {
  private NotShown() {}

  /** Names in the order of the limits' codes, for a cell of a table; empty where all are shown. */
  static String limits(Collection<Mobility> vehicles) {
    TreeSet<Limit> limits = new TreeSet<>();
    for (Mobility m : vehicles) {
      if (m.unresolved() != null) {
        limits.addAll(m.unresolved().limits());
      }
    }
    return limits.stream().map(Limit::label).collect(Collectors.joining("; "));
  }
}

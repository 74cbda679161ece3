package org.scarpway.vehicle;

import java.util.List;

/**
 * What the cells do not show of a vehicle's limits.
 *
 * @param limits not shown
 * @param sharePct of the ground with a verdict that no other limit closes
 * @param usedPct of that ground, where such a limit is the tightest and more than half used
 * @param text the same for a reader, with lengths
 */
public record Unresolved(List<Limit> limits, double sharePct, double usedPct, String text) {
  public Unresolved {
    limits = List.copyOf(limits);
  }
}

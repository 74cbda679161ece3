package org.scarpway.vehicle;

import java.util.List;

/**
 * The limits of a vehicle that the cells do not resolve.
 *
 * @param limits limits that are not resolved
 * @param sharePct share (%) of the ground with a verdict that no other limit closes
 * @param usedPct share (%) of that ground on which an unresolved limit is the tightest and more
 *     than half used
 * @param text the same as readable text, with baselines
 */
public record Unresolved(List<Limit> limits, double sharePct, double usedPct, String text) {
  public Unresolved {
    limits = List.copyOf(limits);
  }
}

package org.scarpway.vehicle;

/** Treatment of open ground on which the cells do not resolve a limit of the vehicle. */
public enum UnresolvedRule {
  /** The other limits decide, and the result reports how much ground is affected. */
  SAY,
  /** The ground is slow at best, at crawl speed. */
  SLOW,
  /** The ground is no-go. */
  NO_GO
}

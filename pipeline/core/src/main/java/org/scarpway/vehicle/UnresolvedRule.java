package org.scarpway.vehicle;

/** What becomes of open ground on which the cells do not show what a limit of the vehicle says. */
public enum UnresolvedRule {
  /** The other limits decide, and the answer says how much ground that is. */
  SAY,
  /** It is slow at best, at crawl speed. */
  SLOW,
  /** It is no-go. */
  NO_GO
}

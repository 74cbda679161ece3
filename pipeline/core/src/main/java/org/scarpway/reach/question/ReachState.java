package org.scarpway.reach.question;

/**
 * Codes of the reach state of a cell; 0 means not reachable within every budget and the home rule.
 */
public final class ReachState {
  /** A trip within every budget and the home rule is known. */
  public static final byte SURELY = 1;

  /** Each limit alone can be met; whether one trip meets all of them is undecided. */
  public static final byte POSSIBLY = 2;

  private ReachState() {}
}

package org.scarpway.reach.question;

/**
 * Codes of the reach state of a cell; 0 means not reachable within every budget and the home rule.
 */
public final class ReachState {
  public static final byte SURELY = 1;

  public static final byte POSSIBLY = 2;

  private ReachState() {}
}

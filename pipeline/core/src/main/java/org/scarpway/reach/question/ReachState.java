package org.scarpway.reach.question;

/** What is said of a cell; 0 where it is not reachable within every budget and the home rule. */
public final class ReachState {
  public static final byte SURELY = 1;

  public static final byte POSSIBLY = 2;

  private ReachState() {}
}

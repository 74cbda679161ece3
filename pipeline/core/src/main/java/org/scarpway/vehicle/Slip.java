package org.scarpway.vehicle;

/** Slip of wheels: the share of the distance rolled by which the vehicle falls behind. */
public final class Slip {
  /** Largest slip that counts as driving. */
  public static final double USABLE = 0.6;

  private Slip() {}
}

package org.scarpway.reach.question;

/** The limit or rule that ends the reach at a cell. */
public enum ReachEnd {
  /** The ground is no-go or its class is not known. */
  NO_GO(1, "no-go ground or no verdict"),
  /** The ground is driveable, but no way leads there from the base. */
  CUT_OFF(2, "no way from the base"),
  /** The time budget, less its reserve. */
  TIME(3, "time budget"),
  /** The energy budget, less its reserve. */
  ENERGY(4, "energy budget"),
  /** The distance budget, less its reserve. */
  DISTANCE(5, "distance budget"),
  /** A way leads there, but none leads home. */
  NO_WAY_HOME(6, "no way home"),
  /** The crew could not walk home from there or from a place on the way. */
  WALK_BACK(7, "beyond walk-back"),
  /** No other vehicle could bring the crew home from there or from a place on the way. */
  RESCUE(8, "beyond rescue"),
  /** Life support or the endurance of the suits, less the reserve. */
  LIFE_SUPPORT(9, "life support"),
  /** No ground on foot joins the place to the base or a refuge, however far the crew may walk. */
  NO_WAY_ON_FOOT(10, "no way home on foot");

  private final int code;
  private final String label;

  ReachEnd(int code, String label) {
    this.code = code;
    this.label = label;
  }

  /** Code in {@link ReachResult#binding}, 1 to 10. */
  public byte code() {
    return (byte) code;
  }

  /** Words that users see. */
  public String label() {
    return label;
  }
}

package org.scarpway.reach.question;

/** The limit or rule that ends the reach at a cell. */
public enum ReachEnd {
  NO_GO(1, "no-go ground or no verdict"),
  CUT_OFF(2, "no way from the base"),
  TIME(3, "time budget"),
  ENERGY(4, "energy budget"),
  DISTANCE(5, "distance budget"),
  NO_WAY_HOME(6, "no way home"),
  WALK_BACK(7, "beyond walk-back"),
  RESCUE(8, "beyond rescue"),
  LIFE_SUPPORT(9, "life support");

  private final int code;
  private final String label;

  ReachEnd(int code, String label) {
    this.code = code;
    this.label = label;
  }

  public byte code() {
    return (byte) code;
  }

  public String label() {
    return label;
  }
}

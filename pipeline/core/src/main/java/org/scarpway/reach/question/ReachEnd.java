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
  /** The crew could walk home from there, but every way there crosses ground without a walk. */
  WALK_BACK(7, "no way out that always leaves a walk home"),
  /**
   * The crew could be brought home from there, but every way there crosses ground where it could
   * not.
   */
  RESCUE(8, "no way out that always leaves a rescue"),
  /** Life support or the endurance of the suits, less the reserve. */
  LIFE_SUPPORT(9, "life support"),
  /** No ground on foot joins the place to the base or a refuge, however far the crew may walk. */
  NO_WAY_ON_FOOT(10, "no way home on foot"),
  /** The longest walk that a walker or question allows. */
  WALK_LENGTH(11, "walk home longer than max_walk_km"),
  /** The endurance of the suits, less the walker's reserve. */
  WALK_TIME(12, "walk home takes longer than the walker's endurance"),
  /** Metabolic energy or time above the sustainable rate on the walk. */
  WALK_EFFORT(13, "walk home too strenuous for the walker"),
  /** A crew that stops there or on the way is brought home after the time budget. */
  RESCUE_TIME(14, "rescue takes longer than the time budget"),
  /** A crew that stops there or on the way is brought home after its life support ends. */
  RESCUE_LIFE_SUPPORT(15, "rescue takes longer than life support lasts"),
  /** The life support of the vehicle that comes from the base, for two crews from loading on. */
  RESCUER_LIFE_SUPPORT(16, "life support of the rescuer"),
  /** The energy of the vehicle that comes from the base. */
  RESCUER_ENERGY(17, "energy of the rescuer"),
  /** The distance budget of the vehicle that comes from the base. */
  RESCUER_DISTANCE(18, "distance budget of the rescuer"),
  /** No vehicle comes there from the base and, with everybody aboard, home. */
  NO_RESCUER(19, "no way of a rescuer there and home");

  private final int code;
  private final String label;

  ReachEnd(int code, String label) {
    this.code = code;
    this.label = label;
  }

  /** Code in {@link ReachResult#binding}, 1 to 19. */
  public byte code() {
    return (byte) code;
  }

  /** The end of a code, null for 0. */
  public static ReachEnd of(byte code) {
    return code == 0 ? null : values()[code - 1];
  }

  /** Words that users see. */
  public String label() {
    return label;
  }
}

package org.scarpway.vehicle;

/** Causes that make open ground slow; several may apply at once. */
public enum SlowCause {
  HEADINGS("some headings closed"),
  SLOPE("slope"),
  STEP("step height"),
  ROUGHNESS("roughness"),
  ROCKS("rocks"),
  SLIP("wheel slip"),
  SINKAGE("wheel sinkage"),
  SPEED_LOSS("loss of speed"),
  SIGHT("loss of speed to stop within sight"),
  PASSES("bears few passes only"),
  UNRESOLVED("limits not resolved by the cells");

  /** Number of sets of causes, with one bit per cause. */
  static final int SETS = 1 << values().length;

  private final String label;

  SlowCause(String label) {
    this.label = label;
  }

  public String label() {
    return label;
  }

  int bit() {
    return 1 << ordinal();
  }

  /** Returns the set, with this cause added if it holds. */
  int in(int set, boolean holds) {
    return holds ? set | bit() : set;
  }
}

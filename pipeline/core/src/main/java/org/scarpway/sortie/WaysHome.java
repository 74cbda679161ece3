package org.scarpway.sortie;

/**
 * What coming home after a failure takes from a stop, or from the worst place of a piece of a leg.
 * Each figure may be that of another place of the piece. Infinite: there is no way.
 *
 * @param driveS pair, base-rescue: driving time of the loaded vehicle to the base (s)
 * @param driveJ pair: energy of that drive (J)
 * @param driveOffJ pair: largest deviation of the energy drawn along that drive from an even draw
 *     (J), 0 or more
 * @param rescueOutS base-rescue: driving time of the rescuers from the base (s); infinite where
 *     their battery does not last out and home
 * @param walkS walk-back: walk to a refuge (s); infinite beyond the endurance on foot
 */
public record WaysHome(
    double driveS, double driveJ, double driveOffJ, double rescueOutS, double walkS) {
  /** At the base, and where no rule asks. */
  public static final WaysHome AT_HOME = new WaysHome(0, 0, 0, 0, 0);

  /** For each figure the worse of both. */
  public WaysHome worse(WaysHome other) {
    return new WaysHome(
        Math.max(driveS, other.driveS),
        Math.max(driveJ, other.driveJ),
        Math.max(driveOffJ, other.driveOffJ),
        Math.max(rescueOutS, other.rescueOutS),
        Math.max(walkS, other.walkS));
  }
}

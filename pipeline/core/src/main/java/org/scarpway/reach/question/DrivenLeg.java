package org.scarpway.reach.question;

import java.util.List;

/**
 * One way between two places of a sortie as it is driven, in pieces in the order of travel.
 *
 * @param distanceM surface length (m)
 * @param pieces at least one
 */
public record DrivenLeg(double distanceM, List<Piece> pieces) {
  /** Copies the list. */
  public DrivenLeg {
    pieces = List.copyOf(pieces);
  }

  /**
   * A part of the way.
   *
   * @param timeS driving time (s)
   * @param energyJ energy from the battery (J); 0 without an energy model
   * @param leastJ least energy drawn from its start to any place of it (J), 0 or less
   * @param mostJ most energy drawn from its start to any place of it (J), 0 or more
   * @param home what coming home takes from the worst place of it
   */
  public record Piece(double timeS, double energyJ, double leastJ, double mostJ, FromHere home) {}

  /**
   * What coming home takes from a place if the vehicle stops there, by the home rule; 0 where the
   * rule does not ask, infinite where there is no way.
   *
   * @param rideS driving time home of the vehicle that takes everybody aboard (s)
   * @param rideJ energy of that drive (J)
   * @param rideOffJ upper bound on the deviation of the energy drawn along that drive from an even
   *     draw (J)
   * @param rescueOutS driving time of the rescuers from the base (s); infinite where their battery
   *     does not last out and home
   * @param walkS time of the walk to a refuge (s)
   */
  public record FromHere(
      double rideS, double rideJ, double rideOffJ, double rescueOutS, double walkS) {
    /** Where the rule asks for nothing. */
    public static final FromHere AT_HOME = new FromHere(0, 0, 0, 0, 0);

    /**
     * For each figure the worse of both.
     *
     * @param other figures of another place
     */
    public FromHere worse(FromHere other) {
      return new FromHere(
          Math.max(rideS, other.rideS),
          Math.max(rideJ, other.rideJ),
          Math.max(rideOffJ, other.rideOffJ),
          Math.max(rescueOutS, other.rescueOutS),
          Math.max(walkS, other.walkS));
    }
  }

  /** Driving time (s). */
  public double timeS() {
    return pieces.stream().mapToDouble(Piece::timeS).sum();
  }

  /** Energy from the battery from start to end (J). */
  public double energyJ() {
    return pieces.stream().mapToDouble(Piece::energyJ).sum();
  }
}

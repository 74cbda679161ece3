package org.scarpway.sortie;

/**
 * A piece of a leg between two places. Every rule is held at the worst place of each, so short
 * pieces (a quarter of an hour) are closer to the ground than long ones.
 *
 * <p>Energy is counted as if the piece were entered with a full battery: what a descent charges
 * covers what was drawn before in the same piece, and no more. That is cautious, and makes leaving
 * earlier never worse.
 *
 * @param timeS driving time (s), 0 or more
 * @param energyJ energy drawn at its end (J), the load of the vehicle while driving included, 0 or
 *     more
 * @param peakJ most energy drawn at any place of it (J), at least {@code energyJ}. Where it equals
 *     {@code energyJ} the draw is taken as even, and a night may fall anywhere in the piece;
 *     elsewhere nights fall at ends of pieces, and the piece must fit into a day
 * @param camp whether a night may be spent there; asked with nights at camps only
 * @param ways what coming home takes from the worst place of it
 */
public record Piece(double timeS, double energyJ, double peakJ, boolean camp, WaysHome ways) {
  /**
   * Checks the amounts.
   *
   * @throws IllegalArgumentException if one is negative, the peak is below the end, or energy is
   *     drawn in no time
   */
  public Piece {
    if (!(timeS >= 0 && energyJ >= 0 && peakJ >= energyJ && (timeS > 0 || energyJ == 0))) {
      throw new IllegalArgumentException("amounts of a piece: " + timeS + " s, " + energyJ + " J");
    }
  }

  /** A piece of even draw without camps, for rules that do not ask for ways home. */
  public static Piece even(double timeS, double energyJ) {
    return new Piece(timeS, energyJ, energyJ, false, WaysHome.AT_HOME);
  }

  /**
   * A piece by the energy drawn along it.
   *
   * @param timeS driving time (s)
   * @param endJ energy drawn from its start to its end (J), negative if driving it charges
   * @param leastJ least energy drawn from its start to any place (J), 0 or less
   * @param mostJ most energy drawn from its start to any place (J), 0 or more
   * @param camp whether a night may be spent there
   * @param ways what coming home takes from the worst place of it
   */
  public static Piece along(
      double timeS, double endJ, double leastJ, double mostJ, boolean camp, WaysHome ways) {
    double lostJ = Math.max(0, -Math.min(leastJ, endJ));
    double drawnJ = Math.max(0, endJ + lostJ);
    return new Piece(timeS, drawnJ, Math.max(drawnJ, mostJ + lostJ), camp, ways);
  }

  /** Whether the draw is taken as even. */
  public boolean isEven() {
    return peakJ <= energyJ;
  }
}

package org.scarpway.sortie;

import java.util.List;

/** One way from a place to another, in pieces in the order of driving. */
public final class Leg {
  private final List<Piece> pieces;
  private final double timeS;
  private final double energyJ;
  private final double peakJ;

  /**
   * A way of the given pieces.
   *
   * @param pieces at least one
   * @throws IllegalArgumentException if there is none
   */
  public Leg(List<Piece> pieces) {
    this.pieces = List.copyOf(pieces);
    double s = 0;
    double j = 0;
    double peak = 0;
    for (Piece p : this.pieces) {
      peak = Math.max(peak, j + p.peakJ());
      s += p.timeS();
      j += p.energyJ();
    }
    if (this.pieces.isEmpty()) {
      throw new IllegalArgumentException("a leg without pieces");
    }
    this.timeS = s;
    this.energyJ = j;
    this.peakJ = peak;
  }

  /** A way of one piece with an even draw. */
  public static Leg even(double timeS, double energyJ) {
    return new Leg(List.of(Piece.even(timeS, energyJ)));
  }

  /** The pieces in the order of driving. */
  public List<Piece> pieces() {
    return pieces;
  }

  /** Driving time (s). */
  public double timeS() {
    return timeS;
  }

  /** Energy drawn from start to end (J). */
  public double energyJ() {
    return energyJ;
  }

  /** Most energy drawn from the start to any place of it (J), 0 or more. */
  public double peakJ() {
    return peakJ;
  }
}

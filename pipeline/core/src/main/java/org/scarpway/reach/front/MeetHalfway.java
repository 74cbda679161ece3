package org.scarpway.reach.front;

/**
 * A front goes on only where it and the front the other way together cost no more than a trip may.
 * Nothing is lost by that: from a cell on such a trip, the way so far and the way on from there
 * cost no more than the trip. Both may go half of it each first, then on where the other has come.
 */
public final class MeetHalfway implements ExpansionBound {
  private final CostTiles other;
  private final double known;
  private final double most;

  /**
   * @param other the front the other way
   * @param known its labels up to this are final
   * @param most out and home together
   */
  public MeetHalfway(CostTiles other, double known, double most) {
    this.other = other;
    this.known = known;
    this.most = most;
  }

  @Override
  public void read(int tile, double[] into, int at, int stride) {
    other.read(tile, TileGround.SEEN, into, at, stride);
    for (int i = 0; i < into.length; i++) {
      into[i] = most - Math.min(into[i], known);
    }
  }
}

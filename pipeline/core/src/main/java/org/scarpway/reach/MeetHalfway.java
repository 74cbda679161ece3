package org.scarpway.reach;

/**
 * A front beyond half of what out and home may cost together goes on only where the front the other
 * way has come with its half, and no further than both together may cost. Nothing is lost by that:
 * from a cell on a trip that is allowed, the way so far and the way home from there cost no more
 * than the trip.
 */
final class MeetHalfway implements Allowance {
  private final LabelTiles other;
  private final double most;

  /**
   * @param other the front the other way; its labels up to half of {@code most} are final
   * @param most out and home together
   */
  MeetHalfway(LabelTiles other, double most) {
    this.other = other;
    this.most = most;
  }

  @Override
  public void read(int tile, double[] into, int at, int stride) {
    double half = 0.5 * most;
    other.read(tile, TileGround.SEEN, into, at, stride);
    for (int i = 0; i < into.length; i++) {
      into[i] = into[i] <= half ? most - into[i] : half;
    }
  }
}

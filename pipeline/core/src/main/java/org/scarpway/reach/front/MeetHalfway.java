package org.scarpway.reach.front;

/**
 * The bound of a bidirectional search: a cell is expanded only if its label plus the label of the
 * opposite front does not exceed the limit of a trip. No trip is lost: for any cell on a trip
 * within the limit, the least costs of the two parts do not exceed those of the trip. Each front
 * may first cover half of the limit, then continue only in cells that the other has reached.
 */
public final class MeetHalfway implements ExpansionBound {
  private final CostTiles other;
  private final double known;
  private final double most;

  /**
   * @param other labels of the opposite front
   * @param known cost up to which those labels are final
   * @param most limit for out and home together
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

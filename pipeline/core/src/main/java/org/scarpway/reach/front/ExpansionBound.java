package org.scarpway.reach.front;

/** From which cells a front goes on: those with labels up to an amount of their own. */
public interface ExpansionBound {
  /**
   * Amounts of a tile's cells and of a margin of {@link TileGround#SEEN} cells around; they must
   * not change while the front is under way. What lies beyond the grid is left as it is.
   *
   * @param at place of the tile's first cell in {@code into}
   */
  void read(int tile, double[] into, int at, int stride);
}

package org.scarpway.reach.front;

/**
 * Limits a wavefront: a cell is expanded only if its label does not exceed that cell's own bound.
 */
public interface ExpansionBound {
  /**
   * Reads the bounds of a tile's cells and of a halo of {@link TileGround#SEEN} cells around it;
   * they must not change while the front runs. Elements beyond the grid are not changed.
   *
   * @param at index of the tile's first cell in {@code into}
   */
  void read(int tile, double[] into, int at, int stride);
}

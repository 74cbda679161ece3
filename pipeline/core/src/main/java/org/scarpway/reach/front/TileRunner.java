package org.scarpway.reach.front;

/** Advances labels inside one tile at a time; the scratch of one thread. */
interface TileRunner {
  /**
   * Advances a tile.
   *
   * @param from no label that matters has changed in the tile or its margin below this
   * @return cells worked on
   */
  long run(int tile, double from);

  /** Least label that the last run has changed, and the tile beside must know of; else infinite. */
  double changed(int dRow, int dCol);

  /** Least label that the last run has left waiting, infinite if there is none. */
  double left();
}

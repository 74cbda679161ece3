package org.scarpway.reach.front;

/** Updates labels inside one tile at a time; working memory of one thread. */
interface TileRunner {
  /**
   * Runs a tile.
   *
   * @param from least label to process in the tile and its halo; nothing below it has changed
   * @return number of cells processed
   */
  long run(int tile, double from);

  /**
   * Least changed label of the last run that a neighbouring tile must be notified of, infinite for
   * none.
   */
  double changed(int dRow, int dCol);

  /** Least label that the last run left queued, infinite for none. */
  double left();
}

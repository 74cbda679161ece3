package org.scarpway.reach;

import java.util.concurrent.atomic.AtomicIntegerArray;
import org.scarpway.grid.FloatGrid;
import org.scarpway.stage.Progress;
import org.scarpway.stage.ScratchFile;

/**
 * Least cost over steps between the centres of neighbouring cells, on ground that costs the same on
 * every heading: a step costs its length times the mean of both cells. The plain answer on the
 * graph of 8 neighbours, with its well-known heading error (up to 8.24 %) and its squeezing between
 * barriers that touch at a corner: the yardstick that other programs share, not what reach is
 * computed from. The answer does not depend on threads or tiles, to the last bit.
 */
public final class NeighbourSpread {
  private static final int SIDE = 128;

  private final FloatGrid costPerM;
  private final LabelTiles labels;
  private final TileSpread spread;

  /** Tiles with a source that have not been run yet. */
  private final AtomicIntegerArray fresh;

  /**
   * @param costPerM 0 or more; infinite or NaN where there is no way
   * @param source cell index where the cost is 0
   */
  public NeighbourSpread(FloatGrid costPerM, int source) {
    this(costPerM, SIDE, new int[] {source});
  }

  NeighbourSpread(FloatGrid costPerM, int side, int[] sources) {
    this.costPerM = costPerM;
    Tiling tiling = Tiling.of(costPerM.spec(), side);
    this.labels =
        new LabelTiles(
            tiling, ScratchFile.beyondHeap((long) LabelTiles.BYTES * costPerM.spec().cells()));
    this.fresh = new AtomicIntegerArray(tiling.tiles());
    TileQueue queue =
        new TileQueue(tiling.tiles(), costPerM.spec().cellM(), Double.POSITIVE_INFINITY);
    this.spread = new TileSpread(tiling, queue);
    for (int s : sources) {
      labels.set(s, 0, Labels.STRAIGHT);
      fresh.set(tiling.tileOf(s), 1);
      queue.wake(tiling.tileOf(s), 0);
    }
  }

  /** Works until every cell has its cost; any number of threads may. */
  public void help(Progress progress) {
    spread.help(() -> new NeighbourSweeps(costPerM, labels, fresh), progress);
  }

  /** Cost of a cell, infinite where there is no way. */
  public double cost(int cell) {
    return labels.value(cell);
  }
}

package org.scarpway.reach.front;

import java.util.concurrent.atomic.AtomicIntegerArray;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.trip.AreaScreen;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Memory;
import org.scarpway.stage.Progress;

/**
 * Computes the least cost over steps between the centres of neighbouring cells, with costs that do
 * not depend on the heading: a step costs its length times the mean of both cells. This is the
 * shortest path on the graph of 8 neighbours, with its well-known heading error (up to 8.24 %) and
 * its paths between barriers that touch at a corner. It is fast enough to screen many places
 * ({@link AreaScreen}) and is not used for reach. The result does not depend on threads or tiles,
 * to the last bit.
 */
public final class NeighbourSpread {
  private static final int SIDE = 128;

  private final GridSpec spec;
  private final Floats costPerM;
  private final CostTiles labels;
  private final TileSpread spread;

  /** Tiles that contain a source and have not been run yet. */
  private final AtomicIntegerArray fresh;

  /**
   * @param costPerM cost per metre, 0 or more; infinite or NaN for barriers
   * @param budget largest cost that must be found
   * @param source cell index where the cost is 0
   */
  public NeighbourSpread(Memory memory, GridSpec spec, Floats costPerM, double budget, int source) {
    this(memory, spec, costPerM, budget, SIDE, new int[] {source});
  }

  public NeighbourSpread(
      Memory memory, GridSpec spec, Floats costPerM, double budget, int side, int[] sources) {
    this.spec = spec;
    this.costPerM = costPerM;
    Tiling tiling = Tiling.of(spec, side);
    this.labels = new CostTiles(tiling, memory.scratch((long) CostTiles.BYTES * spec.cells()));
    this.fresh = new AtomicIntegerArray(tiling.tiles());
    TileQueue queue = new TileQueue(tiling.tiles(), spec.cellM(), budget);
    this.spread = new TileSpread(tiling, queue);
    for (int s : sources) {
      labels.set(s, 0, Stencil.STRAIGHT);
      fresh.set(tiling.tileOf(s), 1);
      queue.wake(tiling.tileOf(s), 0);
    }
  }

  /** Runs until every cell within the budget has its cost; any number of threads may call it. */
  public void work(Progress progress) {
    spread.work(() -> new NeighbourSweeps(spec, costPerM, labels, fresh), progress);
  }

  /** Cost of a cell, infinite where there is no path. */
  double cost(int cell) {
    return labels.value(cell);
  }

  /** Number of cells with a cost up to the given one, which must be within the budget. */
  public long within(double cost) {
    Tiling tiling = labels.tiling();
    int side = tiling.side();
    double[] value = new double[side * side];
    long cells = 0;
    for (int tile = 0; tile < tiling.tiles(); tile++) {
      labels.read(tile, 0, value, 0, side);
      for (int r = 0; r < tiling.high(tile); r++) {
        for (int c = 0; c < tiling.broad(tile); c++) {
          cells += value[r * side + c] <= cost ? 1 : 0;
        }
      }
    }
    return cells;
  }
}

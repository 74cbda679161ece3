package org.scarpway.reach.front;

import java.util.LinkedHashMap;
import java.util.Map;
import org.scarpway.stage.Memory;

/**
 * Cache of the tile grounds that the front is passing, shared by its threads. Its size suffices for
 * a front along the circumference of the whole grid, if the heap allows that for all fronts
 * together; the least recently used ground is evicted first. A cached and a recomputed ground give
 * the same results.
 */
final class TileGrounds {
  /** All fronts together cache at most the heap divided by this. */
  private static final int HEAP_SHARE = 4;

  /** Number of grounds that each front may cache whatever the others use. */
  private static final int FEW = 8;

  private final Costs costs;
  private final Memory memory;
  private final Stencil stencil;
  private final Tiling tiling;
  private final long bytes;
  private final long most;
  private final Map<Integer, TileGround> kept = new LinkedHashMap<>(64, 0.75f, true);
  private long made;
  private long loads;

  TileGrounds(Costs costs, Stencil stencil, Tiling tiling) {
    this.costs = costs;
    this.memory = costs.field().memory();
    this.stencil = stencil;
    this.tiling = tiling;
    this.bytes = TileGround.bytes(tiling.side());
    this.most = 4L * (tiling.tileRows() + tiling.tileCols());
  }

  /** Lends the ground of a tile to one thread until it is given back. */
  TileGround take(int tile) {
    TileGround ground;
    synchronized (this) {
      ground = kept.remove(tile);
      if (ground != null) {
        return ground;
      }
      loads++;
      if (full() && !kept.isEmpty()) {
        ground = kept.remove(kept.keySet().iterator().next());
      } else {
        memory.hold(bytes);
        made++;
      }
    }
    if (ground == null) {
      ground = new TileGround(costs, stencil, tiling.side());
    }
    ground.load(tiling.firstRow(tile), tiling.firstCol(tile));
    return ground;
  }

  synchronized void giveBack(int tile, TileGround ground) {
    kept.put(tile, ground);
  }

  /** Empties the cache. */
  synchronized void clear() {
    kept.clear();
    memory.hold(-bytes * made);
    made = 0;
  }

  private boolean full() {
    return made >= most || (made >= FEW && memory.holdsMoreThan(HEAP_SHARE));
  }

  /** Number of grounds computed. */
  synchronized long loads() {
    return loads;
  }
}

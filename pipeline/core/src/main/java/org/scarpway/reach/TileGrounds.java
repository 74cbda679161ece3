package org.scarpway.reach;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Grounds of tiles that the front is passing, shared by its threads. So many are kept that a front
 * around the whole grid finds its own again if the heap allows; the one longest out of use goes
 * first. Whether one is kept or made anew changes no answer.
 */
final class TileGrounds {
  private static final int HEAP_SHARE = 16;

  private final Costs costs;
  private final Stencil stencil;
  private final Tiling tiling;
  private final long most;
  private final Map<Integer, TileGround> kept = new LinkedHashMap<>(64, 0.75f, true);
  private long loads;

  TileGrounds(Costs costs, Stencil stencil, Tiling tiling) {
    this.costs = costs;
    this.stencil = stencil;
    this.tiling = tiling;
    long fits = Runtime.getRuntime().maxMemory() / HEAP_SHARE / TileGround.bytes(tiling.side());
    this.most = Math.min(fits, 4L * (tiling.tileRows() + tiling.tileCols()));
  }

  /** The ground of a tile, for one thread alone until it is given back. */
  TileGround take(int tile) {
    TileGround ground;
    synchronized (this) {
      ground = kept.remove(tile);
      if (ground != null) {
        return ground;
      }
      loads++;
      if (kept.size() >= most && !kept.isEmpty()) {
        ground = kept.remove(kept.keySet().iterator().next());
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

  /** Keeps none any more. */
  synchronized void clear() {
    kept.clear();
  }

  /** How often a ground was made. */
  synchronized long loads() {
    return loads;
  }
}

package org.scarpway.reach.front;

import java.util.LinkedHashMap;
import java.util.Map;
import org.scarpway.stage.Memory;

/**
 * Grounds of tiles that the front is passing, shared by its threads. So many are kept that a front
 * around the whole grid finds its own again, if the heap allows for this and all other fronts
 * together; the one longest out of use goes first. Whether one is kept or made anew changes no
 * answer.
 */
final class TileGrounds {
  /** All fronts together keep one part in so many of the heap. */
  private static final int HEAP_SHARE = 4;

  /** Each front may keep so many whatever the others keep. */
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

  /** The ground of a tile, for one thread alone until it is given back. */
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

  /** Keeps none any more. */
  synchronized void clear() {
    kept.clear();
    memory.hold(-bytes * made);
    made = 0;
  }

  private boolean full() {
    return made >= most || (made >= FEW && memory.holdsMoreThan(HEAP_SHARE));
  }

  /** How often a ground was made. */
  synchronized long loads() {
    return loads;
  }
}

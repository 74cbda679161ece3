package org.scarpway.reach.front;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import org.scarpway.stage.Memory;

/**
 * The tile grounds of one front, from the {@link GroundStore} of its engine. A cached and a
 * recomputed ground give the same results.
 */
final class TileGrounds {
  /** Identities of the costs of a field, by what distinguishes them. */
  private static final class Identities {
    private final Map<Object, Object> of = new ConcurrentHashMap<>();
  }

  private final Costs costs;
  private final Tiling tiling;
  private final GroundStore store;
  private final Object identity;
  private final AtomicLong loads = new AtomicLong();
  private boolean open;

  TileGrounds(Costs costs, Tiling tiling) {
    this.costs = costs;
    this.tiling = tiling;
    Memory memory = costs.field().memory();
    this.store = memory.of(memory, GroundStore.class, GroundStore::new);
    Identities known = memory.of(costs.field(), Identities.class, Identities::new);
    this.identity =
        costs.sharedAs() == null
            ? this
            : known.of.computeIfAbsent(
                costs.sharedAs() + " " + tiling.side(), what -> new Object());
  }

  /** Lends the ground of a tile to one thread until it is given back. */
  TileGround take(int tile) {
    synchronized (this) {
      if (!open) {
        store.open();
        open = true;
      }
    }
    return store.take(
        new GroundStore.Key(identity, tile),
        tiling.side(),
        ground -> {
          loads.incrementAndGet();
          ground.load(costs, tiling.firstRow(tile), tiling.firstCol(tile));
        });
  }

  void giveBack(int tile) {
    store.giveBack(new GroundStore.Key(identity, tile));
  }

  /** Ends the use of the cache, until a ground is taken again. */
  synchronized void clear() {
    if (open) {
      store.close();
      open = false;
    }
  }

  /** Number of grounds computed. */
  long loads() {
    return loads.get();
  }
}

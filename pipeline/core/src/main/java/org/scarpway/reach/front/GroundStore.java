package org.scarpway.reach.front;

import java.lang.ref.SoftReference;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Consumer;

/**
 * Cache of the tile grounds of all fronts of one engine, bounded by a share of the heap; the least
 * recently used one is evicted first and its memory used again. Fronts of one quantity on one field
 * share grounds, also those out and home and those that follow each other. While no front is active
 * the cache is kept only as long as nothing else needs the memory. Thread-safe.
 */
final class GroundStore {
  /** The cache takes at most the heap divided by this. */
  private static final int HEAP_SHARE = 4;

  /**
   * Cache key.
   *
   * @param costs whose costs the ground holds, compared by identity
   */
  record Key(Object costs, int tile) {}

  private static final class Held {
    private final TileGround ground;
    private int users;
    private boolean loaded;

    private Held(TileGround ground) {
      this.ground = ground;
    }
  }

  private int fronts;
  private Map<Key, Held> held;
  private SoftReference<Map<Key, Held>> idle = new SoftReference<>(null);

  /** Begins the use by a front. */
  synchronized void open() {
    if (fronts++ == 0) {
      held = idle.get();
      held = held == null ? new LinkedHashMap<>(64, 0.75f, true) : held;
    }
  }

  synchronized void close() {
    if (--fronts == 0) {
      idle = new SoftReference<>(held);
      held = null;
    }
  }

  /** Returns a ground for reading until it is given back; calls {@code load} if it is new. */
  TileGround take(Key key, int side, Consumer<TileGround> load) {
    Held found;
    synchronized (this) {
      found = held.get(key);
      if (found == null) {
        found = new Held(room(side));
        held.put(key, found);
      }
      found.users++;
    }
    synchronized (found) {
      if (!found.loaded) {
        load.accept(found.ground);
        found.loaded = true;
      }
    }
    return found.ground;
  }

  synchronized void giveBack(Key key) {
    held.get(key).users--;
  }

  private TileGround room(int side) {
    long most = Runtime.getRuntime().maxMemory() / HEAP_SHARE / TileGround.bytes(side);
    if (held.size() >= most) {
      Iterator<Held> eldest = held.values().iterator();
      while (eldest.hasNext()) {
        Held h = eldest.next();
        if (h.users == 0) {
          eldest.remove();
          return h.ground.side() == side ? h.ground : new TileGround(side);
        }
      }
    }
    return new TileGround(side);
  }
}

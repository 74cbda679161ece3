package org.scarpway.run.ground;

import java.lang.ref.SoftReference;
import java.util.function.Supplier;

/**
 * A result that is cached while memory allows and loaded or computed again after it was released:
 * from products on disk, or from the stages before. So a job's results need not all fit in memory
 * at once.
 */
public final class SoftCached<T> implements Supplier<T> {
  private final Supplier<T> source;
  private SoftReference<T> value = new SoftReference<>(null);

  public SoftCached(Supplier<T> source) {
    this.source = source;
  }

  /** Caches the value of the source, which is at hand. */
  public synchronized void put(T atHand) {
    value = new SoftReference<>(atHand);
  }

  @Override
  public synchronized T get() {
    T held = value.get();
    if (held == null) {
      held = source.get();
      value = new SoftReference<>(held);
    }
    return held;
  }
}

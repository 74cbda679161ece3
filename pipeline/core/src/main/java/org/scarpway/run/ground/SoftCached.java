package org.scarpway.run.ground;

import java.lang.ref.SoftReference;
import java.util.function.Supplier;

/**
 * A result that is kept while there is memory for it and had again from its source where it was let
 * go: products on disk, or the stages before. So a job's results need not all fit at once.
 */
public final class SoftCached<T> implements Supplier<T> {
  private final Supplier<T> source;
  private SoftReference<T> value;

  public SoftCached(Supplier<T> source) {
    this.source = source;
    this.value = new SoftReference<>(null);
  }

  /**
   * @param value what the source gives, at hand now
   */
  public SoftCached(T value, Supplier<T> source) {
    this.source = source;
    this.value = new SoftReference<>(value);
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

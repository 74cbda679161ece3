package org.scarpway.stage;

import java.util.Collections;
import java.util.Map;
import java.util.WeakHashMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Supplier;

/**
 * The memory shared by the stages of one engine: a cache of reusable results, and a counter of the
 * bytes held in scratch files. Two engines in one process share nothing. Thread-safe.
 */
public final class Memory {
  /** Arrays larger than the heap divided by this are stored in a scratch file. */
  private static final int HEAP_SHARE = 8;

  /**
   * Growth (bytes) of the scratch files after which a garbage collection is requested to free
   * unused ones.
   */
  private static final long WORTH_WHILE = 1L << 28;

  private final Map<Object, Map<Class<?>, Object>> kept =
      Collections.synchronizedMap(new WeakHashMap<>());
  private volatile ContentStore store = ContentStore.NONE;
  private final AtomicLong scratchBytes = new AtomicLong();

  /**
   * Returns the single object of a type that is cached for an owner, and creates it at the first
   * call. It is released with its owner, to which it must not hold a strong reference.
   *
   * @param owner compared by identity
   */
  public <T> T of(Object owner, Class<T> type, Supplier<T> make) {
    Map<Class<?>, Object> own = kept.computeIfAbsent(owner, o -> new ConcurrentHashMap<>());
    return type.cast(own.computeIfAbsent(type, t -> make.get()));
  }

  /** Results kept between runs. */
  public ContentStore store() {
    return store;
  }

  /** Sets the store of results kept between runs; without it nothing is kept. */
  public void keepIn(ContentStore between) {
    store = between;
  }

  /** Creates a scratch file. */
  public ScratchFile scratch() {
    return ScratchFile.create(scratchBytes);
  }

  /** Creates a scratch file if so many bytes are too large for the heap; returns null otherwise. */
  public ScratchFile scratch(long bytes) {
    return isLarge((double) bytes) ? scratch() : null;
  }

  /** True if so many bytes are too large for the heap. */
  public static boolean isLarge(double bytes) {
    return bytes > Runtime.getRuntime().maxMemory() / (double) HEAP_SHARE;
  }

  /** Bytes that scratch files have taken since unused ones were freed. */
  public long scratchBytes() {
    return scratchBytes.get();
  }

  /**
   * Frees scratch files that are no longer referenced. Their space is released when their users are
   * garbage collected, and a mostly empty heap would not start a collection by itself. Does nothing
   * if little was allocated since the last call.
   */
  public void freeScratch() {
    if (scratchBytes.get() >= WORTH_WHILE) {
      scratchBytes.set(0);
      System.gc();
    }
  }
}

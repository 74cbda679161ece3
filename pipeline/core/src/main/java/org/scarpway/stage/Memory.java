package org.scarpway.stage;

import java.util.Collections;
import java.util.Map;
import java.util.WeakHashMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Supplier;

/**
 * The memory that the stages of one engine share: results that may be asked for again, and the
 * accounts of what lies in scratch files and in other large buffers. Two engines in one process
 * share nothing. Safe for many threads.
 */
public final class Memory {
  /** What takes more than one part in so many of the heap is kept outside it. */
  private static final int HEAP_SHARE = 8;

  /** Bytes in scratch files after which the collector is asked to free those out of use. */
  private static final long WORTH_WHILE = 1L << 28;

  private final Map<Object, Map<Class<?>, Object>> kept =
      Collections.synchronizedMap(new WeakHashMap<>());
  private final AtomicLong scratchBytes = new AtomicLong();
  private final AtomicLong heldBytes = new AtomicLong();

  /**
   * The one object of a type that belongs to an owner, made when it is first asked for. It goes
   * with its owner, to which it must not hold a strong reference.
   *
   * @param owner told from others by identity
   */
  public <T> T of(Object owner, Class<T> type, Supplier<T> make) {
    Map<Class<?>, Object> own = kept.computeIfAbsent(owner, o -> new ConcurrentHashMap<>());
    return type.cast(own.computeIfAbsent(type, t -> make.get()));
  }

  /** A new scratch file. */
  public ScratchFile scratch() {
    return ScratchFile.create(scratchBytes);
  }

  /** A new scratch file if the heap has no room for so many bytes, else null. */
  public ScratchFile scratch(long bytes) {
    return bytes > Runtime.getRuntime().maxMemory() / HEAP_SHARE ? scratch() : null;
  }

  /**
   * Frees scratch files that nothing uses any more. That happens when what used them is collected,
   * and the heap, which may hardly be used, would not ask for that by itself. Where little was
   * taken since the last time nothing is done.
   */
  public void freeScratch() {
    if (scratchBytes.get() >= WORTH_WHILE) {
      scratchBytes.set(0);
      System.gc();
    }
  }

  /** Adds buffers to the account, or takes them off it where negative. */
  public void hold(long bytes) {
    heldBytes.addAndGet(bytes);
  }

  /** Whether the buffers on the account take more than one part in so many of the heap. */
  public boolean holdsMoreThan(int heapShare) {
    return heldBytes.get() > Runtime.getRuntime().maxMemory() / heapShare;
  }
}

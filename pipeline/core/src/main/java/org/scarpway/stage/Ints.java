package org.scarpway.stage;

import java.nio.IntBuffer;
import java.util.Arrays;

/**
 * Array of one {@code int} per cell or point of a grid, stored on the heap, or in a {@link
 * ScratchFile} if the heap is too small. The values read do not depend on the storage.
 */
public abstract class Ints {
  private Ints() {}

  /** Wraps a heap array without copying it; null for null. */
  public static Ints of(int[] values) {
    return values == null ? null : new OnHeap(values);
  }

  /**
   * An array of {@code size} zeros.
   *
   * @param file where the values are stored; null for the heap
   */
  public static Ints of(int size, ScratchFile file) {
    return file == null ? new OnHeap(new int[size]) : new InFile(size, file);
  }

  /**
   * A short array of zeros, which {@link #more} enlarges.
   *
   * @param file where the values are stored; null for the heap
   */
  public static Ints few(ScratchFile file) {
    return of(file == null ? 1024 : InFile.PART, file);
  }

  public abstract int size();

  public abstract int get(int i);

  public abstract void set(int i, int value);

  public abstract void fill(int value);

  /**
   * Returns a larger array with the same values, followed by zeros. This one must not be used
   * afterwards.
   */
  public abstract Ints more();

  /** True if the values are stored in a scratch file. */
  public abstract boolean inFile();

  private static final class OnHeap extends Ints {
    private final int[] values;

    private OnHeap(int[] values) {
      this.values = values;
    }

    @Override
    public int size() {
      return values.length;
    }

    @Override
    public int get(int i) {
      return values[i];
    }

    @Override
    public void set(int i, int value) {
      values[i] = value;
    }

    @Override
    public void fill(int value) {
      Arrays.fill(values, value);
    }

    @Override
    public Ints more() {
      return new OnHeap(Arrays.copyOf(values, 2 * values.length));
    }

    @Override
    public boolean inFile() {
      return false;
    }
  }

  private static final class InFile extends Ints {
    private static final int SHIFT = 26;
    private static final int PART = 1 << SHIFT;

    private final ScratchFile file;
    private final IntBuffer[] parts;
    private final int size;

    private InFile(int size, ScratchFile file) {
      this(size, file, new IntBuffer[0]);
    }

    private InFile(int size, ScratchFile file, IntBuffer[] before) {
      this.file = file;
      this.size = size;
      this.parts = Arrays.copyOf(before, (int) ((size + PART - 1L) >> SHIFT));
      for (int k = before.length; k < parts.length; k++) {
        parts[k] = file.take(Integer.BYTES * Math.min(PART, size - k * PART)).asIntBuffer();
      }
    }

    @Override
    public int size() {
      return size;
    }

    @Override
    public int get(int i) {
      return parts[i >> SHIFT].get(i & (PART - 1));
    }

    @Override
    public void set(int i, int value) {
      parts[i >> SHIFT].put(i & (PART - 1), value);
    }

    @Override
    public void fill(int value) {
      int[] some = new int[Math.min(size, 1 << 16)];
      Arrays.fill(some, value);
      for (IntBuffer part : parts) {
        for (int at = 0; at < part.capacity(); at += some.length) {
          part.put(at, some, 0, Math.min(some.length, part.capacity() - at));
        }
      }
    }

    @Override
    public Ints more() {
      return new InFile(Math.addExact(size, PART), file, parts);
    }

    @Override
    public boolean inFile() {
      return true;
    }
  }
}

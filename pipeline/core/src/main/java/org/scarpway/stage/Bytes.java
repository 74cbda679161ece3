package org.scarpway.stage;

import java.nio.ByteBuffer;

/**
 * Array of one {@code byte} per cell or point of a grid, stored on the heap, or in a {@link
 * ScratchFile} if the heap is too small. The values read do not depend on the storage.
 */
public abstract class Bytes {
  private Bytes() {}

  /** Wraps a heap array without copying it; null for null. */
  public static Bytes of(byte[] values) {
    return values == null ? null : new OnHeap(values);
  }

  /**
   * An array of {@code size} zeros.
   *
   * @param file where the values are stored; null for the heap
   */
  public static Bytes of(int size, ScratchFile file) {
    return file == null ? new OnHeap(new byte[size]) : new InFile(size, file);
  }

  public abstract int size();

  public abstract byte get(int i);

  public abstract void set(int i, byte value);

  /**
   * Copies {@code n} values, starting at index {@code at}, into {@code into} from index {@code to}.
   */
  public abstract void read(int at, byte[] into, int to, int n);

  /**
   * Stores {@code n} values of {@code from}, starting at {@code first}, from index {@code at} on.
   */
  public abstract void write(int at, byte[] from, int first, int n);

  private static final class OnHeap extends Bytes {
    private final byte[] values;

    private OnHeap(byte[] values) {
      this.values = values;
    }

    @Override
    public int size() {
      return values.length;
    }

    @Override
    public byte get(int i) {
      return values[i];
    }

    @Override
    public void set(int i, byte value) {
      values[i] = value;
    }

    @Override
    public void read(int at, byte[] into, int to, int n) {
      System.arraycopy(values, at, into, to, n);
    }

    @Override
    public void write(int at, byte[] from, int first, int n) {
      System.arraycopy(from, first, values, at, n);
    }
  }

  private static final class InFile extends Bytes {
    private static final int SHIFT = 28;
    private static final int PART = 1 << SHIFT;

    private final ByteBuffer[] parts;
    private final int size;

    private InFile(int size, ScratchFile file) {
      this.size = size;
      this.parts = new ByteBuffer[(int) ((size + PART - 1L) >> SHIFT)];
      for (int k = 0; k < parts.length; k++) {
        parts[k] = file.take(Math.min(PART, size - k * PART));
      }
    }

    @Override
    public int size() {
      return size;
    }

    @Override
    public byte get(int i) {
      return parts[i >> SHIFT].get(i & (PART - 1));
    }

    @Override
    public void set(int i, byte value) {
      parts[i >> SHIFT].put(i & (PART - 1), value);
    }

    @Override
    public void read(int at, byte[] into, int to, int n) {
      int done = 0;
      while (done < n) {
        int in = (at + done) & (PART - 1);
        int here = Math.min(n - done, PART - in);
        parts[(at + done) >> SHIFT].get(in, into, to + done, here);
        done += here;
      }
    }

    @Override
    public void write(int at, byte[] from, int first, int n) {
      int done = 0;
      while (done < n) {
        int in = (at + done) & (PART - 1);
        int here = Math.min(n - done, PART - in);
        parts[(at + done) >> SHIFT].put(in, from, first + done, here);
        done += here;
      }
    }
  }
}

package org.scarpway.stage;

import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.FloatBuffer;
import java.util.Arrays;

/**
 * Array of one {@code float} per cell or point of a grid, stored on the heap, or in a {@link
 * ScratchFile} if the heap is too small. The values read do not depend on the storage.
 */
public abstract class Floats {
  private Floats() {}

  /** Number of values that are written or read at once. */
  private static final int PIECE = 1 << 14;

  /** Wraps a heap array without copying it; null for null. */
  public static Floats of(float[] values) {
    return values == null ? null : new OnHeap(values);
  }

  /**
   * An array of {@code size} zeros.
   *
   * @param file where the values are stored; null for the heap
   */
  public static Floats of(int size, ScratchFile file) {
    return file == null ? new OnHeap(new float[size]) : new InFile(size, file);
  }

  /**
   * An array filled with {@code value}; in a file, space is allocated only for pieces in which a
   * different value is set.
   *
   * @param file where the values are stored; null for the heap
   */
  public static Floats of(int size, float value, ScratchFile file) {
    if (file != null) {
      return new LazyFloats(size, value, file);
    }
    Floats all = new OnHeap(new float[size]);
    all.fill(value);
    return all;
  }

  /**
   * A short array of zeros, which {@link #more} enlarges.
   *
   * @param file where the values are stored; null for the heap
   */
  public static Floats few(ScratchFile file) {
    return of(file == null ? 1024 : InFile.PART, file);
  }

  public abstract int size();

  public abstract float get(int i);

  public abstract void set(int i, float value);

  /**
   * Copies {@code n} values, starting at index {@code at}, into {@code into} from index {@code to}.
   */
  public abstract void read(int at, float[] into, int to, int n);

  /**
   * Stores {@code n} values of {@code from}, starting at {@code first}, from index {@code at} on.
   */
  public abstract void write(int at, float[] from, int first, int n);

  public abstract void fill(float value);

  /** Writes all values, four bytes each, the highest first. */
  public final void writeTo(OutputStream out) throws IOException {
    float[] some = new float[PIECE];
    ByteBuffer bytes = ByteBuffer.allocate(PIECE * Float.BYTES);
    for (int at = 0; at < size(); at += PIECE) {
      int n = Math.min(PIECE, size() - at);
      read(at, some, 0, n);
      bytes.asFloatBuffer().put(some, 0, n);
      out.write(bytes.array(), 0, n * Float.BYTES);
    }
  }

  /**
   * Sets all values to those that {@link #writeTo} wrote.
   *
   * @throws EOFException if there are fewer
   */
  public final void readFrom(InputStream in) throws IOException {
    float[] some = new float[PIECE];
    byte[] bytes = new byte[PIECE * Float.BYTES];
    for (int at = 0; at < size(); at += PIECE) {
      int n = Math.min(PIECE, size() - at);
      if (in.readNBytes(bytes, 0, n * Float.BYTES) < n * Float.BYTES) {
        throw new EOFException("values end early");
      }
      ByteBuffer.wrap(bytes).asFloatBuffer().get(some, 0, n);
      write(at, some, 0, n);
    }
  }

  /**
   * Returns a larger array with the same values, followed by zeros. This one must not be used
   * afterwards.
   */
  public abstract Floats more();

  /** True if both refer to the same storage. */
  public abstract boolean sameAs(Floats other);

  private static final class OnHeap extends Floats {
    private final float[] values;

    private OnHeap(float[] values) {
      this.values = values;
    }

    @Override
    public int size() {
      return values.length;
    }

    @Override
    public float get(int i) {
      return values[i];
    }

    @Override
    public void set(int i, float value) {
      values[i] = value;
    }

    @Override
    public void read(int at, float[] into, int to, int n) {
      System.arraycopy(values, at, into, to, n);
    }

    @Override
    public void write(int at, float[] from, int first, int n) {
      System.arraycopy(from, first, values, at, n);
    }

    @Override
    public void fill(float value) {
      Arrays.fill(values, value);
    }

    @Override
    public Floats more() {
      return new OnHeap(Arrays.copyOf(values, 2 * values.length));
    }

    @Override
    public boolean sameAs(Floats other) {
      return other instanceof OnHeap o && o.values == values;
    }
  }

  private static final class InFile extends Floats {
    private static final int SHIFT = 26;
    private static final int PART = 1 << SHIFT;

    private final ScratchFile file;
    private final FloatBuffer[] parts;
    private final int size;

    private InFile(int size, ScratchFile file) {
      this(size, file, new FloatBuffer[0]);
    }

    private InFile(int size, ScratchFile file, FloatBuffer[] before) {
      this.file = file;
      this.size = size;
      this.parts = Arrays.copyOf(before, (int) ((size + PART - 1L) >> SHIFT));
      for (int k = before.length; k < parts.length; k++) {
        parts[k] = file.take(Float.BYTES * Math.min(PART, size - k * PART)).asFloatBuffer();
      }
    }

    @Override
    public int size() {
      return size;
    }

    @Override
    public float get(int i) {
      return parts[i >> SHIFT].get(i & (PART - 1));
    }

    @Override
    public void set(int i, float value) {
      parts[i >> SHIFT].put(i & (PART - 1), value);
    }

    @Override
    public void read(int at, float[] into, int to, int n) {
      int done = 0;
      while (done < n) {
        int in = (at + done) & (PART - 1);
        int here = Math.min(n - done, PART - in);
        parts[(at + done) >> SHIFT].get(in, into, to + done, here);
        done += here;
      }
    }

    @Override
    public void write(int at, float[] from, int first, int n) {
      int done = 0;
      while (done < n) {
        int in = (at + done) & (PART - 1);
        int here = Math.min(n - done, PART - in);
        parts[(at + done) >> SHIFT].put(in, from, first + done, here);
        done += here;
      }
    }

    @Override
    public void fill(float value) {
      float[] some = new float[Math.min(size, 1 << 16)];
      Arrays.fill(some, value);
      for (FloatBuffer part : parts) {
        for (int at = 0; at < part.capacity(); at += some.length) {
          part.put(at, some, 0, Math.min(some.length, part.capacity() - at));
        }
      }
    }

    @Override
    public Floats more() {
      return new InFile(Math.addExact(size, PART), file, parts);
    }

    @Override
    public boolean sameAs(Floats other) {
      return other == this;
    }
  }

  /** Pieces of a file that are allocated at the first write to them; for use by one thread only. */
  private static final class LazyFloats extends Floats {
    private static final int SHIFT = 14;
    private static final int PART = 1 << SHIFT;

    private final ScratchFile file;
    private final FloatBuffer[] parts;
    private final float[] before = new float[PART];
    private final int size;

    private LazyFloats(int size, float value, ScratchFile file) {
      this.size = size;
      this.file = file;
      this.parts = new FloatBuffer[(int) ((size + PART - 1L) >> SHIFT)];
      Arrays.fill(before, value);
    }

    @Override
    public int size() {
      return size;
    }

    @Override
    public float get(int i) {
      FloatBuffer part = parts[i >> SHIFT];
      return part == null ? before[0] : part.get(i & (PART - 1));
    }

    @Override
    public void set(int i, float value) {
      part(i >> SHIFT).put(i & (PART - 1), value);
    }

    private FloatBuffer part(int k) {
      if (parts[k] == null) {
        FloatBuffer part = file.take(Float.BYTES * PART).asFloatBuffer();
        part.put(0, before);
        parts[k] = part;
      }
      return parts[k];
    }

    @Override
    public void read(int at, float[] into, int to, int n) {
      for (int i = 0; i < n; i++) {
        into[to + i] = get(at + i);
      }
    }

    @Override
    public void write(int at, float[] from, int first, int n) {
      for (int i = 0; i < n; i++) {
        set(at + i, from[first + i]);
      }
    }

    @Override
    public void fill(float value) {
      Arrays.fill(before, value);
      Arrays.fill(parts, null);
    }

    @Override
    public Floats more() {
      throw new UnsupportedOperationException("as many as were asked for");
    }

    @Override
    public boolean sameAs(Floats other) {
      return other == this;
    }
  }
}

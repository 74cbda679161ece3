package org.scarpway.stage;

import java.nio.FloatBuffer;
import java.util.Arrays;

/**
 * One {@code float} for each cell or point of a grid: on the heap, or in a {@link ScratchFile}
 * where the heap has no room for all. What is read does not depend on where it is kept.
 */
public abstract class Floats {
  private Floats() {}

  /** On the heap: the array itself, not a copy; null for null. */
  public static Floats of(float[] values) {
    return values == null ? null : new OnHeap(values);
  }

  /**
   * So many zeros.
   *
   * @param file null for the heap
   */
  public static Floats of(int size, ScratchFile file) {
    return file == null ? new OnHeap(new float[size]) : new InFile(size, file);
  }

  /**
   * So many of one value; in a file they take room only where another one is set.
   *
   * @param file null for the heap
   */
  public static Floats of(int size, float value, ScratchFile file) {
    if (file != null) {
      return new MostlyOne(size, value, file);
    }
    Floats all = new OnHeap(new float[size]);
    all.fill(value);
    return all;
  }

  /**
   * A few zeros, to which {@link #more} adds.
   *
   * @param file null for the heap
   */
  public static Floats few(ScratchFile file) {
    return of(file == null ? 1024 : InFile.PART, file);
  }

  public abstract int size();

  public abstract float get(int i);

  public abstract void set(int i, float value);

  /** Copies values from {@code at} on. */
  public abstract void read(int at, float[] into, int to, int n);

  /** Takes over values from {@code at} on. */
  public abstract void write(int at, float[] from, int first, int n);

  public abstract void fill(float value);

  /** The same values with room for more, zero at first; what is here is not used any more. */
  public abstract Floats more();

  /** Whether both are the same values in the same place. */
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

  /** Pieces of a file that are taken when something is first set in them; by one thread only. */
  private static final class MostlyOne extends Floats {
    private static final int SHIFT = 14;
    private static final int PART = 1 << SHIFT;

    private final ScratchFile file;
    private final FloatBuffer[] parts;
    private final float[] before = new float[PART];
    private final int size;

    private MostlyOne(int size, float value, ScratchFile file) {
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

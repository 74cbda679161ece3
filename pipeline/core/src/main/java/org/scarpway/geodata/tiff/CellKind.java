package org.scarpway.geodata.tiff;

/**
 * The cell type of a written raster and the array type that stores it in memory.
 *
 * @param <A> float[], byte[] or int[]
 */
public abstract sealed class CellKind<A> {
  /** 32-bit floating point, no data NaN; overviews are means of the cells with data. */
  public static final CellKind<float[]> FLOAT32 = new Floats();

  /**
   * 8-bit codes, no data 0; overviews hold the most frequent code, because a mean of codes has no
   * meaning.
   */
  public static final CellKind<byte[]> UINT8 = new Bytes();

  /** 32-bit flags without a nodata value; overviews hold the north-west cell. */
  public static final CellKind<int[]> UINT32 = new Ints();

  /** Name of the storage type as written in files. */
  final String dataType;

  final int bytes;

  /** TIFF 6.0 SampleFormat: 1 unsigned integers, 3 floating point. */
  final int sampleFormat;

  /** The nodata value as text, or empty if there is none. */
  final String nodata;

  private CellKind(String dataType, int bytes, int sampleFormat, String nodata) {
    this.dataType = dataType;
    this.bytes = bytes;
    this.sampleFormat = sampleFormat;
    this.nodata = nodata;
  }

  /**
   * Allocates an array, of which every cell is 0.
   *
   * @param cells number of cells
   */
  public abstract A array(int cells);

  abstract int length(A cells);

  /** Converts {@code n} cells to their stored bits. */
  abstract void bits(A cells, int at, int n, int[] out);

  /** Converts stored bits to cells. */
  abstract void cells(int[] bits, int n, A out, int at);

  /**
   * Computes an overview row of half as many cells (rounded up) from two rows, or from the last row
   * alone.
   */
  abstract void halve(A upper, int upperAt, A lower, int lowerAt, int cols, A out);

  private static final class Floats extends CellKind<float[]> {
    Floats() {
      super("Float32", 4, 3, "nan");
    }

    @Override
    public float[] array(int cells) {
      return new float[cells];
    }

    @Override
    int length(float[] cells) {
      return cells.length;
    }

    @Override
    void bits(float[] cells, int at, int n, int[] out) {
      for (int i = 0; i < n; i++) {
        // One NaN for all: which one a sum of two has depends on how the machine compiled it.
        out[i] = Float.floatToIntBits(cells[at + i]);
      }
    }

    @Override
    void cells(int[] bits, int n, float[] out, int at) {
      for (int i = 0; i < n; i++) {
        out[at + i] = Float.intBitsToFloat(bits[i]);
      }
    }

    @Override
    void halve(float[] upper, int upperAt, float[] lower, int lowerAt, int cols, float[] out) {
      int pairs = lower == null ? 0 : cols / 2;
      for (int c = 0; c < pairs; c++) {
        int u = upperAt + 2 * c;
        int l = lowerAt + 2 * c;
        double sum = ((double) upper[u] + upper[u + 1]) + ((double) lower[l] + lower[l + 1]);
        out[c] =
            Double.isNaN(sum)
                ? mean(upper[u], upper[u + 1], lower[l], lower[l + 1])
                : (float) (sum / 4);
      }
      for (int c = pairs; 2 * c < cols; c++) {
        int u = upperAt + 2 * c;
        boolean pair = 2 * c + 1 < cols;
        out[c] =
            mean(
                upper[u],
                pair ? upper[u + 1] : Float.NaN,
                lower == null ? Float.NaN : lower[lowerAt + 2 * c],
                lower == null || !pair ? Float.NaN : lower[lowerAt + 2 * c + 1]);
      }
    }

    private static float mean(float a, float b, float c, float d) {
      int n = 0;
      double sum = 0;
      for (int k = 0; k < 4; k++) {
        float v = k == 0 ? a : k == 1 ? b : k == 2 ? c : d;
        if (!Float.isNaN(v)) {
          sum += v;
          n++;
        }
      }
      return n == 0 ? Float.NaN : (float) (sum / n);
    }
  }

  private static final class Bytes extends CellKind<byte[]> {
    Bytes() {
      super("Byte", 1, 1, "0");
    }

    @Override
    public byte[] array(int cells) {
      return new byte[cells];
    }

    @Override
    int length(byte[] cells) {
      return cells.length;
    }

    @Override
    void bits(byte[] cells, int at, int n, int[] out) {
      for (int i = 0; i < n; i++) {
        out[i] = cells[at + i];
      }
    }

    @Override
    void cells(int[] bits, int n, byte[] out, int at) {
      for (int i = 0; i < n; i++) {
        out[at + i] = (byte) bits[i];
      }
    }

    @Override
    void halve(byte[] upper, int upperAt, byte[] lower, int lowerAt, int cols, byte[] out) {
      for (int c = 0; 2 * c < cols; c++) {
        int u = upperAt + 2 * c;
        boolean pair = 2 * c + 1 < cols;
        out[c] =
            commonest(
                upper[u],
                pair ? upper[u + 1] : 0,
                lower == null ? 0 : lower[lowerAt + 2 * c],
                lower == null || !pair ? 0 : lower[lowerAt + 2 * c + 1]);
      }
    }

    /** The most frequent code; no data is ignored, and ties are broken by reading order. */
    private static byte commonest(byte a, byte b, byte c, byte d) {
      if (a == b && a != 0 && (a == c || c != d)) {
        return a;
      }
      int best = 0;
      byte code = 0;
      for (int k = 0; k < 4; k++) {
        byte v = k == 0 ? a : k == 1 ? b : k == 2 ? c : d;
        int n = (v == a ? 1 : 0) + (v == b ? 1 : 0) + (v == c ? 1 : 0) + (v == d ? 1 : 0);
        if (v != 0 && n > best) {
          best = n;
          code = v;
        }
      }
      return code;
    }
  }

  private static final class Ints extends CellKind<int[]> {
    Ints() {
      super("UInt32", 4, 1, "");
    }

    @Override
    public int[] array(int cells) {
      return new int[cells];
    }

    @Override
    int length(int[] cells) {
      return cells.length;
    }

    @Override
    void bits(int[] cells, int at, int n, int[] out) {
      System.arraycopy(cells, at, out, 0, n);
    }

    @Override
    void cells(int[] bits, int n, int[] out, int at) {
      System.arraycopy(bits, 0, out, at, n);
    }

    @Override
    void halve(int[] upper, int upperAt, int[] lower, int lowerAt, int cols, int[] out) {
      for (int c = 0; 2 * c < cols; c++) {
        out[c] = upper[upperAt + 2 * c];
      }
    }
  }
}

package org.scarpway.report;

import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import java.util.function.IntUnaryOperator;
import java.util.zip.Deflater;
import org.scarpway.grid.GridSpec;
import org.scarpway.vehicle.Mobility;

/**
 * A layer of the map as tiles of {@value #TILE} x {@value #TILE} cells in levels, each level with
 * half as many cells a side as the one before. A cell is a number from 0, which stands for no data,
 * to 65535. Every tile is deflated by itself and starts at a multiple of three bytes, so that its
 * text in base64 can be cut out of the whole.
 *
 * <p>A tile is either its cells, one byte each, or what a predictor leaves of them: the median of
 * the neighbours west and north and of their sum less the one north-west, as in JPEG-LS (ISO/IEC
 * 14495-1). The remainders are numbered 0, -1, 1, -2 ...; their low bytes come first, then, if any
 * needs one, their high bytes.
 */
final class TilePack {
  static final int TILE = 256;

  /** There is no level beyond the first with no more cells a side than these. */
  private static final int COARSEST = 64;

  /**
   * How cells of one level become one cell of the next: what is told of many cells must hold for
   * each of them, and nothing may look safer than it is.
   */
  enum Halving {
    /** Classes of ground: no-go before no verdict, slow and go. */
    WORST_CLASS,
    /** Bands of a reach: not reached before possibly and surely reached, large before small. */
    WORST_BAND,
    /**
     * Limits and what ends a reach: the most frequent where there is any, the largest of equals.
     */
    ANY_CAUSE,
    /** The largest number. */
    LARGEST,
    /** The largest number, none unless all hold data: an amount that no cell exceeds. */
    AT_MOST,
    /** The least number, none unless all hold data: an amount that every cell has. */
    AT_LEAST,
    /** The mean of those that hold data, rounded up. */
    MEAN,
    /** There are no levels but the first: the cells cannot be merged. */
    NONE
  }

  /** One level, null in the list of levels if it was left out. */
  static final class Level {
    final int width;
    final int height;

    /** Number of tiles side by side. */
    final int across;

    /** Offset and length of each tile, row by row. */
    final int[] at;

    private final byte[] bytes;

    private Level(int width, int height, int across, int[] at, byte[] bytes) {
      this.width = width;
      this.height = height;
      this.across = across;
      this.at = at;
      this.bytes = bytes;
    }

    private static Level readFrom(DataInputStream in) throws IOException {
      int width = in.readInt();
      int height = in.readInt();
      int across = in.readInt();
      int[] at = new int[2 * across * ((height + TILE - 1) / TILE)];
      for (int i = 0; i < at.length; i++) {
        at[i] = in.readInt();
      }
      byte[] bytes = new byte[in.readInt()];
      in.readFully(bytes);
      return new Level(width, height, across, at, bytes);
    }

    private void writeTo(DataOutputStream out) throws IOException {
      out.writeInt(width);
      out.writeInt(height);
      out.writeInt(across);
      for (int place : at) {
        out.writeInt(place);
      }
      out.writeInt(bytes.length);
      out.write(bytes);
    }
  }

  /** True if tiles hold their cells, false if they hold what the predictor leaves. */
  final boolean plain;

  private final List<Level> levels = new ArrayList<>();
  private int finest;

  /**
   * @param cells of the whole grid, as unsigned numbers
   */
  TilePack(GridSpec spec, char[] cells, Halving halving) {
    int width = spec.cols();
    int height = spec.rows();
    boolean wide = false;
    for (char v : cells) {
      wide |= v > 255;
    }
    Level predicted = level(cells, width, height, false);
    Level asTheyAre = wide ? null : level(cells, width, height, true);
    plain = asTheyAre != null && asTheyAre.bytes.length <= predicted.bytes.length;
    levels.add(plain ? asTheyAre : predicted);
    char[] level = cells;
    while (halving != Halving.NONE && Math.max(width, height) > COARSEST) {
      level = halved(level, width, height, halving);
      width = (width + 1) / 2;
      height = (height + 1) / 2;
      levels.add(level(level, width, height, plain));
    }
  }

  private TilePack(boolean plain, List<Level> levels) {
    this.plain = plain;
    this.levels.addAll(levels);
  }

  /** Reads tiles as {@link #writeTo} wrote them. */
  static TilePack readFrom(DataInputStream in) throws IOException {
    boolean plain = in.readBoolean();
    List<Level> levels = new ArrayList<>();
    for (int left = in.readInt(); left > 0; left--) {
      levels.add(Level.readFrom(in));
    }
    return new TilePack(plain, levels);
  }

  /** Writes the tiles of all levels. */
  void writeTo(DataOutputStream out) throws IOException {
    out.writeBoolean(plain);
    out.writeInt(levels.size());
    for (Level level : levels) {
      level.writeTo(out);
    }
  }

  /** Bytes of all levels. */
  long bytes() {
    return levels.stream().mapToLong(l -> l.bytes.length).sum();
  }

  /** Characters of the text. */
  long chars() {
    long bytes = 0;
    for (Level l : levels.subList(finest, levels.size())) {
      bytes += l.bytes.length;
    }
    return 4 * (bytes / 3);
  }

  /** Leaves out the finest level that is left; false if only one is. */
  boolean coarsen() {
    if (finest + 1 == levels.size()) {
      return false;
    }
    finest++;
    return true;
  }

  /** Cells of the ground, per side, that the finest level merges into one. */
  int shrink() {
    return 1 << finest;
  }

  /** Number of levels, those left out included. */
  int levels() {
    return levels.size();
  }

  /** Returns a level, null if it is left out; the offsets count from the finest that is left. */
  Level level(int k) {
    return k < finest ? null : levels.get(k);
  }

  /** Offset (bytes) of a level in the text. */
  int offset(int k) {
    int bytes = 0;
    for (Level l : levels.subList(finest, k)) {
      bytes += l.bytes.length;
    }
    return bytes;
  }

  /** Returns the base64 of all levels that are left, finest first. */
  String text() {
    StringBuilder text = new StringBuilder();
    for (Level l : levels.subList(finest, levels.size())) {
      text.append(Base64.getEncoder().encodeToString(l.bytes));
    }
    return text.toString();
  }

  static char[] halved(char[] cells, int width, int height, Halving halving) {
    int w = (width + 1) / 2;
    int h = (height + 1) / 2;
    char[] out = new char[w * h];
    int[] four = new int[4];
    for (int r = 0; r < h; r++) {
      for (int c = 0; c < w; c++) {
        int n = 0;
        for (int i = 0; i < 4; i++) {
          int row = 2 * r + i / 2;
          int col = 2 * c + i % 2;
          if (row < height && col < width) {
            four[n++] = cells[row * width + col];
          }
        }
        out[r * w + c] = (char) merged(four, n, halving);
      }
    }
    return out;
  }

  /** The number that stands for the first so many of some. */
  static int merged(int[] v, int n, Halving halving) {
    return switch (halving) {
      case WORST_CLASS -> worst(v, n, TilePack::badnessOfClass);
      case WORST_BAND -> worst(v, n, code -> code == 0 ? Integer.MAX_VALUE : code);
      case ANY_CAUSE -> mostFrequent(v, n);
      case LARGEST -> worst(v, n, number -> number);
      case AT_MOST -> worst(v, n, number -> number == 0 ? Integer.MAX_VALUE : number);
      case AT_LEAST -> worst(v, n, number -> -number);
      case MEAN -> mean(v, n);
      case NONE -> throw new IllegalArgumentException("these cells cannot be merged");
    };
  }

  private static int badnessOfClass(int cls) {
    return cls == Mobility.NO_GO ? 3 : cls == 0 ? 2 : cls == Mobility.SLOW ? 1 : 0;
  }

  private static int worst(int[] v, int n, IntUnaryOperator badness) {
    int worst = v[0];
    for (int i = 1; i < n; i++) {
      worst = badness.applyAsInt(v[i]) > badness.applyAsInt(worst) ? v[i] : worst;
    }
    return worst;
  }

  private static int mean(int[] v, int n) {
    int sum = 0;
    int present = 0;
    for (int i = 0; i < n; i++) {
      sum += v[i];
      present += v[i] > 0 ? 1 : 0;
    }
    return present == 0 ? 0 : (sum + present - 1) / present;
  }

  private static int mostFrequent(int[] v, int n) {
    int best = 0;
    int most = 0;
    for (int i = 0; i < n; i++) {
      int count = 0;
      for (int j = 0; j < n; j++) {
        count += v[j] == v[i] ? 1 : 0;
      }
      if (v[i] > 0 && (count > most || (count == most && v[i] > best))) {
        most = count;
        best = v[i];
      }
    }
    return best;
  }

  private static Level level(char[] cells, int width, int height, boolean plain) {
    int across = (width + TILE - 1) / TILE;
    int down = (height + TILE - 1) / TILE;
    int[] at = new int[2 * across * down];
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    // Over what the predictor leaves, level 9 takes eleven times as long and saves 3 %.
    Deflater deflater = new Deflater(6, true);
    deflater.setStrategy(Deflater.FILTERED);
    try {
      for (int t = 0; t < across * down; t++) {
        int row = t / across * TILE;
        int col = t % across * TILE;
        int w = Math.min(TILE, width - col);
        int h = Math.min(TILE, height - row);
        byte[] raw =
            plain ? bytes(cells, width, row, col, w, h) : left(cells, width, row, col, w, h);
        byte[] packed = deflated(deflater, raw);
        at[2 * t] = bytes.size();
        at[2 * t + 1] = packed.length;
        bytes.writeBytes(Arrays.copyOf(packed, (packed.length + 2) / 3 * 3));
      }
    } finally {
      deflater.end();
    }
    return new Level(width, height, across, at, bytes.toByteArray());
  }

  private static byte[] bytes(char[] cells, int width, int row, int col, int w, int h) {
    byte[] raw = new byte[w * h];
    for (int i = 0; i < raw.length; i++) {
      raw[i] = (byte) cells[(row + i / w) * width + col + i % w];
    }
    return raw;
  }

  /** What the predictor leaves of a tile. */
  private static byte[] left(char[] cells, int width, int row, int col, int w, int h) {
    int[] numbers = new int[w * h];
    int most = 0;
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        int i = (row + y) * width + col + x;
        int guess = 0;
        if (x > 0 && y > 0) {
          int west = cells[i - 1];
          int north = cells[i - width];
          int both = west + north - cells[i - width - 1];
          int low = Math.min(west, north);
          guess = Math.max(low, Math.min(west + north - low, both));
        } else if (x > 0) {
          guess = cells[i - 1];
        } else if (y > 0) {
          guess = cells[i - width];
        }
        // Modulo 65536, so that a remainder always fits two bytes.
        int off = (short) (cells[i] - guess);
        int number = off < 0 ? -2 * off - 1 : 2 * off;
        numbers[y * w + x] = number;
        most = Math.max(most, number);
      }
    }
    byte[] raw = new byte[most > 255 ? 2 * numbers.length : numbers.length];
    for (int i = 0; i < numbers.length; i++) {
      raw[i] = (byte) numbers[i];
      if (most > 255) {
        raw[numbers.length + i] = (byte) (numbers[i] >> 8);
      }
    }
    return raw;
  }

  private static byte[] deflated(Deflater deflater, byte[] raw) {
    deflater.reset();
    deflater.setInput(raw);
    deflater.finish();
    ByteArrayOutputStream out = new ByteArrayOutputStream(raw.length / 3 + 64);
    byte[] buffer = new byte[1 << 14];
    while (!deflater.finished()) {
      out.write(buffer, 0, deflater.deflate(buffer));
    }
    return out.toByteArray();
  }
}

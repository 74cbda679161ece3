package org.scarpway.geodata.tiff;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.scarpway.geodata.file.BrokenRaster;
import org.scarpway.geodata.file.RasterFiles;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Reason;
import org.scarpway.stage.UserError;

/**
 * The tags of the first image of a TIFF or BigTIFF file (TIFF 6.0; BigTIFF by its published
 * design), read without its cells. Every count is checked against the length of the file before
 * anything is allocated, so that a small file cannot cause an allocation of gigabytes.
 */
public final class TiffDirectory {
  static final int COLS = 256;
  static final int ROWS = 257;
  public static final int BITS = 258;
  public static final int COMPRESSION = 259;
  static final int STRIP_OFFSETS = 273;
  static final int BANDS = 277;
  static final int ROWS_PER_STRIP = 278;
  static final int STRIP_BYTES = 279;
  static final int PLANAR = 284;
  public static final int PREDICTOR = 317;
  static final int TILE_COLS = 322;
  static final int TILE_ROWS = 323;
  static final int TILE_OFFSETS = 324;
  static final int TILE_BYTES = 325;
  public static final int EXTRA_SAMPLES = 338;
  static final int SAMPLE_FORMAT = 339;
  public static final int PIXEL_SCALE = 33550;
  public static final int TIE_POINTS = 33922;
  public static final int MATRIX = 34264;
  static final int GEO_KEYS = 34735;
  static final int GEO_DOUBLES = 34736;
  static final int GEO_TEXT = 34737;
  public static final int METADATA = 42112;
  public static final int NODATA = 42113;
  private static final int SUBFILE = 254;

  private static final int MAX_ENTRIES = 4096;
  private static final int MAX_IMAGES = 64;
  private static final int MASK_IMAGE = 4;

  /**
   * Largest number of values of a tag that describes the image; lists of blocks may have as many
   * values as there are blocks.
   */
  private static final long MAX_VALUES = 1 << 20;

  private record Entry(int type, long count, ByteBuffer inline, long offset) {}

  private final Path file;
  private final long fileBytes;
  private final ByteOrder order;
  private final Map<Integer, Entry> entries = new HashMap<>();
  private boolean masked;

  private TiffDirectory(Path file, long fileBytes, ByteOrder order) {
    this.file = file;
    this.fileBytes = fileBytes;
    this.order = order;
  }

  /** True if the file begins like TIFF or BigTIFF, whatever its name. */
  public static boolean isTiff(Path file) {
    try (InputStream in = Files.newInputStream(file)) {
      byte[] h = in.readNBytes(4);
      return h.length == 4
          && ((h[0] == 'I' && h[1] == 'I' && (h[2] == 42 || h[2] == 43) && h[3] == 0)
              || (h[0] == 'M' && h[1] == 'M' && h[2] == 0 && (h[3] == 42 || h[3] == 43)));
    } catch (IOException e) {
      throw BrokenRaster.of(file, "cannot be read (" + Reason.of(e) + ")", "check the disk");
    }
  }

  public static TiffDirectory read(Path file) {
    try (FileChannel c = FileChannel.open(file, StandardOpenOption.READ)) {
      ByteBuffer head = bytes(c, 0, 8, ByteOrder.BIG_ENDIAN);
      ByteOrder order = head.get(0) == 'I' ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN;
      head.order(order);
      boolean big = head.getShort(2) == 43;
      long at = big ? bytes(c, 8, 8, order).getLong(0) : Integer.toUnsignedLong(head.getInt(4));
      TiffDirectory first = new TiffDirectory(file, c.size(), order);
      // Readers follow the chain of images to its end, so a cycle is refused.
      Set<Long> seen = new HashSet<>();
      seen.add(at);
      at = first.readEntries(c, at, big);
      while (at != 0) {
        if (!seen.add(at)) {
          throw damaged(file, "its images follow one another in a circle");
        }
        if (seen.size() > MAX_IMAGES) {
          throw damaged(file, "more than " + MAX_IMAGES + " images");
        }
        TiffDirectory next = new TiffDirectory(file, c.size(), order);
        at = next.readEntries(c, at, big);
        first.masked |= (next.number(SUBFILE, 0) & MASK_IMAGE) != 0;
      }
      return first;
    } catch (IOException e) {
      throw damaged(file, Reason.of(e));
    }
  }

  private long readEntries(FileChannel c, long at, boolean big) throws IOException {
    int size = big ? 20 : 12;
    int countBytes = big ? 8 : 2;
    ByteBuffer n = bytes(c, at, countBytes, order);
    long count = big ? n.getLong(0) : Short.toUnsignedInt(n.getShort(0));
    if (count < 1 || count > MAX_ENTRIES) {
      throw damaged(file, "a directory of " + count + " entries");
    }
    ByteBuffer b = bytes(c, at + countBytes, (int) count * size, order);
    for (int i = 0; i < count; i++) {
      int p = i * size;
      int tag = Short.toUnsignedInt(b.getShort(p));
      int type = Short.toUnsignedInt(b.getShort(p + 2));
      long values = big ? b.getLong(p + 4) : Integer.toUnsignedLong(b.getInt(p + 4));
      int room = big ? 8 : 4;
      int valueAt = p + (big ? 12 : 8);
      int width = width(type);
      if (width == 0) {
        continue;
      }
      if (values < 0 || values > fileBytes / width) {
        throw damaged(file, "tag " + tag + " claims " + values + " values");
      }
      if (values * width <= room) {
        entries.put(tag, new Entry(type, values, b.slice(valueAt, room).order(order), 0));
      } else {
        long offset = big ? b.getLong(valueAt) : Integer.toUnsignedLong(b.getInt(valueAt));
        if (offset < 0 || offset > fileBytes - values * width) {
          throw damaged(file, "tag " + tag + " lies beyond its end");
        }
        entries.put(tag, new Entry(type, values, null, offset));
      }
    }
    ByteBuffer next = bytes(c, at + countBytes + count * size, big ? 8 : 4, order);
    return big ? next.getLong(0) : Integer.toUnsignedLong(next.getInt(0));
  }

  private static int width(int type) {
    return switch (type) {
      case 1, 2, 6, 7 -> 1;
      case 3, 8 -> 2;
      case 4, 9, 11, 13 -> 4;
      case 5, 10, 12, 16, 17, 18 -> 8;
      default -> 0;
    };
  }

  private static ByteBuffer bytes(FileChannel c, long at, int n, ByteOrder order)
      throws IOException {
    if (at < 0 || at > c.size() - n) {
      throw new IOException("it ends before byte " + (at + n));
    }
    ByteBuffer b = ByteBuffer.allocate(n).order(order);
    while (b.hasRemaining()) {
      if (c.read(b, at + b.position()) < 0) {
        throw new IOException("it ends before byte " + (at + n));
      }
    }
    return b.flip();
  }

  boolean has(int tag) {
    return entries.containsKey(tag);
  }

  /** True if another image of the file is a mask of the first. */
  public boolean masked() {
    return masked;
  }

  /** First value of an integer tag, or {@code otherwise} if the tag is absent. */
  public long number(int tag, long otherwise) {
    Entry e = entries.get(tag);
    return e == null || e.count == 0 ? otherwise : whole(values(tag, e, 1), e.type, 0);
  }

  /** All values of an integer tag. */
  long[] numbers(int tag) {
    Entry e = entries.get(tag);
    if (e == null) {
      return new long[0];
    }
    ByteBuffer b = values(tag, e, e.count);
    long[] n = new long[(int) e.count];
    for (int i = 0; i < n.length; i++) {
      n[i] = whole(b, e.type, i);
    }
    return n;
  }

  public double[] doubles(int tag) {
    Entry e = entries.get(tag);
    if (e == null || e.type != 12) {
      return new double[0];
    }
    ByteBuffer b = values(tag, e, e.count);
    double[] d = new double[(int) e.count];
    for (int i = 0; i < d.length; i++) {
      d[i] = b.getDouble(i * 8);
    }
    return d;
  }

  int[] shorts(int tag) {
    Entry e = entries.get(tag);
    if (e == null || e.type != 3) {
      return new int[0];
    }
    ByteBuffer b = values(tag, e, e.count);
    int[] s = new int[(int) e.count];
    for (int i = 0; i < s.length; i++) {
      s[i] = Short.toUnsignedInt(b.getShort(i * 2));
    }
    return s;
  }

  /** Text of a tag up to its first zero byte, empty if there is none. */
  public String text(int tag) {
    Entry e = entries.get(tag);
    if (e == null || e.type != 2) {
      return "";
    }
    ByteBuffer b = values(tag, e, e.count);
    int n = 0;
    while (n < e.count && b.get(n) != 0) {
      n++;
    }
    return new String(b.array(), b.arrayOffset(), n, StandardCharsets.UTF_8);
  }

  private ByteBuffer values(int tag, Entry e, long count) {
    if (count > MAX_VALUES) {
      throw damaged(file, "tag " + tag + " claims " + count + " values");
    }
    return block(tag, e, count);
  }

  private ByteBuffer block(int tag, Entry e, long count) {
    if (e.inline != null) {
      byte[] copy = new byte[e.inline.capacity()];
      e.inline.get(0, copy);
      return ByteBuffer.wrap(copy).order(order);
    }
    if (count * width(e.type) > Integer.MAX_VALUE - 8) {
      throw damaged(file, "tag " + tag + " claims " + count + " values");
    }
    try (FileChannel c = FileChannel.open(file, StandardOpenOption.READ)) {
      return bytes(c, e.offset, (int) (count * width(e.type)), order);
    } catch (IOException x) {
      throw damaged(file, Reason.of(x));
    }
  }

  private static long whole(ByteBuffer b, int type, int i) {
    return switch (type) {
      case 1, 6, 7 -> Byte.toUnsignedInt(b.get(i));
      case 3, 8 -> Short.toUnsignedInt(b.getShort(i * 2));
      case 4, 9, 13 -> Integer.toUnsignedLong(b.getInt(i * 4));
      case 16, 17, 18 -> b.getLong(i * 8);
      default -> 0;
    };
  }

  public int cols() {
    return size(COLS);
  }

  public int rows() {
    return size(ROWS);
  }

  private int size(int tag) {
    long n = number(tag, 0);
    if (n < 1 || n > Integer.MAX_VALUE) {
      throw damaged(file, "an image of " + number(ROWS, 0) + " x " + number(COLS, 0) + " cells");
    }
    return (int) n;
  }

  public int bands() {
    return (int) number(BANDS, 1);
  }

  /** Name of the storage type in GDAL's terms. */
  public String dataType() {
    long bits = number(BITS, 1);
    long format = number(SAMPLE_FORMAT, 1);
    if (format == 3) {
      return "Float" + bits;
    }
    if (bits == 8 && format == 1) {
      return "Byte";
    }
    return (format == 2 ? "Int" : "UInt") + bits;
  }

  /**
   * Refuses blocks too large to hold, blocks beyond the end of the file, and blocks never written
   * in a file without a nodata value: a reader would return zeros for them.
   */
  public void requireWhole() {
    boolean tiled = has(TILE_OFFSETS);
    long blockCols = tiled ? number(TILE_COLS, 0) : cols();
    long blockRows =
        tiled ? number(TILE_ROWS, 0) : Math.min(rows(), number(ROWS_PER_STRIP, rows()));
    long perCell = Math.max(1, number(BITS, 8) / 8) * (number(PLANAR, 1) == 1 ? bands() : 1);
    RasterFiles.requireBlock(file, blockCols, blockRows, perCell);
    Entry offsets = entries.get(tiled ? TILE_OFFSETS : STRIP_OFFSETS);
    Entry sizes = entries.get(tiled ? TILE_BYTES : STRIP_BYTES);
    if (offsets == null || sizes == null || offsets.count != sizes.count) {
      throw damaged(file, "no list of where its blocks lie");
    }
    long across = (cols() + blockCols - 1) / blockCols;
    long down = (rows() + blockRows - 1) / blockRows;
    if (offsets.count < across * down) {
      throw damaged(file, offsets.count + " blocks where " + across * down + " are needed");
    }
    ByteBuffer at = block(STRIP_OFFSETS, offsets, across * down);
    ByteBuffer bytes = block(STRIP_BYTES, sizes, across * down);
    for (int i = 0; i < across * down; i++) {
      long from = whole(at, offsets.type, i);
      long n = whole(bytes, sizes.type, i);
      if (n == 0 && !has(NODATA)) {
        throw damaged(file, "block " + i + " was never written and no nodata value stands for it");
      }
      if (n < 0 || from < 0 || from > fileBytes - n) {
        throw damaged(file, "block " + i + " lies beyond its end");
      }
    }
  }

  /** Checks that a file just written is complete. */
  static void requireWritten(Path part, GridSpec spec) throws IOException {
    try {
      TiffDirectory d = read(part);
      d.requireWhole();
      if (d.rows() != spec.rows() || d.cols() != spec.cols()) {
        throw new IOException("wrote " + d.rows() + " x " + d.cols() + " cells");
      }
    } catch (UserError e) {
      throw new IOException(e.getMessage(), e);
    }
  }

  private static UserError damaged(Path file, String what) {
    return BrokenRaster.of(
        file, "is damaged or incomplete (" + what + ")", "fetch or convert it again");
  }
}

package org.scarpway.geodata;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.Deflater;
import org.scarpway.grid.GridSpec;

/**
 * Writes a tiled GeoTIFF (TIFF 6.0, OGC 19-008r4): Deflate with predictor, little-endian, BigTIFF
 * where the cells could fill 4 GB. The same cells give the same bytes.
 */
final class GeoTiffWriter {
  private static final int TILE = 512;
  private static final long BIG = 3L << 30;
  private static final int SHORT = 3;
  private static final int LONG = 4;
  private static final int DOUBLE = 12;
  private static final int ASCII = 2;
  private static final int LONG8 = 16;

  /** Cells of a grid as little-endian bytes. */
  interface Cells {
    int bytesPerCell();

    /** 1 unsigned whole numbers, 3 floating point. */
    int sampleFormat();

    /** What stands for no data, or empty. */
    String nodata();

    void put(int index, byte[] into, int at);
  }

  private record Tag(int id, int type, long count, ByteBuffer values) {}

  private final FileChannel out;
  private final GridSpec spec;
  private final Cells cells;
  private final boolean big;

  private GeoTiffWriter(FileChannel out, GridSpec spec, Cells cells) {
    this.out = out;
    this.spec = spec;
    this.cells = cells;
    this.big = (long) spec.cells() * cells.bytesPerCell() > BIG;
  }

  static void write(Path part, GridSpec spec, Cells cells, BandInfo info) throws IOException {
    try (FileChannel c =
        FileChannel.open(
            part,
            StandardOpenOption.CREATE,
            StandardOpenOption.TRUNCATE_EXISTING,
            StandardOpenOption.WRITE)) {
      new GeoTiffWriter(c, spec, cells).write(info);
    }
  }

  private void write(BandInfo info) throws IOException {
    append(ByteBuffer.allocate(big ? 16 : 8));
    int across = (spec.cols() + TILE - 1) / TILE;
    int down = (spec.rows() + TILE - 1) / TILE;
    long[] offsets = new long[across * down];
    long[] sizes = new long[across * down];
    Deflater deflater = new Deflater(6);
    try {
      byte[] raw = new byte[TILE * TILE * cells.bytesPerCell()];
      byte[] packed = new byte[raw.length + raw.length / 1000 + 64];
      for (int i = 0; i < offsets.length; i++) {
        fillTile(raw, i / across * TILE, i % across * TILE);
        deflater.reset();
        deflater.setInput(raw);
        deflater.finish();
        int n = 0;
        while (!deflater.finished()) {
          n += deflater.deflate(packed, n, packed.length - n);
        }
        offsets[i] = out.position();
        sizes[i] = n;
        append(ByteBuffer.wrap(packed, 0, n));
      }
    } finally {
      deflater.end();
    }
    long directory = writeDirectory(tags(info, offsets, sizes));
    ByteBuffer head = little(big ? 16 : 8);
    head.put((byte) 'I').put((byte) 'I').putShort((short) (big ? 43 : 42));
    if (big) {
      head.putShort((short) 8).putShort((short) 0).putLong(directory);
    } else {
      head.putInt((int) directory);
    }
    out.position(0);
    append(head.flip());
  }

  /** Cells of one tile, row by row; cells beyond the grid repeat zero. */
  private void fillTile(byte[] raw, int firstRow, int firstCol) {
    int width = cells.bytesPerCell();
    int rowBytes = TILE * width;
    byte[] scratch = new byte[rowBytes];
    java.util.Arrays.fill(raw, (byte) 0);
    int cols = Math.min(TILE, spec.cols() - firstCol);
    for (int r = 0; r < TILE && firstRow + r < spec.rows(); r++) {
      int at = r * rowBytes;
      int cell = (firstRow + r) * spec.cols() + firstCol;
      for (int c = 0; c < cols; c++) {
        cells.put(cell + c, raw, at + c * width);
      }
      if (cells.sampleFormat() == 3) {
        floatPredictor(raw, at, width, scratch);
      } else {
        wholePredictor(raw, at, width);
      }
    }
  }

  /** TIFF predictor 3: bytes of a row by significance, highest first, then differences. */
  private static void floatPredictor(byte[] raw, int at, int width, byte[] scratch) {
    for (int c = 0; c < TILE; c++) {
      for (int b = 0; b < width; b++) {
        scratch[(width - 1 - b) * TILE + c] = raw[at + c * width + b];
      }
    }
    raw[at] = scratch[0];
    for (int i = 1; i < scratch.length; i++) {
      raw[at + i] = (byte) (scratch[i] - scratch[i - 1]);
    }
  }

  /** TIFF predictor 2: difference to the cell on the left. */
  private static void wholePredictor(byte[] raw, int at, int width) {
    for (int c = TILE - 1; c > 0; c--) {
      int i = at + c * width;
      int borrow = 0;
      for (int b = 0; b < width; b++) {
        int d = (raw[i + b] & 0xff) - (raw[i + b - width] & 0xff) - borrow;
        borrow = d < 0 ? 1 : 0;
        raw[i + b] = (byte) d;
      }
    }
  }

  private List<Tag> tags(BandInfo info, long[] offsets, long[] sizes) {
    List<Tag> tags = new ArrayList<>();
    tags.add(longs(TiffDirectory.COLS, spec.cols()));
    tags.add(longs(TiffDirectory.ROWS, spec.rows()));
    tags.add(shorts(TiffDirectory.BITS, cells.bytesPerCell() * 8));
    tags.add(shorts(TiffDirectory.COMPRESSION, 8));
    tags.add(shorts(262, 1));
    tags.add(shorts(TiffDirectory.BANDS, 1));
    tags.add(shorts(TiffDirectory.PLANAR, 1));
    tags.add(shorts(TiffDirectory.PREDICTOR, cells.sampleFormat() == 3 ? 3 : 2));
    tags.add(shorts(TiffDirectory.TILE_COLS, TILE));
    tags.add(shorts(TiffDirectory.TILE_ROWS, TILE));
    tags.add(places(TiffDirectory.TILE_OFFSETS, offsets));
    tags.add(places(TiffDirectory.TILE_BYTES, sizes));
    tags.add(shorts(TiffDirectory.SAMPLE_FORMAT, cells.sampleFormat()));
    tags.add(doubles(TiffDirectory.PIXEL_SCALE, spec.cellXM(), spec.cellYM(), 0));
    tags.add(doubles(TiffDirectory.TIE_POINTS, 0, 0, 0, spec.westM(), spec.northM(), 0));
    GeoKeys.Tags keys = GeoKeyCrs.keys(spec.crsWkt()).tags();
    tags.add(shorts(TiffDirectory.GEO_KEYS, keys.directory));
    if (keys.doubles.length > 0) {
      tags.add(doubles(TiffDirectory.GEO_DOUBLES, keys.doubles));
    }
    if (keys.text.length > 1) {
      tags.add(
          new Tag(TiffDirectory.GEO_TEXT, ASCII, keys.text.length, ByteBuffer.wrap(keys.text)));
    }
    tags.add(text(TiffDirectory.METADATA, TiffMetadata.xml(info)));
    if (!cells.nodata().isEmpty()) {
      tags.add(text(TiffDirectory.NODATA, cells.nodata()));
    }
    return tags;
  }

  private long writeDirectory(List<Tag> tags) throws IOException {
    int room = big ? 8 : 4;
    ByteBuffer entries = little((big ? 8 : 2) + tags.size() * (big ? 20 : 12) + room);
    if (big) {
      entries.putLong(tags.size());
    } else {
      entries.putShort((short) tags.size());
    }
    for (Tag t : tags) {
      entries.putShort((short) t.id).putShort((short) t.type);
      number(entries, t.count);
      int length = t.values.remaining();
      if (length <= room) {
        entries.put(t.values).position(entries.position() + room - length);
      } else {
        align();
        number(entries, out.position());
        append(t.values);
      }
    }
    number(entries, 0);
    align();
    long at = out.position();
    append(entries.flip());
    return at;
  }

  private void number(ByteBuffer b, long v) {
    if (big) {
      b.putLong(v);
    } else {
      b.putInt(Math.toIntExact(v > Integer.MAX_VALUE ? v - (1L << 32) : v));
    }
  }

  private void align() throws IOException {
    int odd = (int) (out.position() % 8);
    if (odd != 0) {
      append(ByteBuffer.allocate(8 - odd));
    }
  }

  private void append(ByteBuffer b) throws IOException {
    while (b.hasRemaining()) {
      out.write(b);
    }
  }

  private static ByteBuffer little(int n) {
    return ByteBuffer.allocate(n).order(ByteOrder.LITTLE_ENDIAN);
  }

  private static Tag shorts(int id, int... values) {
    ByteBuffer b = little(values.length * 2);
    for (int v : values) {
      b.putShort((short) v);
    }
    return new Tag(id, SHORT, values.length, b.flip());
  }

  private static Tag longs(int id, int value) {
    return new Tag(id, LONG, 1, little(4).putInt(value).flip());
  }

  private Tag places(int id, long[] values) {
    ByteBuffer b = little(values.length * (big ? 8 : 4));
    for (long v : values) {
      number(b, v);
    }
    return new Tag(id, big ? LONG8 : LONG, values.length, b.flip());
  }

  private static Tag doubles(int id, double... values) {
    ByteBuffer b = little(values.length * 8);
    for (double v : values) {
      b.putDouble(v);
    }
    return new Tag(id, DOUBLE, values.length, b.flip());
  }

  private static Tag text(int id, String s) {
    byte[] bytes = (s + "\0").getBytes(StandardCharsets.UTF_8);
    return new Tag(id, ASCII, bytes.length, ByteBuffer.wrap(bytes));
  }
}

package org.scarpway.geodata.tiff;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.scarpway.geodata.file.RasterFiles;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;

/**
 * Writes a cloud-optimised GeoTIFF (OGC 21-026) row by row: tiles are compressed as soon as their
 * rows are complete, each overview is computed from the rows of the level below it, and compressed
 * tiles are buffered in an unnamed file beside the target. In the finished file all directories
 * come first, then the tiles from the coarsest overview to full resolution. Memory holds one row of
 * tiles per overview, whatever the number of rows. The bytes depend on the cells alone.
 */
public final class CogSink<A> implements RasterSink<A> {
  /** Size of the cells (bytes) from which 32-bit file offsets may be too small. */
  private static final long BIG_BYTES = 2_900_000_000L;

  /**
   * The layout that readers over a network may rely on; see {@link Level#packRow} for the bytes of
   * a tile.
   */
  private static final String LAYOUT =
      """
      LAYOUT=IFDS_BEFORE_DATA
      BLOCK_ORDER=ROW_MAJOR
      BLOCK_LEADER=SIZE_AS_UINT4
      BLOCK_TRAILER=LAST_4_BYTES_REPEATED
      KNOWN_INCOMPATIBLE_EDITION=NO
      \s""";

  /** Number of bytes written before and after each tile. */
  private static final int BRACKET = 4;

  private static final int SUBFILE = 254;
  private static final int PHOTOMETRIC = 262;
  private static final int BLACK_IS_ZERO = 1;
  private static final int PALETTE = 3;
  private static final int COLOUR_MAP = 320;
  private static final int COLOURS = 256;

  private final Path file;
  private final GridSpec spec;
  private final CellKind<A> kind;
  private final BandInfo info;
  private final GeoKeys.Tags crs;
  private final boolean big;
  private final FileChannel waiting;
  private final TileCodec codec;
  private final byte[] packed;
  private final List<Level> levels = new ArrayList<>();
  private boolean closed;

  /** The full resolution, or one of the overviews. */
  private final class Level {
    final int rows;
    final int cols;
    final int across;
    final long[] places;
    final long[] sizes;
    final Level half;
    final A halfRow;
    A held;
    int heldRows;
    int doneRows;
    A odd;
    int rowsSeen;

    Level(int rows, int cols) {
      this.rows = rows;
      this.cols = cols;
      this.across = (cols + TileCodec.SIDE - 1) / TileCodec.SIDE;
      int down = (rows + TileCodec.SIDE - 1) / TileCodec.SIDE;
      this.places = new long[across * down];
      this.sizes = new long[across * down];
      levels.add(this);
      boolean smallest = Math.max(rows, cols) <= TileCodec.SIDE;
      this.half = smallest ? null : new Level((rows + 1) / 2, (cols + 1) / 2);
      this.halfRow = smallest ? null : kind.array(half.cols);
    }

    void take(A cells, int at, int n) throws IOException {
      if (half != null) {
        overview(cells, at, n);
      }
      int row = 0;
      while (row < n) {
        int due = Math.min(TileCodec.SIDE, rows - doneRows);
        if (heldRows == 0 && n - row >= due) {
          packRow(cells, at + row * cols, due);
          row += due;
        } else {
          if (held == null) {
            held = kind.array(Math.min(rows, TileCodec.SIDE) * cols);
          }
          int more = Math.min(n - row, due - heldRows);
          System.arraycopy(cells, at + row * cols, held, heldRows * cols, more * cols);
          heldRows += more;
          row += more;
          if (heldRows == due) {
            packRow(held, 0, due);
            heldRows = 0;
          }
        }
      }
    }

    private void overview(A cells, int at, int n) throws IOException {
      int row = 0;
      if (rowsSeen % 2 == 1 && n > 0) {
        kind.halve(odd, 0, cells, at, cols, halfRow);
        half.take(halfRow, 0, 1);
        row = 1;
      }
      for (; row + 1 < n; row += 2) {
        kind.halve(cells, at + row * cols, cells, at + (row + 1) * cols, cols, halfRow);
        half.take(halfRow, 0, 1);
      }
      rowsSeen += n;
      if (row < n) {
        if (rowsSeen == rows) {
          kind.halve(cells, at + row * cols, null, 0, cols, halfRow);
          half.take(halfRow, 0, 1);
        } else {
          odd = odd == null ? kind.array(cols) : odd;
          System.arraycopy(cells, at + row * cols, odd, 0, cols);
        }
      }
    }

    /**
     * Writes each tile preceded by its size and followed by a repetition of its last four bytes.
     */
    private void packRow(A cells, int at, int tileRows) throws IOException {
      int first = doneRows / TileCodec.SIDE * across;
      for (int t = 0; t < across; t++) {
        int col = t * TileCodec.SIDE;
        int tileCols = Math.min(TileCodec.SIDE, cols - col);
        int n = codec.pack(kind, cells, at + col, cols, tileRows, tileCols, packed, BRACKET);
        ByteBuffer b = ByteBuffer.wrap(packed).order(ByteOrder.LITTLE_ENDIAN).putInt(0, n);
        b.putInt(BRACKET + n, b.getInt(n));
        places[first + t] = waiting.position() + BRACKET;
        sizes[first + t] = n;
        write(waiting, b.limit(n + 2 * BRACKET));
      }
      doneRows += tileRows;
    }

    TiffTags tags(boolean first, long[] at) {
      TiffTags tags = new TiffTags(big);
      if (!first) {
        tags.number(SUBFILE, 1);
      }
      tags.number(TiffDirectory.COLS, cols)
          .number(TiffDirectory.ROWS, rows)
          .shorts(TiffDirectory.BITS, kind.bytes * 8)
          .shorts(TiffDirectory.COMPRESSION, 8)
          .shorts(PHOTOMETRIC, info.colours().isEmpty() ? BLACK_IS_ZERO : PALETTE)
          .shorts(TiffDirectory.BANDS, 1)
          .shorts(TiffDirectory.PLANAR, 1)
          .shorts(TiffDirectory.PREDICTOR, kind.sampleFormat == 3 ? 3 : 2);
      if (!info.colours().isEmpty()) {
        tags.shorts(COLOUR_MAP, colourMap(info.colours()));
      }
      tags.shorts(TiffDirectory.TILE_COLS, TileCodec.SIDE)
          .shorts(TiffDirectory.TILE_ROWS, TileCodec.SIDE)
          .places(TiffDirectory.TILE_OFFSETS, at)
          .places(TiffDirectory.TILE_BYTES, sizes)
          .shorts(TiffDirectory.SAMPLE_FORMAT, kind.sampleFormat);
      if (first) {
        tags.doubles(TiffDirectory.PIXEL_SCALE, spec.cellXM(), spec.cellYM(), 0)
            .doubles(TiffDirectory.TIE_POINTS, 0, 0, 0, spec.westM(), spec.northM(), 0)
            .shorts(TiffDirectory.GEO_KEYS, crs.directory);
        if (crs.doubles.length > 0) {
          tags.doubles(TiffDirectory.GEO_DOUBLES, crs.doubles);
        }
        if (crs.text.length > 1) {
          tags.bytes(TiffDirectory.GEO_TEXT, crs.text);
        }
        tags.text(TiffDirectory.METADATA, TiffMetadata.xml(info));
      }
      if (!kind.nodata.isEmpty()) {
        tags.text(TiffDirectory.NODATA, kind.nodata);
      }
      return tags;
    }
  }

  public CogSink(Path file, GridSpec spec, CellKind<A> kind, BandInfo info, GeoKeys.Tags crs) {
    this.file = file;
    this.spec = spec;
    this.kind = kind;
    this.info = info;
    this.crs = crs;
    this.big = (long) spec.cells() * kind.bytes > BIG_BYTES;
    this.waiting = RasterFiles.scratchBeside(file);
    this.codec = new TileCodec(kind);
    this.packed = new byte[codec.packedLimit() + 2 * BRACKET];
    new Level(spec.rows(), spec.cols());
  }

  /** The colours of all codes as TIFF 6.0 stores them: all reds, greens and blues, 0 to 65535. */
  private static int[] colourMap(Map<Integer, Integer> rgb) {
    int[] map = new int[3 * COLOURS];
    rgb.forEach(
        (code, colour) -> {
          for (int band = 0; band < 3; band++) {
            map[band * COLOURS + code] = 257 * (colour >> (16 - 8 * band) & 0xFF);
          }
        });
    return map;
  }

  @Override
  public void append(A cells, int at, int rows) {
    Level whole = levels.get(0);
    int missing = whole.rows - whole.doneRows - whole.heldRows;
    if (rows < 0 || rows > missing || at < 0 || at > kind.length(cells) - rows * spec.cols()) {
      throw new IllegalArgumentException(
          rows + " rows from cell " + at + " on: " + missing + " rows are missing in " + file);
    }
    try {
      whole.take(cells, at, rows);
    } catch (IOException e) {
      throw RasterFiles.cannotWrite(file, e);
    }
  }

  @Override
  public void finish() {
    Level whole = levels.get(0);
    if (closed || whole.doneRows != whole.rows) {
      throw new IllegalStateException(
          file + " has " + whole.doneRows + " of " + whole.rows + " rows");
    }
    RasterFiles.writeWhole(
        file,
        part -> {
          assemble(part);
          TiffDirectory.requireWritten(part, spec);
        });
    close();
  }

  private void assemble(Path part) throws IOException {
    byte[] layout = LAYOUT.getBytes(StandardCharsets.US_ASCII);
    byte[] ghost =
        String.format(
                java.util.Locale.ROOT,
                "GDAL_STRUCTURAL_METADATA_SIZE=%06d bytes\n%s",
                layout.length,
                LAYOUT)
            .getBytes(StandardCharsets.US_ASCII);
    int head = TiffTags.aligned((big ? 16 : 8) + ghost.length);
    long end = head;
    for (Level level : levels) {
      end += level.tags(level == levels.get(0), level.places).bytes(0, true).length;
    }
    List<long[]> at = new ArrayList<>();
    for (int i = levels.size() - 1; i >= 0; i--) {
      Level level = levels.get(i);
      long[] places = new long[level.places.length];
      for (int t = 0; t < places.length; t++) {
        places[t] = end + BRACKET;
        end += level.sizes[t] + 2 * BRACKET;
      }
      at.add(0, places);
    }
    try (FileChannel out =
        FileChannel.open(
            part,
            StandardOpenOption.CREATE,
            StandardOpenOption.TRUNCATE_EXISTING,
            StandardOpenOption.WRITE)) {
      ByteBuffer first = ByteBuffer.allocate(head).order(ByteOrder.LITTLE_ENDIAN);
      first.put((byte) 'I').put((byte) 'I').putShort((short) (big ? 43 : 42));
      if (big) {
        first.putShort((short) 8).putShort((short) 0).putLong(head);
      } else {
        first.putInt(head);
      }
      first.put(ghost).rewind();
      write(out, first);
      for (int i = 0; i < levels.size(); i++) {
        TiffTags tags = levels.get(i).tags(i == 0, at.get(i));
        write(out, ByteBuffer.wrap(tags.bytes(out.position(), i == levels.size() - 1)));
      }
      for (int i = levels.size() - 1; i >= 0; i--) {
        copyTiles(levels.get(i), out);
      }
    }
  }

  /** Copies the tiles of a level; adjacent ones are copied together. */
  private void copyTiles(Level level, FileChannel out) throws IOException {
    int t = 0;
    while (t < level.places.length) {
      long from = level.places[t] - BRACKET;
      long to = from;
      while (t < level.places.length && level.places[t] - BRACKET == to) {
        to += level.sizes[t] + 2 * BRACKET;
        t++;
      }
      while (from < to) {
        from += waiting.transferTo(from, to - from, out);
      }
    }
  }

  private static void write(FileChannel out, ByteBuffer b) throws IOException {
    while (b.hasRemaining()) {
      out.write(b);
    }
  }

  @Override
  public void close() {
    if (closed) {
      return;
    }
    closed = true;
    codec.close();
    try {
      waiting.close();
    } catch (IOException e) {
      throw new StageFailure("cannot close the tiles of " + file + ": " + Reason.of(e), e);
    }
  }
}

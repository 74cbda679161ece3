package org.scarpway.geodata.tiff;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.zip.DataFormatException;
import org.scarpway.geodata.file.BrokenRaster;
import org.scarpway.geodata.file.RasterFiles;
import org.scarpway.stage.Reason;
import org.scarpway.stage.UserError;

/**
 * Reads rows of a raster that Scarpway wrote, any number at a time. Caches the last row of tiles
 * read, so that strips which overlap by less than that decode nothing twice. For one thread at a
 * time.
 *
 * @param <A> float[], byte[] or int[]
 */
public final class RasterRows<A> implements AutoCloseable {
  private final Path file;
  private final CellKind<A> kind;
  private final int rows;
  private final int cols;
  private final int across;
  private final long[] places;
  private final long[] sizes;
  private final FileChannel channel;
  private final TileCodec codec;
  private byte[] packed = new byte[0];
  private A kept;
  private int keptTileRow = -1;

  /**
   * Opens a raster.
   *
   * @throws UserError for a file that Scarpway did not write, or of another cell type
   */
  public static <A> RasterRows<A> open(Path file, CellKind<A> kind) {
    RasterFiles.requireReadable(file);
    TiffDirectory tiff = TiffDirectory.read(file);
    boolean own =
        tiff.dataType().equals(kind.dataType)
            && tiff.bands() == 1
            && tiff.number(TiffDirectory.COMPRESSION, 1) == 8
            && tiff.number(TiffDirectory.PREDICTOR, 1) == (kind.sampleFormat == 3 ? 3 : 2)
            && tiff.number(TiffDirectory.TILE_COLS, 0) == TileCodec.SIDE
            && tiff.number(TiffDirectory.TILE_ROWS, 0) == TileCodec.SIDE;
    if (!own) {
      throw UserError.of(
          file.toString(),
          "holds " + tiff.dataType() + " cells in a layout that is not Scarpway's",
          "a " + kind.dataType + " raster that Scarpway wrote",
          "run the job again to write it anew");
    }
    tiff.requireWhole();
    return new RasterRows<>(file, kind, tiff);
  }

  private RasterRows(Path file, CellKind<A> kind, TiffDirectory tiff) {
    this.file = file;
    this.kind = kind;
    this.rows = tiff.rows();
    this.cols = tiff.cols();
    this.across = (cols + TileCodec.SIDE - 1) / TileCodec.SIDE;
    this.places = tiff.numbers(TiffDirectory.TILE_OFFSETS);
    this.sizes = tiff.numbers(TiffDirectory.TILE_BYTES);
    try {
      this.channel = FileChannel.open(file, StandardOpenOption.READ);
    } catch (IOException e) {
      throw damaged(e);
    }
    this.codec = new TileCodec(kind);
  }

  /** Number of rows. */
  public int rows() {
    return rows;
  }

  /** Number of columns. */
  public int cols() {
    return cols;
  }

  /**
   * Reads {@code n} rows, starting at {@code firstRow}, into {@code out} from index 0.
   *
   * @throws IllegalArgumentException if rows are off the raster or {@code out} is too short
   * @throws UserError if the file is damaged
   */
  public void read(int firstRow, int n, A out) {
    if (firstRow < 0 || n < 0 || firstRow > rows - n || (long) n * cols > kind.length(out)) {
      throw new IllegalArgumentException(
          "rows " + firstRow + " to " + (firstRow + n) + " of " + rows + " in " + file);
    }
    int row = firstRow;
    while (row < firstRow + n) {
      int tileRow = row / TileCodec.SIDE;
      int top = tileRow * TileCodec.SIDE;
      int here = Math.min(firstRow + n, Math.min(rows, top + TileCodec.SIDE)) - row;
      int to = (row - firstRow) * cols;
      boolean whole = row == top && here == Math.min(TileCodec.SIDE, rows - top);
      if (whole && keptTileRow != tileRow) {
        decode(tileRow, out, to);
      } else {
        keep(tileRow);
        System.arraycopy(kept, (row - top) * cols, out, to, here * cols);
      }
      row += here;
    }
  }

  private void keep(int tileRow) {
    if (keptTileRow == tileRow) {
      return;
    }
    kept = kept == null ? kind.array(Math.min(rows, TileCodec.SIDE) * cols) : kept;
    keptTileRow = -1;
    decode(tileRow, kept, 0);
    keptTileRow = tileRow;
  }

  private void decode(int tileRow, A out, int at) {
    int tileRows = Math.min(TileCodec.SIDE, rows - tileRow * TileCodec.SIDE);
    try {
      for (int t = 0; t < across; t++) {
        int i = tileRow * across + t;
        int size = Math.toIntExact(sizes[i]);
        packed = packed.length < size ? new byte[size + size / 4] : packed;
        ByteBuffer b = ByteBuffer.wrap(packed, 0, size);
        while (b.hasRemaining()) {
          if (channel.read(b, places[i] + b.position()) < 0) {
            throw new IOException("it ends within tile " + i);
          }
        }
        codec.unpack(packed, size);
        int col = t * TileCodec.SIDE;
        int tileCols = Math.min(TileCodec.SIDE, cols - col);
        for (int r = 0; r < tileRows; r++) {
          codec.row(kind, r, tileCols, out, at + r * cols + col);
        }
      }
    } catch (IOException | DataFormatException e) {
      throw damaged(e);
    }
  }

  private UserError damaged(Exception e) {
    return BrokenRaster.of(
        file, "is damaged (" + Reason.of(e) + ")", "run the job again with --fresh");
  }

  @Override
  public void close() {
    codec.close();
    try {
      channel.close();
    } catch (IOException e) {
      throw damaged(e);
    }
  }
}

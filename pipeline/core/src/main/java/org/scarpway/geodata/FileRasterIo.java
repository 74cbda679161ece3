package org.scarpway.geodata;

import java.nio.file.Path;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.IntGrid;
import org.scarpway.stage.UserError;

/** What reading is like on both paths: stored numbers come from the file, the rest is the same. */
abstract class FileRasterIo implements RasterIo {
  /** Cells converted at a time; keeps the double buffer in the processor's cache. */
  private static final int CHUNK_CELLS = 1 << 18;

  final OpenFiles files = new OpenFiles(this::open);

  abstract OpenRaster open(Path file);

  /** Takes a run of stored numbers that belongs at {@code at} in the window. */
  private interface Sink {
    void take(double[] stored, int count, int at);
  }

  @Override
  public final RasterHeader header(Path file) {
    return files.with(file, OpenRaster::header);
  }

  @Override
  public final void read(
      RasterHeader header,
      int firstRow,
      int firstCol,
      int rows,
      int cols,
      double subtract,
      float[] out) {
    if (firstRow < 0
        || firstCol < 0
        || rows < 1
        || cols < 1
        || firstRow > header.rows() - rows
        || firstCol > header.cols() - cols
        || (long) rows * cols > out.length) {
      throw new IllegalArgumentException(
          String.format(
              java.util.Locale.ROOT,
              "window of %d x %d cells at row %d, column %d does not fit %s (%d x %d) or an array of"
                  + " %d",
              rows,
              cols,
              firstRow,
              firstCol,
              header.file(),
              header.rows(),
              header.cols(),
              out.length));
    }
    StoredHeights heights = StoredHeights.of(header, subtract);
    run(
        header.file(),
        firstRow,
        firstCol,
        rows,
        cols,
        (stored, count, at) -> heights.fill(stored, count, out, at));
  }

  @Override
  public final FloatGrid readFloats(Path file) {
    GridSpec spec = specOf(file, "Float32");
    float[] out = new float[spec.cells()];
    whole(
        file,
        spec,
        (stored, count, at) -> {
          for (int i = 0; i < count; i++) {
            out[at + i] = (float) stored[i];
          }
        });
    return new FloatGrid(spec, out);
  }

  @Override
  public final ByteGrid readBytes(Path file) {
    GridSpec spec = specOf(file, "Byte");
    byte[] out = new byte[spec.cells()];
    whole(
        file,
        spec,
        (stored, count, at) -> {
          for (int i = 0; i < count; i++) {
            out[at + i] = (byte) (int) stored[i];
          }
        });
    return new ByteGrid(spec, out);
  }

  @Override
  public final IntGrid readInts(Path file) {
    GridSpec spec = specOf(file, "UInt32");
    int[] out = new int[spec.cells()];
    whole(
        file,
        spec,
        (stored, count, at) -> {
          for (int i = 0; i < count; i++) {
            out[at + i] = (int) (long) stored[i];
          }
        });
    return new IntGrid(spec, out);
  }

  private void whole(Path file, GridSpec spec, Sink sink) {
    run(file, 0, 0, spec.rows(), spec.cols(), sink);
  }

  private void run(Path file, int firstRow, int firstCol, int rows, int cols, Sink sink) {
    int chunkRows = Math.max(1, Math.min(rows, CHUNK_CELLS / cols));
    double[] stored = new double[Math.multiplyExact(chunkRows, cols)];
    files.with(
        file,
        raster -> {
          for (int r = 0; r < rows; r += chunkRows) {
            int n = Math.min(chunkRows, rows - r);
            raster.readStored(firstRow + r, firstCol, n, cols, stored);
            sink.take(stored, n * cols, r * cols);
          }
          return null;
        });
  }

  private GridSpec specOf(Path file, String dataType) {
    RasterHeader h = header(file);
    RasterHeader.Affine t = h.transform();
    if (!h.dataType().equals(dataType) || t.rotated() || !(t.xCol() > 0) || !(t.yRow() < 0)) {
      throw UserError.of(
          file.toString(),
          "holds " + h.dataType() + " cells, " + (t.yRow() < 0 ? "" : "not ") + "north-up",
          "a north-up " + dataType + " raster that Scarpway wrote",
          "run the job again to write it anew");
    }
    if ((long) h.rows() * h.cols() > Integer.MAX_VALUE - 8) {
      throw UserError.of(
          file.toString(), h.rows() + " x " + h.cols() + " cells", "under 2^31", "read a window");
    }
    return new GridSpec(h.rows(), h.cols(), t.xCol(), -t.yRow(), t.x0(), t.y0(), h.crsWkt());
  }
}

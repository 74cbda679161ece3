package org.scarpway.geodata.raster;

import java.nio.file.Path;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.CogSink;
import org.scarpway.geodata.tiff.GeoKeys;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.geodata.tiff.RasterSink;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.IntGrid;
import org.scarpway.stage.UserError;

/**
 * The code common to the GDAL and the pure Java implementation, which differ in how stored values
 * are read and how a CRS is encoded.
 */
abstract class FileRasterIo implements RasterIo {
  /** Number of cells converted at a time; keeps the double buffer in the processor's cache. */
  private static final int CHUNK_CELLS = 1 << 18;

  final OpenFiles files = new OpenFiles(this::open);

  abstract OpenRaster open(Path file);

  /**
   * Encodes a CRS as GeoTIFF keys.
   *
   * @throws UserError if the keys cannot represent it
   */
  abstract GeoKeys.Tags keys(String crsWkt);

  /** Receives a run of stored values that belongs at index {@code at} of the window. */
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
    return new FloatGrid(specOf(file), whole(file, CellKind.FLOAT32));
  }

  @Override
  public final ByteGrid readBytes(Path file) {
    return new ByteGrid(specOf(file), whole(file, CellKind.UINT8));
  }

  @Override
  public final IntGrid readInts(Path file) {
    return new IntGrid(specOf(file), whole(file, CellKind.UINT32));
  }

  private static <A> A whole(Path file, CellKind<A> kind) {
    try (RasterRows<A> rows = RasterRows.open(file, kind)) {
      A cells = kind.array(Math.multiplyExact(rows.rows(), rows.cols()));
      rows.read(0, rows.rows(), cells);
      return cells;
    }
  }

  @Override
  public final <A> RasterSink<A> sink(Path file, GridSpec spec, CellKind<A> kind, BandInfo info) {
    files.forget(file);
    return new CogSink<>(file, spec, kind, info, keys(spec.crsWkt()));
  }

  @Override
  public final void requireWritable(GridSpec spec) {
    keys(spec.crsWkt());
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

  private GridSpec specOf(Path file) {
    RasterHeader h = header(file);
    RasterHeader.Affine t = h.transform();
    if (t.rotated() || !(t.xCol() > 0) || !(t.yRow() < 0)) {
      throw UserError.of(
          file.toString(),
          "holds " + h.dataType() + " cells, " + (t.yRow() < 0 ? "" : "not ") + "north-up",
          "a north-up raster that Scarpway wrote",
          "run the job again to write it anew");
    }
    if ((long) h.rows() * h.cols() > Integer.MAX_VALUE - 8) {
      throw UserError.of(
          file.toString(), h.rows() + " x " + h.cols() + " cells", "under 2^31", "read a window");
    }
    return new GridSpec(h.rows(), h.cols(), t.xCol(), -t.yRow(), t.x0(), t.y0(), h.crsWkt());
  }
}

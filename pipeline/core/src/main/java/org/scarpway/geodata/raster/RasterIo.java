package org.scarpway.geodata.raster;

import java.nio.file.Path;
import java.util.List;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.CogSink;
import org.scarpway.geodata.tiff.RasterSink;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.IntGrid;

/**
 * Reads and writes raster files. Two implementations, GDAL and pure Java, read identical cells;
 * both write with {@link CogSink}. Every method throws {@link org.scarpway.stage.UserError} for an
 * invalid file and {@link org.scarpway.stage.StageFailure} if writing fails.
 */
public interface RasterIo {

  /** Name and version of the implementation, such as "GDAL 3.6.2" or "pure Java". */
  String name();

  /** Limitations of this implementation, one line each; empty for GDAL. */
  List<String> reduced();

  /** Reads the metadata of a raster file. */
  RasterHeader header(Path file);

  /**
   * Reads a window of band 1 as real heights: stored value * scale + offset - {@code subtract}, NaN
   * if the file has no data there (nodata value, NaN, or masked).
   *
   * @param out row-major, at least rows * cols long
   * @param header metadata from {@link #header}
   * @param firstRow first row of the window, from 0 in the north
   * @param firstCol first column of the window, from 0 in the west
   * @param rows number of rows, at least 1
   * @param cols number of columns, at least 1
   * @param subtract datum that is subtracted from every value, in the unit of the result
   * @throws IllegalArgumentException if the window is not within the raster or {@code out} is too
   *     short
   */
  void read(
      RasterHeader header,
      int firstRow,
      int firstCol,
      int rows,
      int cols,
      double subtract,
      float[] out);

  /** Reads a whole raster that Scarpway wrote. */
  FloatGrid readFloats(Path file);

  /** Reads a whole raster of codes that Scarpway wrote. */
  ByteGrid readBytes(Path file);

  /** Reads a whole raster of bit flags that Scarpway wrote. */
  IntGrid readInts(Path file);

  /** Starts a cloud-optimised GeoTIFF with overviews, to be written row by row. */
  <A> RasterSink<A> sink(Path file, GridSpec spec, CellKind<A> kind, BandInfo info);

  /** Writes float32, no data NaN. */
  default void write(Path file, FloatGrid grid, BandInfo info) {
    write(file, grid.spec(), CellKind.FLOAT32, grid.values(), info);
  }

  /** Writes uint8, no data 0. */
  default void write(Path file, ByteGrid grid, BandInfo info) {
    write(file, grid.spec(), CellKind.UINT8, grid.values(), info);
  }

  /** Writes uint32 bit flags, without a nodata value. */
  default void write(Path file, IntGrid grid, BandInfo info) {
    write(file, grid.spec(), CellKind.UINT32, grid.values(), info);
  }

  private <A> void write(Path file, GridSpec spec, CellKind<A> kind, A cells, BandInfo info) {
    try (RasterSink<A> sink = sink(file, spec, kind, info)) {
      sink.append(cells, 0, spec.rows());
      sink.finish();
    }
  }

  /** Throws unless a file of this grid can be written and its CRS reads back as the same one. */
  void requireWritable(GridSpec spec);
}

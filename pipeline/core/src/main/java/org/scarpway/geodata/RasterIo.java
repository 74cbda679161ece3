package org.scarpway.geodata;

import java.nio.file.Path;
import java.util.List;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.IntGrid;

/**
 * Reads and writes raster files. Two implementations, GDAL and pure Java, give identical cells.
 * Every method throws {@link org.scarpway.stage.UserError} for a file that cannot be what it should
 * be and {@link org.scarpway.stage.StageFailure} where writing fails.
 */
public interface RasterIo {

  /** "GDAL 3.6.2" or "pure Java". */
  String name();

  /** What a user loses on this path, one line each; empty for GDAL. */
  List<String> reduced();

  RasterHeader header(Path file);

  /**
   * Reads a window of band 1 as real heights: stored value * scale + offset - {@code subtract}, NaN
   * where the file has no data (nodata value, NaN, or masked).
   *
   * @param out row-major, at least rows * cols long
   */
  void read(
      RasterHeader header,
      int firstRow,
      int firstCol,
      int rows,
      int cols,
      double subtract,
      float[] out);

  /** Reads a raster that Scarpway wrote, whole. */
  FloatGrid readFloats(Path file);

  ByteGrid readBytes(Path file);

  IntGrid readInts(Path file);

  /** Writes float32, no data NaN, cloud-optimised where the path allows it, with overviews. */
  void write(Path file, FloatGrid grid, BandInfo info);

  /** Writes uint8, no data 0. */
  void write(Path file, ByteGrid grid, BandInfo info);

  /** Writes uint32 bit sets, no data value not set. */
  void write(Path file, IntGrid grid, BandInfo info);

  /**
   * Whether cells of a file of this grid could be written and its CRS read back as the same one.
   */
  void requireWritable(GridSpec spec);
}

package org.scarpway.geodata.raster;

/**
 * One open raster file. Used by one thread at a time, which {@link OpenFiles} ensures; it also
 * closes the file.
 */
interface OpenRaster extends AutoCloseable {

  RasterHeader header();

  /**
   * Reads a window of band 1 as stored values, before scale and offset; NaN for a cell hidden by a
   * mask of the file. The nodata value is not applied.
   *
   * @param out row-major, at least rows * cols long
   * @throws org.scarpway.stage.UserError if the cells cannot be read
   */
  void readStored(int firstRow, int firstCol, int rows, int cols, double[] out);

  @Override
  void close();
}

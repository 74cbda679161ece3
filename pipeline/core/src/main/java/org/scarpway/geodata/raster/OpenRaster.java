package org.scarpway.geodata.raster;

/**
 * One open raster file. Used by one thread at a time; {@link OpenFiles} sees to that and to closing
 * it.
 */
interface OpenRaster extends AutoCloseable {

  RasterHeader header();

  /**
   * Reads a window of band 1 as stored numbers, before scale and offset; NaN where a mask of the
   * file hides the cell. The nodata value is not looked at.
   *
   * @param out row-major, at least rows * cols long
   * @throws org.scarpway.stage.UserError where the file cannot give its cells
   */
  void readStored(int firstRow, int firstCol, int rows, int cols, double[] out);

  @Override
  void close();
}

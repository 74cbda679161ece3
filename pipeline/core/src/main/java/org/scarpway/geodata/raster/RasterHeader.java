package org.scarpway.geodata.raster;

import java.nio.file.Path;

/**
 * The metadata of a raster file, as read before any cell is loaded.
 *
 * @param file the file that was read
 * @param format short format name, such as GTiff
 * @param rows number of rows, at least 1
 * @param cols number of columns, at least 1
 * @param bands number of bands, at least 1; band 1 holds the values
 * @param transform six affine terms: x = t0 + t1*col + t2*row, y = t3 + t4*col + t5*row, of cell
 *     corners
 * @param crsWkt OGC WKT 1 text, empty if the file names none
 * @param dataType storage type, such as Float32
 * @param nodata the no-data value or null
 * @param scale factor from stored value to {@code verticalUnit}
 * @param offset value added after scaling
 * @param verticalUnit unit of the values as the file names it, empty if it names none
 * @param placeNote correction that was made to the georeference of the file; empty if none
 */
public record RasterHeader(
    Path file,
    String format,
    int rows,
    int cols,
    int bands,
    Affine transform,
    String crsWkt,
    String dataType,
    Double nodata,
    double scale,
    double offset,
    String verticalUnit,
    String placeNote) {

  /** A header whose georeference was not corrected. */
  public RasterHeader(
      Path file,
      String format,
      int rows,
      int cols,
      int bands,
      Affine transform,
      String crsWkt,
      String dataType,
      Double nodata,
      double scale,
      double offset,
      String verticalUnit) {
    this(
        file,
        format,
        rows,
        cols,
        bands,
        transform,
        crsWkt,
        dataType,
        nodata,
        scale,
        offset,
        verticalUnit,
        "");
  }

  /**
   * Affine georeference: x = x0 + xCol*col + xRow*row, y = y0 + yCol*col + yRow*row; (0, 0) is the
   * corner of the first cell.
   *
   * @param x0 x of the corner of the first cell
   * @param xCol change of x per column
   * @param xRow change of x per row
   * @param y0 y of the corner of the first cell
   * @param yCol change of y per column
   * @param yRow change of y per row; negative for a north-up raster
   */
  public record Affine(double x0, double xCol, double xRow, double y0, double yCol, double yRow) {
    /** True if rows or columns are not parallel to the axes. */
    public boolean rotated() {
      return xRow != 0 || yCol != 0;
    }
  }
}

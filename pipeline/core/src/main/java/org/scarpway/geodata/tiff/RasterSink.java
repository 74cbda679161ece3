package org.scarpway.geodata.tiff;

/**
 * Writes a raster product row by row from the north. The complete file appears at its path with
 * {@link #finish}, or not at all. For one thread at a time.
 *
 * @param <A> float[], byte[] or int[]
 */
public interface RasterSink<A> extends AutoCloseable {

  /**
   * Appends rows; the number of rows per call does not change the file.
   *
   * @param cells row-major
   * @param at index of the first cell of the first row
   * @throws org.scarpway.stage.StageFailure if the disk is full or broken
   */
  void append(A cells, int at, int rows);

  /**
   * Completes the file and moves it to its path.
   *
   * @throws IllegalStateException if rows are missing
   * @throws org.scarpway.stage.StageFailure if the disk is full or broken
   */
  void finish();

  /** Discards an unfinished file without remains. */
  @Override
  void close();
}

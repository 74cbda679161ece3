package org.scarpway.geodata.tiff;

/**
 * A raster product on its way to disk, row after row from the north. The file appears whole at its
 * place with {@link #finish}, or not at all. One thread at a time.
 *
 * @param <A> float[], byte[] or int[]
 */
public interface RasterSink<A> extends AutoCloseable {

  /**
   * Adds rows; how many at a time makes no difference to the file.
   *
   * @param cells row-major
   * @param at index of the first cell of the first row
   * @throws org.scarpway.stage.StageFailure if the disk is full or broken
   */
  void append(A cells, int at, int rows);

  /**
   * Puts the file in its place.
   *
   * @throws IllegalStateException if rows are missing
   * @throws org.scarpway.stage.StageFailure if the disk is full or broken
   */
  void finish();

  /** Gives up what is not finished, and leaves no remains. */
  @Override
  void close();
}

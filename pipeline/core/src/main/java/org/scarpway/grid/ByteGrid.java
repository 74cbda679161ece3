package org.scarpway.grid;

/**
 * One {@code byte} per cell, row 0 north; code 0 means no data. Filled once by its owner, read-only
 * afterwards.
 */
public final class ByteGrid {
  private final GridSpec spec;
  private final byte[] values;

  /**
   * Wraps an array without copying it.
   *
   * @param spec georeference
   * @param values one value per cell, row by row from the north; not modified afterwards
   * @throws IllegalArgumentException if the array does not hold exactly one value per cell
   */
  public ByteGrid(GridSpec spec, byte[] values) {
    if (values.length != spec.cells()) {
      throw new IllegalArgumentException(
          "grid has " + spec.cells() + " cells but the array has " + values.length);
    }
    this.spec = spec;
    this.values = values;
  }

  /** Returns a grid whose cells are all 0 (no data), to be filled by its owner. */
  public static ByteGrid empty(GridSpec spec) {
    return new ByteGrid(spec, new byte[spec.cells()]);
  }

  /** Returns the georeference of the cells. */
  public GridSpec spec() {
    return spec;
  }

  /** The cells themselves, not a copy. */
  public byte[] values() {
    return values;
  }

  /**
   * Returns the value of a cell, 0 for no data.
   *
   * @param row row from the north, from 0
   * @param col column from the west, from 0; a row or column off the grid is not checked
   */
  public byte at(int row, int col) {
    return values[row * spec.cols() + col];
  }
}

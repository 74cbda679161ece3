package org.scarpway.grid;

/**
 * One {@code int} of bit flags per cell, row 0 north; 0 means no flag. Filled once by its owner,
 * read-only afterwards.
 */
public final class IntGrid {
  private final GridSpec spec;
  private final int[] values;

  /**
   * Wraps an array without copying it.
   *
   * @param spec georeference
   * @param values one value per cell, row by row from the north; not modified afterwards
   * @throws IllegalArgumentException if the array does not hold exactly one value per cell
   */
  public IntGrid(GridSpec spec, int[] values) {
    if (values.length != spec.cells()) {
      throw new IllegalArgumentException(
          "grid has " + spec.cells() + " cells but the array has " + values.length);
    }
    this.spec = spec;
    this.values = values;
  }

  /** Returns the georeference of the cells. */
  public GridSpec spec() {
    return spec;
  }

  /** The cells themselves, not a copy. */
  public int[] values() {
    return values;
  }

  /**
   * Returns the value of a cell, 0 for no flag.
   *
   * @param row row from the north, from 0
   * @param col column from the west, from 0; a row or column off the grid is not checked
   */
  public int at(int row, int col) {
    return values[row * spec.cols() + col];
  }
}

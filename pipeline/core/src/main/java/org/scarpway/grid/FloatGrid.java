package org.scarpway.grid;

/**
 * One {@code float} per cell, row 0 north; no data is NaN. Filled once by its owner, read-only
 * afterwards.
 */
public final class FloatGrid {
  private final GridSpec spec;
  private final float[] values;

  /**
   * Wraps an array without copying it.
   *
   * @param spec georeference
   * @param values one value per cell, row by row from the north; not modified afterwards
   * @throws IllegalArgumentException if the array does not hold exactly one value per cell
   */
  public FloatGrid(GridSpec spec, float[] values) {
    if (values.length != spec.cells()) {
      throw new IllegalArgumentException(
          "grid has " + spec.cells() + " cells but the array has " + values.length);
    }
    this.spec = spec;
    this.values = values;
  }

  /** Returns a grid whose cells are all 0, to be filled by its owner. */
  public static FloatGrid empty(GridSpec spec) {
    return new FloatGrid(spec, new float[spec.cells()]);
  }

  /** Returns the georeference of the cells. */
  public GridSpec spec() {
    return spec;
  }

  /** The cells themselves, not a copy. */
  public float[] values() {
    return values;
  }

  /**
   * Returns the value of a cell, NaN for no data.
   *
   * @param row row from the north, from 0
   * @param col column from the west, from 0; a row or column off the grid is not checked
   */
  public float at(int row, int col) {
    return values[row * spec.cols() + col];
  }
}

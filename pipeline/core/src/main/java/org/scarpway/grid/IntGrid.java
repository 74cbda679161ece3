package org.scarpway.grid;

/**
 * One {@code int} of bit flags per cell, row 0 north; 0 means no flag. Filled once by its owner,
 * read-only afterwards.
 */
public final class IntGrid {
  private final GridSpec spec;
  private final int[] values;

  public IntGrid(GridSpec spec, int[] values) {
    if (values.length != spec.cells()) {
      throw new IllegalArgumentException(
          "grid has " + spec.cells() + " cells but the array has " + values.length);
    }
    this.spec = spec;
    this.values = values;
  }

  public GridSpec spec() {
    return spec;
  }

  /** The cells themselves, not a copy. */
  public int[] values() {
    return values;
  }

  public int at(int row, int col) {
    return values[row * spec.cols() + col];
  }
}

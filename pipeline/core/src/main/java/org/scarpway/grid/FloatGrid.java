package org.scarpway.grid;

/**
 * One {@code float} per cell, row 0 north; no data is NaN. Filled once by its owner, read-only
 * afterwards.
 */
public final class FloatGrid {
  private final GridSpec spec;
  private final float[] values;

  public FloatGrid(GridSpec spec, float[] values) {
    if (values.length != spec.cells()) {
      throw new IllegalArgumentException(
          "grid has " + spec.cells() + " cells but the array has " + values.length);
    }
    this.spec = spec;
    this.values = values;
  }

  public static FloatGrid empty(GridSpec spec) {
    return new FloatGrid(spec, new float[spec.cells()]);
  }

  public GridSpec spec() {
    return spec;
  }

  /** The cells themselves, not a copy. */
  public float[] values() {
    return values;
  }

  public float at(int row, int col) {
    return values[row * spec.cols() + col];
  }
}

package org.scarpway.grid;

/**
 * One {@code byte} per cell, row 0 north; code 0 means no data. Filled once by its owner, read-only
 * afterwards.
 */
public final class ByteGrid {
  private final GridSpec spec;
  private final byte[] values;

  public ByteGrid(GridSpec spec, byte[] values) {
    if (values.length != spec.cells()) {
      throw new IllegalArgumentException(
          "grid has " + spec.cells() + " cells but the array has " + values.length);
    }
    this.spec = spec;
    this.values = values;
  }

  public static ByteGrid empty(GridSpec spec) {
    return new ByteGrid(spec, new byte[spec.cells()]);
  }

  public GridSpec spec() {
    return spec;
  }

  /** The cells themselves, not a copy. */
  public byte[] values() {
    return values;
  }

  public byte at(int row, int col) {
    return values[row * spec.cols() + col];
  }
}

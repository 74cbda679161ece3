package org.scarpway.site;

import org.scarpway.grid.ByteGrid;

/**
 * Reads the classes of a vehicle's ground row by row, as in {@link org.scarpway.vehicle.Mobility}.
 */
public interface ClassRows {
  /** Reads the class of every cell of a row. */
  void read(int row, byte[] into);

  /** Rows of a grid in memory. */
  static ClassRows of(ByteGrid cls) {
    int cols = cls.spec().cols();
    return (row, into) -> System.arraycopy(cls.values(), row * cols, into, 0, cols);
  }
}

package org.scarpway.dem;

import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

/** Heights (m) that are read row by row, so that they need not all be in memory. */
public interface HeightRows {
  /** Georeference of the rows. */
  GridSpec spec();

  /** Lowest height (m); positive infinity if no cell holds one. */
  double lowestM();

  /** Highest height (m); negative infinity if no cell holds one. */
  double highestM();

  /** Reads {@code rows} whole rows, starting at {@code firstRow}, into {@code out} from index 0. */
  void read(int firstRow, int rows, float[] out);

  /**
   * Returns heights of some rows, which the caller must not modify.
   *
   * @param into where they may be put; of their size, or null if there is none yet
   */
  default float[] rows(int firstRow, int rows, float[] into) {
    float[] out = into == null ? new float[rows * spec().cols()] : into;
    read(firstRow, rows, out);
    return out;
  }

  /** Reads rows from a grid in memory. */
  static HeightRows of(FloatGrid heightM) {
    float least = Float.POSITIVE_INFINITY;
    float most = Float.NEGATIVE_INFINITY;
    for (float z : heightM.values()) {
      // Both comparisons are false for a void.
      least = z < least ? z : least;
      most = z > most ? z : most;
    }
    return new InMemory(heightM, least, most);
  }

  /** See {@link #of}. */
  record InMemory(FloatGrid heightM, double lowestM, double highestM) implements HeightRows {
    @Override
    public float[] rows(int firstRow, int rows, float[] into) {
      return rows == spec().rows() ? heightM.values() : HeightRows.super.rows(firstRow, rows, into);
    }

    @Override
    public GridSpec spec() {
      return heightM.spec();
    }

    @Override
    public void read(int firstRow, int rows, float[] out) {
      int cols = spec().cols();
      System.arraycopy(heightM.values(), firstRow * cols, out, 0, rows * cols);
    }
  }
}

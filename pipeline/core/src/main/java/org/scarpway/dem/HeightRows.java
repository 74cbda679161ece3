package org.scarpway.dem;

import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

/** Heights (m) that are handed out by rows, so that they need not all be in memory. */
public interface HeightRows {
  GridSpec spec();

  /** Lowest height there is; positive infinity if there is none. */
  double lowestM();

  /** Highest height there is; negative infinity if there is none. */
  double highestM();

  /**
   * Fills {@code rows} whole rows from {@code firstRow} on into {@code out}, beginning at its cell
   * 0.
   */
  void read(int firstRow, int rows, float[] out);

  /** Rows of heights that are in memory. */
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

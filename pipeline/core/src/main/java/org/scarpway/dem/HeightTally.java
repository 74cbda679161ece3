package org.scarpway.dem;

import org.scarpway.grid.GridSpec;

/** Counts and range of the heights of all cells, accumulated strip by strip from the north. */
final class HeightTally {
  private final GridSpec spec;
  private float least = Float.POSITIVE_INFINITY;
  private float most = Float.NEGATIVE_INFINITY;
  private long voids;
  private long firstVoid = -1;
  private long left;

  HeightTally(GridSpec spec) {
    this.spec = spec;
  }

  /** Adds heights as read, before gaps are filled; {@code at} is the index of the first cell. */
  void asRead(float[] heightM, int from, int cells, long at) {
    for (int i = from; i < from + cells; i++) {
      float z = heightM[i];
      if (Float.isNaN(z)) {
        firstVoid = firstVoid < 0 ? at + i - from : firstVoid;
        voids++;
      } else {
        least = Math.min(least, z);
        most = Math.max(most, z);
      }
    }
  }

  /** Adds heights after gaps are filled. */
  void settled(float[] heightM, int from, int cells) {
    for (int i = from; i < from + cells; i++) {
      left += Float.isNaN(heightM[i]) ? 1 : 0;
    }
  }

  GridSpec spec() {
    return spec;
  }

  float least() {
    return least;
  }

  float most() {
    return most;
  }

  /** Number of cells without a height as read. */
  long voids() {
    return voids;
  }

  int firstVoidRow() {
    return (int) (firstVoid / spec.cols());
  }

  int firstVoidCol() {
    return (int) (firstVoid % spec.cols());
  }

  /** Number of cells without a height after gaps are filled. */
  long left() {
    return left;
  }
}

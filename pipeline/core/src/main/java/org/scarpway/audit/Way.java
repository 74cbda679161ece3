package org.scarpway.audit;

/**
 * A way as it is to be driven: corners in the order of travel, in rows and columns counted from the
 * centre of the first cell, with straight lines between.
 *
 * @param within the cell in which the line to each corner lies, or {@link #ANY} where its ends say
 *     that; null for the latter everywhere
 */
public record Way(double[] row, double[] col, int[] within) {
  public static final int ANY = -1;

  public Way {
    if (row.length == 0
        || row.length != col.length
        || (within != null && within.length != row.length)) {
      throw new IllegalArgumentException("a way needs a row and a column for each of its corners");
    }
  }

  int corners() {
    return row.length;
  }

  int within(int corner) {
    return within == null ? ANY : within[corner];
  }
}

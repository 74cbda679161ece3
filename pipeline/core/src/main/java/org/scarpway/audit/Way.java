package org.scarpway.audit;

/**
 * A way as it is to be driven: corners in the order of travel, in rows and columns counted from the
 * centre of the first cell, with straight lines between.
 */
public final class Way {
  public static final int ANY = -1;

  private final double[] row;
  private final double[] col;
  private final int[] within;

  /**
   * @param within the cell in which the line to each corner lies, or {@link #ANY} where its ends
   *     say that; null for the latter everywhere
   */
  public Way(double[] row, double[] col, int[] within) {
    if (row.length == 0
        || row.length != col.length
        || (within != null && within.length != row.length)) {
      throw new IllegalArgumentException("a way needs a row and a column for each of its corners");
    }
    this.row = row.clone();
    this.col = col.clone();
    this.within = within == null ? null : within.clone();
  }

  int corners() {
    return row.length;
  }

  double row(int corner) {
    return row[corner];
  }

  double col(int corner) {
    return col[corner];
  }

  int within(int corner) {
    return within == null ? ANY : within[corner];
  }
}

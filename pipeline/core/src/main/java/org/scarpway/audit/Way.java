package org.scarpway.audit;

/**
 * A way to be driven, as a polyline: corners in the order of travel, in rows and columns counted
 * from the centre of the first cell.
 */
public final class Way {
  public static final int ANY = -1;

  private final double[] row;
  private final double[] col;
  private final int[] within;

  /**
   * @param within the cell in which the line to each corner lies, or {@link #ANY} if it follows
   *     from the ends; null for {@link #ANY} everywhere
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

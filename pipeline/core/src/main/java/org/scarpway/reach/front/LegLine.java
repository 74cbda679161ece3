package org.scarpway.reach.front;

import java.util.Arrays;
import org.scarpway.audit.Way;
import org.scarpway.grid.GridSpec;

/**
 * One leg as a polyline: corners in the order of travel, in rows and columns counted from the
 * centre of the first cell.
 */
public final class LegLine {
  /** Marks a stretch whose cells follow from its ends. */
  public static final int ANY = -1;

  private final double[] row;
  private final double[] col;
  private final int[] within;

  /** Creates a line from the rows and columns of its corners. */
  public LegLine(double[] row, double[] col) {
    this(row, col, null);
  }

  /**
   * @param within the cell in which the stretch to each corner lies, or {@link #ANY}; null for
   *     {@link #ANY} everywhere
   */
  public LegLine(double[] row, double[] col, int[] within) {
    this.row = row;
    this.col = col;
    this.within = within;
  }

  public int within(int corner) {
    return within == null ? ANY : within[corner];
  }

  public int corners() {
    return row.length;
  }

  /** The line as input of the audit. */
  public Way way() {
    return new Way(row, col, within);
  }

  public double row(int corner) {
    return row[corner];
  }

  public double col(int corner) {
    return col[corner];
  }

  /** Creates a line through cell centres; corners on a straight line are omitted. */
  public static LegLine of(GridSpec spec, int[] cells) {
    double[] row = new double[cells.length];
    double[] col = new double[cells.length];
    int n = 0;
    for (int cell : cells) {
      int r = cell / spec.cols();
      int c = cell % spec.cols();
      boolean straight =
          n > 1
              && (row[n - 1] - row[n - 2]) * (c - col[n - 1])
                  == (col[n - 1] - col[n - 2]) * (r - row[n - 1])
              && (row[n - 1] - row[n - 2]) * (r - row[n - 1])
                      + (col[n - 1] - col[n - 2]) * (c - col[n - 1])
                  > 0;
      n -= straight ? 1 : 0;
      row[n] = r;
      col[n++] = c;
    }
    return new LegLine(Arrays.copyOf(row, n), Arrays.copyOf(col, n));
  }
}

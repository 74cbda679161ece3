package org.scarpway.reach.front;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;

/**
 * A straight line between two cell centres: the cells that it crosses, each with its share of the
 * length (every cell touched, in order; integer arithmetic, so that a line through a corner is
 * recognised exactly). One thread reuses one instance for many lines.
 */
public final class Line {
  private static final double CORNER = 1e-9;

  private static final double TOUCHED = 1e-9;

  /** Tolerance within which a direction equals one of the 32 headings, in their units. */
  private static final double SAME_HEADING = 1e-9;

  private final GridSpec spec;
  private final int cols;
  private int[] cells = new int[64];
  private double[] until = new double[64];
  private int count;
  private int[] besideCorner = new int[16];
  private int besideCount;
  private double lengthM;
  private double heading;

  public Line(GridSpec spec) {
    this.spec = spec;
    this.cols = spec.cols();
  }

  /** Sets the line from one cell centre to another. */
  public Line between(int from, int to) {
    int row = from / cols;
    int col = from % cols;
    int dr = to / cols - row;
    int dc = to % cols - col;
    lengthM = Math.hypot(dr * spec.cellYM(), dc * spec.cellXM());
    heading = headingOf(dr, dc);
    count = 0;
    besideCount = 0;
    long nr = Math.abs(dr);
    long nc = Math.abs(dc);
    int stepR = Integer.signum(dr);
    int stepC = Integer.signum(dc);
    long i = 0;
    long j = 0;
    while (i < nr || j < nc) {
      // The line leaves the cell across a row edge at (2i+1)/2nr, across a column edge at
      // (2j+1)/2nc.
      long rowEdge = i < nr ? (2 * i + 1) * Math.max(nc, 1) : Long.MAX_VALUE;
      long colEdge = j < nc ? (2 * j + 1) * Math.max(nr, 1) : Long.MAX_VALUE;
      double t =
          rowEdge < colEdge || nc == 0 || j >= nc
              ? (2 * i + 1) / (2.0 * nr)
              : (2 * j + 1) / (2.0 * nc);
      push(row * cols + col, t);
      if (i < nr && j < nc && rowEdge == colEdge) {
        beside((row + stepR) * cols + col);
        beside(row * cols + col + stepC);
        row += stepR;
        col += stepC;
        i++;
        j++;
      } else if (j >= nc || (i < nr && rowEdge < colEdge)) {
        row += stepR;
        i++;
      } else {
        col += stepC;
        j++;
      }
    }
    push(row * cols + col, 1);
    return this;
  }

  /**
   * Sets the line between two points: with integer arithmetic if they are cell centres, else as
   * {@link #through}.
   */
  public Line lay(double row0, double col0, double row1, double col1) {
    boolean centres =
        row0 == Math.rint(row0)
            && col0 == Math.rint(col0)
            && row1 == Math.rint(row1)
            && col1 == Math.rint(col1);
    return centres
        ? between(((int) row0) * cols + (int) col0, ((int) row1) * cols + (int) col1)
        : through(row0, col0, row1, col1);
  }

  /**
   * Sets the line between two points that need not be cell centres, in rows and columns counted
   * from the centre of the first cell. A line within rounding of a corner passes through the
   * corner.
   */
  public Line through(double row0, double col0, double row1, double col1) {
    double dr = row1 - row0;
    double dc = col1 - col0;
    lengthM = Math.hypot(dr * spec.cellYM(), dc * spec.cellXM());
    heading = headingOf(dr, dc);
    count = 0;
    besideCount = 0;
    int row = (int) Math.floor(row0 + 0.5);
    int col = (int) Math.floor(col0 + 0.5);
    int stepR = dr < 0 ? -1 : 1;
    int stepC = dc < 0 ? -1 : 1;
    while (true) {
      double rowEdge = dr == 0 ? 2 : (row + 0.5 * stepR - row0) / dr;
      double colEdge = dc == 0 ? 2 : (col + 0.5 * stepC - col0) / dc;
      double t = Math.min(rowEdge, colEdge);
      if (!(t < 1 - TOUCHED)) {
        push(row * cols + col, 1);
        return this;
      }
      // A cell that is left as soon as it is entered is only touched and not counted as crossed.
      if (t > (count == 0 ? 0 : until[count - 1]) + TOUCHED) {
        push(row * cols + col, t);
      }
      if (Math.abs(rowEdge - colEdge) < CORNER) {
        beside((row + stepR) * cols + col);
        beside(row * cols + col + stepC);
        row += stepR;
        col += stepC;
      } else if (rowEdge < colEdge) {
        row += stepR;
      } else {
        col += stepC;
      }
    }
  }

  /** Sets a line that lies in one cell, given by the caller. */
  public Line inside(int cell, double dRow, double dCol) {
    lengthM = Math.hypot(dRow * spec.cellYM(), dCol * spec.cellXM());
    heading = headingOf(dRow, dCol);
    count = 0;
    besideCount = 0;
    push(cell, 1);
    return this;
  }

  /**
   * Position of a direction among the 32 headings, [0, 32). A direction within rounding of a
   * heading is set to that heading; otherwise the heading beside it, which may be barred, would be
   * required too.
   */
  public static double headingOf(double r, double c) {
    if (r == 0 && c == 0) {
      return 0;
    }
    double k;
    if (Math.abs(c) <= Math.abs(r)) {
      k = r < 0 ? -4 * c / r : 16 - 4 * c / r;
    } else {
      k = c > 0 ? 8 + 4 * r / c : 24 + 4 * r / c;
    }
    double nearest = Math.rint(k);
    k = Math.abs(k - nearest) < SAME_HEADING ? nearest : k;
    // Adding 0 makes a negative zero positive.
    return (k < 0 ? k + Headings.COUNT : k) + 0.0;
  }

  private void push(int cell, double end) {
    if (count == cells.length) {
      cells = Arrays.copyOf(cells, 2 * count);
      until = Arrays.copyOf(until, 2 * count);
    }
    cells[count] = cell;
    until[count++] = end;
  }

  private void beside(int cell) {
    if (besideCount == besideCorner.length) {
      besideCorner = Arrays.copyOf(besideCorner, 2 * besideCount);
    }
    besideCorner[besideCount++] = cell;
  }

  public int count() {
    return count;
  }

  public int cell(int i) {
    return cells[i];
  }

  /** Share of the line at which it leaves its i-th cell. */
  public double until(int i) {
    return until[i];
  }

  /** Plan length (m). */
  public double lengthM() {
    return lengthM;
  }

  /** Heading in units of the 32 headings, [0, 32). */
  public double heading() {
    return heading;
  }

  /** Cost of the part of the line in its i-th cell. */
  public double cost(Costs c, int i) {
    return c.perM(cells[i], heading) * (until[i] - (i == 0 ? 0 : until[i - 1])) * lengthM;
  }

  /**
   * Cost of the line with the given costs, infinite if any cell bars it. The heading points from
   * the first cell to the second, so with outward costs the travel is from the second to the first.
   */
  public double cost(Costs c) {
    for (int i = 0; i < besideCount; i++) {
      if (c.barrier(besideCorner[i])) {
        return Double.POSITIVE_INFINITY;
      }
    }
    int low = (int) heading;
    double share = heading - low;
    double e = c.eastAt(low, share);
    double n = c.northAt(low, share);
    double length = Math.sqrt(e * e + n * n);
    e /= length;
    n /= length;
    double sum = 0;
    double from = 0;
    for (int i = 0; i < count; i++) {
      double perM = share == 0 ? c.perM(cells[i], low) : c.between(cells[i], heading, e, n);
      if (perM == Double.POSITIVE_INFINITY) {
        return perM;
      }
      sum += perM * (until[i] - from);
      from = until[i];
    }
    return sum * lengthM;
  }
}

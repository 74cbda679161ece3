package org.scarpway.reach.front;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;

/**
 * Draws the tacks of a leg: where its direction is barred, the vehicle alternates between the
 * allowed headings on either side ({@link Tack}; heading mixing on the convexified polar speed
 * curve). Tacks are as long as possible without a higher cost; where the allowed headings change
 * from cell to cell, each cell has its own tacks.
 */
public final class Tacking {
  /** Largest excess cost of long tacks over short ones, as a share. */
  private static final double DEARER = 1e-3;

  /**
   * Largest number of tacks in a cell; tacks are shortened until they stay inside the cell or this
   * number is reached.
   */
  private static final int MOST_TACKS = 64;

  private static final double HALF = 0.5 - 1e-9;

  /** Shares of a tack in order: positive on its left heading, negative on its right heading. */
  private static final double[][] ORDERS = {
    {1, -1}, {-1, 1}, {0.5, -1, 0.5}, {-0.5, 1, -0.5},
  };

  private final Costs costs;
  private final Costs straightOn;
  private final GridSpec spec;
  private final Line line;
  private double[] row = new double[16];
  private double[] col = new double[16];
  private int[] cell = new int[16];
  private int n;

  private Tacking(Costs costs) {
    this.costs = costs;
    this.straightOn = costs.withoutTacks();
    this.spec = costs.field().spec();
    this.line = new Line(spec);
  }

  /**
   * Returns the leg with its tacks.
   *
   * @param costs costs with headings in the direction of travel
   */
  public static LegLine along(LegLine leg, Costs costs) {
    Tacking t = new Tacking(costs);
    t.add(leg.row(0), leg.col(0), LegLine.ANY);
    for (int i = 1; i < leg.corners(); i++) {
      t.drive(leg.row(i - 1), leg.col(i - 1), leg.row(i), leg.col(i));
    }
    return new LegLine(
        Arrays.copyOf(t.row, t.n), Arrays.copyOf(t.col, t.n), Arrays.copyOf(t.cell, t.n));
  }

  private void add(double r, double c, int within) {
    if (n == row.length) {
      row = Arrays.copyOf(row, 2 * n);
      col = Arrays.copyOf(col, 2 * n);
      cell = Arrays.copyOf(cell, 2 * n);
    }
    row[n] = r;
    col[n] = c;
    cell[n++] = within;
  }

  private void drive(double r0, double c0, double r1, double c1) {
    if (line.lay(r0, c0, r1, c1).cost(straightOn) < Double.POSITIVE_INFINITY) {
      add(r1, c1, LegLine.ANY);
    } else {
      new Piece(r0, c0, r1, c1).drive(0, line.count());
    }
  }

  /** A straight piece of the leg, divided where it passes from one cell to the next. */
  private final class Piece {
    private final double r0;
    private final double c0;
    private final double dr;
    private final double dc;
    private final double lengthM;
    private final double heading;
    private final int[] cells;
    private final double[] until;

    /** Creates the piece from the current line. */
    Piece(double r0, double c0, double r1, double c1) {
      this.r0 = r0;
      this.c0 = c0;
      this.dr = r1 - r0;
      this.dc = c1 - c0;
      this.lengthM = line.lengthM();
      this.heading = line.heading();
      this.cells = new int[line.count()];
      this.until = new double[line.count()];
      for (int i = 0; i < cells.length; i++) {
        cells[i] = line.cell(i);
        until[i] = line.until(i);
      }
    }

    private double share(int i) {
      return i == 0 ? 0 : until[i - 1];
    }

    private double row(int i) {
      return r0 + share(i) * dr;
    }

    private double col(int i) {
      return c0 + share(i) * dc;
    }

    private double cost(Costs c, int from, int to) {
      double sum = 0;
      for (int i = from; i < to; i++) {
        double length = until[i] - share(i);
        sum += length > 0 ? c.perM(cells[i], heading) * length : 0;
      }
      return sum * lengthM;
    }

    /** Draws the cells from index {@code from} to before {@code to}. */
    void drive(int from, int to) {
      if (!(share(to) > share(from))) {
        return;
      }
      if (cost(straightOn, from, to) < Double.POSITIVE_INFINITY) {
        for (int i = from; i < to; i++) {
          if (until[i] > share(i)) {
            add(row(i + 1), col(i + 1), cells[i]);
          }
        }
      } else if (to - from == 1) {
        tackInside(from);
      } else if (!tackOnce(from, to)) {
        int middle = from + 1;
        double half = 0.5 * (share(from) + share(to));
        for (int i = from + 2; i < to; i++) {
          middle = Math.abs(share(i) - half) < Math.abs(share(middle) - half) ? i : middle;
        }
        drive(from, middle);
        drive(middle, to);
      }
    }

    /**
     * Draws one heading over the whole range, then the other, in the cheaper order; false if that
     * costs more.
     */
    private boolean tackOnce(int from, int to) {
      double[] tack = tack(cells[from]);
      if (tack == null) {
        return false;
      }
      double least = cost(costs, from, to) * (1 + DEARER);
      int first = -1;
      double share = share(to) - share(from);
      for (int k = 0; k < 2; k++) {
        double r = row(from) + share * tack[2 * k];
        double c = col(from) + share * tack[2 * k + 1];
        if (!spec.holds((int) Math.floor(r + 0.5), (int) Math.floor(c + 0.5))) {
          continue;
        }
        double v = line.through(row(from), col(from), r, c).cost(straightOn);
        v += line.through(r, c, row(to), col(to)).cost(straightOn);
        if (v <= least) {
          least = v;
          first = k;
        }
      }
      if (first < 0) {
        return false;
      }
      double r = row(from) + share * tack[2 * first];
      double c = col(from) + share * tack[2 * first + 1];
      through(row(from), col(from), r, c);
      through(r, c, row(to), col(to));
      return true;
    }

    private void through(double fromRow, double fromCol, double toRow, double toCol) {
      line.through(fromRow, fromCol, toRow, toCol);
      for (int i = 0; i < line.count(); i++) {
        double t = line.until(i);
        boolean end = i + 1 == line.count();
        add(
            end ? toRow : fromRow + t * (toRow - fromRow),
            end ? toCol : fromCol + t * (toCol - fromCol),
            line.cell(i));
      }
    }

    /**
     * Rows and columns travelled on the allowed heading to the left of the piece and on that to its
     * right; null if the cell has no such pair.
     */
    private double[] tack(int cell) {
      int allowed = costs.field().allowed(cell);
      if (allowed == 0) {
        return null;
      }
      int left = Tack.left(allowed, heading);
      int right = Tack.right(allowed, heading);
      if (!Tack.makesGood(left, right)) {
        return null;
      }
      double lr = Headings.dRow(left);
      double lc = Headings.dCol(left);
      double rr = Headings.dRow(right);
      double rc = Headings.dCol(right);
      double across = lr * rc - lc * rr;
      double onLeft = (dr * rc - dc * rr) / across;
      double onRight = (lr * dc - lc * dr) / across;
      return new double[] {onLeft * lr, onLeft * lc, onRight * rr, onRight * rc};
    }

    /** Draws as many tacks as are needed to stay inside the cell. */
    private void tackInside(int at) {
      double[] tack = tack(cells[at]);
      double share = until[at] - share(at);
      for (int tacks = 1; ; tacks *= 2) {
        for (int order = 0; order < ORDERS.length; order++) {
          boolean last = tacks >= MOST_TACKS && order + 1 == ORDERS.length;
          int begin = n;
          for (int t = 0; t < tacks; t++) {
            double done = share(at) + share * t / tacks;
            double onLeft = 0;
            double onRight = 0;
            for (int k = 0; k < ORDERS[order].length; k++) {
              double part = ORDERS[order][k];
              onLeft += part > 0 ? part * share / tacks : 0;
              onRight -= part < 0 ? part * share / tacks : 0;
              add(
                  r0 + done * dr + onLeft * tack[0] + onRight * tack[2],
                  c0 + done * dc + onLeft * tack[1] + onRight * tack[3],
                  cells[at]);
            }
          }
          row[n - 1] = row(at + 1);
          col[n - 1] = col(at + 1);
          if (last || inside(begin, cells[at])) {
            return;
          }
          n = begin;
        }
      }
    }

    private boolean inside(int from, int within) {
      int r = within / spec.cols();
      int c = within % spec.cols();
      for (int i = from; i < n - 1; i++) {
        if (Math.abs(row[i] - r) > HALF || Math.abs(col[i] - c) > HALF) {
          return false;
        }
      }
      return true;
    }
  }
}

package org.scarpway.reach.question;

import java.util.Arrays;
import java.util.function.IntUnaryOperator;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;

/**
 * The next cell of the way from each cell to the source of a front, as one code a cell: 1 to
 * {@value #CELLS} for the 16 cells of the square ring two cells away, then the 8 neighbours, both
 * clockwise from the north; {@value #SOURCE} at the source; {@value #STRAIGHT} where the way is a
 * straight line to it; 0 where there is no way. Where the front's own step ends between two cells,
 * the code tells the one of them through which the way is cheaper.
 */
public final class StepCodes {
  /** Number of cells on the ring two cells away. */
  public static final int FAR = 16;

  /** Number of cells to which a step leads. */
  public static final int CELLS = 24;

  /** The cell is the source. */
  public static final int SOURCE = CELLS + 1;

  /** The way is a straight line to the source. */
  public static final int STRAIGHT = CELLS + 2;

  private StepCodes() {}

  /** Rows southwards of the step with a code from 1 to {@link #CELLS}. */
  public static int rows(int code) {
    return code <= FAR
        ? Headings.dRow(2 * (code - 1)) / 2
        : Headings.dRow(4 * (code - 1 - FAR)) / 4;
  }

  /** Columns eastwards of the step with a code from 1 to {@link #CELLS}. */
  public static int cols(int code) {
    return code <= FAR
        ? Headings.dCol(2 * (code - 1)) / 2
        : Headings.dCol(4 * (code - 1 - FAR)) / 4;
  }

  /**
   * Follows the codes from a cell to the source.
   *
   * @param codes code of each cell
   * @param source cell of the source
   * @return cells of the way, both ends included; empty if there is none
   */
  public static int[] follow(GridSpec spec, IntUnaryOperator codes, int start, int source) {
    int[] way = new int[64];
    int cell = start;
    for (int n = 0; n < spec.cells(); n++) {
      if (n + 2 > way.length) {
        way = Arrays.copyOf(way, 2 * way.length);
      }
      way[n] = cell;
      int code = codes.applyAsInt(cell);
      if (code == SOURCE) {
        return Arrays.copyOf(way, n + 1);
      }
      if (code == STRAIGHT) {
        way[n + 1] = source;
        return Arrays.copyOf(way, n + 2);
      }
      if (code < 1 || code > CELLS) {
        break;
      }
      cell += rows(code) * spec.cols() + cols(code);
    }
    return new int[0];
  }

  /** Length of a way on the map (m). */
  public static double lengthM(GridSpec spec, int[] way) {
    double m = 0;
    for (int i = 1; i < way.length; i++) {
      int dr = way[i] / spec.cols() - way[i - 1] / spec.cols();
      int dc = way[i] % spec.cols() - way[i - 1] % spec.cols();
      m += Math.hypot(dr * spec.cellYM(), dc * spec.cellXM());
    }
    return m;
  }
}

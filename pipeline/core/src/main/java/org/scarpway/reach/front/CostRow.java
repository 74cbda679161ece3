package org.scarpway.reach.front;

import org.scarpway.grid.Headings;
import org.scarpway.vehicle.TraversalCost;

/**
 * Computes the costs of a row of cells on all 32 headings of travel, heading by heading in loops
 * over plain arrays that become vector instructions. The results are those of {@link
 * Costs#perM(int, int)}, bit for bit. One instance is the working memory of one thread.
 */
final class CostRow {
  private final CostTerms terms;
  private final double[] factor;
  private final int[] allowed;

  /** Cells that are computed one by one. */
  private final boolean[] apart;

  CostRow(int cells) {
    terms = new CostTerms(cells);
    factor = new double[cells];
    allowed = new int[cells];
    apart = new boolean[cells];
  }

  /**
   * @param first first of {@code n} cells of one row
   * @param at index of the first cell's cost on heading 0 in {@code into}
   * @param headingStep elements between one heading and the next
   */
  void fill(Costs from, int first, int n, float[] into, int at, int headingStep) {
    for (int c = 0; c < n; c++) {
      read(from, c, first + c);
    }
    double[] time = terms.time;
    double[] cost = terms.cost;
    for (int t = 0; t < Headings.COUNT; t++) {
      from.table().fill(n, terms, from.east(t), from.north(t));
      int to = at + t * headingStep;
      for (int c = 0; c < n; c++) {
        into[to + c] =
            time[c] == Double.POSITIVE_INFINITY
                ? Float.POSITIVE_INFINITY
                : (float) (cost[c] * factor[c]);
      }
    }
    for (int c = 0; c < n; c++) {
      if (apart[c]) {
        for (int t = 0; t < Headings.COUNT; t++) {
          into[at + t * headingStep + c] = (float) from.onHeading(first + c, t);
        }
      } else if (allowed[c] != -1) {
        fillBarred(from, allowed[c], into, at + c, headingStep);
      }
    }
  }

  private static void fillBarred(Costs from, int allowed, float[] into, int at, int headingStep) {
    for (int t = 0; t < Headings.COUNT; t++) {
      if ((allowed >>> t & 1) == 0) {
        into[at + t * headingStep] = Float.POSITIVE_INFINITY;
        int left = allowed == 0 ? 0 : Tack.left(allowed, t);
        int right = allowed == 0 ? Headings.COUNT : Tack.right(allowed, t);
        if (from.tacks(left, right)) {
          float onLeft = into[at + (left & Costs.LAST) * headingStep];
          float onRight = into[at + (right & Costs.LAST) * headingStep];
          into[at + t * headingStep] =
              (float) from.tacked(left, right, onLeft, onRight, from.east(t), from.north(t));
        }
      }
    }
  }

  private void read(Costs from, int c, int cell) {
    TraversalCost field = from.field();
    allowed[c] = field.allowed(cell);
    apart[c] = allowed[c] != 0 && (!from.tabled(cell) || field.tacked(cell));
    boolean here = allowed[c] != 0 && !apart[c];
    terms.gradEast[c] = here ? field.gradEast(cell) : 0;
    terms.gradNorth[c] = here ? field.gradNorth(cell) : 0;
    terms.capMs[c] = field.speedCapMs(cell);
    terms.pathRatio[c] = field.detour(cell);
    factor[c] = from.factor(cell);
    terms.soil[c] = here ? field.soil(cell) : 0;
    terms.levelJ[c] = from.table().levelJ(terms.soil[c]);
    terms.hotelW[c] = from.table().hotelW(terms.soil[c]);
  }
}

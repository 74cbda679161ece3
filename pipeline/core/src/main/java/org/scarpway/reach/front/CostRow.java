package org.scarpway.reach.front;

import org.scarpway.grid.Headings;
import org.scarpway.vehicle.TraversalCost;

/**
 * Computes the costs of a row of cells on all 32 headings of travel, heading by heading in loops
 * over plain arrays that become vector instructions. The results are those of {@link
 * Costs#perM(int, int)}, bit for bit. One instance is the working memory of one thread.
 */
final class CostRow {
  final double[] gradEast;
  final double[] gradNorth;
  final double[] capMs;
  final double[] pathRatio;
  final double[] levelJ;
  final double[] hotelW;
  final int[] soil;

  /** Index in the table, then time at the grade, then time (s/m). */
  final double[] time;

  final double[] lengthPerM;
  final double[] cost;
  private final double[] factor;
  private final int[] allowed;

  /** Cells that are computed one by one. */
  private final boolean[] apart;

  CostRow(int cells) {
    gradEast = new double[cells];
    gradNorth = new double[cells];
    capMs = new double[cells];
    pathRatio = new double[cells];
    levelJ = new double[cells];
    hotelW = new double[cells];
    soil = new int[cells];
    time = new double[cells];
    lengthPerM = new double[cells];
    cost = new double[cells];
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
    for (int t = 0; t < Headings.COUNT; t++) {
      from.table().fill(n, this, from.east(t), from.north(t));
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
    gradEast[c] = here ? field.gradEast(cell) : 0;
    gradNorth[c] = here ? field.gradNorth(cell) : 0;
    capMs[c] = field.speedCapMs(cell);
    pathRatio[c] = field.detour(cell);
    factor[c] = from.factor(cell);
    soil[c] = here ? field.soil(cell) : 0;
    levelJ[c] = from.table().levelJ(soil[c]);
    hotelW[c] = from.table().hotelW(soil[c]);
  }
}

package org.scarpway.reach.trip;

import java.util.Arrays;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.NeighbourSpread;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Memory;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Computes an upper bound on the area within a given time, out and home, of a place; fast enough
 * for thousands of places. It uses the least cost over steps between the 8 neighbours, where the
 * cost of a cell is that of the best heading of the best cell within three cells of it.
 *
 * <p>Why it is a bound: a path over neighbours is at most {@link #elongation} times as long as the
 * straight step that it replaces (8.24 % longer on square cells), and its cells lie so near the
 * step that none of them costs more than the cheapest cell that the step crosses. No trip computed
 * by reach therefore takes less than twice the label divided by the elongation. Barriers remain
 * barriers, except that paths may pass between two that touch only at a corner, which reach never
 * allows.
 */
public final class AreaScreen {
  private static final int AROUND = 3;

  /** Tolerance that keeps a cell exactly on the bound inside despite rounding. */
  private static final double ROUNDING = 1 + 1e-9;

  private final Memory memory;
  private final FloatGrid leastSPerM;
  private final double elongation;

  private AreaScreen(Memory memory, FloatGrid leastSPerM) {
    this.memory = memory;
    this.leastSPerM = leastSPerM;
    this.elongation = elongation(leastSPerM.spec());
  }

  /** Computes the cost of each cell once for all places. */
  public static AreaScreen of(TraversalCost field, Workers workers) {
    GridSpec spec = field.spec();
    int cols = spec.cols();
    Costs costs = new Costs(field, Quantity.TIME_S, Direction.OUT);
    float[] own = new float[spec.cells()];
    float[] ofRow = new float[spec.cells()];
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          for (int cell = from * cols; cell < to * cols; cell++) {
            float least = Float.POSITIVE_INFINITY;
            for (int k = 0; k < Headings.COUNT; k++) {
              least = Math.min(least, (float) costs.perM(cell, k));
            }
            own[cell] = least;
          }
          for (int row = from; row < to; row++) {
            leastAlong(own, row * cols, cols, ofRow);
          }
        });
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          float[] least = new float[cols];
          for (int row = from; row < to; row++) {
            leastAcross(ofRow, row, spec, least);
            for (int c = 0; c < cols; c++) {
              int cell = row * cols + c;
              own[cell] = own[cell] < Float.POSITIVE_INFINITY ? least[c] : own[cell];
            }
          }
        });
    return new AreaScreen(workers.memory(), new FloatGrid(spec, own));
  }

  private static void leastAlong(float[] from, int first, int cols, float[] into) {
    for (int c = 0; c < cols; c++) {
      float least = Float.POSITIVE_INFINITY;
      int end = Math.min(cols - 1, c + AROUND);
      for (int k = Math.max(0, c - AROUND); k <= end; k++) {
        least = Math.min(least, from[first + k]);
      }
      into[first + c] = least;
    }
  }

  private static void leastAcross(float[] from, int row, GridSpec spec, float[] into) {
    Arrays.fill(into, Float.POSITIVE_INFINITY);
    int end = Math.min(spec.rows() - 1, row + AROUND);
    for (int r = Math.max(0, row - AROUND); r <= end; r++) {
      for (int c = 0; c < into.length; c++) {
        into[c] = Math.min(into[c], from[r * spec.cols() + c]);
      }
    }
  }

  /** Largest ratio of the path length over 8 neighbours to the straight length. */
  static double elongation(GridSpec spec) {
    double diagonal = StrictMath.atan2(spec.cellYM(), spec.cellXM());
    return 1 / StrictMath.cos(Math.max(diagonal, Math.PI / 2 - diagonal) / 2);
  }

  /**
   * Upper bound on the area that a trip of that time can reach (m2), the cell of the place
   * included.
   *
   * @param cell index of the cell of the place; must be drivable
   * @param timeS time for out and home together (s)
   */
  public double areaM2(int cell, double timeS) {
    double budget = timeS / 2 * elongation * ROUNDING;
    NeighbourSpread spread = new NeighbourSpread(memory, leastSPerM, budget, cell);
    spread.work(Progress.NONE);
    return spread.within(budget) * leastSPerM.spec().cellAreaM2();
  }
}

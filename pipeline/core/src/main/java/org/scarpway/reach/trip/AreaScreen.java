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
import org.scarpway.vehicle.MoveField;

/**
 * A bound from above on the ground within a time of a place, out and home, quick enough for
 * thousands of places: least cost over steps between neighbours, where a cell costs what the best
 * heading of the best cell within three cells of it costs.
 *
 * <p>Why it is a bound: a way over neighbours is at most {@link #elongation} times as long as the
 * straight step that it stands for (8.24 % on square cells), and its cells lie so near the step
 * that none of them costs more than the cheapest cell that the step crosses. So no trip of reach
 * takes less than the label divided by the elongation, twice. Barriers stay barriers; they are
 * squeezed through where they touch at a corner only, which reach never does.
 */
public final class AreaScreen {
  private static final int AROUND = 3;

  /** Keeps a cell on the bound itself inside, however sums are rounded. */
  private static final double ROUNDING = 1 + 1e-9;

  private final Memory memory;
  private final FloatGrid leastSPerM;
  private final double elongation;

  private AreaScreen(Memory memory, FloatGrid leastSPerM) {
    this.memory = memory;
    this.leastSPerM = leastSPerM;
    this.elongation = elongation(leastSPerM.spec());
  }

  /** Works out the cost of each cell once for all places. */
  public static AreaScreen of(MoveField field, Workers workers) {
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

  /** Longest way over the 8 neighbours over the straight one. */
  static double elongation(GridSpec spec) {
    double diagonal = StrictMath.atan2(spec.cellYM(), spec.cellXM());
    return 1 / StrictMath.cos(Math.max(diagonal, Math.PI / 2 - diagonal) / 2);
  }

  /**
   * Area that no trip of that time leaves (m2), the place included.
   *
   * @param cell index of the place, where the mover can stand
   * @param timeS out and home together
   */
  public double areaM2(int cell, double timeS) {
    double budget = timeS / 2 * elongation * ROUNDING;
    NeighbourSpread spread = new NeighbourSpread(memory, leastSPerM, budget, cell);
    spread.help(Progress.NONE);
    return spread.within(budget) * leastSPerM.spec().cellAreaM2();
  }
}

package org.scarpway.reach.trip;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.NeighbourSpread;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Memory;
import org.scarpway.stage.Progress;
import org.scarpway.stage.ScratchFile;
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
  private final GridSpec spec;
  private final Floats leastSPerM;
  private final double elongation;

  private AreaScreen(Memory memory, GridSpec spec, Floats leastSPerM) {
    this.memory = memory;
    this.spec = spec;
    this.leastSPerM = leastSPerM;
    this.elongation = elongation(spec);
  }

  /** Computes the cost of each cell once for all places. */
  public static AreaScreen of(TraversalCost field, Workers workers) {
    GridSpec spec = field.spec();
    int cols = spec.cols();
    Costs costs = new Costs(field, Quantity.TIME_S, Direction.OUT);
    ScratchFile file = workers.memory().scratch(2L * Float.BYTES * spec.cells());
    Floats own = Floats.of(spec.cells(), file);
    Floats ofRow = Floats.of(spec.cells(), file);
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          float[] line = new float[cols];
          float[] along = new float[cols];
          for (int row = from; row < to; row++) {
            for (int col = 0; col < cols; col++) {
              float least = Float.POSITIVE_INFINITY;
              for (int k = 0; k < Headings.COUNT; k++) {
                least = Math.min(least, (float) costs.perM(row * cols + col, k));
              }
              line[col] = least;
            }
            own.write(row * cols, line, 0, cols);
            leastAlong(line, along);
            ofRow.write(row * cols, along, 0, cols);
          }
        });
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          float[] line = new float[cols];
          float[] other = new float[cols];
          float[] least = new float[cols];
          for (int row = from; row < to; row++) {
            leastAcross(ofRow, row, spec, other, least);
            own.read(row * cols, line, 0, cols);
            for (int c = 0; c < cols; c++) {
              line[c] = line[c] < Float.POSITIVE_INFINITY ? least[c] : line[c];
            }
            own.write(row * cols, line, 0, cols);
          }
        });
    return new AreaScreen(workers.memory(), spec, own);
  }

  private static void leastAlong(float[] from, float[] into) {
    for (int c = 0; c < into.length; c++) {
      float least = Float.POSITIVE_INFINITY;
      int end = Math.min(into.length - 1, c + AROUND);
      for (int k = Math.max(0, c - AROUND); k <= end; k++) {
        least = Math.min(least, from[k]);
      }
      into[c] = least;
    }
  }

  private static void leastAcross(
      Floats from, int row, GridSpec spec, float[] other, float[] into) {
    Arrays.fill(into, Float.POSITIVE_INFINITY);
    int end = Math.min(spec.rows() - 1, row + AROUND);
    for (int r = Math.max(0, row - AROUND); r <= end; r++) {
      from.read(r * spec.cols(), other, 0, into.length);
      for (int c = 0; c < into.length; c++) {
        into[c] = Math.min(into[c], other[c]);
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
    NeighbourSpread spread = new NeighbourSpread(memory, spec, leastSPerM, budget, cell);
    spread.work(Progress.NONE);
    return spread.within(budget) * spec.cellAreaM2();
  }
}

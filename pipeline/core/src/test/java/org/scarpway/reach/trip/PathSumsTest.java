package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.front.Trace;
import org.scarpway.reach.front.TraceTest;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * What a verdict rests on is never less than what a way takes that is really driven, line by line,
 * over allowed headings and their tacks: not where headings are open in windows at random, on
 * square cells and on long ones.
 */
class PathSumsTest {
  /** Sums are stored as floats and, on free ground between windows, interpolated. */
  private static final double ROUNDING = 0.01;

  @Test
  void sumsAreOfWaysThatAreDriven() {
    for (int seed = 500; seed < 506; seed++) {
      holds(Fields.grid(30, 34, 5, 0, 0), seed);
      holds(new GridSpec(30, 34, 4, 7, 0, 210, ""), seed);
    }
  }

  private static void holds(GridSpec spec, int seed) {
    TraversalCost field = TraceTest.windows(spec, seed);
    Costs costs = new Costs(field, Quantity.TIME_S, Direction.OUT);
    int source = spec.cells() / 2 + spec.cols() / 2;
    CostField labels = Front.spread(costs, Progress.NONE, source);
    PathSums ways = PathSums.along(labels, Floats.of(spec.cells(), 0, null), false, null);
    int asked = 0;
    for (int cell = 0; cell < spec.cells(); cell++) {
      if (labels.reached(cell) && cell != source) {
        double driven = Trace.toSource(labels, cell).cost();
        assertTrue(
            ways.timeS(cell) >= (1 - ROUNDING) * driven,
            "seed " + seed + " cell " + cell + ": " + ways.timeS(cell) + " of " + driven);
        asked++;
      }
    }
    assertTrue(asked > 500, "few cells asked: " + asked);
  }

  /**
   * Two ways round a block, of the same length, the northern ten times as dear: behind it the sums
   * are of the one or of the other, not of something between them that nobody drives.
   */
  @Test
  void behindABlockAWayIsOfOneSide() {
    for (int odd = 0; odd < 2; odd++) {
      int rows = 60 + odd;
      GridSpec spec = Fields.grid(rows, 80, 1, 0, 0);
      int n = spec.cells();
      int[] allowed = new int[n];
      float[] cap = new float[n];
      byte[] ground = new byte[n];
      for (int i = 0; i < n; i++) {
        int row = i / 80;
        int col = i % 80;
        boolean block = col >= 20 && col < 30 && row >= 12 && row < rows - 12;
        allowed[i] = block ? 0 : -1;
        cap[i] = 1;
        ground[i] = (byte) (2 * row < rows ? 0 : 1);
      }
      GradeTable dear = new GradeTable(-1, 1, new double[] {1, 1}, new double[] {1e3, 1e3}, 0, 0);
      GradeTable cheap = new GradeTable(-1, 1, new double[] {1, 1}, new double[] {100, 100}, 0, 0);
      TraversalCost field =
          new TraversalCost(spec, allowed, new float[n], new float[n], cap, ground, dear, cheap);
      Costs costs = new Costs(field, Quantity.TIME_S, Direction.OUT);
      int source = rows / 2 * 80 + 5;
      CostField labels = Front.spread(costs, Progress.NONE, source);
      PathSums ways = PathSums.along(labels, Floats.of(new float[n]), true, null);
      int north = 0;
      int south = 0;
      for (int i = 0; i < n; i++) {
        if (i % 80 >= 31) {
          double perM = ways.energyJ(i) / ways.distanceM(i);
          boolean isNorth = perM > 900 && perM <= 1001;
          boolean isSouth = perM >= 99 && perM < 190;
          assertTrue(isNorth || isSouth, i / 80 + ", " + i % 80 + ": " + perM + " J/m");
          assertEquals(ways.timeS(i), ways.distanceM(i), 1e-3 * ways.timeS(i));
          north += isNorth ? 1 : 0;
          south += isSouth ? 1 : 0;
        }
      }
      assertTrue(north > 1200 && south > 1200, north + " north, " + south + " south");
    }
  }
}

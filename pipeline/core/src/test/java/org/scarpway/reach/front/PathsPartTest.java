package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.trip.PathSums;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.TraversalCost;

/**
 * A step that ends half-way between two cells, whose own ways begin on any two of the 32 headings:
 * labels are put in by hand, lengths are worked out on the square that the headings point to. Where
 * the headings lie more than 6 apart the way leads through the cell of the smaller label.
 */
class PathsPartTest {
  private static final int N = 15;
  private static final GridSpec SPEC = Fields.grid(N, N, 10, 0, 0);
  private static final int FROM = 9 * N + 7;
  private static final int FIRST = 7 * N + 7;
  private static final int SECOND = 7 * N + 8;

  /** Rows down and columns right of the eight neighbours, clockwise from the north. */
  private static final int[][] BESIDE = {
    {-1, 0}, {-1, 1}, {0, 1}, {1, 1}, {1, 0}, {1, -1}, {0, -1}, {-1, -1}
  };

  private static int beside(int cell, int j) {
    return cell + BESIDE[j % 8][0] * N + BESIDE[j % 8][1];
  }

  /** A source where there is no heading. */
  private static double lengthM(int heading) {
    if (heading < 0) {
      return 0;
    }
    int[] from = BESIDE[heading / 4];
    int[] to = BESIDE[(heading / 4 + 1) % 8];
    double share = heading % 4 / 4.0;
    double rows = (1 - share) * from[0] + share * to[0];
    double cols = (1 - share) * from[1] + share * to[1];
    return 10 * Math.hypot(rows, cols);
  }

  private static boolean leadsTo(int cell, int heading, int other) {
    if (heading < 0) {
      return false;
    }
    boolean second = heading % 4 > 0 && beside(cell, heading / 4 + 1) == other;
    return second || beside(cell, heading / 4) == other;
  }

  private static double distanceM(int first, int second, double firstS, double secondS) {
    TraversalCost field = Fields.level(SPEC, (x, y) -> 1);
    Costs costs = new Costs(field, Quantity.TIME_S, Direction.OUT);
    CostTiles tiles = new CostTiles(Tiling.of(SPEC, 64), null);
    int[] sources = new int[18];
    for (int j = 0; j < 8; j++) {
      sources[j] = beside(FIRST, j);
      sources[8 + j] = beside(SECOND, j);
    }
    sources[16] = FIRST;
    sources[17] = SECOND;
    for (int source : sources) {
      tiles.set(source, 0, Stencil.STRAIGHT);
    }
    tiles.set(FIRST, firstS, first < 0 ? Stencil.STRAIGHT : 128 + first);
    tiles.set(SECOND, secondS, second < 0 ? Stencil.STRAIGHT : 128 + second);
    // The middle of the far edge from the north clockwise.
    tiles.set(FROM, 500, 4);
    CostField labels =
        new CostField(costs, new Stencil(SPEC), sources, tiles, 10, Double.POSITIVE_INFINITY);
    return PathSums.along(labels, Floats.of(new float[N * N]), false, null).distanceM(FROM);
  }

  @Test
  void aStepBetweenWaysThatPartLeadsThroughOneOfThem() {
    int parted = 0;
    int alongside = 0;
    for (int first = -1; first < 32; first++) {
      for (int second = -1; second < 32; second++) {
        if (leadsTo(FIRST, first, SECOND) || leadsTo(SECOND, second, FIRST)) {
          continue;
        }
        int apart = Math.abs(first - second);
        boolean parts = first >= 0 && second >= 0 && Math.min(apart, 32 - apart) > 6;
        // Ways that differ by more than a drive between their ends (half a step) part, too.
        double edgeM = 0.5 * 10 * Math.hypot(2, 0.5);
        parts |= Math.abs(lengthM(first) - lengthM(second)) > edgeM;
        double between = 0.5 * (lengthM(first) + lengthM(second)) + 10 * Math.hypot(2, 0.5);
        String where = first + " and " + second;
        double throughFirst = parts ? lengthM(first) + 20 : between;
        double throughSecond = parts ? lengthM(second) + 10 * Math.hypot(2, 1) : between;
        assertEquals(throughFirst, distanceM(first, second, 100, 200), 1e-4, where);
        assertEquals(throughSecond, distanceM(first, second, 200, 100), 1e-4, where);
        parted += parts ? 1 : 0;
        alongside += parts ? 0 : 1;
      }
    }
    assertTrue(parted > 300 && alongside > 200, parted + " part, " + alongside + " do not");
  }
}

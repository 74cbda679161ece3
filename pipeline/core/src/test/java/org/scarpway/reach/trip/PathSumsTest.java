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
    oneSideBehind(60);
    oneSideBehind(61);
  }

  /**
   * A thin wall along the border of dear and cheap ground, seen from the cheap: the shortest ways
   * round its two ends meet at next to the same heading, away from the border. Beyond it energy is
   * that of one of them, by their exact lengths on either ground.
   */
  @Test
  void behindAThinWallAWayIsOfOneSide() {
    int asked = 0;
    for (int below = 1; below <= 12; below += 2) {
      int rows = 61;
      int cols = 90;
      GridSpec spec = Fields.grid(rows, cols, 1, 0, 0);
      int n = spec.cells();
      int[] allowed = new int[n];
      float[] cap = new float[n];
      byte[] ground = new byte[n];
      for (int i = 0; i < n; i++) {
        int row = i / cols;
        int col = i % cols;
        allowed[i] = row >= 29 && row < 31 && col >= 20 && col < 50 ? 0 : -1;
        cap[i] = 1;
        ground[i] = (byte) (row < 30 ? 0 : 1);
      }
      GradeTable dear = new GradeTable(-1, 1, new double[] {1, 1}, new double[] {1e3, 1e3}, 0, 0);
      GradeTable cheap = new GradeTable(-1, 1, new double[] {1, 1}, new double[] {100, 100}, 0, 0);
      TraversalCost field =
          new TraversalCost(spec, allowed, new float[n], new float[n], cap, ground, dear, cheap);
      Costs costs = new Costs(field, Quantity.TIME_S, Direction.OUT);
      CostField labels = Front.spread(costs, Progress.NONE, (30 + below) * cols + 5);
      PathSums ways = PathSums.along(labels, Floats.of(new float[n]), true, null);
      double[] from = {30.5 + below, 5.5};
      for (int row = 1; row < 29; row++) {
        for (int col = 52; col < cols; col++) {
          double[] to = {row + 0.5, col + 0.5};
          double northJ = energyJ(from, new double[] {29, 20}, to);
          double southJ = energyJ(from, new double[] {31, 50}, to);
          double got = ways.energyJ(row * cols + col);
          double leastJ = Math.min(northJ, southJ);
          double mostJ = Math.max(northJ, southJ);
          if (mostJ - leastJ < 15e3) {
            continue;
          }
          asked++;
          // A few cells of dear ground, about the corners and on the way.
          double mixed = (got - leastJ) / (mostJ - leastJ);
          assertTrue(
              mixed < 0.25 || mixed > 0.75,
              below + ": " + row + ", " + col + ": " + got + " J of " + northJ + " or " + southJ);
        }
      }
    }
    assertTrue(asked > 2000, "few cells asked: " + asked);
  }

  private static double energyJ(double[] from, double[] by, double[] to) {
    return energyJ(from, by) + energyJ(by, to);
  }

  private static double energyJ(double[] p, double[] q) {
    double lengthM = Math.hypot(q[0] - p[0], q[1] - p[1]);
    double low = Math.min(p[0], q[0]);
    double high = Math.max(p[0], q[0]);
    double north = Math.min(1, Math.max(0, (30 - low) / (high - low)));
    return lengthM * (north * 1e3 + (1 - north) * 100);
  }

  private static void oneSideBehind(int rows) {
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

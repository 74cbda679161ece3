package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.jgrapht.alg.shortestpath.DijkstraShortestPath;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.SimpleDirectedWeightedGraph;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

public class FrontTest {
  private static final int SIDE = 48;

  /**
   * Rough ground: random gradients, caps, barred headings and barriers, energy with regeneration.
   */
  public static TraversalCost rough(GridSpec spec, long seed) {
    Random random = new Random(seed);
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    float[] cap = new float[n];
    for (int i = 0; i < n; i++) {
      east[i] = (float) (0.25 * random.nextGaussian());
      north[i] = (float) (0.25 * random.nextGaussian());
      cap[i] = 1 + random.nextFloat() * 3;
      int bits = -1;
      for (int k = 0; k < 5; k++) {
        bits &= random.nextInt(3) == 0 ? ~(1 << random.nextInt(32)) : -1;
      }
      allowed[i] = random.nextInt(10) == 0 ? 0 : bits;
    }
    int middle = spec.rows() / 2 * spec.cols() + spec.cols() / 2;
    allowed[middle] = -1;
    return new TraversalCost(spec, allowed, east, north, cap, new byte[n], regenerating());
  }

  public static GradeTable regenerating() {
    int n = 2049;
    double[] speed = new double[n];
    double[] traction = new double[n];
    for (int i = 0; i < n; i++) {
      double g = -2 + 4.0 * i / (n - 1);
      double length = Math.sqrt(1 + g * g);
      speed[i] = 4 / (1 + 2 * Math.abs(g) + (g > 0 ? g : 0));
      traction[i] = (900 + (g > 0 ? 9000 * g : 3000 * g)) / length;
    }
    return new GradeTable(-2, 2, speed, traction, 100, 3000);
  }

  private static CostField spread(TraversalCost field, Quantity q, Direction d, int source) {
    return Front.spread(new Costs(field, q, d), Progress.NONE, source);
  }

  @Test
  void everyLabelIsTheBestOfItsStepsBitForBit() {
    GridSpec spec = Fields.grid(SIDE, SIDE, 5, 0, 0);
    for (Quantity q : Quantity.values()) {
      CostField labels = spread(rough(spec, 7), q, Direction.OUT, SIDE * SIDE / 2 + SIDE / 2);
      int reached = 0;
      for (int cell = 0; cell < spec.cells(); cell++) {
        if (labels.stepAt(cell) == Stencil.STRAIGHT) {
          continue;
        }
        double best = bestOfSteps(labels, cell, spec, openAround(labels, cell, spec));
        assertEquals(best, labels.value(cell), q + " cell " + cell);
        reached += labels.reached(cell) ? 1 : 0;
      }
      assertTrue(reached > 1000, "reached " + reached);
    }
  }

  private static boolean openAround(CostField labels, int cell, GridSpec spec) {
    int row = cell / spec.cols();
    int col = cell % spec.cols();
    for (int dr = -2; dr <= 2; dr++) {
      for (int dc = -2; dc <= 2; dc++) {
        if (!spec.holds(row + dr, col + dc)
            || labels.costs().field().allowed(cell + dr * spec.cols() + dc) != -1) {
          return false;
        }
      }
    }
    return true;
  }

  private static double bestOfSteps(CostField labels, int cell, GridSpec spec, boolean open) {
    if (labels.costs().barrier(cell)) {
      return Double.POSITIVE_INFINITY;
    }
    double best = Double.POSITIVE_INFINITY;
    for (int code = 0; code < Stencil.CODES; code++) {
      boolean toCell = Stencil.toCell(code, 0) == code;
      boolean near = code >= Stencil.NEAR_CODES && code < Stencil.CORNER_CODES;
      if ((open && near && !toCell) || !ends(cell, code, !toCell, spec)) {
        continue;
      }
      double share = labels.stencil().share(labels.costs(), cell, code);
      if (Double.isNaN(share)) {
        continue;
      }
      double a = labels.value(labels.stencil().first(cell, code));
      double b = share > 0 ? labels.value(labels.stencil().second(cell, code)) : a;
      double cost = labels.stencil().cost(labels.costs(), cell, code);
      if (a < Double.POSITIVE_INFINITY && b < Double.POSITIVE_INFINITY) {
        double v = share == 0 ? a + cost : (1 - share) * a + share * b + cost;
        double lowest = Math.max(a, b) + cost / 64;
        if (share > 0 && !open) {
          lowest =
              Math.max(lowest, Math.min(via(labels, cell, code, 0), via(labels, cell, code, 1)));
        }
        best = Math.min(best, Math.max(v, lowest));
      }
    }
    return best;
  }

  /** The way through an end of the edge, less what a straight way gains at most. */
  private static double via(CostField labels, int cell, int code, int end) {
    Stencil s = labels.stencil();
    int to = end == 0 ? s.first(cell, code) : s.second(cell, code);
    double cost = s.cost(labels.costs(), cell, Stencil.toCell(code, end));
    return labels.value(to) + s.gain(code) * cost;
  }

  private static boolean ends(int cell, int code, boolean between, GridSpec spec) {
    int row = cell / spec.cols();
    int col = cell % spec.cols();
    double heading = Stencil.heading(Stencil.toCell(code, 0));
    int size = code < Stencil.NEAR_CODES || code >= Stencil.CORNER_CODES ? 2 : 4;
    int k = (int) heading;
    int next = (k + (size == 2 ? 2 : 4)) % Headings.COUNT;
    int scale = size == 2 ? 2 : 4;
    boolean first = spec.holds(row + Headings.dRow(k) / scale, col + Headings.dCol(k) / scale);
    boolean second =
        spec.holds(row + Headings.dRow(next) / scale, col + Headings.dCol(next) / scale);
    return first && (second || !between);
  }

  @Test
  void quarterTurnTurnsTheAnswer() {
    GridSpec spec = Fields.grid(41, 41, 2, 0, 0);
    TraversalCost field = rough(spec, 3);
    TraversalCost turned = turned(field);
    double[] a = Fields.values(spread(field, Quantity.TIME_S, Direction.OUT, 20 * 41 + 20));
    double[] b = Fields.values(spread(turned, Quantity.TIME_S, Direction.OUT, 20 * 41 + 20));
    for (int r = 0; r < 41; r++) {
      for (int c = 0; c < 41; c++) {
        double expected = a[r * 41 + c];
        double got = b[c * 41 + 40 - r];
        if (expected < Double.POSITIVE_INFINITY) {
          assertEquals(expected, got, 1e-9 * (1 + expected));
        } else {
          assertEquals(expected, got);
        }
      }
    }
  }

  /** The field a quarter turn clockwise. */
  private static TraversalCost turned(TraversalCost f) {
    int side = f.spec().cols();
    int n = side * side;
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    float[] cap = new float[n];
    for (int r = 0; r < side; r++) {
      for (int c = 0; c < side; c++) {
        int from = r * side + c;
        int to = c * side + side - 1 - r;
        allowed[to] = Integer.rotateLeft(f.allowed(from), Headings.COUNT / 4);
        east[to] = f.gradNorth(from);
        north[to] = -f.gradEast(from);
        cap[to] = f.speedCapMs(from);
      }
    }
    return new TraversalCost(f.spec(), allowed, east, north, cap, new byte[n], regenerating());
  }

  @Test
  void mirrorMirrorsTheAnswer() {
    GridSpec spec = Fields.grid(41, 41, 2, 0, 0);
    TraversalCost f = rough(spec, 5);
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    float[] cap = new float[n];
    for (int i = 0; i < n; i++) {
      int to = i / 41 * 41 + 40 - i % 41;
      for (int k = 0; k < 32; k++) {
        allowed[to] |= f.allows(i, k) ? 1 << ((32 - k) % 32) : 0;
      }
      east[to] = -f.gradEast(i);
      north[to] = f.gradNorth(i);
      cap[to] = f.speedCapMs(i);
    }
    TraversalCost mirrored =
        new TraversalCost(spec, allowed, east, north, cap, new byte[n], regenerating());
    double[] a = Fields.values(spread(f, Quantity.ENERGY_J, Direction.HOME, 20 * 41 + 20));
    double[] b = Fields.values(spread(mirrored, Quantity.ENERGY_J, Direction.HOME, 20 * 41 + 20));
    for (int i = 0; i < n; i++) {
      double expected = a[i];
      double got = b[i / 41 * 41 + 40 - i % 41];
      if (expected < Double.POSITIVE_INFINITY) {
        assertEquals(expected, got, 1e-9 * (1 + expected));
      } else {
        assertEquals(expected, got);
      }
    }
  }

  @Test
  void doublingCellsAndSpeedKeepsTimes() {
    TraversalCost small = rough(Fields.grid(31, 31, 3, 0, 0), 11);
    GridSpec big = Fields.grid(31, 31, 6, 0, 0);
    int n = big.cells();
    int[] allowed = new int[n];
    float[] zero = new float[n];
    float[] cap = new float[n];
    float[] doubled = new float[n];
    for (int i = 0; i < n; i++) {
      allowed[i] = small.allowed(i);
      cap[i] = small.speedCapMs(i);
      doubled[i] = 2 * cap[i];
    }
    GradeTable fast = Fields.constant(1e9);
    TraversalCost one =
        new TraversalCost(small.spec(), allowed, zero, zero, cap, new byte[n], fast);
    TraversalCost two = new TraversalCost(big, allowed, zero, zero, doubled, new byte[n], fast);
    double[] a = Fields.values(spread(one, Quantity.TIME_S, Direction.OUT, 15 * 31 + 15));
    double[] b = Fields.values(spread(two, Quantity.TIME_S, Direction.OUT, 15 * 31 + 15));
    for (int i = 0; i < n; i++) {
      assertEquals(a[i], b[i], a[i] < Double.POSITIVE_INFINITY ? 1e-9 * (1 + a[i]) : 0);
    }
  }

  @Test
  void homeOnTheFieldIsOutOnTheReversedField() {
    GridSpec spec = Fields.grid(41, 41, 2, 0, 0);
    TraversalCost f = rough(spec, 9);
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    float[] cap = new float[n];
    for (int i = 0; i < n; i++) {
      allowed[i] = Integer.rotateLeft(f.allowed(i), 16);
      east[i] = -f.gradEast(i);
      north[i] = -f.gradNorth(i);
      cap[i] = f.speedCapMs(i);
    }
    TraversalCost reversed =
        new TraversalCost(spec, allowed, east, north, cap, new byte[n], regenerating());
    for (Quantity q : Quantity.values()) {
      double[] home = Fields.values(spread(f, q, Direction.HOME, 20 * 41 + 20));
      double[] out = Fields.values(spread(reversed, q, Direction.OUT, 20 * 41 + 20));
      for (int i = 0; i < n; i++) {
        assertEquals(home[i], out[i], home[i] < Double.POSITIVE_INFINITY ? 1e-9 * home[i] : 0);
      }
    }
  }

  @Test
  void noWayIsShorterThanTheWayThroughAnotherPlace() {
    GridSpec spec = Fields.grid(41, 41, 2, 0, 0);
    TraversalCost field = Fields.level(spec, (x, y) -> 1 + 0.5 * Math.sin(x / 9) * Math.cos(y / 7));
    int a = 10 * 41 + 10;
    int b = 25 * 41 + 18;
    double[] fromA = Fields.values(spread(field, Quantity.TIME_S, Direction.OUT, a));
    double[] fromB = Fields.values(spread(field, Quantity.TIME_S, Direction.OUT, b));
    for (int c = 0; c < spec.cells(); c++) {
      assertTrue(fromA[c] <= (fromA[b] + fromB[c]) * 1.005, "cell " + c);
    }
  }

  @Test
  void nothingSqueezesBetweenBarriersThatTouchAtACorner() {
    GridSpec spec = Fields.grid(20, 20, 1, 0, 0);
    TraversalCost field = Fields.level(spec, (x, y) -> Math.floor(x) == Math.floor(y) ? 0 : 1);
    double[] t = Fields.timesOut(field, 15.5, 3.5);
    assertEquals(Double.POSITIVE_INFINITY, t[spec.cellOf(3.5, 15.5)]);
    assertTrue(t[spec.cellOf(19.5, 17.5)] < 20);
  }

  @Test
  void oneCellWideWaysAreDriven() {
    GridSpec spec = Fields.grid(9, 60, 1, 0, 0);
    TraversalCost field =
        Fields.level(spec, (x, y) -> x < 5 || x > 55 || Math.floor(y) == 4 ? 1 : 0);
    double[] t = Fields.timesOut(field, 0.5, 4.5);
    assertEquals(58, t[spec.cellOf(58.5, 4.5)], 1e-6);
  }

  @Test
  void neighbourStepsAgreeWithAGraphLibrary() {
    GridSpec spec = new GridSpec(22, 27, 3, 4, 0, 88, "");
    TraversalCost f = rough(spec, 21);
    int source = 11 * 27 + 13;
    SimpleDirectedWeightedGraph<Integer, DefaultWeightedEdge> graph =
        new SimpleDirectedWeightedGraph<>(DefaultWeightedEdge.class);
    for (int i = 0; i < spec.cells(); i++) {
      graph.addVertex(i);
    }
    for (int from = 0; from < spec.cells(); from++) {
      for (int k = 0; k < 32; k += 4) {
        int row = from / 27 + Headings.dRow(k) / 4;
        int col = from % 27 + Headings.dCol(k) / 4;
        if (!spec.holds(row, col)) {
          continue;
        }
        int to = row * 27 + col;
        boolean corner = k % 8 != 0;
        boolean barred =
            corner
                && (f.allowed(row * 27 + from % 27) == 0 || f.allowed(from / 27 * 27 + col) == 0);
        double cost =
            0.5
                * (timeSPerM(f, from, k) + timeSPerM(f, to, k))
                * Math.hypot(
                    Headings.dCol(k) / 4.0 * spec.cellXM(), Headings.dRow(k) / 4.0 * spec.cellYM());
        if (!barred && cost < Double.POSITIVE_INFINITY) {
          graph.setEdgeWeight(graph.addEdge(from, to), cost);
        }
      }
    }
    var expected = new DijkstraShortestPath<>(graph).getPaths(source);
    CostField got = Fields.neighbours(new Costs(f, Quantity.TIME_S, Direction.OUT), source);
    for (int i = 0; i < spec.cells(); i++) {
      double e = expected.getWeight(i);
      assertEquals(e, got.value(i), e < Double.POSITIVE_INFINITY ? 1e-3 * e : 0, "cell " + i);
    }
  }

  /** Of a heading that is not allowed: on the nearest ones to either side, in turn. */
  private static double timeSPerM(TraversalCost f, int cell, int k) {
    int left = k;
    int right = k;
    while (!f.allows(cell, left & 31) && k - left < 32) {
      left--;
    }
    while (!f.allows(cell, right & 31) && right - k < 32) {
      right++;
    }
    if (left == right || right - left >= 16) {
      return f.timeSPerM(cell, k);
    }
    double[][] way = new double[3][];
    int[] heading = {k, left & 31, right & 31};
    for (int i = 0; i < 3; i++) {
      double x = Headings.dCol(heading[i]) * f.spec().cellXM();
      double y = Headings.dRow(heading[i]) * f.spec().cellYM();
      way[i] = new double[] {x / Math.hypot(x, y), y / Math.hypot(x, y)};
    }
    double all = way[1][0] * way[2][1] - way[1][1] * way[2][0];
    double onLeft = (way[0][0] * way[2][1] - way[0][1] * way[2][0]) / all;
    double onRight = (way[1][0] * way[0][1] - way[1][1] * way[0][0]) / all;
    return onLeft * f.timeSPerM(cell, left & 31) + onRight * f.timeSPerM(cell, right & 31);
  }

  @Test
  void everySourceCounts() {
    GridSpec spec = Fields.grid(31, 61, 1, 0, 0);
    TraversalCost flat = Fields.level(spec, (x, y) -> 1);
    int a = spec.cellOf(5.5, 15.5);
    int b = spec.cellOf(55.5, 15.5);
    Costs c = new Costs(flat, Quantity.TIME_S, Direction.HOME);
    double[] both = Fields.values(Front.spread(c, Progress.NONE, a, b));
    double[] one = Fields.values(Front.spread(c, Progress.NONE, a));
    double[] two = Fields.values(Front.spread(c, Progress.NONE, b));
    for (int i = 0; i < both.length; i++) {
      assertEquals(Math.min(one[i], two[i]), both[i], 0.3);
      assertTrue(both[i] <= Math.min(one[i], two[i]));
    }
  }

  @Test
  void slowerGroundNeverBringsAnybodyEarlier() {
    GridSpec spec = Fields.grid(31, 31, 1, 0, 0);
    double[] fast = Fields.timesOut(Fields.level(spec, (x, y) -> 2), 15.5, 15.5);
    double[] slow =
        Fields.timesOut(Fields.level(spec, (x, y) -> x > 20 && y > 9 ? 0.7 : 2), 15.5, 15.5);
    for (int i = 0; i < fast.length; i++) {
      assertTrue(fast[i] <= slow[i] + 1e-12);
    }
    assertTrue(Arrays.stream(slow).max().getAsDouble() > Arrays.stream(fast).max().getAsDouble());
  }
}

package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.jgrapht.alg.interfaces.ShortestPathAlgorithm.SingleSourcePaths;
import org.jgrapht.alg.shortestpath.DijkstraShortestPath;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.SimpleDirectedWeightedGraph;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.scarpway.audit.RouteAudit;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * Ways back from every label on ground whose headings are open in windows that change from cell to
 * cell, with a bound in both directions: a label rests on a way from cell to cell, of whose steps
 * it takes off no more than a straight way gains over them ({@link Stencil#gain}).
 */
public class TraceTest {
  private static final int ROWS = 30;
  private static final int COLS = 34;
  private static final GridSpec SQUARE = Fields.grid(ROWS, COLS, 5, 0, 0);
  private static final GridSpec LONG = new GridSpec(ROWS, COLS, 4, 7, 0, 7 * ROWS, "");

  /**
   * Windows to either side of a fall line, single headings, open ground and barriers, at random.
   */
  public static TraversalCost windows(GridSpec spec, long seed) {
    Random random = new Random(seed);
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    float[] cap = new float[n];
    double wander = random.nextDouble();
    double bend = 0.3 * random.nextDouble();
    for (int i = 0; i < n; i++) {
      int row = i / spec.cols();
      int fall = (int) (32 * (Math.sin(bend * (i % spec.cols())) + Math.cos(bend * row)));
      fall += (int) (6 * wander * random.nextGaussian());
      int inner = random.nextInt(7);
      int outer = inner + random.nextInt(3);
      int bits = 0;
      for (int k = inner; k <= outer; k++) {
        for (int at : new int[] {fall + k, fall - k, fall + 16 + k, fall + 16 - k}) {
          bits |= 1 << (at & 31);
        }
      }
      int kind = random.nextInt(20);
      allowed[i] = kind == 0 ? 0 : kind == 1 ? 1 << random.nextInt(32) : kind < 5 ? -1 : bits;
      east[i] = (float) (0.2 * random.nextGaussian());
      north[i] = (float) (0.2 * random.nextGaussian());
      cap[i] = 0.5f + random.nextFloat() * 3;
    }
    allowed[spec.cells() / 2 + spec.cols() / 2] = -1;
    return new TraversalCost(
        spec, allowed, east, north, cap, new byte[n], FrontTest.regenerating());
  }

  @Test
  void everyLabelHasAWayThatCostsNoMoreThanItsBound() {
    int traced = 0;
    for (int seed = 0; seed < 12; seed++) {
      GridSpec spec = seed % 3 == 2 ? LONG : SQUARE;
      TraversalCost field = windows(spec, 500 + seed);
      Quantity quantity = Quantity.values()[seed % 3];
      Direction direction = Direction.values()[seed / 3 % 2];
      Costs costs = new Costs(field, quantity, direction);
      int source = spec.cells() / 2 + spec.cols() / 2;
      CostField labels = Front.spread(costs, Progress.NONE, source);
      var graph = cellToCell(labels, spec);
      double gain = labels.stencil().leastGain();
      assertTrue(gain > (seed % 3 == 2 ? 0.85 : 0.94), "gain " + gain);
      for (int cell = 0; cell < spec.cells(); cell++) {
        String what = "seed " + seed + " cell " + cell;
        double label = labels.value(cell);
        double best = graph.getWeight(cell);
        assertEquals(best < Double.POSITIVE_INFINITY, labels.reached(cell), what);
        if (labels.reached(cell)) {
          assertTrue(label <= best * (1 + 1e-6), what + ": " + label + " over " + best);
          assertTrue(label >= gain * best * (1 - 1e-6), what + ": " + label + " for " + best);
          Trace trace = Trace.toSource(labels, cell);
          assertTrue(trace.cost() <= label / gain * (1 + 1e-6), what + ": " + trace.cost());
          assertEquals(cell, trace.cells()[0], what);
          assertEquals(source, trace.cells()[trace.cells().length - 1], what);
          assertDriven(trace, labels, quantity, direction == Direction.OUT, what);
          traced++;
        }
      }
    }
    assertTrue(traced > 5_000, "traced " + traced);
  }

  /** Least costs to the source over the steps from cell to cell and the straight ways around it. */
  private static SingleSourcePaths<Integer, DefaultWeightedEdge> cellToCell(
      CostField labels, GridSpec spec) {
    SimpleDirectedWeightedGraph<Integer, DefaultWeightedEdge> graph =
        new SimpleDirectedWeightedGraph<>(DefaultWeightedEdge.class);
    for (int i = 0; i < spec.cells(); i++) {
      graph.addVertex(i);
    }
    Line line = new Line(spec);
    int source = labels.sources()[0];
    for (int cell = 0; cell < spec.cells(); cell++) {
      int row = cell / spec.cols();
      int col = cell % spec.cols();
      for (int dr = -2; dr <= 2; dr++) {
        for (int dc = -2; dc <= 2; dc++) {
          int to = cell + dr * spec.cols() + dc;
          if (to != cell && spec.holds(row + dr, col + dc)) {
            add(graph, to, cell, line.between(cell, to).cost(labels.costs()));
          }
        }
      }
      if (labels.stepAt(cell) == Stencil.STRAIGHT && cell != source) {
        add(graph, source, cell, line.between(cell, source).cost(labels.costs()));
      }
    }
    return new DijkstraShortestPath<>(graph).getPaths(source);
  }

  private static void add(
      SimpleDirectedWeightedGraph<Integer, DefaultWeightedEdge> graph, int a, int b, double cost) {
    if (cost == Double.POSITIVE_INFINITY) {
      return;
    }
    DefaultWeightedEdge there = graph.getEdge(a, b);
    there = there == null ? graph.addEdge(a, b) : there;
    graph.setEdgeWeight(there, cost);
  }

  /**
   * Drives the way again with its tacks, by plain code: on no heading that is not allowed, at the
   * cost of the trace at most (long tacks may cost a thousandth more).
   */
  private static void assertDriven(
      Trace trace, CostField labels, Quantity quantity, boolean out, String what) {
    Costs costs = labels.costs().alongTravel().withoutTacks();
    TraversalCost field = costs.field();
    int cols = field.spec().cols();
    int[] cells = trace.cells();
    int[] travel = cells.clone();
    for (int i = 0; out && i < cells.length; i++) {
      travel[i] = cells[cells.length - 1 - i];
    }
    LegLine straight = LegLine.of(field.spec(), travel);
    LegLine leg = Tacking.along(straight, labels.costs().alongTravel());
    double sum = 0;
    for (int i = 1; i < leg.corners(); i++) {
      double r = leg.row(i - 1);
      double c = leg.col(i - 1);
      double dr = leg.row(i) - r;
      double dc = leg.col(i) - c;
      double heading = Line.headingOf(dr, dc);
      int k = (int) heading;
      for (double t = 0; t < 1 - 1e-9; ) {
        double until = Math.min(1, Math.min(edge(r, dr, t), edge(c, dc, t)));
        double middle = 0.5 * (t + until);
        int cell = (int) Math.floor(r + middle * dr + 0.5) * cols;
        cell += (int) Math.floor(c + middle * dc + 0.5);
        double apart = (until - t) * Math.max(Math.abs(dr), Math.abs(dc));
        if (apart > 0.02) {
          int at = leg.within(i) == LegLine.ANY ? cell : leg.within(i);
          assertEquals(cell, at, what + ": drawn in another cell");
          assertTrue(field.allows(cell, k), what + ": heading " + heading);
          assertTrue(heading == k || field.allows(cell, (k + 1) & 31), what + ": " + heading);
        }
        int at = leg.within(i) == LegLine.ANY ? cell : leg.within(i);
        if (until - t > 1e-9) {
          double planM =
              (until - t) * Math.hypot(dr * field.spec().cellYM(), dc * field.spec().cellXM());
          double e = dc * field.spec().cellXM();
          double n = -dr * field.spec().cellYM();
          double length = Math.hypot(e, n);
          double g = (field.gradEast(at) * e + field.gradNorth(at) * n) / length;
          sum += planM * perM(field, quantity, at, g);
        }
        t = until;
      }
    }
    assertTrue(sum <= 1.0011 * trace.cost(), what + ": " + sum + " for " + trace.cost());
  }

  /** Cost per metre of the plan at a grade, energy reduced by its height potential. */
  private static double perM(TraversalCost field, Quantity quantity, int cell, double g) {
    GradeTable table = field.table(field.soil(cell));
    double length = Math.sqrt(1 + g * g);
    double timeS = length / Math.min(field.speedCapMs(cell), table.speedMs(g));
    return switch (quantity) {
      case TIME_S -> timeS;
      case DISTANCE_M -> length;
      default ->
          table.tractionJPerM(g) * length + table.hotelW() * timeS - field.potentialJPerM() * g;
    };
  }

  /** Where a line leaves the row or column that it is in after {@code t}. */
  private static double edge(double from, double d, double t) {
    if (d == 0) {
      return 2;
    }
    double at = from + t * d + 0.5;
    double next = d > 0 ? Math.floor(at + 1e-9) + 1 : Math.ceil(at - 1e-9) - 1;
    return (next - 0.5 - from) / d;
  }

  /** Where lines may be laid over few cells only, the steps that were left stand between them. */
  @ParameterizedTest
  @EnumSource(Trace.Drawn.class)
  void linesThatMayNotBeLaidLeaveTheStepsAsTheyAre(Trace.Drawn drawn) {
    int traced = 0;
    for (int seed = 0; seed < 4; seed++) {
      TraversalCost field = windows(SQUARE, 700 + seed);
      Costs costs = new Costs(field, Quantity.TIME_S, Direction.HOME);
      int source = SQUARE.cells() / 2 + SQUARE.cols() / 2;
      CostField labels = Front.spread(costs, Progress.NONE, source);
      Floats level = Floats.of(new float[SQUARE.cells()]);
      int every = drawn == Trace.Drawn.SEARCHED ? 30 : 3;
      for (int cell = 0; cell < SQUARE.cells(); cell += every) {
        if (labels.reached(cell)) {
          int number = cell;
          Trace trace = Trace.toSource(labels, cell, c -> (c * 31 + number) % 5 != 0, drawn);
          LegLine leg = LegLine.of(SQUARE, trace.cells());
          assertEquals(
              "",
              RouteAudit.of(Tacking.along(leg, costs).way(), field, level, 1e9, Double.NaN, 0),
              drawn + " cell " + cell);
          traced++;
        }
      }
    }
    assertTrue(traced > (drawn == Trace.Drawn.SEARCHED ? 50 : 500), "traced " + traced);
  }

  /** Nothing but two headings to either side of the hill: tacks lead to the cells between. */
  @Test
  void tacksLeadEverywhereBetweenTheirHeadings() {
    for (int odd = 3; odd < 8; odd += 2) {
      int k = odd;
      TraversalCost slope = Fields.slope(SQUARE, 0, 0.2, g -> 1, h -> h == k || h == 32 - k);
      Costs costs = new Costs(slope, Quantity.DISTANCE_M, Direction.OUT);
      int source = 25 * COLS + 17;
      CostField labels = Front.spread(costs, Progress.NONE, source);
      Headings headings = Headings.of(SQUARE);
      double perM = Math.hypot(1, 0.2 * headings.north(k));
      int between = 0;
      for (int cell = 0; cell < SQUARE.cells(); cell++) {
        int up = 25 - cell / COLS;
        int right = Math.abs(cell % COLS - 17);
        double slant = right * headings.north(k) - up * headings.east(k);
        if (slant < -3 && up > 0) {
          double exact = 5 * up / headings.north(k) * perM;
          assertEquals(exact, labels.value(cell), 0.02 * exact, "cell " + cell);
          Trace trace = Trace.toSource(labels, cell);
          assertEquals(exact, trace.cost(), 0.01 * exact);
          assertDriven(trace, labels, Quantity.DISTANCE_M, true, k + " cell " + cell);
          between++;
        }
      }
      assertTrue(between > 20, between + " cells");
    }
  }
}

package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotSame;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.front.Stencil;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/** Sums along ways where closed forms tell them. */
class PathSumsOnOpenGroundTest {
  private static final double NONE = Double.POSITIVE_INFINITY;
  private static final int N = 61;
  private static final int BASE = 30 * N + 30;
  private static final GridSpec SPEC = Fields.grid(N, N, 10, 0, 0);

  private static PathSums ways(TraversalCost field, Direction direction) {
    CostField labels =
        Front.spread(new Costs(field, Quantity.TIME_S, direction), Progress.NONE, BASE);
    return PathSums.along(labels, Floats.of(new float[N * N]), false, null);
  }

  /** On even ground ways lead straight to all sides and run alongside each other. */
  @Test
  void onEvenGroundWaysAreStraightToAllSides() {
    TraversalCost field = Fields.level(SPEC, (x, y) -> 2);
    for (Direction direction : Direction.values()) {
      PathSums ways = ways(field, direction);
      for (int i = 0; i < N * N; i++) {
        double m = 10 * Math.hypot(i / N - 30, i % N - 30);
        assertEquals(m, ways.distanceM(i), 0.003 * m + 1, "cell " + i);
        assertEquals(m / 2, ways.timeS(i), 0.003 * m / 2 + 0.5, "cell " + i);
      }
    }
  }

  /**
   * Seconds per metre of the plan with a corner at a grade of 0.1, steeper: the larger of 0.5 and
   * 0.3 + 2 g, each of which is convex over the plan, so straight ways are the quickest. The corner
   * lies between headings and is led to by steps of its own.
   */
  @Test
  void whereTheCostHasACornerWaysAreStraightToo() {
    TraversalCost field =
        Fields.slope(
            SPEC, 0.17, 0.05, g -> Math.sqrt(1 + g * g) / Math.max(0.5, 0.3 + 2 * g), k -> true);
    PathSums ways = ways(field, Direction.OUT);
    int corners = 0;
    for (int i = 0; i < N * N; i++) {
      double m = 10 * Math.hypot(i / N - 30, i % N - 30);
      double g = (0.17 * (i % N - 30) - 0.05 * (i / N - 30)) * 10 / Math.max(1, m);
      double s = m * Math.max(0.5, 0.3 + 2 * g);
      assertEquals(s, ways.timeS(i), 0.01 * s + 1, "cell " + i);
      int code = ways.labels().stepAt(i);
      corners += code >= Stencil.CORNER_CODES && code < Stencil.CODES ? 1 : 0;
    }
    assertTrue(corners > 50, corners + " steps to corners");
  }

  /**
   * A lane across a slope, driven east. On the heading beside it towards the south, downhill, a
   * metre takes less: by what the last quarter of a step takes at least, the cell in its middle is
   * left earlier.
   */
  @Test
  void theLastQuarterOfAStepTakesWhatTheQuickestHeadingDoes() {
    GridSpec lane = Fields.grid(1, 31, 10, 0, 0);
    double grade = 0.3;
    TraversalCost field =
        Fields.slope(lane, 0, grade, g -> Math.sqrt(1 + g * g) / (1 + g), k -> true);
    // The headings' points lie on a square: 9 is a quarter of a cell south for one cell east.
    double perM = 1 - grade * 0.25 / Math.hypot(1, 0.25);
    for (Direction direction : Direction.values()) {
      boolean out = direction == Direction.OUT;
      CostField labels =
          Front.spread(new Costs(field, Quantity.TIME_S, direction), Progress.NONE, 0);
      for (int at = 12; at < 29; at++) {
        float[] homeS = new float[31];
        homeS[at] = 1000;
        ReachLimits limits = Fields.limits(HomeRule.WALK_BACK, NONE, NONE, NONE, NONE, 0);
        Stops stops = new Stops(limits, Floats.of(homeS), null, List.of());
        PathSums ways = PathSums.along(labels, Floats.of(new float[31]), false, stops);
        int cell = at + 1;
        int code = labels.stepAt(cell);
        if (code < Stencil.FAR * Stencil.EIGHTHS) {
          // Home the lane is driven west: beside west towards the north it is uphill.
          double lastS = 5 * Math.min(1, out ? perM : 2 - perM);
          double leftS = out ? 10 * cell - lastS : 20 - lastS;
          double told = out ? ways.latestS(cell) : ways.needS(cell);
          assertEquals(1000 + leftS, told, 0.01, direction + ", cell " + cell);
        }
      }
    }
  }

  /** Rides home of random length from every cell. */
  private static Ride ride(Random random) {
    float[] homeM = new float[N * N];
    for (int i = 0; i < homeM.length; i++) {
      homeM[i] = random.nextInt(12) == 0 ? Float.NaN : 200 * random.nextFloat();
    }
    return new Ride() {
      @Override
      public float timeS(int cell) {
        return homeM[cell];
      }

      @Override
      public float distanceM(int cell) {
        return homeM[cell];
      }

      @Override
      public double needJ(int cell, double before) {
        return before;
      }
    };
  }

  @Test
  void ridesThatAreAddedLaterCountAsThoseKnownFromTheStart() {
    Random random = new Random(11);
    Floats none = Floats.of(new float[N * N]);
    int held = 0;
    int broken = 0;
    for (int k = 0; k < 20; k++) {
      double mostM = 250 + 200 * random.nextDouble();
      ReachLimits limits = Fields.limits(HomeRule.PAIR, NONE, NONE, mostM, NONE, 0);
      TraversalCost field = Fields.level(SPEC, (x, y) -> 1 + random.nextInt(3));
      Costs costs = new Costs(field, Quantity.TIME_S, Direction.OUT);
      CostField labels = Front.spread(costs, Progress.NONE, random.nextInt(N * N));
      Ride first = ride(random);
      Stops all = new Stops(limits, none, null, List.of(first, ride(random)));
      PathSums later =
          PathSums.along(labels, none, false, new Stops(limits, none, null, List.of(first)));
      boolean[] before = new boolean[N * N];
      for (int i = 0; i < N * N; i++) {
        before[i] = later.broken(i);
      }
      later.holdStops(all);
      PathSums anew = PathSums.along(labels, none, false, all);
      for (int i = 0; i < N * N; i++) {
        assertEquals(anew.broken(i), later.broken(i), "ground " + k + ", cell " + i);
        held += before[i] && !later.broken(i) ? 1 : 0;
        broken += later.broken(i) ? 1 : 0;
      }
    }
    assertTrue(held > 100 && broken > 100, held + " held by more rides, " + broken + " by none");
  }

  /** More cells one behind the other than room is made for at first. */
  @Test
  void aLongLaneIsFollowedToItsEnd() {
    int cells = 4000;
    GridSpec lane = Fields.grid(1, cells, 10, 0, 0);
    TraversalCost field = Fields.level(lane, (x, y) -> 2);
    Costs costs = new Costs(field, Quantity.TIME_S, Direction.OUT);
    CostField labels = Front.spread(costs, Progress.NONE, cells - 1);
    PathSums ways = PathSums.along(labels, Floats.of(new float[cells]), false, null);
    assertEquals(5.0 * (cells - 1), ways.timeS(0), 0.5);
    assertEquals(10.0 * (cells - 1), ways.distanceM(0), 1);
  }

  /** A front of other costs than those that are summed: 2 m/s, 100 J/m and 40 W. */
  @Test
  void sumsAreOfTheFieldThatIsAskedFor() {
    GridSpec lane = Fields.grid(1, 31, 10, 0, 0);
    int[] allowed = new int[31];
    Arrays.fill(allowed, -1);
    double[] two = {2, 2};
    GradeTable table = new GradeTable(-1, 1, two, new double[] {100, 100}, 40, 0);
    TraversalCost field =
        new TraversalCost(lane, allowed, new float[31], new float[31], null, null, table);
    Costs weighed = new Costs(Fields.level(lane, (x, y) -> 7), Quantity.TIME_S, Direction.HOME);
    CostField labels = Front.spread(weighed, Progress.NONE, 0);
    Floats heightM = Floats.of(new float[31]);
    for (boolean hasEnergy : new boolean[] {true, false}) {
      PathSums ways = PathSums.along(labels, field, Direction.HOME, heightM, hasEnergy, null);
      assertEquals(hasEnergy, ways.hasEnergy());
      assertSame(labels, ways.labels());
      for (int c = 0; c < 31; c++) {
        assertEquals(5 * c, ways.timeS(c), 1e-3);
        assertEquals(10 * c, ways.distanceM(c), 1e-3);
        assertEquals(hasEnergy ? 1200 * c : Double.NaN, ways.energyJ(c), 0.1);
        // Nothing is put back, so what is used before counts in full.
        assertEquals(hasEnergy ? 500 + 1200 * c : Double.NaN, ways.needJ(c, 500), 0.1);
      }
    }
    PathSums kept = PathSums.along(labels, heightM, false);
    assertSame(kept, PathSums.along(labels, heightM, false));
    assertNotSame(kept, PathSums.along(labels, heightM, true));
  }

  /**
   * A vehicle that stops in one cell waits there for 1 MJ, level ground all around: wherever it is
   * before it leaves that cell, which is half a cell off at least, and at most to the end of a step
   * of two cells to a corner.
   */
  @Test
  void waitingInOneCellTakesWhatIsUsedUntilItIsLeft() {
    GridSpec spec = Fields.grid(31, 31, 10, 0, 0);
    int n = spec.cells();
    int[] allowed = new int[n];
    Arrays.fill(allowed, -1);
    GradeTable table = new GradeTable(-1, 1, new double[] {2, 2}, new double[] {100, 100}, 40, 0);
    TraversalCost field =
        new TraversalCost(spec, allowed, new float[n], new float[n], null, null, table);
    int base = 15 * 31 + 15;
    CostField labels =
        Front.spread(new Costs(field, Quantity.TIME_S, Direction.HOME), Progress.NONE, base);
    ReachLimits limits = Fields.limits(HomeRule.BASE_RESCUE, NONE, NONE, NONE, NONE, 40);
    int between = 0;
    for (int cell = 0; cell < n; cell += 13) {
      float[] waitS = new float[n];
      waitS[cell] = 25_000;
      Stops stops = new Stops(limits, Floats.of(new float[n]), Floats.of(waitS), List.of());
      PathSums home = PathSums.along(labels, Floats.of(new float[n]), true, stops);
      int code = labels.stepAt(cell);
      if (code < Stencil.CODES) {
        between += labels.stencil().share(labels.costs(), cell, code) > 0 ? 1 : 0;
        double untilLeftJ = home.needJ(cell, 5000) - 5000 - 1e6;
        assertTrue(
            untilLeftJ >= 5 * 120 - 1 && untilLeftJ <= 20 * Math.sqrt(2) * 120 * 1.01,
            "cell " + cell + ": " + untilLeftJ);
      }
    }
    assertTrue(between > 20, between + " steps that end between two cells");
  }
}

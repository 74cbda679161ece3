package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.ConnectedGround;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/** Fronts that end where time does not suffice say the same of all ground that it suffices for. */
class BudgetEndTest {
  private static final GridSpec SPEC = Fields.grid(261, 301, 1, -150.5, -130.5);
  private static final int BASE = SPEC.cellOf(0, 0);
  private static final Vehicle TWO_SEATS = Fields.vehicle(null, VehicleParts.crew(2, 4, 1.0));

  private static ReachResult solve(
      TraversalCost field,
      HomeRule home,
      Budget budget,
      WalkHome walk,
      boolean beyond,
      int threads) {
    ReachRequest q = Fields.request("r", "b", 0, 0, budget, home, List.of(), 5, beyond);
    try (Workers workers = new Workers(threads)) {
      TraversalInput ground = Fields.ground(field, FloatGrid.empty(SPEC), TWO_SEATS);
      return ReachSolver.solve(q, ground, walk, List.of(), workers, Progress.NONE);
    }
  }

  /** How many cells have each state, by row the whole answer's, by column the ended one's. */
  private static int[][] compare(ReachResult whole, ReachResult ended, double tripS, boolean back) {
    for (int i = 0; i < SPEC.cells(); i++) {
      double outS = whole.timeS().values()[i];
      double tripHereS = back ? outS + whole.homeTimeS().values()[i] : outS;
      if (tripHereS <= tripS) {
        assertEquals(outS, ended.timeS().values()[i], 0, "cell " + i);
        assertEquals(whole.homeTimeS().values()[i], ended.homeTimeS().values()[i], 0, "cell " + i);
      } else if (tripHereS > 1.05 * tripS + 60) {
        assertTrue(Float.isNaN(ended.timeS().values()[i]), "cell " + i);
      }
    }
    return states(whole, ended);
  }

  private static int[][] states(ReachResult whole, ReachResult ended) {
    int[][] counts = new int[3][3];
    for (int i = 0; i < SPEC.cells(); i++) {
      counts[whole.state().values()[i]][ended.state().values()[i]]++;
      sameEnd(whole.binding().values()[i], ended.binding().values()[i], i);
    }
    return counts;
  }

  private static void sameEnd(byte whole, byte ended, int cell) {
    for (ReachEnd e :
        List.of(ReachEnd.NO_GO, ReachEnd.CUT_OFF, ReachEnd.NO_WAY_HOME, ReachEnd.TIME)) {
      assertEquals(whole == e.code(), ended == e.code(), "cell " + cell);
    }
  }

  @Test
  void timeAloneGivesTheSameAnswerToTheLastBit() {
    for (int seed = 0; seed < 4; seed++) {
      TraversalCost field = FrontTest.rough(SPEC, 700 + seed);
      for (HomeRule home : new HomeRule[] {HomeRule.NONE, HomeRule.DRIVE_BACK, HomeRule.PAIR}) {
        Budget budget = new Budget(110.0, null, null);
        int[][] counts =
            compare(
                solve(field, home, budget, null, true, 2),
                solve(field, home, budget, null, false, 1 + seed),
                105,
                home != HomeRule.NONE);
        assertTrue(counts[1][1] > 2000, counts[1][1] + " cells");
        assertEquals(0, counts[0][1] + counts[1][0] + counts[2][1] + counts[1][2]);
      }
    }
  }

  @Test
  void noLessIsSettledWhereOtherBudgetsAreHeldAgainstGroundThatTimeSufficesFor() {
    TraversalCost field = FrontTest.rough(SPEC, 711);
    Budget budget = new Budget(140.0, 150_000.0, 130.0);
    int[][] counts =
        compare(
            solve(field, HomeRule.DRIVE_BACK, budget, null, true, 2),
            solve(field, HomeRule.DRIVE_BACK, budget, null, false, 2),
            135,
            true);
    assertTrue(counts[1][1] > 1000, counts[1][1] + " cells");
    // What one answer settles the other does not contradict, and nothing settled comes open again.
    assertEquals(0, counts[1][0] + counts[0][1] + counts[1][2] + counts[0][2]);
    assertTrue(counts[2][0] + counts[2][1] + counts[2][2] > 500, "too little was open");
  }

  @Test
  void whatWasKeptOfATripHomeIsNotTakenForOneThatNobodyComesHomeFrom() {
    TraversalCost shared = FrontTest.rough(SPEC, 731);
    Budget budget = new Budget(45.0, null, null);
    solve(shared, HomeRule.DRIVE_BACK, budget, null, false, 2);
    ReachResult after = solve(shared, HomeRule.NONE, budget, null, false, 2);
    ReachResult alone = solve(FrontTest.rough(SPEC, 731), HomeRule.NONE, budget, null, false, 2);
    assertArrayEquals(alone.energyJ().values(), after.energyJ().values());
    assertArrayEquals(alone.homeTimeS().values(), after.homeTimeS().values());
  }

  @Test
  void walkBackKeepsItsOwnEnd() {
    TraversalCost field = FrontTest.rough(SPEC, 721);
    WalkHome walk =
        Questions.walkHome(Fields.level(SPEC, (x, y) -> x > 55 ? 0 : 0.8), 90, 6, List.of());
    Budget budget = new Budget(150.0, null, null);
    ReachResult whole = solve(field, HomeRule.WALK_BACK, budget, walk, true, 2);
    ReachResult ended = solve(field, HomeRule.WALK_BACK, budget, walk, false, 2);
    int[][] counts = states(whole, ended);
    assertTrue(counts[1][1] > 1000, counts[1][1] + " cells");
    assertEquals(0, counts[0][1] + counts[1][0]);
  }

  @Test
  void whatIsJoinedIsWhatAFrontReaches() {
    for (int seed = 0; seed < 20; seed++) {
      TraversalCost field = barred(seed);
      for (Direction d : Direction.values()) {
        Costs costs = new Costs(field, Quantity.TIME_S, d);
        CostField all = Front.spread(costs, Progress.NONE, BASE);
        Front some = Front.from(costs, 12, BASE);
        some.work(Progress.NONE);
        BitSet joined = ConnectedGround.of(some.labels());
        int reached = 0;
        for (int i = 0; i < SPEC.cells(); i++) {
          assertEquals(all.reached(i), joined.get(i), "cell " + i + ", seed " + seed);
          reached += all.reached(i) ? 1 : 0;
        }
        assertTrue(reached > 100 && reached < 0.95 * SPEC.cells(), reached + " cells");
      }
    }
  }

  /** Ground where a few headings are left to each cell, so that much of it is cut off. */
  private static TraversalCost barred(long seed) {
    TraversalCost rough = FrontTest.rough(SPEC, seed);
    int n = SPEC.cells();
    Random random = new Random(seed);
    int[] allowed = new int[n];
    float[] zero = new float[n];
    float[] cap = new float[n];
    for (int i = 0; i < n; i++) {
      int first = random.nextInt(32);
      int some = random.nextInt(4) == 0 ? 3 : 21 + random.nextInt(9);
      allowed[i] = rough.allowed(i) == 0 ? 0 : Integer.rotateLeft((1 << some) - 1, first);
      cap[i] = 2;
    }
    for (int r = -3; r <= 3; r++) {
      for (int c = -3; c <= 3; c++) {
        allowed[BASE + r * SPEC.cols() + c] = -1;
      }
    }
    return new TraversalCost(SPEC, allowed, zero, zero, cap, new byte[n], FrontTest.regenerating());
  }
}

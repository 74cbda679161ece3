package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachState;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** Weightings are computed where they can decide something, on lanes where every way is known. */
class WeightingRoundsTest {
  private static final double[] QUICK = {4, 1000};
  private static final double[] CHEAP = {1, 100};

  private record Solved(ReachResult result, int fronts) {}

  private static Solved solve(TraversalCost field, double timeS, double energyJ, boolean target) {
    Budget budget = new Budget(timeS, energyJ, null);
    ReachRequest q = Fields.request("r", "b", 3, 0, budget, HomeRule.NONE, List.of(), 0, false);
    List<ReachRequest.Target> targets =
        target ? List.of(new ReachRequest.Target("far", 55, 0, 1, 0, 0)) : List.of();
    List<String> begun = new ArrayList<>();
    Progress noting =
        new Progress() {
          @Override
          public void begin(String what, long total) {
            begun.add(what);
          }

          @Override
          public void advance(long done) {}

          @Override
          public void end() {}
        };
    try (Workers workers = new Workers(2)) {
      FloatGrid level = new FloatGrid(RefinementTest.SPEC, new float[RefinementTest.SPEC.cells()]);
      ReachResult r =
          ReachSolver.solve(q, Fields.ground(field, level), null, targets, workers, noting);
      return new Solved(r, (int) begun.stream().filter("weighing limits"::equals).count());
    }
  }

  /** One lane: 10 s and 40 kJ. Nothing is left to trade, whatever the limits. */
  @Test
  void whereOneLimitIsMetByNoKnownTripNothingIsWeighed() {
    TraversalCost field = RefinementTest.lanes(QUICK);
    for (double share = 0.7; share < 1.3; share += 0.02) {
      assertEquals(0, solve(field, 20, 40e3 * share, false).fronts());
      assertEquals(0, solve(field, 10 * share, 80e3, true).fronts());
    }
  }

  /** Two lanes that break one limit each: weighed once, and not again as nothing was decided. */
  @Test
  void aRoundThatDecidesNothingIsTheLast() {
    TraversalCost field = RefinementTest.lanes(QUICK, CHEAP);
    Solved open = solve(field, 36, 36e3, false);
    assertEquals(ReachState.POSSIBLY, open.result().state().values()[RefinementTest.FAR]);
    assertEquals(1, open.fronts());
  }

  /** A target that is open has every round. */
  @Test
  void anOpenTargetHasEveryRound() {
    TraversalCost field = RefinementTest.lanes(QUICK, CHEAP);
    assertTrue(solve(field, 36, 36e3, true).fronts() > 2);
  }

  /** Whatever is surely reached or ruled out is so by the lanes' own times and energies. */
  @Test
  void whatIsDecidedIsRight() {
    double[] middling = {2, 300};
    TraversalCost field = RefinementTest.lanes(QUICK, CHEAP, middling);
    double[][] trips = {{10, 40e3}, {40, 4e3}, {20, 12e3}};
    for (double timeS = 8; timeS < 60; timeS += 4) {
      for (double energyJ = 3e3; energyJ < 60e3; energyJ += 4e3) {
        byte state =
            solve(field, timeS, energyJ, false).result().state().values()[RefinementTest.FAR];
        boolean clearly = false;
        boolean perhaps = false;
        for (double[] t : trips) {
          clearly |= t[0] < 0.93 * timeS && t[1] < 0.93 * energyJ;
          perhaps |= t[0] < 1.07 * timeS && t[1] < 1.07 * energyJ;
        }
        String where = timeS + " s, " + energyJ + " J";
        assertTrue(state != 0 || !clearly, "ruled out at " + where);
        assertTrue(state != ReachState.SURELY || perhaps, "surely at " + where);
      }
    }
  }
}

package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachByBudget;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.VehicleParts;

class BudgetSharesTest {
  private static final GridSpec SPEC = Fields.grid(121, 121, 1, -60.5, -60.5);

  private static ReachResult solve(
      TraversalInput ground, HomeRule home, Budget budget, WalkHome walk, double stayS) {
    ReachRequest q = Fields.request("r", "b", 0, 0, budget, home, List.of(), stayS, false);
    ReachRequest kept =
        new ReachRequest(
            "r",
            "b",
            0,
            0,
            budget,
            home,
            List.of(),
            stayS,
            q.rescue(),
            new Reserves(10, 0, 20, 0),
            false);
    try (Workers workers = new Workers(2)) {
      return ReachSolver.solve(kept, ground, walk, List.of(), workers, Progress.NONE);
    }
  }

  /** On level ground of one speed the reach is a circle, whose radius grows with the budget. */
  @Test
  void areasAreCirclesOnLevelGround() {
    TraversalInput level = Fields.level(Fields.level(SPEC, (x, y) -> 1));
    ReachResult r = solve(level, HomeRule.DRIVE_BACK, new Budget(120.0, null, null), null, 8);
    assertEquals(1, r.byBudget().size());
    ReachByBudget time = r.byBudget().get(0);
    assertEquals(Quantity.TIME_S, time.quantity());
    assertEquals(120, time.budget(), 1e-9);
    for (int k = 0; k < BudgetShares.STEPS; k++) {
      double radiusM = Math.max(0, (0.9 * time.amount(k) - 8) / 2);
      double area = Math.PI * radiusM * radiusM;
      // The outline crosses cells, and labels are up to half a per cent too large.
      double room = 2 * Math.PI * radiusM * 0.7 + 0.02 * area + 1;
      assertEquals(area, time.surelyM2().get(k), room, "step " + k);
      assertEquals(time.surelyM2().get(k), time.possiblyM2().get(k));
    }
    assertEquals(r.surelyM2(), time.surelyM2().get(BudgetShares.STEPS - 1), 1e-6);
  }

  /** Asked again with the smaller budget, a question finds no less, and no more than at most. */
  @Test
  void smallerBudgetsReachNoLessThanStated() {
    Random random = new Random(77);
    WalkHome walk = Questions.walkHome(Fields.level(SPEC, (x, y) -> 0.8), 90, 6, List.of());
    int told = 0;
    for (int i = 0; i < 9; i++) {
      HomeRule home =
          new HomeRule[] {HomeRule.NONE, HomeRule.DRIVE_BACK, HomeRule.WALK_BACK}[i % 3];
      TraversalInput ground =
          Fields.ground(FrontTest.rough(SPEC, 900 + i), Fields.heights(SPEC, 0.02, 0.01));
      double timeS = 60 + 60 * random.nextDouble();
      double energyJ = 40e3 + 60e3 * random.nextDouble();
      double stayS = 5 * random.nextDouble();
      ReachResult whole = solve(ground, home, new Budget(timeS, energyJ, null), walk, stayS);
      for (ReachByBudget b : whole.byBudget()) {
        int k = 8 + random.nextInt(BudgetShares.STEPS - 8);
        boolean ofTime = b.quantity() == Quantity.TIME_S;
        Budget less =
            new Budget(ofTime ? b.amount(k) : timeS, ofTime ? energyJ : b.amount(k), null);
        double surelyM2 = solve(ground, home, less, walk, stayS).surelyM2();
        String where = home + ", step " + k + " of " + b.quantity();
        assertTrue(b.surelyM2().get(k) <= surelyM2 + 1e-6, where + ": " + surelyM2);
        assertTrue(surelyM2 <= b.possiblyM2().get(k) + 1e-6, where + ": " + surelyM2);
        told += b.surelyM2().get(k) > 100 ? 1 : 0;
      }
    }
    assertTrue(told > 9, told + " of 18 have something to tell");
  }

  /** What suffices at a stop was found for the whole energy; nothing is said of less. */
  @Test
  void nothingIsSaidWhereAStopAsksForEnergy() {
    TraversalInput ground =
        Fields.ground(
            FrontTest.rough(SPEC, 5),
            FloatGrid.empty(SPEC),
            Fields.vehicle(null, VehicleParts.crew(2, 4, 1.0)));
    ReachResult r = solve(ground, HomeRule.PAIR, new Budget(90.0, 9e4, null), null, 0);
    assertEquals(List.of(), r.byBudget());
  }

  @Test
  void aStepHoldsWhatItsBudgetSufficesFor() {
    assertEquals(0, BudgetShares.step(-0.3));
    assertEquals(0, BudgetShares.step(0.05));
    assertEquals(1, BudgetShares.step(Math.nextUp(0.05)));
    assertEquals(19, BudgetShares.step(1));
    assertEquals(19, BudgetShares.step(Double.POSITIVE_INFINITY));
  }
}

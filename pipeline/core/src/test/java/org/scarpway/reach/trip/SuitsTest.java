package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Suits;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Digits;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/** Suits that the crew rides in are used up from leaving the base: closed forms on a lane. */
class SuitsTest {
  private static final GridSpec LANE = Fields.grid(1, 81, 1, -0.5, -0.5);
  private static final Rescue AT_ONCE = new Rescue(0, 0, 0, 0);

  private static ReachResult solve(
      HomeRule home,
      double rideMs,
      WalkHome walk,
      Budget budget,
      double stayS,
      double pct,
      Vehicle.Crew crew) {
    ReachRequest q =
        new ReachRequest(
            "r",
            "b",
            0,
            0,
            budget,
            home,
            List.of(),
            stayS,
            AT_ONCE,
            new Reserves(pct, pct, pct, pct),
            true);
    TraversalCost field = Fields.level(LANE, (x, y) -> rideMs);
    TraversalInput ground = Fields.ground(field, FloatGrid.empty(LANE), Fields.vehicle(null, crew));
    try (Workers workers = new Workers(1)) {
      return ReachSolver.solve(q, ground, walk, List.of(), workers, Progress.NONE);
    }
  }

  private static boolean warns(ReachResult r, String text) {
    return r.warnings().stream().anyMatch(w -> w.contains(text));
  }

  /** From leaving the base until everybody is safe from a trip to that distance (s). */
  private static double wornS(HomeRule home, double x, double rideMs, double walkMs, double stayS) {
    double rideS = x / rideMs;
    return stayS
        + rideS
        + switch (home) {
          case NONE -> 0;
          case DRIVE_BACK -> rideS;
          case WALK_BACK -> Math.max(rideS, x / walkMs);
          case PAIR, BASE_RESCUE -> 2 * rideS;
        };
  }

  @Test
  void theSmallestOfSuitsAndSuppliesHoldsFromLeavingTheBaseByEveryRule() {
    Random random = new Random(41);
    int ended = 0;
    int suited = 0;
    for (int trial = 0; trial < 150; trial++) {
      HomeRule home = HomeRule.values()[trial % HomeRule.values().length];
      double rideMs = 1 + 3 * random.nextDouble();
      double walkMs = 0.4 + random.nextDouble();
      double stayS = 20 * random.nextDouble();
      double enduranceS = 30 + 90 * random.nextDouble();
      double reserveS = 20 * random.nextDouble();
      double pct = 30 * random.nextDouble();
      double suppliesS = 40 + 120 * random.nextDouble();
      Vehicle.Crew crew = new Vehicle.Crew(2, 4, suppliesS / 3600, true);
      Suits suits = new Suits(enduranceS, reserveS);
      WalkHome walk =
          Questions.walkHome(Fields.level(LANE, (x, y) -> walkMs), enduranceS, reserveS, List.of());
      ReachResult r =
          solve(
              home,
              rideMs,
              home == HomeRule.WALK_BACK ? walk : null,
              new Budget(null, null, null, null, suits),
              stayS,
              pct,
              crew);
      double kept = 1 - pct / 100;
      double inSuitsS = Math.min(enduranceS - reserveS, enduranceS * kept);
      double limitS = Math.min(inSuitsS, suppliesS * kept);
      for (int x = 1; x < LANE.cells(); x++) {
        double share = wornS(home, x, rideMs, walkMs, stayS) / limitS;
        if (Math.abs(share - 1) > 1e-3) {
          assertEquals(
              share < 1 ? ReachState.SURELY : 0,
              r.state().values()[x],
              home + ", cell " + x + ", trial " + trial);
          ended += share > 1 ? 1 : 0;
          suited += share > 1 && limitS == inSuitsS ? 1 : 0;
        }
      }
      String told =
          Digits.text(
              "they last %s h from leaving the base, riding and staying too; %s h may be planned,"
                  + " %s h is kept",
              enduranceS / 3600, inSuitsS / 3600, (enduranceS - inSuitsS) / 3600);
      assertTrue(warns(r, told), told + r.warnings());
      assertTrue(r.summary().stream().anyMatch(f -> f.name().startsWith("suits last")));
    }
    assertTrue(ended > 2000 && suited > 1000, ended + " ended, " + suited + " by suits");
  }

  @Test
  void whatIsNotCheckedOrDoesNotCountIsSaid() {
    WalkHome walk = Questions.walkHome(Fields.level(LANE, (x, y) -> 1), 90, 6, List.of());
    Budget none = new Budget(null, null, null);
    Budget much = new Budget(null, null, null, 7200.0);
    Vehicle.Crew cabin = VehicleParts.crew(2, 4, null);
    Vehicle.Crew hour = VehicleParts.crew(2, 4, 1.0);
    String unchecked = "life support before the walk home is not checked";
    HomeRule rule = HomeRule.WALK_BACK;
    assertTrue(warns(solve(rule, 2, walk, none, 0, 0, cabin), unchecked));
    assertTrue(warns(solve(rule, 2, walk, none, 0, 0, null), unchecked));
    assertTrue(!warns(solve(rule, 2, walk, much, 0, 0, cabin), unchecked));
    assertTrue(!warns(solve(rule, 2, walk, none, 0, 0, hour), unchecked));
    assertTrue(warns(solve(rule, 2, walk, much, 0, 0, hour), "life support of 1.0 h of vehicle"));
    Budget less = new Budget(null, null, null, 1800.0);
    assertTrue(!warns(solve(rule, 2, walk, less, 0, 0, hour), "life support of 1.0 h"));
  }
}

package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachResult.TargetReach;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/**
 * Every home rule along one lane of a single row, base at its western end, where all times are
 * quotients. Expected values are worked out in the comments.
 */
class HomeRulesTest {
  /** One row of 81 cells of 1 m; the base in the first, at 0 m. */
  private static final GridSpec LANE = Fields.grid(1, 81, 1, -0.5, -0.5);

  /** 1000 J/m and 50 W while moving or waiting. */
  private static TraversalCost lane(double speedMs) {
    return lane(speedMs, 1000);
  }

  private static TraversalCost lane(double speedMs, double jPerM) {
    int n = LANE.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    java.util.Arrays.fill(allowed, -1);
    java.util.Arrays.fill(cap, (float) speedMs);
    GradeTable table =
        new GradeTable(-1, 1, new double[] {1e9, 1e9}, new double[] {jPerM, jPerM}, 50, 0);
    return new TraversalCost(LANE, allowed, new float[n], new float[n], cap, new byte[n], table);
  }

  private static ReachResult solve(
      HomeRule home,
      double speedMs,
      Budget budget,
      double stayS,
      Vehicle.Crew crew,
      WalkHome walk) {
    Rescue atOnce = new Rescue(0, 0, 1800, 0);
    return solve(home, speedMs, lane(speedMs), atOnce, budget, stayS, crew, walk);
  }

  private static ReachResult solve(
      HomeRule home,
      double speedMs,
      TraversalCost loaded,
      Rescue rescue,
      Budget budget,
      double stayS,
      Vehicle.Crew crew,
      WalkHome walk) {
    List<Target> targets = new ArrayList<>();
    for (int x = 0; x <= 80; x++) {
      targets.add(new Target("t" + x, x, 0, 1, stayS, 0));
    }
    ReachRequest q =
        new ReachRequest(
            "r", "b", 0, 0, budget, home, List.of(), stayS, rescue, Reserves.NONE, true);
    Vehicle vehicle = Fields.cart(speedMs, 50.0, null, crew);
    try (Workers workers = new Workers(1)) {
      FloatGrid level = new FloatGrid(LANE, new float[LANE.cells()]);
      TraversalCost field = lane(speedMs);
      TraversalInput ground =
          Fields.ground(field, level, vehicle).withLoaded(field.withLoad(loaded));
      return ReachSolver.solve(q, ground, walk, targets, workers, Progress.NONE);
    }
  }

  private static TargetReach at(ReachResult r, int x) {
    return r.targets().get(x);
  }

  /** The last cell that is reached, which all before it are too; what ends the next. */
  private static void reaches(ReachResult r, int x, ReachEnd end) {
    for (int i = 0; i < LANE.cells(); i++) {
      assertEquals(i <= x ? ReachState.SURELY : 0, r.state().values()[i], "cell " + i);
      assertEquals(i <= x, at(r, i).reached(), "target " + i);
      assertEquals(i <= x ? 0 : end.code(), r.binding().values()[i], "cell " + i);
    }
  }

  private static Vehicle.Crew crew(int seats, int rescueSeats, double lifeS) {
    return VehicleParts.crew(seats, rescueSeats, lifeS / 3600);
  }

  @Test
  void driveBack() {
    // 2 m/s there and back and 7 s: x + 7 within 50 s is 43 m.
    ReachResult r = solve(HomeRule.DRIVE_BACK, 2, new Budget(50.5, null, null), 7, null, null);
    reaches(r, 43, ReachEnd.TIME);
    TargetReach far = at(r, 30);
    assertEquals(15, far.outTimeS(), 1e-4);
    assertEquals(37, far.totalTimeS(), 1e-4);
    assertEquals(13.5, far.timeSpareS(), 1e-4);
    assertEquals(60, far.distanceM(), 1e-4);
    // 60 m at 1000 J, 37 s at 50 W.
    assertEquals(61_850, far.totalEnergyJ(), 0.1);
  }

  @Test
  void oneWay() {
    // x / 2 + 7 within 37.2 s is 60 m.
    reaches(
        solve(HomeRule.NONE, 2, new Budget(37.2, null, null), 7, null, null), 60, ReachEnd.TIME);
    // x m out within 33.5 m; x 1025 J + 350 J within 41.5 kJ is 40.1 m.
    reaches(
        solve(HomeRule.NONE, 2, new Budget(null, null, 33.5), 7, null, null),
        33,
        ReachEnd.DISTANCE);
    reaches(
        solve(HomeRule.NONE, 2, new Budget(null, 41_500.0, null), 7, null, null),
        40,
        ReachEnd.ENERGY);
  }

  @Test
  void energyOfOutStayAndHome() {
    // 2 x 1025 J + 7 s at 50 W within 60 kJ: (60000 - 350) / 2050 = 29.1 m.
    reaches(
        solve(HomeRule.DRIVE_BACK, 2, new Budget(null, 60e3, null), 7, null, null),
        29,
        ReachEnd.ENERGY);
    // The same distance there and back within 57 m.
    reaches(
        solve(HomeRule.DRIVE_BACK, 2, new Budget(null, null, 57.0), 7, null, null),
        28,
        ReachEnd.DISTANCE);
  }

  @Test
  void lifeSupportOfTheWholeTrip() {
    // x + 7 within 40.5 s is 33 m.
    reaches(
        solve(HomeRule.DRIVE_BACK, 2, new Budget(null, null, null), 7, crew(2, 2, 40.5), null),
        33,
        ReachEnd.LIFE_SUPPORT);
    // The shorter of the two ends it.
    reaches(
        solve(HomeRule.DRIVE_BACK, 2, new Budget(30.5, null, null), 7, crew(2, 2, 40.5), null),
        23,
        ReachEnd.TIME);
  }

  @Test
  void pairBreathesTwiceAsFastOnTheWayHome() {
    // Out x/2, stay 7, home x/2 on one vehicle's supply for both crews: 1.5 x + 7 within 50.5 s.
    reaches(
        solve(HomeRule.PAIR, 2, new Budget(null, null, null), 7, crew(3, 6, 50.5), null),
        29,
        ReachEnd.RESCUE_LIFE_SUPPORT);
    // Time itself is counted once: x + 7 within 30.5 s.
    reaches(
        solve(HomeRule.PAIR, 2, new Budget(30.5, null, null), 7, crew(3, 6, 50.5), null),
        23,
        ReachEnd.TIME);
  }

  @Test
  void baseRescueComesOutLoadsAndReturns() {
    // Out x/2, stay 7, the rescuer out x/2, half an hour to load, home x/2: 1.5 x + 1807 s.
    Budget time = new Budget(1850.5, null, null);
    ReachResult r = solve(HomeRule.BASE_RESCUE, 2, time, 7, crew(3, 4, 1e6), null);
    reaches(r, 29, ReachEnd.RESCUE_TIME);
    assertTrue(
        r.warnings().stream().anyMatch(w -> w.contains("30 min to load")), r.warnings().toString());
    assertTrue(r.warnings().stream().anyMatch(w -> w.contains("gives no mass")));
    // Two crews on its life support from loading on: x/2 + 3600 + x within 3645 s.
    Budget free = new Budget(null, null, null);
    reaches(
        solve(HomeRule.BASE_RESCUE, 2, free, 7, crew(3, 4, 3644.5), null),
        29,
        ReachEnd.RESCUER_LIFE_SUPPORT);
  }

  @Test
  void aLoadedVehicleComesHomeSlowerAndAtMoreEnergy() {
    // Home at 1 m/s and 2000 J/m after 10 s of change: x/2 + 7 + 10 + x within 60.5 s is 29 m.
    TraversalCost loaded = lane(1, 2000);
    Rescue change = new Rescue(0, 10, 0, 0);
    Vehicle.Crew two = crew(2, 4, 1e6);
    ReachResult timed =
        solve(HomeRule.PAIR, 2, loaded, change, new Budget(60.8, null, null), 7, two, null);
    reaches(timed, 29, ReachEnd.TIME);
    assertEquals(29, timed.targets().get(29).homeTimeS(), 1e-4);
    // (1025 + 2050) x + 17 s at 50 W within 62.6 kJ is 20.08 m.
    Budget energy = new Budget(null, 62_600.0, null);
    reaches(solve(HomeRule.PAIR, 2, loaded, change, energy, 7, two, null), 20, ReachEnd.ENERGY);
    // Both crews breathe from the stop: x/2 + 7 + 2 (10 + x) within 90.5 s is 25.4 m.
    Budget free = new Budget(null, null, null);
    reaches(
        solve(HomeRule.PAIR, 2, loaded, change, free, 7, crew(2, 4, 90.5), null),
        25,
        ReachEnd.RESCUE_LIFE_SUPPORT);
    // Fetched after 20 s of alarm: x/2 + 7 + 20 + x/2 + 5 + x within 90.5 s is 29.2 m.
    Rescue fetch = new Rescue(20, 0, 5, 0);
    // Its own, from loading on for two crews: x/2 + 2 (5 + x) within 90.5 s is 32.2 m; without a
    // stay the rescue comes in time up to 43.7 m.
    ReachResult aired =
        solve(HomeRule.BASE_RESCUE, 2, loaded, fetch, free, 7, crew(2, 3, 90.5), null);
    for (int x = 0; x <= 80; x++) {
      ReachEnd end =
          x > 32 && x <= 43 ? ReachEnd.RESCUER_LIFE_SUPPORT : ReachEnd.RESCUE_LIFE_SUPPORT;
      assertEquals(x <= 29 ? 0 : end.code(), aired.binding().values()[x], "cell " + x);
    }
    // The time of the question counts for that as well.
    Budget time = new Budget(90.5, null, null);
    reaches(
        solve(HomeRule.BASE_RESCUE, 2, loaded, fetch, time, 7, crew(2, 3, 1e6), null),
        29,
        ReachEnd.RESCUE_TIME);
    // The fetching vehicle's battery: 1025 x + 5 s at 50 W + 2050 x within 41.9 kJ is 13.5 m.
    reaches(
        solve(
            HomeRule.BASE_RESCUE,
            2,
            loaded,
            fetch,
            new Budget(null, 41_900.0, null),
            0,
            crew(2, 3, 1e6),
            null),
        13,
        ReachEnd.RESCUER_ENERGY);
  }

  @Test
  void everybodyNeedsASeat() {
    Budget free = new Budget(null, null, null);
    for (int seats = 1; seats <= 4; seats++) {
      // Both crews in one vehicle; the crew and the rescuer's driver.
      int[] aboard = {2 * seats, seats + 1};
      HomeRule[] rules = {HomeRule.PAIR, HomeRule.BASE_RESCUE};
      for (int i = 0; i < 2; i++) {
        HomeRule rule = rules[i];
        Vehicle.Crew fits = crew(seats, aboard[i], 4000);
        assertEquals(ReachState.SURELY, solve(rule, 2, free, 0, fits, null).state().values()[5]);
        Vehicle.Crew tight = crew(seats, aboard[i] - 1, 4000);
        String refused =
            assertThrows(UserError.class, () -> solve(rule, 2, free, 0, tight, null)).getMessage();
        String least = "rescue_seats of at least " + aboard[i];
        assertTrue(refused.contains(least), refused);
      }
    }
    for (HomeRule rule : new HomeRule[] {HomeRule.PAIR, HomeRule.BASE_RESCUE}) {
      String none =
          assertThrows(UserError.class, () -> solve(rule, 2, free, 0, null, null)).getMessage();
      assertTrue(none.contains("crew block"), none);
      ReachResult unchecked = solve(rule, 2, free, 0, VehicleParts.crew(1, 2, null), null);
      reaches(unchecked, 80, ReachEnd.RESCUE);
      assertTrue(
          unchecked.warnings().stream().anyMatch(w -> w.contains("rescue in time is not checked")));
    }
  }

  /** All amounts here are halves and quarters, so that equal is equal. */
  @Test
  void aLimitThatIsMetExactlyIsMet() {
    Budget free = new Budget(null, null, null);
    Budget time = new Budget(50.0, null, null);
    // x + 8 = 50, x / 2 + 8 = 37, 2 x = 56, 2050 x + 400 = 57800.
    reaches(solve(HomeRule.DRIVE_BACK, 2, time, 8, null, null), 42, ReachEnd.TIME);
    reaches(
        solve(HomeRule.NONE, 2, new Budget(37.0, null, null), 8, null, null), 58, ReachEnd.TIME);
    Budget distance = new Budget(null, null, 56.0);
    reaches(solve(HomeRule.DRIVE_BACK, 2, distance, 8, null, null), 28, ReachEnd.DISTANCE);
    Budget energy = new Budget(null, 57_800.0, null);
    reaches(solve(HomeRule.DRIVE_BACK, 2, energy, 8, null, null), 28, ReachEnd.ENERGY);
    // 1.5 x + 8 = 50.
    reaches(
        solve(HomeRule.PAIR, 2, free, 8, crew(2, 4, 50), null), 28, ReachEnd.RESCUE_LIFE_SUPPORT);
    // x / 4 + 8 + x = 58.
    Budget walked = new Budget(58.0, null, null);
    reaches(solve(HomeRule.WALK_BACK, 4, walked, 8, null, walk(1, 100)), 40, ReachEnd.TIME);
    // As much time as air: the budget is named.
    reaches(solve(HomeRule.DRIVE_BACK, 2, time, 8, crew(2, 2, 50), null), 42, ReachEnd.TIME);
  }

  /** Of several limits that of the time is named only where not even the quickest trip is in it. */
  @Test
  void whatEndsTheReachIsTheLimitThatIsBroken() {
    // 2050 x + 400 within 57800 J ends at 28 m, x + 8 within 50 s at 42 m.
    ReachResult r = solve(HomeRule.DRIVE_BACK, 2, new Budget(50.0, 57_800.0, null), 8, null, null);
    for (int x = 0; x <= 80; x++) {
      ReachEnd end = x <= 28 ? null : x <= 42 ? ReachEnd.ENERGY : ReachEnd.TIME;
      assertEquals(x <= 28 ? ReachState.SURELY : 0, r.state().values()[x], "cell " + x);
      assertEquals(end == null ? 0 : end.code(), r.binding().values()[x], "cell " + x);
    }
  }

  private static WalkHome walk(double speedMs, double limitS, WalkHome.Refuge... refuges) {
    TraversalCost walker = Fields.level(LANE, (x, y) -> speedMs);
    return Questions.walkHome(walker, limitS + 5, 5, List.of(refuges));
  }

  @Test
  void walkBackCountsTheWalkInTheTotal() {
    // 4 m/s out, 10 s stay, 1 m/s on foot: x/4 + 10 + x within 60.5 s is 40.4 m.
    ReachResult r =
        solve(HomeRule.WALK_BACK, 4, new Budget(60.5, null, null), 10, null, walk(1, 100));
    reaches(r, 40, ReachEnd.TIME);
    TargetReach far = at(r, 20);
    assertEquals(5, far.outTimeS(), 1e-4);
    assertEquals(35, far.totalTimeS(), 1e-4);
    assertEquals(25.5, far.timeSpareS(), 1e-4);
    assertEquals(20, r.homeTimeS().values()[20], 1e-4);
    // Walking faster than driving, the trip still has to be driven home: 10 + 2 x / 4.
    ReachResult brisk =
        solve(HomeRule.WALK_BACK, 4, new Budget(40.5, null, null), 10, null, walk(8, 100));
    reaches(brisk, 61, ReachEnd.TIME);
    assertEquals(20, at(brisk, 20).totalTimeS(), 1e-4);
    // Supplies of the walker: 33.5 s at 1 m/s.
    reaches(
        solve(HomeRule.WALK_BACK, 4, new Budget(null, null, null), 10, null, walk(1, 33.5)),
        33,
        ReachEnd.WALK_TIME);
  }

  @Test
  void theLatestMomentToLeaveOnFootMayLieOnTheWay() {
    // A refuge at the far end, 80 m: on foot min(x, 80 - x) at 1 m/s, driven at 10 m/s. At x the
    // crew is home on foot at x/10 + min(x, 80 - x), at most 44 s at 40 m. From beyond the way home
    // leads back there: x/10 + (x - 40)/10 + 40 s, 52 s from 80 m and within 44.5 s from 42.5 m.
    WalkHome.Refuge hut = new WalkHome.Refuge("hut", 80, 0);
    ReachResult enough =
        solve(HomeRule.WALK_BACK, 10, new Budget(52.5, null, null), 0, null, walk(1, 100, hut));
    reaches(enough, 80, ReachEnd.WALK_BACK);
    assertEquals(52, at(enough, 80).totalTimeS(), 1e-4);
    ReachResult back =
        solve(HomeRule.WALK_BACK, 10, new Budget(44.5, null, null), 0, null, walk(1, 100, hut));
    for (int x = 0; x <= 80; x++) {
      assertEquals(x <= 42, back.state().values()[x] == ReachState.SURELY, "cell " + x);
      // Steps of two cells leave the next one open.
      assertTrue(x <= 44 || back.state().values()[x] == 0, "cell " + x);
    }
    assertEquals(ReachEnd.TIME.code(), back.binding().values()[60]);
    // Home from 70 m is soon walked, but nobody gets past 27.7 m in 30.5 s.
    ReachResult late =
        solve(HomeRule.WALK_BACK, 10, new Budget(30.5, null, null), 0, null, walk(1, 100, hut));
    for (int x = 0; x <= 80; x++) {
      assertEquals(x <= 27, late.state().values()[x] == ReachState.SURELY, "cell " + x);
      assertEquals(x <= 27, at(late, x).reached(), "target " + x);
    }
    assertEquals(ReachEnd.TIME.code(), late.binding().values()[28]);
    assertEquals(ReachEnd.TIME.code(), late.binding().values()[50]);
  }

  @Test
  void waitingAtTheFarEndIsTimeInWhichTheVehicleMayFail() {
    // x/10 + 20 + x within 30.5 s is 9.5 m; driving, x/10 + 20 + x/10 is 52.5 m.
    ReachResult r =
        solve(HomeRule.WALK_BACK, 10, new Budget(30.5, null, null), 20, null, walk(1, 100));
    for (int x = 0; x <= 80; x++) {
      ReachEnd end = x <= 9 ? null : ReachEnd.TIME;
      assertEquals(x <= 9 ? ReachState.SURELY : 0, r.state().values()[x], "cell " + x);
      assertEquals(end == null ? 0 : end.code(), r.binding().values()[x], "cell " + x);
    }
  }

  /**
   * A battery is never above full, and a crest takes what it takes even if the descent returns it.
   */
  @Test
  void energyOfEveryMoment() {
    // East of 40 m the ground rises 10 m and falls again; braking returns all of 50 J per metre of
    // height, climbing costs it. On the level 2 J/m.
    int n = LANE.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] height = new float[n];
    java.util.Arrays.fill(allowed, -1);
    for (int x = 0; x < n; x++) {
      height[x] = (float) (x < 40 ? 0 : x < 50 ? x - 40 : x < 60 ? 60 - x : 0);
      east[x] = x > 40 && x < 50 ? 1 : x > 50 && x < 60 ? -1 : 0;
    }
    int entries = 401;
    double[] speed = new double[entries];
    double[] traction = new double[entries];
    for (int i = 0; i < entries; i++) {
      double g = -2 + 4.0 * i / (entries - 1);
      speed[i] = 1;
      traction[i] = (2 + 50 * g) / Math.sqrt(1 + g * g);
    }
    GradeTable table = new GradeTable(-2, 2, speed, traction, 0, 50);
    float[] cap = new float[n];
    java.util.Arrays.fill(cap, 1f);
    TraversalCost field =
        new TraversalCost(LANE, allowed, east, new float[n], cap, new byte[n], table);
    ReachRequest q =
        new ReachRequest(
            "r",
            "b",
            0,
            0,
            new Budget(null, 500.0, null),
            HomeRule.DRIVE_BACK,
            List.of(),
            0,
            new Rescue(0, 0, 0, 0),
            Reserves.NONE,
            true);
    try (Workers workers = new Workers(1)) {
      TraversalInput ground = Fields.ground(field, new FloatGrid(LANE, height));
      ReachResult r = ReachSolver.solve(q, ground, null, List.of(), workers, Progress.NONE);
      // Out and home together 70 m take 280 J, less than 500; but at 50 m on the way out
      // 2 x 50 + 500 J are used.
      assertEquals(ReachState.SURELY, r.state().values()[45]);
      for (int x = 50; x < n; x++) {
        assertTrue(r.state().values()[x] != ReachState.SURELY, "cell " + x);
      }
    }
  }
}

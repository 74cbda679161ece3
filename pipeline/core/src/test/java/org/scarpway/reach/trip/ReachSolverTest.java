package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Band;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachResult.TargetReach;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

class ReachSolverTest {
  private static final Budget FREE = new Budget(null, null, null);
  private static final GridSpec SPEC = Fields.grid(81, 81, 1, -40.5, -40.5);
  private static final TraversalCost FLAT = Fields.level(SPEC, (x, y) -> 1);

  private static ReachRequest request(Budget budget, HomeRule home, double stayS, Band... bands) {
    return Fields.request("r", "alpha", 0, 0, budget, home, List.of(bands), stayS, false);
  }

  private static ReachResult solve(
      ReachRequest request, TraversalInput ground, WalkHome walk, Target... targets) {
    return solve(2, request, ground, walk, targets);
  }

  private static ReachResult solve(
      int threads, ReachRequest request, TraversalInput ground, WalkHome walk, Target... targets) {
    try (Workers workers = new Workers(threads)) {
      return ReachSolver.solve(request, ground, walk, List.of(targets), workers, Progress.NONE);
    }
  }

  private static byte state(ReachResult r, double x, double y) {
    return r.state().values()[SPEC.cellOf(x, y)];
  }

  private static ReachEnd end(ReachResult r, double x, double y) {
    byte code = r.binding().values()[SPEC.cellOf(x, y)];
    for (ReachEnd e : ReachEnd.values()) {
      if (e.code() == code) {
        return e;
      }
    }
    return null;
  }

  private static double figure(ReachResult r, String name) {
    return r.summary().stream()
        .filter(f -> f.name().equals(name))
        .findFirst()
        .orElseThrow()
        .value();
  }

  @Test
  void outStayAndBackShareOneBudget() {
    TraversalInput g = Fields.level(FLAT);
    ReachResult r = solve(request(new Budget(50.0, null, null), HomeRule.DRIVE_BACK, 10), g, null);
    assertEquals(ReachState.SURELY, state(r, 20, 0));
    assertEquals(0, state(r, 21, 0));
    assertEquals(ReachEnd.TIME, end(r, 21, 0));
    assertNotEquals(ReachEnd.TIME, end(r, 19, 0));
    assertEquals(20, r.timeS().at(40, 60), 1e-4);
    assertEquals(20, r.homeTimeS().at(40, 60), 1e-4);
    ReachResult oneWay = solve(request(new Budget(50.0, null, null), HomeRule.NONE, 10), g, null);
    assertEquals(ReachState.SURELY, state(oneWay, 40, 0));
    for (int i = 0; i < SPEC.cells(); i++) {
      assertTrue(r.state().values()[i] != 1 || oneWay.state().values()[i] == 1);
    }
  }

  @Test
  void largerBudgetsHoldSmallerOnes() {
    TraversalInput g = Fields.ground(FrontTest.rough(SPEC, 31), Fields.heights(SPEC, 0.02, 0.01));
    ReachResult small =
        solve(request(new Budget(40.0, 30e3, null), HomeRule.DRIVE_BACK, 0), g, null);
    ReachResult large =
        solve(request(new Budget(50.0, 40e3, null), HomeRule.DRIVE_BACK, 0), g, null);
    int grown = 0;
    for (int i = 0; i < SPEC.cells(); i++) {
      boolean before = small.state().values()[i] == ReachState.SURELY;
      boolean after = large.state().values()[i] == ReachState.SURELY;
      assertTrue(!before || after);
      grown += after && !before ? 1 : 0;
    }
    assertTrue(grown > 50, "grown by " + grown);
  }

  /** Energies along the quickest ways make the trip that time alone judges, and no less exists. */
  @Test
  void energiesAlongTheQuickestWaysMakeTheTrip() {
    TraversalInput g = Fields.ground(FrontTest.rough(SPEC, 31), Fields.heights(SPEC, 0.02, 0.01));
    Target there = new Target("t", 14, 9, 1, 0, 1);
    // A large energy budget asks for the ways of least energy too.
    ReachResult r =
        solve(request(new Budget(90.0, 1e9, null), HomeRule.DRIVE_BACK, 0), g, null, there);
    TargetReach t = r.targets().get(0);
    assertTrue(t.reached());
    int cell = SPEC.cellOf(14, 9);
    double trip = r.wayEnergyJ().values()[cell] + r.wayHomeEnergyJ().values()[cell];
    assertEquals(t.totalEnergyJ(), trip, 1e-4 * Math.abs(t.totalEnergyJ()));
    int known = 0;
    for (int i = 0; i < SPEC.cells(); i++) {
      double least = r.energyJ().values()[i];
      double along = r.wayEnergyJ().values()[i];
      assertEquals(Float.isNaN(r.timeS().values()[i]), Double.isNaN(along), "cell " + i);
      if (!Double.isNaN(least)) {
        known++;
        // Labels are up to half a per cent above what their ways cost.
        assertTrue(least <= along + 0.01 * Math.abs(along) + 50, least + " above " + along);
      }
    }
    assertTrue(known > 1000, known + " cells");
  }

  @Test
  void bandsAreNestedAreasOfTheWholeTrip() {
    ReachResult r =
        solve(
            request(
                FREE,
                HomeRule.DRIVE_BACK,
                0,
                new Band("20s", Quantity.TIME_S, 20),
                new Band("40s", Quantity.TIME_S, 40)),
            Fields.level(FLAT),
            null);
    assertEquals(Math.PI * 100, r.bandAreasM2().get(0), 10);
    assertEquals(Math.PI * 400, r.bandAreasM2().get(1), 20);
    assertEquals(1, r.band().at(40, 49));
    assertEquals(2, r.band().at(40, 55));
    assertEquals(0, r.band().at(40, 65));
  }

  @Test
  void whereEachBudgetAloneCanBeMetButNoTripMeetsBothNothingIsReached() {
    // Two ways round a long obstacle: the northern is quick and dear, the southern slow and cheap.
    GridSpec spec = SPEC;
    TraversalCost f = twoWays(spec);
    TraversalInput g = Fields.ground(f, FloatGrid.empty(spec));
    ReachResult free = solve(request(FREE, HomeRule.NONE, 0), g, null);
    int far = spec.cellOf(30, 0);
    double quickS = free.timeS().values()[far];
    double leastJ = free.energyJ().values()[far];
    ReachResult both =
        solve(request(new Budget(quickS * 1.1, leastJ * 1.1, null), HomeRule.NONE, 0), g, null);
    assertEquals(0, both.state().values()[far], "the limits weighed together rule it out");
    assertTrue(Set.of(ReachEnd.TIME, ReachEnd.ENERGY).contains(end(both, 30, 0)));
    ReachResult time =
        solve(request(new Budget(quickS * 1.1, null, null), HomeRule.NONE, 0), g, null);
    assertEquals(ReachState.SURELY, time.state().values()[far]);
    ReachResult energy =
        solve(request(new Budget(null, leastJ * 1.1, null), HomeRule.NONE, 0), g, null);
    assertEquals(ReachState.SURELY, energy.state().values()[far]);
    ReachResult more =
        solve(request(new Budget(quickS * 1.1, leastJ * 40, null), HomeRule.NONE, 0), g, null);
    assertEquals(ReachState.SURELY, more.state().values()[far]);
  }

  private static TraversalCost twoWays(GridSpec spec) {
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    byte[] ground = new byte[n];
    for (int i = 0; i < n; i++) {
      double x = spec.xM(i % spec.cols());
      double y = spec.yM(i / spec.cols());
      allowed[i] = Math.abs(y) < 20 && x > 5 && x < 20 ? 0 : -1;
      ground[i] = (byte) (y > 0 ? 1 : 0);
      cap[i] = y > 0 ? 4 : 1;
    }
    GradeTable thrifty = new GradeTable(-1, 1, new double[] {9, 9}, new double[] {10, 10}, 0, 0);
    GradeTable wasteful = new GradeTable(-1, 1, new double[] {9, 9}, new double[] {100, 100}, 0, 0);
    return new TraversalCost(
        spec, allowed, new float[n], new float[n], cap, ground, thrifty, wasteful);
  }

  @Test
  void energyComesBackFromTheHeightsWhateverTheGradients() {
    GridSpec spec = SPEC;
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] cap = new float[n];
    float[] height = new float[n];
    for (int i = 0; i < n; i++) {
      double x = spec.xM(i % 81);
      allowed[i] = -1;
      cap[i] = 3;
      height[i] = (float) (4 * Math.cos(x / 10));
      east[i] = (float) (-0.4 * Math.sin(x / 10));
    }
    TraversalCost f =
        new TraversalCost(
            spec, allowed, east, new float[n], cap, new byte[n], FrontTest.regenerating());
    TraversalInput g = Fields.ground(f, new FloatGrid(spec, height));
    ReachResult r = solve(request(FREE, HomeRule.DRIVE_BACK, 0), g, null);
    // Along the x axis: losses 900 J/m + hotel 100 W over speed, plus 9000 J/m up, 3000 J/m down.
    int cell = spec.cellOf(30, 0);
    double expected = 0;
    for (int i = 0; i < 30000; i++) {
      double x = (i + 0.5) / 1000;
      double grade = -0.4 * Math.sin(x / 10);
      double speed = Math.min(3, 4 / (1 + 2 * Math.abs(grade) + Math.max(0, grade)));
      double j =
          900 + (grade > 0 ? 9000 : 3000) * grade + 100 * Math.sqrt(1 + grade * grade) / speed;
      expected += j / 1000;
    }
    assertEquals(expected, r.energyJ().values()[cell], 0.01 * Math.abs(expected));
    assertTrue(r.energyJ().values()[spec.cellOf(8, 0)] < 8 * 900, "downhill costs less than level");
  }

  @Test
  void heightDatumDoesNotMatter() {
    TraversalCost f = FrontTest.rough(SPEC, 12);
    ReachRequest q = request(new Budget(60.0, 60e3, null), HomeRule.DRIVE_BACK, 0);
    FloatGrid low = Fields.heights(SPEC, 0.125, 0.25);
    float[] raised = low.values().clone();
    for (int i = 0; i < raised.length; i++) {
      raised[i] += 64;
    }
    ReachResult a = solve(q, Fields.ground(f, low), null);
    ReachResult b = solve(q, Fields.ground(f, new FloatGrid(SPEC, raised)), null);
    assertArrayEquals(a.energyJ().values(), b.energyJ().values());
    assertArrayEquals(a.state().values(), b.state().values());
  }

  @Test
  void threadsDoNotChangeTheAnswer() {
    // Two fields of the same content, so that nothing found for one is used for the other.
    FloatGrid height = Fields.heights(SPEC, 0.02, 0.01);
    ReachRequest q = request(new Budget(60.0, 50e3, 80.0), HomeRule.DRIVE_BACK, 3);
    ReachResult a = solve(1, q, Fields.ground(FrontTest.rough(SPEC, 77), height), null);
    ReachResult b = solve(3, q, Fields.ground(FrontTest.rough(SPEC, 77), height), null);
    assertArrayEquals(a.timeS().values(), b.timeS().values());
    assertArrayEquals(a.energyJ().values(), b.energyJ().values());
    assertArrayEquals(a.distanceM().values(), b.distanceM().values());
    assertArrayEquals(a.state().values(), b.state().values());
    assertArrayEquals(a.binding().values(), b.binding().values());
    assertArrayEquals(a.gapWidthM().values(), b.gapWidthM().values());
  }

  @Test
  void askingAgainOnTheSameGroundGivesTheSameAnswer() {
    TraversalInput g = Fields.ground(FrontTest.rough(SPEC, 78), Fields.heights(SPEC, 0.02, 0.01));
    ReachRequest q = request(new Budget(60.0, 50e3, null), HomeRule.DRIVE_BACK, 3);
    ReachResult a = solve(q, g, null);
    ReachResult b = solve(q, g, null);
    assertArrayEquals(a.timeS().values(), b.timeS().values());
    assertArrayEquals(a.energyJ().values(), b.energyJ().values());
    assertArrayEquals(a.state().values(), b.state().values());
  }

  @Test
  void walkBackKeepsToGroundThatCanBeWalkedHome() {
    // Fast ground for the vehicle everywhere; the walker is stopped by a ditch at x = 20.
    TraversalCost walker = Fields.level(SPEC, (x, y) -> Math.abs(x - 20) < 0.6 ? 0 : 1);
    TraversalCost vehicle = Fields.level(SPEC, (x, y) -> 10);
    ReachResult r =
        solve(
            request(FREE, HomeRule.WALK_BACK, 0),
            Fields.level(vehicle),
            Questions.walkHome(walker, 40, 10, List.of()));
    assertEquals(ReachState.SURELY, state(r, -29, 0));
    assertEquals(0, state(r, -31, 0));
    assertEquals(ReachEnd.WALK_TIME, end(r, -31, 0));
    assertEquals(0, state(r, 22, 0));
    assertEquals(ReachEnd.NO_WAY_ON_FOOT, end(r, 22, 0));
    assertEquals(25, r.homeTimeS().values()[SPEC.cellOf(-25, 0)], 1e-3);
    ReachResult twoRefuges =
        solve(
            request(FREE, HomeRule.WALK_BACK, 0),
            Fields.level(vehicle),
            Questions.walkHome(walker, 40, 10, List.of(new WalkHome.Refuge("hut", -35, 0))));
    assertEquals(ReachState.SURELY, state(twoRefuges, -40, 0));
  }

  @Test
  void walkBackNeedsAWalkerThatCanWalk() {
    ReachRequest q = request(FREE, HomeRule.WALK_BACK, 0);
    TraversalInput g = Fields.level(FLAT);
    String missing = assertThrows(UserError.class, () -> solve(q, g, null)).getMessage();
    assertTrue(missing.contains("walker"), missing);
    String spent =
        assertThrows(
                UserError.class, () -> solve(q, g, Questions.walkHome(FLAT, 10, 20, List.of())))
            .getMessage();
    assertTrue(spent.contains("reserve"), spent);
  }

  @Test
  void pairCountsSeatsAndBothCrewsBreathing() {
    ReachRequest q = request(FREE, HomeRule.PAIR, 0);
    Vehicle.Crew crew = VehicleParts.crew(2, 4, 60 / 3600.0);
    ReachResult r = solve(q, vehicle(crew), null);
    assertEquals(ReachState.SURELY, state(r, 20, 0));
    assertEquals(0, state(r, 21, 0));
    assertEquals(ReachEnd.RESCUE_LIFE_SUPPORT, end(r, 21, 0));
    String seats =
        assertThrows(UserError.class, () -> solve(q, vehicle(VehicleParts.crew(2, 3, 60.0)), null))
            .getMessage();
    assertTrue(seats.contains("rescue_seats of at least 4"), seats);
  }

  @Test
  void baseRescueComesOutLoadsAndReturnsInTime() {
    // 1 m/s: the rescuer comes out x m; from loading (half an hour) on, and home, two crews live on
    // its supplies: x + 2 (1800 s + x).
    ReachRequest q = request(FREE, HomeRule.BASE_RESCUE, 0);
    Vehicle.Crew crew = VehicleParts.crew(2, 3, 3660 / 3600.0);
    ReachResult r = solve(q, vehicle(crew), null);
    assertEquals(ReachState.SURELY, state(r, 20, 0));
    assertEquals(ReachEnd.RESCUER_LIFE_SUPPORT, end(r, 21, 0));
  }

  private static TraversalInput vehicle(Vehicle.Crew crew) {
    return Fields.ground(FLAT, FloatGrid.empty(SPEC), Fields.vehicle(null, crew));
  }

  @Test
  void batteryAndLifeSupportLimitWhereStated() {
    TraversalCost f = Fields.slope(SPEC, 0, 0, v -> 1, k -> true);
    TraversalCost thirsty =
        new TraversalCost(
            SPEC,
            allowedAll(),
            new float[SPEC.cells()],
            new float[SPEC.cells()],
            ones(),
            new byte[SPEC.cells()],
            new GradeTable(-1, 1, new double[] {1, 1}, new double[] {3600, 3600}, 0, 0));
    TraversalInput g = Fields.ground(thirsty, FloatGrid.empty(SPEC), Fields.vehicle(0.04, null));
    ReachResult r = solve(request(FREE, HomeRule.DRIVE_BACK, 0), g, null);
    assertEquals(ReachState.SURELY, state(r, 20, 0));
    assertEquals(ReachEnd.ENERGY, end(r, 21, 0));
    assertTrue(r.warnings().get(0).contains("battery"), r.warnings().toString());
    TraversalInput breath =
        Fields.ground(
            f, FloatGrid.empty(SPEC), Fields.vehicle(null, VehicleParts.crew(2, 2, 40 / 3600.0)));
    ReachResult life = solve(request(FREE, HomeRule.DRIVE_BACK, 0), breath, null);
    assertEquals(ReachEnd.LIFE_SUPPORT, end(life, 21, 0));
    assertEquals(ReachState.SURELY, state(life, 20, 0));
  }

  private static int[] allowedAll() {
    int[] a = new int[SPEC.cells()];
    java.util.Arrays.fill(a, -1);
    return a;
  }

  private static float[] ones() {
    float[] a = new float[SPEC.cells()];
    java.util.Arrays.fill(a, 1);
    return a;
  }

  @Test
  void targetsSayHowTheyAreReachedOrWhatEndsIt() {
    TraversalCost f = Fields.level(SPEC, (x, y) -> Math.abs(x + 20) < 0.6 ? 0 : 1);
    ReachResult r =
        solve(
            request(new Budget(50.0, null, null), HomeRule.DRIVE_BACK, 0),
            Fields.level(f),
            null,
            new Target("near", 10, 0, 1, 5, 0),
            new Target("far", 30, 0, 1, 0, 0),
            new Target("beyond", -30, 0, 1, 0, 0),
            new Target("ditch", -20, 0, 1, 0, 0),
            new Target("away", 400, 0, 1, 0, 0));
    TargetReach near = r.targets().get(0);
    assertTrue(near.reached());
    assertEquals(10, near.outTimeS(), 1e-4);
    assertEquals(25, near.totalTimeS(), 1e-4);
    assertEquals(25, near.timeSpareS(), 1e-4);
    assertEquals(20, near.distanceM(), 1e-4);
    assertFalse(r.targets().get(1).reached());
    assertEquals("time budget", r.targets().get(1).end());
    assertEquals("no way from the base", r.targets().get(2).end());
    assertEquals("no-go ground or no verdict", r.targets().get(3).end());
    assertEquals("outside the elevation model", r.targets().get(4).end());
    assertTrue(figure(r, "driveable but cut off") > 0);
    assertTrue(figure(r, "narrowest passage that reach depends on") > 0);
  }

  @Test
  void wayOutWithoutWayHomeIsNoReach() {
    // Headings with a westward part are barred: whoever drives east stays there.
    TraversalCost f = Fields.slope(SPEC, 0, 0, v -> 1, k -> k <= 16);
    ReachResult r = solve(request(FREE, HomeRule.DRIVE_BACK, 0), Fields.level(f), null);
    assertEquals(ReachEnd.NO_WAY_HOME, end(r, 10, 0));
    assertEquals(ReachEnd.CUT_OFF, end(r, -10, 0));
    assertEquals(ReachState.SURELY, state(r, 0, 15));
    ReachResult oneWay = solve(request(FREE, HomeRule.NONE, 0), Fields.level(f), null);
    assertEquals(ReachState.SURELY, state(oneWay, 10, 0));
  }

  @Test
  void basesOffTheGridOrOnBadGroundAreRefusedWithTheNearestPlace() {
    ReachRequest off =
        Fields.request("r", "alpha", 900, 0, FREE, HomeRule.NONE, List.of(), 0, false);
    String outside =
        assertThrows(UserError.class, () -> solve(off, Fields.level(FLAT), null)).getMessage();
    assertTrue(outside.contains("base 'alpha'") && outside.contains("outside"), outside);
    TraversalCost f = Fields.level(SPEC, (x, y) -> Math.hypot(x, y) < 5 ? 0 : 1);
    String barred =
        assertThrows(
                UserError.class,
                () -> solve(request(FREE, HomeRule.NONE, 0), Fields.level(f), null))
            .getMessage();
    assertTrue(barred.contains("no-go ground for cart"), barred);
    assertTrue(barred.contains("5 m away"), barred);
  }

  @Test
  void energyBudgetNeedsAnEnergyModel() {
    String message =
        assertThrows(
                UserError.class,
                () ->
                    solve(
                        request(new Budget(null, 1e6, null), HomeRule.NONE, 0),
                        Fields.level(FLAT),
                        null))
            .getMessage();
    assertTrue(message.contains("no energy model"), message);
  }

  @Test
  void reachAtTheEdgeOfTheModelIsSaid() {
    ReachResult r = solve(request(FREE, HomeRule.NONE, 0), Fields.level(FLAT), null);
    assertTrue(r.warnings().get(0).contains("edge of the elevation model"));
    ReachResult inside =
        solve(request(new Budget(20.0, null, null), HomeRule.NONE, 0), Fields.level(FLAT), null);
    assertTrue(inside.warnings().isEmpty());
  }
}

package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.scarpway.audit.Finding;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/**
 * Trips on a lane of cells of 1 m that are driven again: 2 m/s, 1000 J/m and 50 W alone, 1 m/s,
 * 2000 J/m and 50 W with everybody aboard, 1 m/s on foot. What is left at the worst moment is
 * worked out by hand; a cell is left half a cell beyond its centre.
 */
class TripsByHandTest {
  private static final GridSpec LANE = Fields.grid(1, 81, 1, -0.5, -0.5);

  private static TraversalCost lane(double speedMs, double jPerM) {
    int n = LANE.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    Arrays.fill(allowed, -1);
    Arrays.fill(cap, (float) speedMs);
    double[] fast = {1e9, 1e9};
    GradeTable table = new GradeTable(-1, 1, fast, new double[] {jPerM, jPerM}, 50, 0);
    return new TraversalCost(LANE, allowed, new float[n], new float[n], cap, new byte[n], table);
  }

  /** A lane that falls by 3 in 4 to the east, so that a cell is 1.25 m along the surface. */
  private static TraversalCost slope(double downMs, double upMs) {
    int n = LANE.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    float[] east = new float[n];
    Arrays.fill(allowed, -1);
    Arrays.fill(cap, 1e9f);
    Arrays.fill(east, -0.75f);
    double[] jPerM = {100, 200, 300};
    GradeTable table =
        new GradeTable(-0.75, 0.75, new double[] {downMs, downMs, upMs}, jPerM, 50, 0);
    return new TraversalCost(LANE, allowed, east, new float[n], cap, new byte[n], table);
  }

  private static ReachAnswer answer(
      HomeRule home, Budget budget, double stayS, Reserves reserves, int trips) {
    try (Workers workers = new Workers(1)) {
      return answer(home, budget, stayS, reserves, trips, lane(2, 1000), lane(1, 2000), 0, workers);
    }
  }

  private static ReachAnswer answer(
      HomeRule home,
      Budget budget,
      double stayS,
      Reserves reserves,
      int trips,
      TraversalCost own,
      TraversalCost loaded,
      float riseM,
      Workers workers) {
    // The second target asks for a stay of its own.
    List<Target> targets =
        List.of(new Target("near", 10, 0, 1, 0, 0), new Target("far", 30, 0, 1, 8, 0));
    ReachRequest request =
        new ReachRequest(
            "r",
            "b",
            0,
            0,
            budget,
            home,
            List.of(),
            stayS,
            new Rescue(10, 12, 20, 0),
            reserves,
            trips,
            true);
    Vehicle vehicle = Fields.cart(2, 50.0, null, VehicleParts.crew(2, 4, null));
    float[] heightM = new float[LANE.cells()];
    for (int i = 0; i < heightM.length; i++) {
      heightM[i] = riseM * i;
    }
    TraversalInput ground =
        Fields.ground(own, new FloatGrid(LANE, heightM), vehicle).withLoaded(loaded);
    WalkHome onFoot = Questions.walkHome(lane(1, 300), 320, 20, List.of());
    return ReachSolver.answer(request, ground, onFoot, targets, workers, Progress.NONE);
  }

  private static void far(
      HomeRule home, Budget budget, double left, String of, String phase, double atS) {
    List<Finding> all = answer(home, budget, 4, Reserves.NONE, 0).drivenAgain();
    assertEquals(2, all.size());
    assertEquals("near", all.get(0).name());
    Finding f = all.get(1);
    String where = home + ", " + budget + ": " + f;
    assertTrue(f.holds(), where);
    assertEquals("far", f.name());
    assertEquals(30, f.xM(), 1e-9);
    assertEquals(left, f.leftPct(), 1e-4, where);
    assertEquals(of, f.leftOf(), where);
    assertEquals(phase, f.phase(), where);
    assertEquals(atS, f.leftAtS(), 1e-4, where);
  }

  private static Budget timeS(double s) {
    return new Budget(s, null, null, null);
  }

  private static Budget lifeS(double s) {
    return new Budget(null, null, null, s);
  }

  private static Budget energyJ(double j) {
    return new Budget(null, j, null, null);
  }

  private static Budget distanceM(double m) {
    return new Budget(null, null, m, null);
  }

  private static double left(double given, double used) {
    return 100 * (given - used) / given;
  }

  @Test
  void byDriveBackTheEndOfTheTripIsTheWorst() {
    // 15 s, 8 s and 15 s; 60 m at 1025 J/m and 400 J.
    HomeRule rule = HomeRule.DRIVE_BACK;
    far(rule, timeS(200), left(200, 38), "time", "home", 38);
    far(rule, lifeS(150), left(150, 38), "life support", "home", 38);
    far(rule, energyJ(200_000), left(200_000, 61_900), "energy", "home", 38);
    far(rule, distanceM(100), left(100, 60), "distance", "home", 38);
    far(HomeRule.NONE, timeS(200), left(200, 23), "time", "stay", 23);
    far(HomeRule.NONE, energyJ(200_000), left(200_000, 31_150), "energy", "stay", 23);
    far(HomeRule.NONE, distanceM(100), left(100, 30), "distance", "out", 15);
    Finding near = answer(rule, timeS(200), 4, Reserves.NONE, 0).drivenAgain().get(0);
    assertEquals(left(200, 14), near.leftPct(), 1e-4);
  }

  @Test
  void byPairTheRideInTheOtherVehicleIs() {
    // 12 s to change and 30 s home; two crews breathe from the change on.
    HomeRule rule = HomeRule.PAIR;
    far(rule, timeS(200), left(200, 15 + 8 + 12 + 30), "time", "stay", 23);
    far(rule, lifeS(200), left(200, 23 + 2 * 42), "life support", "stay", 23);
    far(rule, energyJ(200_000), left(200_000, 31_150 + 600 + 61_500), "energy", "stay", 23);
    far(rule, distanceM(100), left(100, 60), "distance", "out", 15);
  }

  @Test
  void byBaseRescueTheRescuerIs() {
    // On leaving the far end, 23.25 s after the start: 10 s alarm, 15 s out, 20 s to load, 30 s.
    HomeRule rule = HomeRule.BASE_RESCUE;
    far(rule, timeS(200), left(200, 23.25 + 75), "time", "home", 23.25);
    // Of the rescuer's own: 15 s for one crew, 50 s for two.
    far(rule, lifeS(200), left(200, 15 + 2 * 50), "rescuer's life support", "out", 15);
    // In the last cell before the base, half a metre from its end, the load of the stopped vehicle
    // runs on for 10 s, half a second and 20 s.
    far(rule, energyJ(200_000), left(200_000, 61_387.5 + 1525), "energy", "home", 37.75);
  }

  /**
   * Down 2 m/s, up 1 m/s, 0.5 m/s with everybody aboard. For a crew x m off the rescuer takes 0.625
   * x out, 20 s to load and 2.5 x home, the latter two for two crews: 40 s and 5.625 s a metre of
   * its life support. The crew itself has used 3.75 x + 30 s by then at the least.
   */
  @Test
  void upASlopeTwoCrewsLiveOnTheVehicleThatComes() {
    double[] mostS = {40 + 5.625 * 30.5, 40 + 5.625 * 33.5, 40 + 5.625 * 59.5};
    int[] last = {30, 33, 59};
    TraversalCost own = slope(2, 1);
    TraversalCost loaded = slope(2, 0.5);
    for (int i = 0; i < 3; i++) {
      HomeRule home = HomeRule.BASE_RESCUE;
      ReachAnswer answer;
      byte[] state;
      try (Workers workers = new Workers(1)) {
        answer = answer(home, lifeS(mostS[i]), 0, Reserves.NONE, 0, own, loaded, -0.75f, workers);
        state = answer.rows(0, 1).state().values();
      }
      for (int x = 0; x < state.length; x++) {
        assertEquals(x <= last[i] ? ReachState.SURELY : 0, state[x], mostS[i] + " s, " + x);
      }
      Finding far = answer.drivenAgain().get(1);
      assertTrue(far.holds(), far.broken());
      assertEquals(left(mostS[i], 40 + 5.625 * 30), far.leftPct(), 1e-3);
      assertEquals("rescuer's life support", far.leftOf());
    }
  }

  @Test
  void byWalkBackTheWalkIs() {
    HomeRule rule = HomeRule.WALK_BACK;
    far(rule, timeS(200), left(200, 23.25 + 30), "time", "home", 23.25);
    far(rule, lifeS(200), left(200, 23.25 + 30), "life support", "home", 23.25);
    // The walker's own supplies: 320 s, of which 20 are kept.
    far(rule, new Budget(null, null, null, null), left(320, 30), "walk home", "out", 15);
  }

  @Test
  void whatIsLeftCountsOfAllThereIs() {
    Reserves some = new Reserves(20, 30, 40, 10);
    Budget[] budgets = {timeS(200), lifeS(150), energyJ(200_000), distanceM(100)};
    double[] used = {38, 38, 61_900, 60};
    double[] given = {200, 150, 200_000, 100};
    for (int i = 0; i < 4; i++) {
      Finding f = answer(HomeRule.DRIVE_BACK, budgets[i], 4, some, 0).drivenAgain().get(1);
      assertTrue(f.holds());
      assertEquals(left(given[i], used[i]), f.leftPct(), 1e-4);
    }
  }

  /** As many different cells as asked for, in order, from all of the reach alike. */
  @Test
  void cellsAreDrawnFromAllOfTheReach() {
    // x + 4 s within 44.5 s: 0 to 40 m, without targets' own stays.
    Budget budget = timeS(44.5);
    double sum = 0;
    int drawn = 0;
    for (int trips : new int[] {1, 2, 5, 10, 20, 40, 41, 1000}) {
      List<Finding> all =
          answer(HomeRule.DRIVE_BACK, budget, 4, Reserves.NONE, trips).drivenAgain();
      List<Double> x = new ArrayList<>();
      for (Finding f : all.subList(2, all.size())) {
        assertTrue(f.holds() && f.name().isEmpty());
        assertEquals(f.xM() + 4, f.timeS(), 1e-4);
        assertTrue(x.isEmpty() || f.xM() > x.get(x.size() - 1));
        assertTrue(f.xM() <= 40);
        x.add(f.xM());
        sum += trips <= 20 ? f.xM() : 0;
        drawn += trips <= 20 ? 1 : 0;
      }
      assertEquals(Math.min(trips, 41), x.size());
    }
    // 38 cells, the mean of 0 to 40 is 20 with a standard error of 1.9.
    assertEquals(20, sum / drawn, 6);
  }

  /** A bias of one cell in the draw would leave out the last ones first. */
  @Test
  void cellsThatAreLeftOutAreFromAllOfTheReach() {
    double sum = 0;
    int n = 0;
    for (int trips = 37; trips <= 40; trips++) {
      List<Finding> all =
          answer(HomeRule.DRIVE_BACK, timeS(44.5), 4, Reserves.NONE, trips).drivenAgain();
      boolean[] told = new boolean[41];
      for (Finding f : all.subList(2, all.size())) {
        told[(int) Math.rint(f.xM())] = true;
      }
      for (int x = 0; x <= 40; x++) {
        sum += told[x] ? 0 : x;
        n += told[x] ? 0 : 1;
      }
    }
    // Ten cells, the mean of 0 to 40 is 20 with a standard error of 3.7.
    assertEquals(10, n);
    assertEquals(20, sum / n, 7);
  }

  /** Round two corners, out and back: no other ground is open. */
  @Test
  void cornersAreInTheOrderOfTravel() {
    GridSpec spec = Fields.grid(21, 21, 1, 0, 0);
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    for (int i = 0; i < n; i++) {
      boolean open = i / 21 == 0 || i % 21 == 20 || i / 21 == 20;
      allowed[i] = open ? -1 : 0;
      cap[i] = 2;
    }
    double[] fast = {1e9, 1e9};
    GradeTable table = new GradeTable(-1, 1, fast, new double[] {1000, 1000}, 50, 0);
    TraversalCost field =
        new TraversalCost(spec, allowed, new float[n], new float[n], cap, new byte[n], table);
    ReachRequest request =
        Fields.request(
            "r", "b", spec.xM(0), spec.yM(0), timeS(70), HomeRule.DRIVE_BACK, List.of(), 4, true);
    TraversalInput ground = Fields.ground(field, new FloatGrid(spec, new float[n]));
    try (Workers workers = new Workers(1)) {
      ReachAnswer answer =
          ReachSolver.answer(request, ground, null, List.of(), workers, Progress.NONE);
      TripLine trip = answer.trip(20 * 21 + 5, 4);
      int[] out = trip.out();
      int[] home = trip.home();
      assertEquals(20 * 21 + 5, trip.cell());
      assertEquals(0, out[0]);
      assertEquals(20 * 21 + 5, out[out.length - 1]);
      int[] reversed = new int[home.length];
      for (int i = 0; i < home.length; i++) {
        reversed[i] = home[home.length - 1 - i];
      }
      assertArrayEquals(out, reversed);
      assertTrue(out.length >= 4);
      for (int i = 1; i < out.length; i++) {
        assertTrue(order(out[i]) > order(out[i - 1]), Arrays.toString(out));
      }
      // 55 m each way, 59 s with the stay; from the last cell of all 60 m and 75 s.
      assertNull(answer.trip(20 * 21, 15));
    }
  }

  /** Cells along the open ground. */
  private static int order(int cell) {
    int row = cell / 21;
    int col = cell % 21;
    return row == 0 ? col : col == 20 ? 20 + row : 40 + 20 - col;
  }

  /**
   * Ground in the middle from which a walk takes more than the trip's 900 s lies on the straight
   * way: it is driven around, out and home, however the way is drawn. Where the walk takes 800 s it
   * is driven on the way out, after a minute, but not on the way home, after a stay of 300 s.
   */
  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void groundFromWhichNobodyWalksHomeInTimeIsNotDriven(boolean never) {
    GridSpec spec = Fields.grid(15, 31, 10, 0, 0);
    TraversalCost drive = Fields.level(spec, (x, y) -> 2);
    // Five metres to ground where a walk makes 1 m/s.
    double slowMs = never ? 0.002 : 0.0075;
    TraversalCost walk = Fields.level(spec, (x, y) -> bad(spec.cellOf(x, y)) ? slowMs : 1);
    int base = 7 * 31 + 2;
    int far = 7 * 31 + 28;
    double stayS = never ? 4 : 300;
    List<Target> targets = List.of(new Target("far", spec.xM(28), spec.yM(7), 1, stayS, 0));
    ReachRequest request =
        Fields.request(
            "r", "b", spec.xM(2), spec.yM(7), timeS(900), HomeRule.WALK_BACK, List.of(), 4, true);
    WalkHome onFoot = Questions.walkHome(walk, 1e6, 0, List.of());
    try (Workers workers = new Workers(1)) {
      ReachAnswer answer =
          ReachSolver.answer(request, Fields.level(drive), onFoot, targets, workers, Progress.NONE);
      TripLine trip = answer.trip(far, stayS);
      assertEquals(base, trip.out()[0]);
      assertEquals(base, trip.home()[trip.home().length - 1]);
      assertEquals(!never, crosses(trip.out()), Arrays.toString(trip.out()));
      assertFalse(crosses(trip.home()), Arrays.toString(trip.home()));
      for (Finding f : answer.drivenAgain()) {
        assertTrue(f.holds(), f.broken());
      }
      assertEquals("far", answer.drivenAgain().get(0).name());
      assertTrue(answer.drivenAgain().size() > 20);
    }
  }

  private static boolean crosses(int[] corners) {
    boolean any = false;
    for (int i = 1; i < corners.length; i++) {
      int row = corners[i - 1] / 31;
      int col = corners[i - 1] % 31;
      int dr = corners[i] / 31 - row;
      int dc = corners[i] % 31 - col;
      for (int piece = 0; piece < 400; piece++) {
        double share = (piece + 0.5) / 400;
        any |= bad((int) Math.rint(row + share * dr) * 31 + (int) Math.rint(col + share * dc));
      }
    }
    return any;
  }

  private static boolean bad(int cell) {
    return cell / 31 >= 4 && cell / 31 <= 10 && cell % 31 >= 14 && cell % 31 <= 15;
  }
}

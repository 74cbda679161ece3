package org.scarpway.reach.question;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.ReachRequest.Band;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReachResult.TargetReach;
import org.scarpway.reach.trip.ReachSolver;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/**
 * Whole answers on a lane of cells of 2 m, by hand: 1 m/s, 100 J a metre and 50 W, so a metre from
 * the base takes 2 s and 300 J there and back.
 */
class ReachByHandTest {
  private static final int N = 151;
  private static final GridSpec LANE = Fields.grid(1, N, 2, -1, -1);
  private static final Budget FREE = new Budget(null, null, null, null);

  private final List<Band> bands = new ArrayList<>();
  private Reserves reserves = Reserves.NONE;
  private double stayS;

  private static TraversalCost lane(double speedMs, double jPerM) {
    int[] allowed = new int[N];
    float[] cap = new float[N];
    Arrays.fill(allowed, -1);
    Arrays.fill(cap, (float) speedMs);
    double[] fast = {1e9, 1e9};
    GradeTable table = new GradeTable(-1, 1, fast, new double[] {jPerM, jPerM}, 50, 0);
    return new TraversalCost(LANE, allowed, new float[N], new float[N], cap, new byte[N], table);
  }

  private static TraversalInput ground() {
    Vehicle vehicle = Fields.cart(1, 50.0, null, VehicleParts.crew(2, 4, null));
    return Fields.ground(lane(1, 100), new FloatGrid(LANE, new float[LANE.cells()]), vehicle);
  }

  private ReachResult solve(HomeRule home, Budget budget, WalkHome walk, Target... targets) {
    ReachRequest request =
        new ReachRequest(
            "r", "b", 0, 0, budget, home, bands, stayS, new Rescue(0, 0, 0, 0), reserves, 3, false);
    TraversalInput ground = ground().withLoaded(lane(1, 100));
    try (Workers workers = new Workers(1)) {
      return ReachSolver.solve(request, ground, walk, List.of(targets), workers, Progress.NONE);
    }
  }

  private static Budget timeS(double s) {
    return new Budget(s, null, null, null);
  }

  private static int surely(ReachResult r) {
    int n = 0;
    for (byte b : r.state().values()) {
      n += b == ReachState.SURELY ? 1 : 0;
    }
    return n;
  }

  private String refused(HomeRule home, WalkHome walk) {
    return assertThrows(UserError.class, () -> solve(home, FREE, walk)).getMessage();
  }

  /** Bounds belong to the band that ends with them; cells are 4 m2. */
  @Test
  void aBandEndsWithItsAmount() {
    bands.add(new Band("20s", Quantity.TIME_S, 20));
    bands.add(new Band("80s", Quantity.TIME_S, 80));
    ReachResult r = solve(HomeRule.DRIVE_BACK, timeS(120), null);
    for (int c = 0; c < N; c++) {
      assertEquals(c <= 5 ? 1 : c <= 20 ? 2 : 0, r.band().values()[c], "cell " + c);
      assertEquals(c <= 30 ? ReachState.SURELY : 0, r.state().values()[c], "cell " + c);
      assertEquals(c <= 30 ? 0 : ReachEnd.TIME.code(), r.binding().values()[c], "cell " + c);
    }
    assertEquals(List.of(6 * 4.0, 21 * 4.0), r.bandAreasM2());
    bands.clear();
    bands.add(new Band("9kJ", Quantity.ENERGY_J, 9001));
    assertEquals(List.of(16 * 4.0), solve(HomeRule.DRIVE_BACK, FREE, null).bandAreasM2());
  }

  @Test
  void bandsThatDoNotRiseAreRefused() {
    bands.add(new Band("20s", Quantity.TIME_S, 20));
    bands.add(new Band("20", Quantity.TIME_S, 20));
    assertTrue(refused(HomeRule.NONE, null).contains("band 20 after 20s"));
    bands.set(1, new Band("30m", Quantity.DISTANCE_M, 30));
    assertTrue(refused(HomeRule.NONE, null).contains("band 30m after 20s"));
    bands.remove(1);
    for (int i = 1; i < 255; i++) {
      bands.add(new Band("more", Quantity.TIME_S, 20 + i));
    }
    assertEquals(255, solve(HomeRule.NONE, FREE, null).bandAreasM2().size());
    bands.add(new Band("most", Quantity.TIME_S, 300));
    assertTrue(refused(HomeRule.NONE, null).contains("256 bands"));
  }

  /**
   * 40 m out: 80 s and 12 kJ with the way home, 8 s and 400 J of stay. What is spare counts beyond
   * the reserve: of 160 s, 24 kJ and 210 s of life support.
   */
  @Test
  void aTargetTellsWhatIsSpareBeyondTheReserve() {
    reserves = new Reserves(20, 30, 40, 10);
    Budget budget = new Budget(200.0, 40_000.0, 200.0, 300.0);
    Target far = new Target("far", 40, 0, 1, 8, 0);
    Target off = new Target("off", -40, 0, 1, 8, 0);
    TargetReach t = solve(HomeRule.DRIVE_BACK, budget, null, far, off).targets().get(0);
    assertTrue(t.reached(), t.end());
    assertEquals(40, t.outTimeS(), 1e-3);
    assertEquals(40, t.homeTimeS(), 1e-3);
    assertEquals(88, t.totalTimeS(), 1e-3);
    assertEquals(12_400, t.totalEnergyJ(), 0.1);
    assertEquals(80, t.distanceM(), 1e-3);
    assertEquals(72, t.timeSpareS(), 1e-3);
    assertEquals(11_600, t.energySpareJ(), 0.1);
    assertEquals(122, t.lifeSpareS(), 1e-3);
    assertEquals("", t.end());
  }

  /** By the stay of the question nobody gets further than 25 m, by its own 180 m are reached. */
  @Test
  void aTargetHasItsOwnStay() {
    stayS = 350;
    Target own = new Target("own", 180, 0, 1, 5, 0);
    Target as = new Target("as", 30, 0, 1, 0, 0);
    Target nearly = new Target("nearly", 24, 0, 1, 0, 0);
    Target longer = new Target("longer", 24, 0, 1, 353, 0);
    ReachResult r = solve(HomeRule.DRIVE_BACK, timeS(400), null, own, as, nearly, longer);
    assertEquals(13, surely(r));
    boolean[] reached = {true, false, true, false};
    for (int i = 0; i < 4; i++) {
      TargetReach t = r.targets().get(i);
      assertEquals(reached[i], t.reached(), t.target().name());
      assertEquals(reached[i] ? "" : "time budget", t.end());
    }
  }

  /** On foot at 1 m/s: up to 40 m from the base, and to either side of a refuge. */
  @Test
  void whereTheWalkTakesAllOfTheEnduranceTheCrewMayStillBe() {
    WalkHome alone = Questions.walkHome(lane(1, 0), 50, 10, List.of());
    assertEquals(21, surely(solve(HomeRule.WALK_BACK, FREE, alone)));
    List<WalkHome.Refuge> huts =
        List.of(new WalkHome.Refuge("one", 60, 0), new WalkHome.Refuge("two", 140, 0));
    WalkHome three = Questions.walkHome(lane(1, 0), 50, 10, huts);
    assertEquals(91, surely(solve(HomeRule.WALK_BACK, FREE, three)));
    ReachResult r = solve(HomeRule.WALK_BACK, timeS(380), three);
    assertEquals(91, surely(r));
    assertTrue(r.summary().stream().anyMatch(f -> f.name().equals("longest walk home")));
    WalkHome none = Questions.walkHome(lane(1, 0), 10, 10, List.of());
    assertTrue(refused(HomeRule.WALK_BACK, none).contains("leaves nothing after the reserve"));
    assertTrue(refused(HomeRule.WALK_BACK, null).contains("without a walker"));
    List<WalkHome.Refuge> lost = List.of(new WalkHome.Refuge("lost", 999, 0));
    WalkHome bad = Questions.walkHome(lane(1, 0), 50, 10, lost);
    assertTrue(refused(HomeRule.WALK_BACK, bad).contains("refuge 'lost'"));
  }

  @Test
  void aTargetThatIsNotReachedTellsWhy() {
    ReachResult r =
        solve(
            HomeRule.DRIVE_BACK,
            timeS(100),
            null,
            new Target("off", -40, 0, 1, 8, 0),
            new Target("far", 290, 0, 1, 8, 0),
            new Target("first", 0, 0, 1, 8, 0));
    assertEquals("outside the elevation model", r.targets().get(0).end());
    assertEquals("time budget", r.targets().get(1).end());
    assertFalse(r.targets().get(0).reached() || r.targets().get(1).reached());
    assertTrue(r.targets().get(2).reached());
  }

  /**
   * Two lanes lead 30 cells of 10 m east from a wide room, the northern at 2 m/s and 1000 J/m, the
   * southern at 1.86 m/s and 930 J/m. To their joined end it takes 150.5 s and 301 kJ by the one,
   * 161.5 s and 281 kJ by the other: neither meets 154 s and 287 kJ, though each of these can be
   * met; half of each limit, taken together, rules both out. A few such cells of thousands are not
   * worth more fronts, a target is.
   */
  @Test
  void anUndecidedTargetIsWorthMoreFronts() {
    GridSpec spec = Fields.grid(91, 121, 10, -905, -455);
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    byte[] kind = new byte[n];
    for (int i = 0; i < n; i++) {
      int row = i / 121;
      int col = i % 121;
      boolean ends = col == 120 && row >= 44 && row <= 46;
      allowed[i] = col <= 90 || row == 44 || row == 46 || ends ? -1 : 0;
      boolean slow = col > 90 && row == 46;
      cap[i] = slow ? 1.86f : col > 90 ? 2 : 50;
      kind[i] = (byte) (slow ? 1 : col > 90 ? 0 : 2);
    }
    GradeTable[] tables = new GradeTable[3];
    double[] jPerM = {1000, 930, 1};
    for (int i = 0; i < 3; i++) {
      double[] j = {jPerM[i], jPerM[i]};
      tables[i] = new GradeTable(-1, 1, new double[] {1e9, 1e9}, j, 1, 0);
    }
    TraversalCost field =
        new TraversalCost(spec, allowed, new float[n], new float[n], cap, kind, tables);
    int far = 45 * 121 + 120;
    Target end = new Target("end", spec.xM(120), spec.yM(45), 1, 0, 0);
    ReachRequest request =
        Fields.request(
            "r",
            "b",
            0,
            0,
            new Budget(154.0, 287_000.0, null, null),
            HomeRule.NONE,
            List.of(),
            0,
            true);
    TraversalInput ground = Fields.ground(field, new FloatGrid(spec, new float[n]));
    try (Workers workers = new Workers(1)) {
      ReachResult alone =
          ReachSolver.solve(request, ground, null, List.of(), workers, Progress.NONE);
      assertEquals(ReachState.POSSIBLY, alone.state().values()[far]);
      ReachResult asked =
          ReachSolver.solve(request, ground, null, List.of(end), workers, Progress.NONE);
      assertEquals(0, asked.state().values()[far]);
      assertFalse(asked.targets().get(0).reached());
      assertFalse(asked.targets().get(0).end().contains("alone"), asked.targets().get(0).end());
      int surely = surely(asked);
      assertTrue(surely > 8000, surely + " reached");
      assertEquals(ReachState.SURELY, asked.state().values()[far - 121 - 5]);
    }
  }

  /** A strip from the middle to one edge of the ground runs into it, a cell shorter does not. */
  @Test
  void everyEdgeIsAnEdge() {
    GridSpec spec = Fields.grid(9, 11, 1, 0, 0);
    int[][] sides = {{-1, 0, 4}, {1, 0, 4}, {0, -1, 5}, {0, 1, 5}};
    for (int[] side : sides) {
      for (int less = 0; less < 2; less++) {
        int far = side[2] - less;
        TraversalCost field =
            Fields.level(
                spec,
                (x, y) -> {
                  int row = spec.rowOf(y) - 4;
                  int col = spec.colOf(x) - 5;
                  int on = row * side[0] + col * side[1];
                  return Math.abs(row) + Math.abs(col) == on && on <= far ? 1 : 0;
                });
        ReachRequest request =
            Fields.request("r", "b", 5.5, 4.5, FREE, HomeRule.DRIVE_BACK, List.of(), 0, false);
        try (Workers workers = new Workers(1)) {
          ReachResult r =
              ReachSolver.solve(
                  request, Fields.level(field), null, List.of(), workers, Progress.NONE);
          String told = String.join("; ", r.warnings());
          assertEquals(less == 0, told.contains("edge of the elevation model"), told);
          assertFalse(r.warnings().size() > 1, told);
        }
      }
    }
  }

  @Test
  void rulesOfTwoVehiclesAskForALoadedOne() {
    TraversalInput ground = ground().withLoaded(null);
    for (HomeRule home : List.of(HomeRule.PAIR, HomeRule.BASE_RESCUE)) {
      ReachRequest request = Fields.request("r", "b", 0, 0, FREE, home, List.of(), 0, false);
      try (Workers workers = new Workers(1)) {
        assertThrows(
            IllegalArgumentException.class,
            () -> ReachSolver.solve(request, ground, null, List.of(), workers, Progress.NONE));
      }
    }
  }
}

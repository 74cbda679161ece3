package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Band;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * One cell against one set of limits at a time, each limit met exactly and missed by a hair. On one
 * lane all amounts are sums of halves and quarters; on ground with a quick dear lane and a slow
 * cheap one they are known to 3 %. Expected values are worked out in the comments.
 */
class BudgetCheckTest {
  private static final double NONE = Double.POSITIVE_INFINITY;

  /** Less than equal is. */
  private static final double HAIR = 1 - 1e-9;

  /** One row of 81 cells of 1 m, base in the first; 2 m/s, 1000 J/m and 50 W. */
  private static final GridSpec LANE = Fields.grid(1, 81, 1, -0.5, -0.5);

  private static final int AT = 40;
  private static final double STAY_S = 8;

  // 40 m at 2 m/s; 80 m there and back at 1000 J/m + 25 J/m, and 8 s at 50 W.
  private static final double TRIP_S = 48;
  private static final double TRIP_J = 82_400;
  private static final double TRIP_M = 80;

  private static final Rescue AT_ONCE = new Rescue(0, 0, 1800, 0);

  private static final ReachLimits FREE =
      new ReachLimits(HomeRule.DRIVE_BACK, NONE, NONE, NONE, NONE, 50, AT_ONCE, Reserves.NONE);

  private static ReachLimits limits(
      HomeRule home, double timeS, double energyJ, double distanceM, double lifeS) {
    return new ReachLimits(home, timeS, energyJ, distanceM, lifeS, 50, AT_ONCE, Reserves.NONE);
  }

  private static ReachLimits limits(double timeS, double energyJ, double distanceM, double lifeS) {
    return limits(HomeRule.DRIVE_BACK, timeS, energyJ, distanceM, lifeS);
  }

  /**
   * @param lastBack last cell with a way home
   */
  private static TraversalCost lane(double speedMs, int lastBack) {
    int n = LANE.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    Arrays.fill(allowed, -1);
    // East and a little to either side.
    Arrays.fill(allowed, lastBack + 1, n, 0x1FF << 4);
    Arrays.fill(cap, (float) speedMs);
    GradeTable table =
        new GradeTable(-1, 1, new double[] {1e9, 1e9}, new double[] {1000, 1000}, 50, 0);
    return new TraversalCost(LANE, allowed, new float[n], new float[n], cap, new byte[n], table);
  }

  private static TripFronts solved(
      TraversalCost field,
      HomeRule home,
      ReachLimits within,
      int base,
      Floats stopS,
      Band... bands) {
    ReachRequest q =
        Fields.request("r", "b", 0, 0, new Budget(null, null, null), home, List.of(bands), 0, true);
    Floats level = Floats.of(new float[field.spec().cells()]);
    try (Workers workers = new Workers(1)) {
      return new TripFronts(
          q,
          within,
          field,
          field,
          true,
          level,
          base,
          new double[] {0, STAY_S},
          new Stops(within, stopS, null, List.of()),
          workers,
          Progress.NONE);
    }
  }

  /** With ways of least energy and least distance. */
  private static TripFronts lane(HomeRule home) {
    return solved(lane(2, 80), home, limits(home, NONE, 1, 1e9, NONE), 0, null);
  }

  private static TripFronts onFoot(ReachLimits within, double speedMs, IntToDoubleFunction walkS) {
    return solved(lane(speedMs, 80), HomeRule.WALK_BACK, within, 0, floats(walkS));
  }

  /** Of a pair, whose stops on the way out are held against the limits as well. */
  private static void pair(boolean in, ReachLimits limits, ReachEnd end) {
    TripFronts rides = solved(lane(2, 80), HomeRule.PAIR, limits, 0, null);
    if (in) {
      inside(limits, rides);
    } else {
      outside(limits, rides, end);
    }
  }

  private static Floats floats(IntToDoubleFunction stopS) {
    float[] s = new float[LANE.cells()];
    for (int x = 0; x < s.length; x++) {
      s[x] = (float) stopS.applyAsDouble(x);
    }
    return Floats.of(s);
  }

  private static BudgetCheck asked(ReachLimits limits, TripFronts solved, int cell, double stayS) {
    BudgetCheck judge = new BudgetCheck(limits, solved);
    judge.evaluate(cell, stayS, null);
    return judge;
  }

  private static void inside(ReachLimits limits, TripFronts solved) {
    BudgetCheck judge = asked(limits, solved, AT, STAY_S);
    assertEquals(ReachState.SURELY, judge.state, limits.toString());
    assertNull(judge.end);
    assertTrue(judge.settledByQuickest(AT, STAY_S));
  }

  private static void outside(ReachLimits limits, TripFronts solved, ReachEnd end) {
    BudgetCheck judge = asked(limits, solved, AT, STAY_S);
    assertEquals(0, judge.state, limits.toString());
    assertEquals(end, judge.end, limits.toString());
  }

  /** Met exactly and missed by a hair, all others met exactly or none at all. */
  @Test
  void eachLimitInTurn() {
    TripFronts back = lane(HomeRule.DRIVE_BACK);
    inside(FREE, back);
    inside(limits(TRIP_S, TRIP_J, TRIP_M, TRIP_S), back);
    for (double other : new double[] {1, NONE}) {
      double s = other * TRIP_S;
      double j = other * TRIP_J;
      double m = other * TRIP_M;
      outside(limits(HAIR * TRIP_S, j, m, s), back, ReachEnd.TIME);
      outside(limits(s, HAIR * TRIP_J, m, s), back, ReachEnd.ENERGY);
      outside(limits(s, j, HAIR * TRIP_M, s), back, ReachEnd.DISTANCE);
      outside(limits(s, j, m, HAIR * TRIP_S), back, ReachEnd.LIFE_SUPPORT);
    }
    // Of two that are broken that of the time, else the one that is broken by more.
    outside(limits(40, TRIP_J / 3, NONE, NONE), back, ReachEnd.TIME);
    outside(limits(NONE, NONE, TRIP_M / 2, 40), back, ReachEnd.LIFE_SUPPORT);
    outside(limits(NONE, TRIP_J / 3, TRIP_M / 2, NONE), back, ReachEnd.ENERGY);
    outside(limits(NONE, TRIP_J / 2, TRIP_M / 3, NONE), back, ReachEnd.DISTANCE);
  }

  @Test
  void eachHomeRule() {
    HomeRule one = HomeRule.NONE;
    TripFronts out = lane(one);
    // 20 s and 8 s; 40 m at 1025 J/m and 400 J.
    inside(limits(one, 28, 41_400, 40, 28), out);
    outside(limits(one, HAIR * 28, 41_400, 40, 28), out, ReachEnd.TIME);
    outside(limits(one, 28, HAIR * 41_400, 40, 28), out, ReachEnd.ENERGY);
    outside(limits(one, 28, 41_400, HAIR * 40, 28), out, ReachEnd.DISTANCE);
    outside(limits(one, 28, 41_400, 40, HAIR * 28), out, ReachEnd.LIFE_SUPPORT);
    // Two crews on the way home: 20 + 8 + 2 x 20 s.
    HomeRule pair = HomeRule.PAIR;
    pair(true, limits(pair, TRIP_S, TRIP_J, TRIP_M, 68), null);
    pair(false, limits(pair, TRIP_S, TRIP_J, TRIP_M, HAIR * 68), ReachEnd.RESCUE_LIFE_SUPPORT);
    pair(false, limits(pair, TRIP_S, TRIP_J, TRIP_M, HAIR * TRIP_S), ReachEnd.RESCUE_LIFE_SUPPORT);
    pair(false, limits(pair, HAIR * TRIP_S, TRIP_J, TRIP_M, 68), ReachEnd.TIME);
    // Ten seconds to change vehicles: 20 + 8 + 10 + 20 s at 50 W, for two crews 20 + 8 + 2 x 30 s.
    Rescue change = new Rescue(0, 10, 0, 0);
    for (double hair : new double[] {1, HAIR}) {
      double[][] broken = {{hair, 1, 1}, {1, hair, 1}, {1, 1, hair}};
      ReachEnd[] ends = {ReachEnd.TIME, ReachEnd.ENERGY, ReachEnd.RESCUE_LIFE_SUPPORT};
      for (int i = 0; i < 3; i++) {
        double[] b = broken[i];
        ReachLimits changing =
            new ReachLimits(
                pair,
                b[0] * 58,
                b[1] * (TRIP_J + 500),
                TRIP_M,
                b[2] * 88,
                50,
                change,
                Reserves.NONE);
        pair(hair == 1, changing, ends[i]);
      }
    }
    // Fetched: 20 + 8 s, then 1800 s and 20 s out and 20 s home.
    HomeRule rescue = HomeRule.BASE_RESCUE;
    TripFronts fetched =
        solved(lane(2, 80), rescue, limits(rescue, NONE, 1, 1e9, NONE), 0, floats(x -> 1800 + x));
    inside(limits(rescue, 1868, TRIP_J, TRIP_M, 1868), fetched);
    outside(
        limits(rescue, 1868, TRIP_J, TRIP_M, HAIR * 1868), fetched, ReachEnd.RESCUE_LIFE_SUPPORT);
    outside(limits(rescue, HAIR * 1868, TRIP_J, TRIP_M, NONE), fetched, ReachEnd.RESCUE_TIME);
    outside(limits(rescue, TRIP_S - 1, TRIP_J, TRIP_M, 1868), fetched, ReachEnd.TIME);
    outside(limits(rescue, 1868, HAIR * TRIP_J, TRIP_M, 1868), fetched, ReachEnd.ENERGY);
  }

  @Test
  void onFoot() {
    HomeRule walk = HomeRule.WALK_BACK;
    // 1 m/s on foot: 20 + 8 + 40 s, which is less than 20 + 8 + 20 s driven.
    ReachLimits exact = limits(walk, 68, NONE, NONE, NONE);
    inside(exact, onFoot(exact, 2, x -> x));
    ReachLimits late = limits(walk, HAIR * 68, NONE, NONE, NONE);
    outside(late, onFoot(late, 2, x -> x), ReachEnd.TIME);
    ReachLimits aired = limits(walk, NONE, NONE, NONE, HAIR * 68);
    outside(aired, onFoot(aired, 2, x -> x), ReachEnd.LIFE_SUPPORT);
    // A hut at 80 m, 8 m/s driven: from 80 m on the way home at 40 m at 10 + 8 + 5 s, and on foot
    // home 40 s later.
    ReachLimits hut = limits(walk, 63, NONE, NONE, NONE);
    BudgetCheck enough = asked(hut, onFoot(hut, 8, x -> Math.min(x, 80 - x)), 80, STAY_S);
    assertEquals(ReachState.SURELY, enough.state);
    assertEquals(45, enough.homeTimeS);
    assertEquals(63, enough.totalTimeS);
    assertEquals(63, enough.neededTimeS);
    assertEquals(63, enough.neededAliveS);
    hut = limits(walk, HAIR * 63, NONE, NONE, NONE);
    BudgetCheck beyond = asked(hut, onFoot(hut, 8, x -> Math.min(x, 80 - x)), 80, STAY_S);
    assertEquals(ReachEnd.TIME, beyond.end);
    assertTrue(beyond.state != ReachState.SURELY);
  }

  @Test
  void amountsOfTheTrip() {
    for (Quantity band : Quantity.values()) {
      BudgetCheck judge = new BudgetCheck(FREE, lane(HomeRule.DRIVE_BACK));
      judge.evaluate(AT, STAY_S, band);
      assertEquals(20, judge.outTimeS);
      assertEquals(20, judge.homeTimeS);
      assertEquals(TRIP_S, judge.totalTimeS);
      assertEquals(TRIP_J, judge.totalEnergyJ);
      assertEquals(TRIP_M, judge.totalDistanceM);
      double[] want = {TRIP_S, TRIP_J, TRIP_M};
      assertEquals(want[band.ordinal()], judge.bandAmount);
      judge = new BudgetCheck(limits(TRIP_S, TRIP_J, TRIP_M, TRIP_S), lane(HomeRule.DRIVE_BACK));
      judge.evaluate(AT, STAY_S, band);
      assertEquals(want[band.ordinal()], judge.bandAmount);
      judge.evaluate(AT + 1, STAY_S, band);
      assertEquals(Double.NaN, judge.bandAmount);
    }
  }

  @Test
  void groundThatNobodyComesHomeFrom() {
    // Beyond 30 m eastwards only.
    TraversalCost trap = lane(2, 30);
    TripFronts back = solved(trap, HomeRule.DRIVE_BACK, FREE, 0, null);
    outside(FREE, back, ReachEnd.NO_WAY_HOME);
    assertTrue(settled(FREE, back));
    assertTrue(settled(limits(1e6, 1e9, 1e6, 1e6), back));
    assertEquals(ReachState.SURELY, asked(FREE, back, 25, STAY_S).state);
    TripFronts out = solved(trap, HomeRule.NONE, FREE, 0, null);
    inside(limits(HomeRule.NONE, 28, NONE, NONE, NONE), out);
  }

  private static boolean settled(ReachLimits limits, TripFronts solved) {
    return new BudgetCheck(limits, solved).settledByQuickest(AT, STAY_S);
  }

  /** No other way is quicker, so a trip that breaks a limit of time and no other is out. */
  @Test
  void theQuickestSettlesWhatOtherWaysCannotChange() {
    TripFronts back = lane(HomeRule.DRIVE_BACK);
    double s = HAIR * TRIP_S;
    double j = HAIR * TRIP_J;
    double m = HAIR * TRIP_M;
    assertTrue(settled(limits(s, NONE, NONE, NONE), back));
    assertTrue(settled(limits(s, TRIP_J, TRIP_M, TRIP_S), back));
    assertTrue(settled(limits(NONE, NONE, NONE, s), back));
    assertTrue(settled(limits(TRIP_S, TRIP_J, TRIP_M, s), back));
    // Another way may take less of these.
    assertFalse(settled(limits(NONE, j, NONE, NONE), back));
    assertFalse(settled(limits(NONE, NONE, m, NONE), back));
    assertFalse(settled(limits(TRIP_S, j, TRIP_M, TRIP_S), back));
    assertFalse(settled(limits(TRIP_S, TRIP_J, m, TRIP_S), back));
    assertFalse(settled(limits(s, j, TRIP_M, NONE), back));
    assertFalse(settled(limits(s, TRIP_J, m, NONE), back));
    assertFalse(settled(limits(NONE, j, NONE, s), back));
    assertFalse(settled(limits(NONE, NONE, m, s), back));
  }

  private static boolean settledOnFoot(double timeS, double lifeS, IntToDoubleFunction walkS) {
    ReachLimits limits = limits(HomeRule.WALK_BACK, timeS, NONE, NONE, lifeS);
    return settled(limits, onFoot(limits, 2, walkS));
  }

  @Test
  void theQuickestOnFoot() {
    // 4 m/s on foot: nowhere later home on foot than 20 + 10 s without the stay; 48 s as a whole.
    IntToDoubleFunction brisk = x -> 0.25 * x;
    assertTrue(settledOnFoot(TRIP_S, NONE, brisk));
    assertTrue(settledOnFoot(HAIR * TRIP_S, NONE, brisk));
    assertTrue(settledOnFoot(30, NONE, brisk));
    // From 30 m it takes 65 s to walk: home on foot at 80 s, on the way home at 20 + 8 + 5 + 65 s.
    // A way that avoids the place might be in time for walkers, unless even the far end, 20 + 20 s,
    // is too late.
    IntToDoubleFunction gully = x -> x == 30 ? 65 : 0.25 * x;
    assertFalse(settledOnFoot(47, NONE, gully));
    assertFalse(settledOnFoot(HAIR * 80, NONE, gully));
    assertFalse(settledOnFoot(80, NONE, gully));
    assertFalse(settledOnFoot(HAIR * 98, NONE, gully));
    assertFalse(settledOnFoot(NONE, HAIR * 98, gully));
    assertTrue(settledOnFoot(98, 98, gully));
    assertFalse(settledOnFoot(40, NONE, gully));
    assertTrue(settledOnFoot(HAIR * 40, NONE, gully));
  }

  private static void least(TripFronts solved, ReachLimits limits, double stayS, ReachEnd end) {
    BudgetCheck judge = asked(limits, solved, RefinementTest.FAR, stayS);
    assertEquals(end == null ? ReachState.POSSIBLY : 0, judge.state, limits.toString());
    if (end != null) {
      assertEquals(end, judge.end, limits.toString());
    }
  }

  /**
   * 40 m at 4 m/s and 1000 J/m or at 1 m/s and 100 J/m: no trip of 20 s takes less than 80 kJ, none
   * of 8 kJ less than 80 s. Each limit by itself can be met or cannot, the stay at 50 W counted.
   */
  @Test
  void groundOfWhichEachLimitAloneCanBeMet() {
    TraversalCost field = RefinementTest.lanes(new double[] {4, 1000}, new double[] {1, 100});
    int base = RefinementTest.SPEC.cellOf(3, 0);
    TripFronts solved = solved(field, HomeRule.DRIVE_BACK, limits(NONE, 1, 1e9, NONE), base, null);
    for (double stayS : new double[] {0, 100}) {
      double quickS = 20 + stayS;
      double cheapJ = 8000 + 50 * stayS;
      least(solved, limits(1.05 * quickS, 1.05 * cheapJ, NONE, NONE), stayS, null);
      least(solved, limits(0.95 * quickS, 1.05 * cheapJ, NONE, NONE), stayS, ReachEnd.TIME);
      least(solved, limits(1.05 * quickS, 0.95 * cheapJ, NONE, NONE), stayS, ReachEnd.ENERGY);
      least(solved, limits(NONE, 0.95 * cheapJ, NONE, 1.05 * quickS), stayS, ReachEnd.ENERGY);
      least(solved, limits(NONE, 1.05 * cheapJ, NONE, 0.95 * quickS), stayS, ReachEnd.LIFE_SUPPORT);
      // There and back is 104 m and a little more from lane to lane.
      least(solved, limits(1.05 * quickS, 1.05 * cheapJ, 100, NONE), stayS, ReachEnd.DISTANCE);
      least(solved, limits(1.05 * quickS, 1.05 * cheapJ, 160, NONE), stayS, null);
    }
    // Out 10 s, home 10 s for two crews.
    ReachLimits both = limits(HomeRule.PAIR, NONE, 1.05 * 8000, NONE, 1.05 * 30);
    least(solved(field, HomeRule.PAIR, both, base, null), both, 0, null);
    both = limits(HomeRule.PAIR, NONE, 1.05 * 8000, NONE, 0.95 * 30);
    least(solved(field, HomeRule.PAIR, both, base, null), both, 0, ReachEnd.RESCUE_LIFE_SUPPORT);
  }

  /** Quickest told of all trips that meet a limit, whether exactly or by far. */
  @Test
  void aTripThatMeetsALimitExactlyMeetsIt() {
    // 40 m out at 4 m/s and 1000 J/m or at 2 m/s and 200 J/m; home the same or at 1 m/s, 100 J/m.
    // Second lane westwards, third eastwards, a little to either side.
    int[] headings = {-1, 0x1FF << 20, 0x1FF << 4};
    TraversalCost field =
        RefinementTest.lanes(
            headings, new double[] {4, 1000}, new double[] {1, 100}, new double[] {2, 200});
    int base = RefinementTest.SPEC.cellOf(3, 0);
    TripFronts solved = solved(field, HomeRule.DRIVE_BACK, limits(NONE, 1, 1e9, NONE), base, null);
    // Out and home: 10 + 40 s for 44 kJ, 20 + 10 s for 48 kJ, 20 + 40 s for 12 kJ.
    for (double[] row : new double[][] {{46e3, 50, 44e3}, {60e3, 30, 48e3}, {30e3, 60, 12e3}}) {
      BudgetCheck wide = asked(limits(NONE, row[0], NONE, NONE), solved, RefinementTest.FAR, 0);
      assertEquals(row[1], wide.totalTimeS, 0.03 * row[1]);
      assertEquals(row[2], wide.totalEnergyJ, 0.03 * row[2]);
      BudgetCheck exact =
          asked(limits(NONE, wide.totalEnergyJ, NONE, NONE), solved, RefinementTest.FAR, 0);
      assertEquals(ReachState.SURELY, exact.state);
      assertEquals(wide.totalTimeS, exact.totalTimeS);
    }
    // The least of each by itself, exactly.
    double quickS =
        solved.out(Quantity.TIME_S).value(RefinementTest.FAR)
            + solved.home(Quantity.TIME_S).value(RefinementTest.FAR);
    double cheapJ = solved.leastEnergyJ(RefinementTest.FAR, false);
    least(solved, limits(quickS, cheapJ, NONE, NONE), 0, null);
    least(solved, limits(HAIR * quickS, cheapJ, NONE, NONE), 0, ReachEnd.TIME);
    least(solved, limits(quickS, HAIR * cheapJ, NONE, NONE), 0, ReachEnd.ENERGY);
  }
}

package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * What weighing limits rules out, on one lane up a slope of 3 in 4 (five metres along for four in
 * plan) where the only trip is known in closed form: 2 m/s, 1000 J/m up, 200 J/m gained on the way
 * down, 50 W all the while.
 */
class WeighedLimitsTest {
  private static final GridSpec LANE = Fields.grid(1, 81, 1, -0.5, -0.5);
  private static final int AT = 40;
  private static final double NONE = Double.POSITIVE_INFINITY;

  /** Labels are floats. */
  private static final double ABOVE = 1 + 1e-5;

  private static final double BELOW = 1 - 1e-5;

  /** Seconds, joules, metres for 50 m along the slope. */
  private static final double[] UP = {25, 50_000 + 50 * 25, 50};

  private static final double[] DOWN = {25, -10_000 + 50 * 25, 50};
  private static final double[] ROUND = {50, UP[1] + DOWN[1], 100};

  private static TraversalCost field(int[] allowed, float[] east, float speedMs, GradeTable table) {
    float[] cap = new float[allowed.length];
    Arrays.fill(cap, speedMs);
    return new TraversalCost(
        LANE, allowed, east, new float[cap.length], cap, new byte[cap.length], table);
  }

  private static Refinement refined(
      HomeRule home, boolean upwards, double[] limit, double[] weights, BitSet within) {
    return refined(home, upwards, 2, limit, weights, within);
  }

  /**
   * @param homeMs speed on the way home, 2 m/s out
   */
  private static Refinement refined(
      HomeRule home,
      boolean upwards,
      float homeMs,
      double[] limit,
      double[] weights,
      BitSet within) {
    ReachLimits limits = Fields.limits(home, limit[0], limit[1], limit[2], NONE, 50);
    return refined(limits, upwards, homeMs, weights, within);
  }

  private static Refinement refined(
      ReachLimits limits, boolean upwards, float homeMs, double[] weights, BitSet within) {
    int n = LANE.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] heightM = new float[n];
    double rise = upwards ? 0.75 : -0.75;
    Arrays.fill(allowed, -1);
    Arrays.fill(east, (float) rise);
    for (int i = 0; i < n; i++) {
      heightM[i] = (float) (100 + rise * i);
    }
    // 1000 J for every metre of height: a way up leaves 400 J/m of it, a way down takes 400 J/m.
    GradeTable table =
        new GradeTable(-0.75, 0.75, new double[] {9, 9}, new double[] {-200, 1000}, 50, 1000);
    TraversalCost out = field(allowed, east, 2, table);
    TraversalCost back = field(allowed, east, homeMs, table);
    Refinement r =
        new Refinement(limits, out, back, true, Floats.of(heightM), 0, Stops.none(limits), within);
    if (weights != null) {
      try (Workers workers = new Workers(1)) {
        BitSet all = new BitSet();
        all.set(0, n);
        r.weigh(weights, all, null, workers, Progress.NONE);
      }
    }
    return r;
  }

  /** Limits of which the trip takes the given shares, all a little wider or tighter. */
  private static double[] limits(double[] trip, double stayS, double[] shares, double by) {
    double[] whole = {trip[0] + stayS, trip[1] + 50 * stayS, trip[2]};
    double[] limit = new double[3];
    for (int i = 0; i < 3; i++) {
      limit[i] = by * whole[i] / shares[i];
    }
    return limit;
  }

  private static void ends(HomeRule home, boolean upwards, double[] trip, double stayS) {
    // Weights and shares whose sum of products is the sum of the weights.
    double[][][] rows = {
      {{0.5, 0.25, 0.25}, {1.2, 0.9, 0.7}},
      {{0.25, 0.5, 0.25}, {1.4, 0.8, 1.0}},
      {{0.25, 0.25, 0.5}, {0.6, 1.8, 0.8}},
      {{0.5, 0.5, 0}, {0.75, 1.25, 1e-6}},
    };
    for (double[][] row : rows) {
      double[] wide = limits(trip, stayS, row[1], ABOVE);
      double[] tight = limits(trip, stayS, row[1], BELOW);
      String what = home + " " + Arrays.toString(row[0]) + " after " + stayS + " s";
      assertFalse(refined(home, upwards, wide, row[0], null).ruledOut(AT, stayS), what);
      assertTrue(refined(home, upwards, tight, row[0], null).ruledOut(AT, stayS), what);
    }
  }

  @Test
  void aTripIsRuledOutFromWhereItsWeightedSharesAreMoreThanAllLimits() {
    for (double stayS : new double[] {0, 100}) {
      ends(HomeRule.DRIVE_BACK, true, ROUND, stayS);
      ends(HomeRule.DRIVE_BACK, false, ROUND, stayS);
      ends(HomeRule.PAIR, true, ROUND, stayS);
      ends(HomeRule.NONE, true, UP, stayS);
    }
    // Down the slope 300 s of stay at 50 W take more than was gained.
    ends(HomeRule.NONE, false, DOWN, 300);
  }

  /** Cells that are asked for later are not ruled out by fronts that ended before them. */
  @Test
  void weightingsThatFollowMayAskForFurtherCells() {
    double[][] weightings = {{0.5, 0.25, 0.25}, {0.25, 0.5, 0.25}, {0.25, 0.25, 0.5}};
    for (double by : new double[] {1.3, 1.1, 0.9}) {
      double[] limit = limits(ROUND, 0, new double[] {1, 1, 1}, by);
      Refinement further = refined(HomeRule.DRIVE_BACK, true, limit, null, null);
      try (Workers workers = new Workers(1)) {
        BitSet cells = new BitSet();
        for (int i = 0; i < weightings.length; i++) {
          cells.set(0, 10 + i * (AT - 9));
          further.weigh(weightings[i], cells, null, workers, Progress.NONE);
        }
      }
      assertEquals(by < 1, further.ruledOut(AT, 0), "limits by " + by);
    }
  }

  /** What a way down gains counts, so a way that looks too dear before it may do. */
  @Test
  void heightThatIsGivenBackIsCounted() {
    double[] half = {0.5, 0.5, 0};
    // Half of 25 / 30 and half of -8750 / 10000, where 20 kJ would be asked without the height.
    double[] limit = {30, 10_000, NONE};
    assertFalse(refined(HomeRule.NONE, false, limit, half, null).ruledOut(AT, 0));
    assertTrue(refined(HomeRule.NONE, true, limit, half, null).ruledOut(AT, 0));
  }

  @Test
  void waysAreOfTheTripItself() {
    double[] wide = limits(ROUND, 0, new double[] {0.5, 0.5, 0.5}, 1);
    Refinement r = refined(HomeRule.DRIVE_BACK, true, wide, new double[] {0.5, 0.25, 0.25}, null);
    assertEquals(1, r.out().size());
    assertEquals(1, r.home().size());
    PathSums out = r.out().get(0);
    PathSums home = r.home().get(0);
    assertEquals(UP[0], out.timeS(AT), 1e-3);
    assertEquals(UP[1], out.energyJ(AT), 1);
    assertEquals(UP[2], out.distanceM(AT), 1e-3);
    assertEquals(DOWN[0], home.timeS(AT), 1e-3);
    assertEquals(DOWN[1], home.energyJ(AT), 1);
    assertEquals(DOWN[2], home.distanceM(AT), 1e-3);
    Refinement oneWay = refined(HomeRule.NONE, true, wide, new double[] {0.5, 0.25, 0.25}, null);
    assertEquals(List.of(), oneWay.home());
  }

  /** 50 s home in place of 25, at 50 W. */
  @Test
  void aWayHomeMayBeSlower() {
    double[] trip = {75, ROUND[1] + 25 * 50, 100};
    double[] shares = {1.2, 0.9, 0.7};
    double[] weights = {0.5, 0.25, 0.25};
    HomeRule back = HomeRule.DRIVE_BACK;
    double[] wide = limits(trip, 10, shares, ABOVE);
    double[] tight = limits(trip, 10, shares, BELOW);
    assertFalse(refined(back, true, 1, wide, weights, null).ruledOut(AT, 10));
    Refinement r = refined(back, true, 1, tight, weights, null);
    assertTrue(r.ruledOut(AT, 10));
    assertEquals(50, r.home().get(0).timeS(AT), 1e-3);
    assertEquals(DOWN[1] + 25 * 50, r.home().get(0).energyJ(AT), 1);
  }

  /** Whoever changes vehicles at the far end takes as long again there, at the same load. */
  @Test
  void aChangeOfVehiclesIsPartOfTheStay() {
    double[] shares = {1.2, 0.9, 0.7};
    Rescue change = new Rescue(0, 30, 0, 0);
    for (double by : new double[] {ABOVE, BELOW}) {
      double[] limit = limits(ROUND, 10 + 30, shares, by);
      ReachLimits pair =
          new ReachLimits(
              HomeRule.PAIR, limit[0], limit[1], limit[2], NONE, 50, change, Reserves.NONE);
      Refinement r = refined(pair, true, 2, new double[] {0.5, 0.25, 0.25}, null);
      assertEquals(by < 1, r.ruledOut(AT, 10));
    }
  }

  /** Ground that time does not suffice for is not looked at: nothing there can be met. */
  @Test
  void groundBeyondTheTimeIsLeftOut() {
    double[] wide = limits(ROUND, 0, new double[] {0.5, 0.5, 0.5}, 1);
    BitSet within = new BitSet();
    within.set(0, 30);
    double[] weights = {0.5, 0.25, 0.25};
    Refinement r = refined(HomeRule.DRIVE_BACK, true, wide, weights, within);
    assertFalse(r.ruledOut(29, 0));
    assertTrue(r.ruledOut(30, 0));
    assertFalse(refined(HomeRule.DRIVE_BACK, true, wide, weights, null).ruledOut(30, 0));
  }

  @Test
  void onlyLimitsThatAreSetAreWeighed() {
    for (int set = 0; set < 8; set++) {
      double[] limit = new double[3];
      for (int i = 0; i < 3; i++) {
        limit[i] = (set >> i & 1) == 1 ? 100 : NONE;
      }
      List<double[]> rounds = refined(HomeRule.DRIVE_BACK, true, limit, null, null).rounds();
      assertEquals(Integer.bitCount(set) < 2 ? 0 : 4, rounds.size(), "limits " + set);
      for (double[] w : rounds) {
        assertEquals(1, w[0] + w[1] + w[2], 1e-12);
        for (int i = 0; i < 3; i++) {
          assertEquals((set >> i & 1) == 0, w[i] == 0, "limits " + set);
          // Each by itself is known already.
          assertTrue(w[i] < 0.9, "limits " + set);
        }
      }
    }
  }
}

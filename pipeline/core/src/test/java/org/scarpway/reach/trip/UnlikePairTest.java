package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.DoublePredicate;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.DrivenTogether;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.VehicleParts;

/** A pair of two kinds of vehicles, either of which may have to bring everybody home. */
class UnlikePairTest {
  private static final GridSpec LANE = Fields.grid(1, 121, 1, -0.5, -0.5);
  private static final double CHANGE_S = 12;

  /** A vehicle on a lane: alone and with everybody aboard, m/s and J/m beside 50 W. */
  private record Kind(double ms, double jPerM, double loadedMs, double loadedJPerM, int firstShut) {
    TraversalCost alone() {
      return lane(ms, jPerM, firstShut);
    }

    TraversalCost loaded() {
      return lane(loadedMs, loadedJPerM, firstShut);
    }

    /** Joules used when everybody is home after a stop at x, driving out at the pair's speed. */
    double joules(double x, double outMs) {
      return x * (jPerM + 50 / outMs) + 50 * CHANGE_S + x * (loadedJPerM + 50 / loadedMs);
    }
  }

  private static TraversalCost lane(double speedMs, double jPerM, int firstShut) {
    int n = LANE.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    Arrays.fill(allowed, 0, Math.min(n, firstShut), -1);
    Arrays.fill(cap, (float) speedMs);
    double[] fast = {1e9, 1e9};
    GradeTable table = new GradeTable(-1, 1, fast, new double[] {jPerM, jPerM}, 50, 0);
    return new TraversalCost(LANE, allowed, new float[n], new float[n], cap, new byte[n], table);
  }

  /**
   * @param breathing of everybody, in units of the smaller crew
   */
  private static ReachResult pair(
      TraversalCost out, TraversalCost home, Budget budget, double breathing) {
    ReachRequest request =
        new ReachRequest(
            "r",
            "b",
            out.spec().xM(0),
            out.spec().yM(out.spec().rows() - 1),
            budget,
            HomeRule.PAIR,
            List.of(),
            0,
            new Rescue(10, CHANGE_S, 20, 0).with("other", breathing),
            Reserves.NONE,
            8,
            true);
    TraversalInput ground =
        Fields.ground(
                out,
                new FloatGrid(out.spec(), new float[out.spec().cells()]),
                Fields.cart(2, 50.0, null, VehicleParts.crew(2, 4, null)))
            .withLoaded(home);
    try (Workers workers = new Workers(1)) {
      return ReachSolver.solve(request, ground, null, List.of(), workers, Progress.NONE);
    }
  }

  /** The furthest cell of the lane that is surely reached. */
  private static int furthest(Kind a, Kind b, Budget budget, double scale, double breathing) {
    TraversalCost out = DrivenTogether.of(a.alone(), b.alone(), scale);
    TraversalCost home = DrivenTogether.of(a.loaded(), b.loaded(), scale);
    byte[] state = pair(out, home, budget, breathing).state().values();
    int last = 0;
    for (int i = 0; i < state.length; i++) {
      last = state[i] == ReachState.SURELY ? i : last;
    }
    return last;
  }

  /**
   * The second vehicle is slower with everybody aboard, is shut out further on and has the smaller
   * battery: each ends the reach where its own arithmetic on the lane does.
   */
  @Test
  void theWorseVehicleEndsTheReach() {
    Kind quick = new Kind(2, 1000, 1, 2000, 999);
    Kind slow = new Kind(1, 900, 0.5, 2400, 999);
    // x s out at 1 m/s, 12 s, 2 x s home: a stop at the far edge of a cell, half a metre on.
    int byTime = furthest(quick, slow, new Budget(200.0, null, null, null), 1, 2);
    assertEquals(furthestBy(x -> x + CHANGE_S + 2 * x <= 200), byTime, 1);
    // Three crews' worth of air in the smaller cabin: x + 3 (12 + 2 x).
    int byAir = furthest(quick, slow, new Budget(null, null, null, 300.0), 1, 3);
    assertEquals(furthestBy(x -> x + 3 * (CHANGE_S + 2 * x) <= 300), byAir, 1);
    // 300 kJ of the quick one and 150 kJ of the slow one, whose joules count twice.
    double scale = 2;
    int byEnergy = furthest(quick, slow, new Budget(null, 300_000.0, null, null), scale, 2);
    int own = furthestBy(x -> slow.joules(x, 1) <= 150_000);
    assertEquals(own, byEnergy, 1);
    assertTrue(quick.joules(byEnergy, 1) <= 300_000, "the quick one too");
    // Ground that the second cannot enter is not entered, however far the first could go.
    Kind shutOut = new Kind(1, 900, 0.5, 2400, 20);
    assertEquals(19, furthest(quick, shutOut, new Budget(2000.0, null, null, null), 1, 2));
    assertEquals(19, furthest(shutOut, quick, new Budget(2000.0, null, null, null), 1, 2));
  }

  private static int furthestBy(DoublePredicate holds) {
    int x = 0;
    while (x + 1 < LANE.cells() && holds.test(x + 1)) {
      x++;
    }
    return x;
  }

  /** On random ground, what a pair surely reaches each kind surely reaches as a pair of its own. */
  @Test
  void noFurtherThanAPairOfEither() {
    GridSpec spec = Fields.grid(14, 16, 1, 0, 0);
    Random random = new Random(77);
    int surely = 0;
    for (int trial = 0; trial < 25; trial++) {
      TraversalCost[] alone = new TraversalCost[2];
      TraversalCost[] loaded = new TraversalCost[2];
      for (int v = 0; v < 2; v++) {
        double[] ms = new double[spec.cells()];
        for (int i = 0; i < ms.length; i++) {
          ms[i] = random.nextInt(6) == 0 ? 0 : 0.4 + 2 * random.nextDouble();
        }
        ms[spec.cells() - spec.cols()] = 1;
        alone[v] = Fields.level(spec, (x, y) -> ms[spec.cellOf(x, y)]);
        loaded[v] = Fields.level(spec, (x, y) -> 0.7 * ms[spec.cellOf(x, y)]);
      }
      Budget budget = new Budget(20 + 40 * random.nextDouble(), null, null, null);
      byte[] both =
          pair(
                  DrivenTogether.of(alone[0], alone[1], 1),
                  DrivenTogether.of(loaded[0], loaded[1], 1),
                  budget,
                  2)
              .state()
              .values();
      for (int v = 0; v < 2; v++) {
        byte[] own = pair(alone[v], loaded[v], budget, 2).state().values();
        for (int i = 0; i < own.length; i++) {
          if (both[i] == ReachState.SURELY) {
            surely++;
            assertEquals(ReachState.SURELY, own[i], "trial " + trial + ", cell " + i);
          }
        }
      }
    }
    assertTrue(surely > 500, "surely reached: " + surely);
  }
}

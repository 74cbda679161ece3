package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.audit.Finding;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * Trips on a lane that are worked out with one vehicle or walker and driven again with a worse one:
 * what was promised does not hold then, and each of the ways that it rests on must tell.
 */
class DrivenAgainByHandTest {
  private static final int N = 61;
  private static final GridSpec LANE = Fields.grid(1, N, 1, -0.5, -0.5);
  private static final Floats FLAT = Floats.of(new float[N]);
  private static final Budget FREE = new Budget(null, null, null, null);

  private static TraversalCost lane(double speedMs, double jPerM) {
    return lane(speedMs, jPerM, 50);
  }

  private static TraversalCost lane(double speedMs, double jPerM, double hotelW) {
    int[] allowed = new int[N];
    float[] cap = new float[N];
    Arrays.fill(allowed, -1);
    Arrays.fill(cap, (float) speedMs);
    double[] fast = {1e9, 1e9};
    GradeTable table = new GradeTable(-1, 1, fast, new double[] {jPerM, jPerM}, hotelW, 0);
    return new TraversalCost(LANE, allowed, new float[N], new float[N], cap, new byte[N], table);
  }

  /** The trip to 40 m, planned with 2 m/s alone, 1 m/s with everybody aboard and 1 m/s on foot. */
  private static Finding driven(
      HomeRule home, Budget budget, TraversalCost out, TraversalCost back, TraversalCost onFoot) {
    WalkHome walker = onFoot == null ? null : Questions.walkHome(onFoot, 500, 0, List.of());
    return driven(home, budget, out, back, walker, WalkHome.Limits.NONE);
  }

  /**
   * @param planned what the walks were planned with
   */
  private static Finding driven(
      HomeRule home,
      Budget budget,
      TraversalCost out,
      TraversalCost back,
      WalkHome walker,
      WalkHome.Limits planned) {
    Target far = new Target("far", 40, 0, 1, 0, 0);
    ReachRequest request =
        new ReachRequest(
            "r",
            "b",
            0,
            0,
            budget,
            home,
            List.of(),
            4,
            new Rescue(10, 12, 20, 0),
            Reserves.NONE,
            0,
            true);
    double timeS = budget.timeS() == null ? Double.POSITIVE_INFINITY : budget.timeS();
    double none = Double.POSITIVE_INFINITY;
    double mostM = budget.distanceM() == null ? none : budget.distanceM();
    double lifeS = budget.lifeSupportS() == null ? none : budget.lifeSupportS();
    ReachLimits limits =
        new ReachLimits(
            home, timeS, none, mostM, lifeS, 50, new Rescue(10, 12, 20, 0), Reserves.NONE);
    TraversalCost own = lane(2, 1000);
    TraversalCost own2 = home == HomeRule.PAIR ? lane(1, 2000) : own;
    try (Workers workers = new Workers(1)) {
      Stops stops = Stops.none(limits);
      WalksHome walks = null;
      if (home == HomeRule.WALK_BACK) {
        WalkHome said = new WalkHome(lane(1, 300), 500, 0, planned, List.of(), List.of());
        walks = WalksHome.of(said, FLAT, new int[] {0}, workers, Progress.NONE);
        stops = new Stops(limits, walks.timeS(), null, List.of());
      }
      TripFronts solved =
          new TripFronts(
              request,
              limits,
              own,
              own2,
              true,
              FLAT,
              0,
              new double[] {4, 4},
              stops,
              workers,
              Progress.NONE);
      Refinement more =
          new Refinement(limits, own, own2, true, FLAT, 0, solved.stops(), solved.within());
      DrivenAgain again =
          new DrivenAgain(request, limits, solved, more, out, back, FLAT, walker, walks, null);
      Bytes state = Bytes.of(N, null);
      List<Finding> all = again.of(state, List.of(far.withStay(4)), 0, workers);
      assertEquals(1, all.size());
      return all.get(0);
    }
  }

  private static Budget timeS(double s) {
    return new Budget(s, null, null, null);
  }

  private static void breaks(Finding f, String what) {
    assertFalse(f.holds(), "nothing is broken");
    assertTrue(f.broken().startsWith(what), f.broken());
  }

  /** 20 s out, 4 s, 20 s home; at half the speed the one or the other takes 40 s. */
  @Test
  void aWayThatTakesLongerThanPlannedIsTold() {
    TraversalCost own = lane(2, 1000);
    TraversalCost slow = lane(1, 1000);
    assertTrue(driven(HomeRule.DRIVE_BACK, timeS(45), own, own, null).holds());
    breaks(driven(HomeRule.DRIVE_BACK, timeS(45), slow, own, null), "time: ");
    breaks(driven(HomeRule.DRIVE_BACK, timeS(45), own, slow, null), "time: ");
    assertTrue(driven(HomeRule.NONE, timeS(25), own, slow, null).holds());
    breaks(driven(HomeRule.NONE, timeS(25), slow, own, null), "time: ");
  }

  /** 40 s from the far end. Without any other limit the walker's 500 s count. */
  @Test
  void aWalkThatTakesLongerThanSaidIsTold() {
    TraversalCost own = lane(2, 1000);
    Finding f = driven(HomeRule.WALK_BACK, FREE, own, own, lane(1, 300));
    assertTrue(f.holds(), f.broken());
    assertEquals(100 * (500 - 40) / 500.0, f.leftPct(), 1e-6);
    breaks(
        driven(HomeRule.WALK_BACK, FREE, own, own, lane(0.5, 300)),
        "the walk home takes 80.0 s, not 40.0 s");
  }

  private static Finding walked(
      TraversalCost field, WalkHome.Limits held, WalkHome.Limits planned) {
    TraversalCost own = lane(2, 1000);
    WalkHome walker = new WalkHome(field, 500, 0, held, List.of(), List.of());
    return driven(HomeRule.WALK_BACK, FREE, own, own, walker, planned);
  }

  private static WalkHome.Limits held(double distanceM, TraversalCost peak, double peakS) {
    double none = Double.POSITIVE_INFINITY;
    return new WalkHome.Limits(none, distanceM, peak, null, peakS, none);
  }

  /** 40 m and, with a second for each metre above the sustained rate, 40 s of it. */
  @Test
  void aWalkThatIsTooLongOrTooHardIsTold() {
    double none = Double.POSITIVE_INFINITY;
    TraversalCost walker = lane(1, 300);
    WalkHome.Limits free = WalkHome.Limits.NONE;
    TraversalCost hard = lane(1, 1, 0);
    Finding f = walked(walker, held(40, hard, 40), free);
    assertTrue(f.holds(), f.broken());
    assertTrue(walked(walker, held(40, null, none), held(40, null, none)).holds());
    breaks(walked(walker, held(30, null, none), free), "the walk home takes 40 m of 30 m");
    breaks(
        walked(walker, held(none, hard, 30), free),
        "the walk home takes 40.0 s above the sustained rate, not 30.0 s");
  }

  /** At the sustained rate no peak is counted, and the slower walker is the one who walks. */
  @Test
  void aSustainedWalkIsHeldToItsOwnWalker() {
    double none = Double.POSITIVE_INFINITY;
    TraversalCost hard = lane(1, 1, 0);
    TraversalCost[] sustained = {lane(0.5, 300), lane(0.25, 300)};
    WalkHome.Limits[] limits = new WalkHome.Limits[2];
    for (int i = 0; i < 2; i++) {
      limits[i] = new WalkHome.Limits(none, none, hard, sustained[i], 30, none);
    }
    Finding f = walked(lane(1, 300), limits[0], limits[0]);
    assertTrue(f.holds(), f.broken());
    breaks(walked(lane(1, 300), limits[1], limits[0]), "the walk home takes 160.0 s, not 80.0 s");
  }

  /**
   * Half the speed home: 80 s of the ride that a stop at the far end rests on, not 40 s, and 12 s
   * of change.
   */
  @Test
  void aRideThatTakesLongerThanSaidIsTold() {
    TraversalCost own = lane(2, 1000);
    Budget long400 = new Budget(null, null, 400.0, null);
    Finding f = driven(HomeRule.PAIR, long400, own, lane(1, 2000), null);
    assertTrue(f.holds(), f.broken());
    breaks(
        driven(HomeRule.PAIR, long400, own, lane(0.5, 2000), null),
        "the ride home takes 92.0 s, not 52.0 s");
  }

  /**
   * 24 s with the stay, twice 52 s for two crews. At 0.8 m/s home it takes 50 s after the change,
   * and what the ride from the far end was to take is used up twice: 24, 12, 50 and 52 s.
   */
  @Test
  void twoCrewsThatTakeLongerHomeThanPlannedAreTold() {
    TraversalCost own = lane(2, 1000);
    Budget life = new Budget(null, null, null, 130.0);
    Finding f = driven(HomeRule.PAIR, life, own, lane(1, 2000), null);
    assertTrue(f.holds(), f.broken());
    assertEquals(100 * (130 - 128) / 130.0, f.leftPct(), 1e-6);
    breaks(driven(HomeRule.PAIR, life, own, lane(0.8, 2000), null), "life support: ");
  }
}

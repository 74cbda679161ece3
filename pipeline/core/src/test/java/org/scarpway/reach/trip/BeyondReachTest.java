package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.function.IntFunction;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Why cells of one lane are not reached. 1 m/s from its western end; free up to 600 m, then one way
 * eastwards up to 800 m, then a wall up to 810 m, then free ground that nothing leads to.
 */
class BeyondReachTest {
  private static final GridSpec LANE = Fields.grid(1, 1000, 1, -0.5, -0.5);

  private static BeyondReach of(HomeRule home, Double timeS) {
    return of(home, timeS, LANE.cells());
  }

  /** Stops leave the first cells alone. */
  private static BeyondReach of(HomeRule home, Double timeS, int cells) {
    ReachEnd stopped = home == HomeRule.WALK_BACK ? ReachEnd.WALK_BACK : ReachEnd.RESCUE;
    return of(home, timeS, cells, cell -> stopped);
  }

  private static BeyondReach of(
      HomeRule home, Double timeS, int cells, IntFunction<ReachEnd> ends) {
    int n = LANE.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    Arrays.fill(allowed, -1);
    Arrays.fill(allowed, 600, 800, 0x1FF << 4);
    Arrays.fill(allowed, 800, 810, 0);
    Arrays.fill(cap, 1);
    TraversalCost field =
        new TraversalCost(
            LANE, allowed, new float[n], new float[n], cap, new byte[n], Fields.constant(1));
    BitSet first = new BitSet();
    first.set(0, cells);
    TraversalCost kept = field.within(first);
    Budget budget = new Budget(timeS, null, null);
    ReachRequest q = Fields.request("r", "b", 0, 0, budget, home, List.of(), 0, timeS == null);
    double tripS = timeS == null ? Double.POSITIVE_INFINITY : timeS;
    double none = Double.POSITIVE_INFINITY;
    ReachLimits limits = Fields.limits(home, tripS, none, none, none, 0);
    Floats level = Floats.of(new float[n]);
    double[] stays = {0, 0};
    try (Workers workers = new Workers(1)) {
      TripFronts solved =
          new TripFronts(
              q,
              limits,
              kept,
              kept,
              false,
              level,
              0,
              stays,
              Stops.none(limits),
              workers,
              Progress.NONE);
      return BeyondReach.of(field, 0, limits, solved, ends, workers);
    }
  }

  private static void ends(HomeRule home, Double timeS, ReachEnd near, ReachEnd oneWay) {
    BeyondReach beyond = of(home, timeS);
    // Out and home take at least 1000 s from 500 m, and fronts end a little after the time.
    assertEquals(near, beyond.end(590), home + " " + timeS);
    assertEquals(oneWay, beyond.end(700), home + " " + timeS);
    assertEquals(oneWay, beyond.end(799), home + " " + timeS);
    assertEquals(ReachEnd.NO_GO, beyond.end(800));
    assertEquals(ReachEnd.NO_GO, beyond.end(809));
    assertEquals(ReachEnd.CUT_OFF, beyond.end(810));
    assertEquals(ReachEnd.CUT_OFF, beyond.end(999));
  }

  @Test
  void groundThatTimeDoesNotSufficeFor() {
    ends(HomeRule.DRIVE_BACK, 100.0, ReachEnd.TIME, ReachEnd.NO_WAY_HOME);
    ends(HomeRule.PAIR, 100.0, ReachEnd.TIME, ReachEnd.NO_WAY_HOME);
    ends(HomeRule.NONE, 100.0, ReachEnd.TIME, ReachEnd.TIME);
  }

  /** Whatever the home rule: where nothing leads, no rescue and no walk is at fault. */
  @Test
  void groundThatNoWayLeadsToIsCutOff() {
    for (HomeRule home : HomeRule.values()) {
      for (Double timeS : new Double[] {null, 100.0}) {
        BeyondReach beyond = of(home, timeS);
        assertEquals(ReachEnd.NO_GO, beyond.end(805));
        assertEquals(ReachEnd.CUT_OFF, beyond.end(810), home + " " + timeS);
        assertEquals(ReachEnd.CUT_OFF, beyond.end(999), home + " " + timeS);
      }
    }
  }

  /**
   * The lane up to 300 m is all that stops leave: beyond it they are the reason, up to the wall.
   */
  @Test
  void groundThatOnlyStopsShut() {
    for (HomeRule home : List.of(HomeRule.WALK_BACK, HomeRule.BASE_RESCUE)) {
      BeyondReach beyond = of(home, null, 300);
      ReachEnd stopped = home == HomeRule.WALK_BACK ? ReachEnd.WALK_BACK : ReachEnd.RESCUE;
      assertEquals(stopped, beyond.end(301), home.toString());
      assertEquals(stopped, beyond.end(799), home.toString());
      assertEquals(ReachEnd.NO_GO, beyond.end(805));
      assertEquals(ReachEnd.CUT_OFF, beyond.end(810), home.toString());
    }
  }

  /** What ends ground that only the home rule shuts is its own; no-go and cut off come first. */
  @Test
  void groundThatTheHomeRuleEnds() {
    for (HomeRule home : List.of(HomeRule.WALK_BACK, HomeRule.BASE_RESCUE)) {
      BeyondReach beyond =
          of(home, null, 300, cell -> cell < 400 ? ReachEnd.WALK_LENGTH : ReachEnd.RESCUER_ENERGY);
      for (int cell = 301; cell < LANE.cells(); cell++) {
        ReachEnd end = ReachEnd.CUT_OFF;
        if (cell < 800) {
          end = cell < 400 ? ReachEnd.WALK_LENGTH : ReachEnd.RESCUER_ENERGY;
        } else if (cell < 810) {
          end = ReachEnd.NO_GO;
        }
        assertEquals(end, beyond.end(cell), "cell " + cell);
      }
    }
  }
}

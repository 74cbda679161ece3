package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/** What ends ground by rules that ask something of every stop is told by its own name. */
class StopEndsTest {
  private static final GridSpec SPEC = Fields.grid(61, 61, 1, -30.5, -30.5);
  private static final double NONE = Double.POSITIVE_INFINITY;

  private static ReachResult solve(HomeRule home, Budget budget, TraversalInput g, WalkHome walk) {
    ReachRequest r =
        new ReachRequest(
            "r",
            "b",
            0,
            0,
            budget,
            home,
            List.of(),
            5,
            new Rescue(5, 5, 1, 0),
            Reserves.NONE,
            false);
    try (Workers workers = new Workers(2)) {
      return ReachSolver.solve(r, g, walk, List.of(), workers, Progress.NONE);
    }
  }

  private static TraversalInput ground(TraversalCost field, Double lifeS, TraversalCost loaded) {
    Vehicle cart =
        Fields.cart(1, 20, null, VehicleParts.crew(1, 2, lifeS == null ? null : lifeS / 3600));
    TraversalInput g = Fields.ground(field, FloatGrid.empty(SPEC), cart);
    return loaded == null ? g : g.withLoaded(field.withLoad(loaded));
  }

  private static WalkHome walker(TraversalCost field, double enduranceS, double mostM) {
    WalkHome.Limits limits = new WalkHome.Limits(NONE, mostM, null, null, NONE, NONE);
    return new WalkHome(field, enduranceS, 0, limits, List.of(), List.of());
  }

  private static Map<ReachEnd, Integer> counts(ReachResult r) {
    Map<ReachEnd, Integer> all = new EnumMap<>(ReachEnd.class);
    for (byte code : r.binding().values()) {
      if (code != 0) {
        all.merge(ReachEnd.of(code), 1, Integer::sum);
      }
    }
    return all;
  }

  /**
   * A limit that ends a cell is one of the question: lifted alone it ends none, and none is lost.
   */
  private static void lifted(ReachEnd end, ReachResult with, ReachResult without, String where) {
    assertEquals(0, counts(without).getOrDefault(end, 0), where + end);
    for (int cell = 0; cell < SPEC.cells(); cell++) {
      if (with.state().values()[cell] == ReachState.SURELY) {
        assertEquals(ReachState.SURELY, without.state().values()[cell], where + end + cell);
      }
    }
  }

  @Test
  void aWalkThatEndsGroundEndsItByALimitOfTheQuestion() {
    Random random = new Random(71);
    int[] ended = new int[3];
    for (int k = 0; k < 12; k++) {
      TraversalInput g = ground(FrontTest.rough(SPEC, 300 + k), null, null);
      TraversalCost feet = FrontTest.rough(SPEC, 500 + k);
      double endS = 5 + random.nextInt(15);
      double mostM = 15 + random.nextInt(30);
      Budget budget = new Budget(20.0 + random.nextInt(20), null, null);
      ReachResult r = solve(HomeRule.WALK_BACK, budget, g, walker(feet, endS, mostM));
      Map<ReachEnd, Integer> all = counts(r);
      String where = "ground " + k + ": ";

      ended[0] += all.getOrDefault(ReachEnd.WALK_LENGTH, 0);
      ended[1] += all.getOrDefault(ReachEnd.WALK_TIME, 0);
      ended[2] += all.getOrDefault(ReachEnd.TIME, 0);
      ReachResult far = solve(HomeRule.WALK_BACK, budget, g, walker(feet, endS, NONE));
      lifted(ReachEnd.WALK_LENGTH, r, far, where);
      ReachResult slow = solve(HomeRule.WALK_BACK, budget, g, walker(feet, 1e9, mostM));
      lifted(ReachEnd.WALK_TIME, r, slow, where);
      ReachResult late =
          solve(HomeRule.WALK_BACK, new Budget(null, null, null), g, walker(feet, endS, mostM));
      lifted(ReachEnd.TIME, r, late, where);
      ReachResult all3 =
          solve(HomeRule.WALK_BACK, new Budget(null, null, null), g, walker(feet, 1e9, NONE));
      counts(all3)
          .keySet()
          .forEach(
              end ->
                  assertTrue(
                      List.of(
                              ReachEnd.NO_GO,
                              ReachEnd.CUT_OFF,
                              ReachEnd.NO_WAY_HOME,
                              ReachEnd.NO_WAY_ON_FOOT,
                              ReachEnd.WALK_BACK)
                          .contains(end),
                      where + end));
    }
    assertTrue(ended[0] > 500 && ended[1] > 500 && ended[2] > 500, Arrays.toString(ended));
  }

  /** A ditch that nobody can walk in, all round: beyond it the walk is short, but no way out is. */
  @Test
  void aShortWalkBeyondGroundWithoutOneIsNotCalledTooLong() {
    TraversalCost vehicle = Fields.level(SPEC, (x, y) -> 10);
    TraversalCost feet = Fields.level(SPEC, (x, y) -> Math.abs(x - 10) < 0.6 ? 0 : 1);
    WalkHome hut = Questions.walkHome(feet, 100, 0, List.of(new WalkHome.Refuge("hut", 20, 0)));
    ReachResult r =
        solve(HomeRule.WALK_BACK, new Budget(null, null, null), ground(vehicle, null, null), hut);
    assertEquals(ReachEnd.WALK_BACK.code(), r.binding().values()[SPEC.cellOf(15, 0)]);
    assertEquals(ReachEnd.NO_WAY_ON_FOOT.code(), r.binding().values()[SPEC.cellOf(10, 0)]);
    assertEquals(0, r.binding().values()[SPEC.cellOf(5, 0)]);
    assertEquals(5, r.homeTimeS().values()[SPEC.cellOf(15, 0)], 0.01);
  }

  @Test
  void aRescueThatEndsGroundEndsItByALimitOfTheQuestion() {
    Random random = new Random(72);
    int[] ended = new int[4];
    for (int k = 0; k < 12; k++) {
      TraversalCost field = FrontTest.rough(SPEC, 700 + k);
      TraversalCost loaded = FrontTest.rough(SPEC, 900 + k);
      double timeS = 30.0 + random.nextInt(40);
      double lifeS = 40.0 + random.nextInt(60);
      double m = 40.0 + random.nextInt(60);
      TraversalInput g = ground(field, lifeS, loaded);
      TraversalInput aired = ground(field, null, loaded);
      Budget budget = new Budget(timeS, null, m);
      String where = "ground " + k + ": ";
      ReachResult r = solve(HomeRule.BASE_RESCUE, budget, g, null);
      Map<ReachEnd, Integer> all = counts(r);
      ReachResult unaired = solve(HomeRule.BASE_RESCUE, budget, aired, null);
      lifted(ReachEnd.RESCUE_LIFE_SUPPORT, r, unaired, where);
      lifted(ReachEnd.RESCUER_LIFE_SUPPORT, r, unaired, where);
      ReachResult late = solve(HomeRule.BASE_RESCUE, new Budget(null, null, m), g, null);
      lifted(ReachEnd.RESCUE_TIME, r, late, where);
      ReachResult far = solve(HomeRule.BASE_RESCUE, new Budget(timeS, null, null), g, null);
      lifted(ReachEnd.RESCUER_DISTANCE, r, far, where);
      ended[0] += all.getOrDefault(ReachEnd.RESCUE_LIFE_SUPPORT, 0);
      ended[1] += all.getOrDefault(ReachEnd.RESCUER_LIFE_SUPPORT, 0);
      ended[2] += all.getOrDefault(ReachEnd.RESCUE_TIME, 0);
      ended[3] += all.getOrDefault(ReachEnd.RESCUER_DISTANCE, 0);
    }
    for (int n : ended) {
      assertTrue(n > 150, Arrays.toString(ended));
    }
  }

  /** Ground that the vehicle crosses empty, but not with another crew aboard. */
  @Test
  void groundThatNoLoadedVehicleLeaves() {
    TraversalCost field = Fields.level(SPEC, (x, y) -> 1);
    TraversalCost loaded = Fields.level(SPEC, (x, y) -> Math.abs(x - 10) < 0.6 ? 0 : 1);
    ReachResult r =
        solve(
            HomeRule.BASE_RESCUE, new Budget(null, null, null), ground(field, null, loaded), null);
    assertEquals(ReachEnd.NO_RESCUER.code(), r.binding().values()[SPEC.cellOf(10, 0)]);
    assertEquals(ReachEnd.NO_RESCUER.code(), r.binding().values()[SPEC.cellOf(20, 0)]);
    assertNotEquals(ReachEnd.NO_RESCUER.code(), r.binding().values()[SPEC.cellOf(5, 0)]);
  }

  @Test
  void everyEndHasItsCode() {
    for (ReachEnd end : ReachEnd.values()) {
      assertEquals(end, ReachEnd.of(end.code()));
    }
  }
}

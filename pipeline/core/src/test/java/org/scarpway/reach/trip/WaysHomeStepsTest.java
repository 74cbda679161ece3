package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.StepCodes;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.VehicleParts;

/** The steps of a walk home, and of a vehicle that fetches the crew, followed cell by cell. */
class WaysHomeStepsTest {
  private static final GridSpec SPEC = Fields.grid(81, 81, 1, -40.5, -40.5);
  private static final int BASE = SPEC.cellOf(0, 0);

  private static ReachResult solve(TraversalInput ground, HomeRule home, WalkHome walk) {
    ReachRequest q =
        Fields.request("r", "b", 0, 0, new Budget(9000.0, null, null), home, List.of(), 0, true);
    try (Workers workers = new Workers(2)) {
      return ReachSolver.solve(q, ground, walk, List.of(), workers, Progress.NONE);
    }
  }

  /** Follows codes to a source; the codes tell which. */
  private static int[] follow(byte[] codes, int cell) {
    return StepCodes.follow(SPEC, c -> codes[c], cell, BASE);
  }

  /** Every walk ends at the base or a refuge, never at ground without a walk, and gets nearer. */
  @Test
  void walksEndAtTheBaseOrARefuge() {
    // A wall with one gap, so that ways are no straight lines.
    TraversalCost onFoot =
        Fields.level(SPEC, (x, y) -> Math.abs(x - 8) < 1.5 && Math.abs(y + 20) > 4 ? 0 : 0.8);
    List<WalkHome.Refuge> refuges =
        List.of(new WalkHome.Refuge("hut", 30, 25), new WalkHome.Refuge("cave", -30, 10));
    Set<Integer> ends = Set.of(BASE, SPEC.cellOf(30, 25), SPEC.cellOf(-30, 10));
    WalkHome walk = Questions.walkHome(onFoot, 4000, 0, refuges);
    ReachResult r = solve(Fields.level(Fields.level(SPEC, (x, y) -> 2)), HomeRule.WALK_BACK, walk);
    byte[] codes = r.steps().walk().values();
    float[] homeS = r.homeTimeS().values();
    int[] to = new int[SPEC.cells()];
    int walks = 0;
    for (int cell = 0; cell < SPEC.cells(); cell++) {
      int[] way = follow(codes, cell);
      assertEquals(!Float.isNaN(homeS[cell]), way.length > 0, "cell " + cell);
      if (way.length > 0) {
        assertTrue(ends.contains(way[way.length - 1]), "cell " + cell);
        to[way[way.length - 1]]++;
        // At 0.8 m/s over level ground; steps of 16 headings are at most 3 % longer than a line,
        // and a line that grazes the wall has corners in place of the wall's edge.
        double s = StepCodes.lengthM(SPEC, way) / 0.8;
        assertEquals(homeS[cell], s, 0.06 * homeS[cell] + 3, "cell " + cell);
        walks++;
      }
    }
    assertTrue(walks > 6000, walks + " walks");
    for (int end : ends) {
      assertTrue(to[end] > 300, to[end] + " walks to " + end);
    }
    assertNull(r.steps().fetch());
  }

  @Test
  void theVehicleThatFetchesComesFromTheBaseAndReturns() {
    TraversalInput ground =
        Fields.ground(
            FrontTest.rough(SPEC, 31),
            FloatGrid.empty(SPEC),
            Fields.vehicle(null, VehicleParts.crew(2, 4, 1e3)));
    ReachResult r = solve(ground, HomeRule.BASE_RESCUE, null);
    int fetched = 0;
    for (int cell = 0; cell < SPEC.cells(); cell++) {
      if (!Float.isNaN(r.stopHomeS().values()[cell])) {
        for (byte[] codes : List.of(r.steps().fetch().values(), r.steps().ride().values())) {
          int[] way = follow(codes, cell);
          assertTrue(way.length > 0, "cell " + cell);
          assertEquals(BASE, way[way.length - 1]);
        }
        fetched++;
      }
    }
    assertTrue(fetched > 1000, fetched + " cells");
    assertNull(r.steps().walk());
  }
}

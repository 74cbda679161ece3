package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.VehicleParts;

/** Each piece of work says what it is and how much before it begins, and when it has ended. */
class ReportedProgressTest {
  private static final int N = 120;
  private static final GridSpec LANE = Fields.grid(1, N, 10, -5, -5);
  private static final TraversalCost FIELD = Fields.level(LANE, (x, y) -> 2);

  private final List<String> told = new ArrayList<>();
  private final Progress progress =
      new Progress() {
        @Override
        public void begin(String what, long total) {
          told.add(what + " " + total / (double) N);
        }

        @Override
        public void advance(long done) {}

        @Override
        public void end() {
          told.add("end");
        }
      };

  private void solve(HomeRule home) {
    ReachRequest request =
        Fields.request("r", "b", 0, 0, new Budget(250.0, null, null), home, List.of(), 10, false);
    WalkHome onFoot = Questions.walkHome(FIELD, 1e6, 0, List.of());
    told.clear();
    try (Workers workers = new Workers(1)) {
      ReachSolver.solve(
          request,
          Fields.ground(
              FIELD, FloatGrid.empty(LANE), Fields.vehicle(null, VehicleParts.crew(2, 4, null))),
          onFoot,
          List.of(),
          workers,
          progress);
    }
  }

  @Test
  void everyRuleTellsItsOwn() {
    String ground = "ground within the time 2.0";
    solve(HomeRule.DRIVE_BACK);
    assertEquals(List.of(ground, "end", "ways of reach 'r' 1.0", "end"), told);
    solve(HomeRule.WALK_BACK);
    assertEquals(List.of("walks home of reach 'r' 1.0", "end"), told.subList(0, 2));
    solve(HomeRule.BASE_RESCUE);
    assertEquals(List.of("fetching a crew 2.0", "end"), told.subList(0, 2));
  }

  @Test
  void aWeightingIsOneFrontOrTwo() {
    for (HomeRule home : List.of(HomeRule.NONE, HomeRule.DRIVE_BACK)) {
      ReachLimits limits = Fields.limits(home, 500, Double.POSITIVE_INFINITY, 500, 1e9, 0);
      Floats flat = Floats.of(new float[N]);
      Refinement more =
          new Refinement(limits, FIELD, FIELD, false, flat, 0, Stops.none(limits), null);
      told.clear();
      try (Workers workers = new Workers(1)) {
        BitSet all = new BitSet();
        all.set(0, N);
        more.weigh(more.rounds().get(0), all, null, workers, progress);
      }
      String fronts = home == HomeRule.NONE ? "1.0" : "2.0";
      assertEquals(List.of("weighing limits " + fronts, "end"), told);
    }
  }
}

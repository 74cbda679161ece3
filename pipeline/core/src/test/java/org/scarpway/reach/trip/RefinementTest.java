package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachState;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/** Several limits at once on walled-off lanes, where every way is known. */
class RefinementTest {
  static final GridSpec SPEC = Fields.grid(41, 61, 1, -0.5, -20.5);
  static final int FAR = SPEC.cellOf(55, 0);

  /**
   * Lanes of 40 cells between two open places where nothing costs much: speed, joules per metre.
   */
  static TraversalCost lanes(double[]... lanes) {
    int[] headings = new int[lanes.length];
    Arrays.fill(headings, -1);
    return lanes(headings, lanes);
  }

  /**
   * @param headings in which each lane is open
   */
  static TraversalCost lanes(int[] headings, double[]... lanes) {
    int n = SPEC.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    byte[] ground = new byte[n];
    GradeTable[] tables = new GradeTable[lanes.length + 1];
    for (int i = 0; i < n; i++) {
      int col = i % SPEC.cols();
      int row = i / SPEC.cols();
      int lane = row / 10;
      boolean open = col < 10 || col >= 50;
      boolean inLane = !open && row % 10 >= 3 && row % 10 < 8 && lane < lanes.length;
      allowed[i] = open ? -1 : inLane ? headings[lane] : 0;
      cap[i] = inLane ? (float) lanes[lane][0] : 1e4f;
      ground[i] = (byte) (inLane ? lane : lanes.length);
    }
    for (int t = 0; t < lanes.length; t++) {
      double j = lanes[t][1];
      tables[t] = new GradeTable(-1, 1, new double[] {1e5, 1e5}, new double[] {j, j}, 0, 0);
    }
    tables[lanes.length] =
        new GradeTable(-1, 1, new double[] {1e5, 1e5}, new double[] {0.01, 0.01}, 0, 0);
    return new TraversalCost(SPEC, allowed, new float[n], new float[n], cap, ground, tables);
  }

  private static ReachResult solve(
      TraversalCost field, HomeRule home, double timeS, double energyJ) {
    Budget budget = new Budget(timeS, energyJ, null);
    ReachRequest q = Fields.request("r", "b", 3, 0, budget, home, List.of(), 0, false);
    try (Workers workers = new Workers(2)) {
      return ReachSolver.solve(
          q, Fields.ground(field, FloatGrid.empty(SPEC)), null, List.of(), workers, Progress.NONE);
    }
  }

  private static double figure(ReachResult r, String name) {
    return r.summary().stream().filter(f -> f.name().equals(name)).findFirst().get().value();
  }

  @Test
  void theMiddlingWayIsFound() {
    // Quick and dear, slow and cheap, and one between: 40 m take 10, 40 or 20 s and 40, 4, 12 kJ.
    TraversalCost field =
        lanes(new double[] {4, 1000}, new double[] {1, 100}, new double[] {2, 300});
    ReachResult r = solve(field, HomeRule.NONE, 25, 15e3);
    assertEquals(ReachState.SURELY, r.state().values()[FAR]);
    assertTrue(figure(r, "undecided share before limits were weighed") > 10);
    assertTrue(
        figure(r, "undecided share of reachable area")
            < figure(r, "undecided share before limits were weighed") / 2);
    ReachResult both = solve(field, HomeRule.DRIVE_BACK, 50, 30e3);
    assertEquals(ReachState.SURELY, both.state().values()[FAR]);
  }

  /** Of the lanes that meet every limit the quickest is told, and of none the nearest. */
  @Test
  void theTripThatIsToldIsTheQuickestOfThoseThatMeetAll() {
    TraversalCost field = lanes(new double[] {4, 1000}, new double[] {1, 100});
    // 40 m at 4 m/s and 1000 J/m or at 1 m/s and 100 J/m; next to nothing beside them.
    assertTold(field, 60, 50e3, 10, 40e3);
    assertTold(field, 12, 50e3, 10, 40e3);
    assertTold(field, 60, 30e3, 40, 4e3);
  }

  private static void assertTold(
      TraversalCost field, double timeS, double energyJ, double wantS, double wantJ) {
    Budget budget = new Budget(timeS, energyJ, null);
    ReachRequest q = Fields.request("r", "b", 3, 0, budget, HomeRule.NONE, List.of(), 0, false);
    ReachRequest.Target far = new ReachRequest.Target("far", 55, 0, 1, 0, 0);
    try (Workers workers = new Workers(2)) {
      FloatGrid level = new FloatGrid(SPEC, new float[SPEC.cells()]);
      ReachResult.TargetReach told =
          ReachSolver.solve(
                  q, Fields.ground(field, level), null, List.of(far), workers, Progress.NONE)
              .targets()
              .get(0);
      assertTrue(told.reached());
      assertEquals(wantS, told.totalTimeS(), 0.03 * wantS);
      assertEquals(wantJ, told.totalEnergyJ(), 0.03 * wantJ);
      assertEquals(timeS - told.totalTimeS(), told.timeSpareS(), 1e-4);
      assertEquals(energyJ - told.totalEnergyJ(), told.energySpareJ(), 0.1);
    }
  }

  @Test
  void whatNoWeighingAllowsIsRuledOut() {
    TraversalCost field = lanes(new double[] {4, 1000}, new double[] {1, 100});
    // Either lane breaks one limit by far: half of each is more than one in both.
    ReachResult r = solve(field, HomeRule.NONE, 12, 5e3);
    assertEquals(0, r.state().values()[FAR]);
    assertTrue(r.binding().values()[FAR] != 0);
    assertTrue(figure(r, "undecided share before limits were weighed") > 10);
    assertEquals(0, figure(r, "undecided share of reachable area"), 3);
  }

  @Test
  void whatIsNeitherFoundNorRuledOutStaysOpen() {
    TraversalCost field = lanes(new double[] {4, 1000}, new double[] {1, 100});
    // Both lanes break one limit by a tenth, far inside the line between them.
    ReachResult r = solve(field, HomeRule.NONE, 36, 36e3);
    assertEquals(ReachState.POSSIBLY, r.state().values()[FAR]);
  }
}

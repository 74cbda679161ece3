package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
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
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** Relations that hold whatever the ground, and figures with a closed form. */
class ReachRelationsTest {
  private static final GridSpec SPEC = Fields.grid(81, 81, 1, -40.5, -40.5);
  private static final Budget FREE = new Budget(null, null, null);

  private static ReachResult solve(
      TraversalCost field, HomeRule home, Budget budget, WalkHome walk) {
    return solve(field, home, budget, walk, 0, 0);
  }

  private static ReachResult solve(
      TraversalCost field, HomeRule home, Budget budget, WalkHome walk, double x, double y) {
    ReachRequest q = Fields.request("r", "b", x, y, budget, home, List.of(), 0, false);
    try (Workers workers = new Workers(2)) {
      return ReachSolver.solve(
          q, Fields.ground(field, FloatGrid.empty(SPEC)), walk, List.of(), workers, Progress.NONE);
    }
  }

  private static double figure(ReachResult r, String name) {
    return r.summary().stream().filter(f -> f.name().equals(name)).findFirst().get().value();
  }

  @Test
  void groundThatIsNotKnownIsABarrierAndNeverMakesAnythingCheaper() {
    TraversalCost field = FrontTest.rough(SPEC, 51);
    Random random = new Random(9);
    java.util.BitSet kept = new java.util.BitSet();
    for (int i = 0; i < SPEC.cells(); i++) {
      boolean nearBase = Math.abs(i / 81 - 40) < 3 && Math.abs(i % 81 - 40) < 3;
      kept.set(i, nearBase || random.nextInt(12) > 0);
    }
    double[] before = Fields.timesOut(field, 0, 0);
    double[] after = Fields.timesOut(field.within(kept), 0, 0);
    int dearer = 0;
    for (int i = 0; i < before.length; i++) {
      assertTrue(after[i] >= before[i], "cell " + i);
      assertTrue(kept.get(i) || after[i] == Double.POSITIVE_INFINITY);
      dearer += after[i] > before[i] && after[i] < Double.POSITIVE_INFINITY ? 1 : 0;
    }
    assertTrue(dearer > 100);
  }

  @Test
  void oneRescuesTheOtherAsFastAsTheOtherWayRoundOnlyOnIsotropicGround() {
    Random random = new Random(2);
    double[] speed = random.doubles(SPEC.cells(), 0.5, 3).toArray();
    TraversalCost patches = Fields.level(SPEC, (x, y) -> speed[SPEC.cellOf(x, y)]);
    double there = Fields.timesOut(patches, -25, 8)[SPEC.cellOf(22, -17)];
    double back = Fields.timesOut(patches, 22, -17)[SPEC.cellOf(-25, 8)];
    // The scheme looks at different cells either way round: the same but for its own error.
    assertEquals(there, back, 0.01 * there);
    TraversalCost drift = Fields.drift(SPEC, 5, 3);
    there = Fields.timesOut(drift, -25, 8)[SPEC.cellOf(22, -17)];
    back = Fields.timesOut(drift, 22, -17)[SPEC.cellOf(-25, 8)];
    assertTrue(back > 2 * there, back + " and " + there);
  }

  @Test
  void walkBackIsDrivingAndWalkingTogether() {
    TraversalCost drive = FrontTest.rough(SPEC, 61);
    TraversalCost walker = Fields.level(SPEC, (x, y) -> x > 25 ? 0 : 0.8);
    ReachResult walkBack =
        solve(drive, HomeRule.WALK_BACK, FREE, Questions.walkHome(walker, 36.37, 6, List.of()));
    ReachResult driveBack = solve(drive, HomeRule.DRIVE_BACK, FREE, null);
    double[] walkS = Fields.timesHome(walker, 0, 0);
    // The drive keeps to ground that can be walked home within 30.37 s, out and back.
    java.util.BitSet walkable = new java.util.BitSet();
    for (int i = 0; i < SPEC.cells(); i++) {
      walkable.set(i, walkS[i] <= 30.37);
      assertTrue(Math.abs(walkS[i] - 30.37) > 1e-4, "too close to tell");
    }
    double[] outS = Fields.timesOut(drive.within(walkable), 0, 0);
    double[] homeS = Fields.timesHome(drive.within(walkable), 0, 0);
    int inside = 0;
    int lost = 0;
    for (int i = 0; i < SPEC.cells(); i++) {
      boolean surely = walkBack.state().values()[i] == ReachState.SURELY;
      boolean driven = driveBack.state().values()[i] == ReachState.SURELY;
      assertEquals(outS[i] + homeS[i] < Double.POSITIVE_INFINITY, surely, "cell " + i);
      assertTrue(!surely || driven, "cell " + i);
      inside += surely ? 1 : 0;
      lost += driven && !surely ? 1 : 0;
    }
    assertTrue(inside > 500 && lost > 500, inside + " and " + lost);
  }

  @Test
  void bindingNamesTheLimitThatEndsTheReachEverywhere() {
    // 1 m/s: an hour's worth of 36 s reaches 36 m, the distance only 25 m, out one way.
    TraversalCost flat = Fields.level(SPEC, (x, y) -> 1);
    ReachResult r = solve(flat, HomeRule.NONE, new Budget(36.0, null, 25.0), null);
    ReachResult s = solve(flat, HomeRule.NONE, new Budget(25.0, null, 36.0), null);
    ReachResult wall =
        solve(
            Fields.level(SPEC, (x, y) -> Math.abs(x - 15) < 0.6 ? 0 : 1),
            HomeRule.NONE,
            new Budget(25.0, null, null),
            null);
    for (int i = 0; i < SPEC.cells(); i++) {
      double x = SPEC.xM(i % 81);
      double away = Math.hypot(x, SPEC.yM(i / 81));
      if (Math.abs(away - 25) > 0.3) {
        byte first = away < 25 ? 0 : away < 36 ? ReachEnd.DISTANCE.code() : ReachEnd.TIME.code();
        if (Math.abs(away - 36) > 0.3) {
          assertEquals(first, r.binding().values()[i], "cell " + i);
        }
        assertEquals(away < 25 ? 0 : ReachEnd.TIME.code(), s.binding().values()[i]);
        byte behind =
            x == 15
                ? ReachEnd.NO_GO.code()
                : x > 15 ? ReachEnd.CUT_OFF.code() : away < 25 ? 0 : ReachEnd.TIME.code();
        assertEquals(behind, wall.binding().values()[i], "cell " + i);
      }
    }
  }

  @Test
  void shareOfTheGroundWithinTheFurthestPoint() {
    // A wall at x = 15 cuts a segment off the disc of 30 m that time allows.
    ReachResult r =
        solve(
            Fields.level(SPEC, (x, y) -> Math.abs(x - 15) < 0.6 ? 0 : 1),
            HomeRule.NONE,
            new Budget(30.0, null, null),
            null);
    double disc = Math.PI * 900;
    assertEquals(0.03, figure(r, "furthest surely reachable point, straight"), 1e-4);
    double reached = disc - segment(30, 14.5);
    assertEquals(100 * reached / disc, figure(r, "share of ground within that distance"), 0.6);
    assertEquals(
        segment(30, 15.5) / 1e6,
        figure(r, "driveable but cut off within that distance"),
        0.01 * segment(30, 15.5) / 1e6);
    assertEquals(25 * 81 / 1e6, figure(r, "driveable but cut off"), 1e-9);
  }

  /** Part of a disc beyond a chord at some distance from its middle. */
  private static double segment(double radius, double distance) {
    return radius * radius * Math.acos(distance / radius)
        - distance * Math.sqrt(radius * radius - distance * distance);
  }
}

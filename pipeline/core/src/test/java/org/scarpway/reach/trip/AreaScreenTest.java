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
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

class AreaScreenTest {

  private static double screened(TraversalCost field, int cell, double timeS) {
    try (Workers workers = new Workers(2)) {
      return AreaScreen.of(field, workers).areaM2(cell, timeS);
    }
  }

  private static ReachResult reach(TraversalCost field, int cell, double timeS) {
    GridSpec g = field.spec();
    ReachRequest q =
        Fields.request(
            "all",
            "base",
            g.xM(cell % g.cols()),
            g.yM(cell / g.cols()),
            new Budget(timeS, null, null),
            HomeRule.DRIVE_BACK,
            List.of(),
            0,
            false);
    try (Workers workers = new Workers(2)) {
      return ReachSolver.solve(
          q, Fields.ground(field, FloatGrid.empty(g)), null, List.of(), workers, Progress.NONE);
    }
  }

  /** Closed form: the octagon of steps between neighbours around the disc that is in reach. */
  @Test
  void flatGroundIsTheOctagonAroundTheDisc() {
    GridSpec g = Fields.grid(301, 301, 2, 0, 0);
    int middle = 150 * 301 + 150;
    double radius = 120.5;
    double screened = screened(Fields.level(g, (x, y) -> 1.5), middle, 2 * radius * 2 / 1.5);
    double farthest = radius / Math.cos(Math.toRadians(22.5));
    int cells = 0;
    for (int i = 0; i < g.cells(); i++) {
      int down = Math.abs(i / 301 - 150);
      int right = Math.abs(i % 301 - 150);
      double way = Math.max(down, right) + (Math.sqrt(2) - 1) * Math.min(down, right);
      cells += way <= farthest ? 1 : 0;
    }
    assertEquals(cells * 4.0, screened, 0);
    assertEquals(8 * (Math.sqrt(2) - 1) * radius * radius * 4, screened, 0.005 * screened);
  }

  @Test
  void elongationIsThatOfTheWidestAngleBetweenSteps() {
    assertEquals(1.0823922, AreaScreen.elongation(Fields.grid(2, 2, 3, 0, 0)), 1e-7);
    GridSpec oblong = new GridSpec(2, 2, 3, 4, 0, 0, "");
    // Steps along the row and the diagonal are 53.13 degrees apart.
    assertEquals(1 / Math.cos(Math.toRadians(53.130102 / 2)), AreaScreen.elongation(oblong), 1e-7);
  }

  @Test
  void neverLessThanReachFinds() {
    for (int seed = 1; seed <= 6; seed++) {
      GridSpec g =
          seed % 2 == 0 ? Fields.grid(90, 110, 1, 0, 0) : new GridSpec(90, 110, 3, 4, 0, 360, "");
      TraversalCost field = seed < 3 ? patches(g, seed) : FrontTest.rough(g, seed);
      int cell = place(field, seed);
      double timeS = 40 * g.cellM();
      double surelyM2 = reach(field, cell, timeS).surelyM2();
      double screenedM2 = screened(field, cell, timeS);
      assertTrue(surelyM2 > 20 * g.cellAreaM2(), "seed " + seed + ": nothing to compare");
      assertTrue(screenedM2 >= surelyM2, "seed " + seed + ": " + screenedM2 + " < " + surelyM2);
      assertTrue(screenedM2 < g.cells() * g.cellAreaM2(), "seed " + seed + ": no bound at all");
    }
  }

  /** Quick and slow cells at random, with walls between them. */
  private static TraversalCost patches(GridSpec g, int seed) {
    Random random = new Random(seed);
    double[] speed = new double[g.cells()];
    for (int i = 0; i < speed.length; i++) {
      int kind = random.nextInt(10);
      speed[i] = kind == 0 ? 0 : kind < 5 ? 0.3 : 1.5;
    }
    return Fields.level(g, (x, y) -> speed[g.cellOf(x, y)]);
  }

  private static int place(TraversalCost field, int seed) {
    int cell = 45 * field.spec().cols() + 50 + seed;
    while (field.allowed(cell) == 0) {
      cell++;
    }
    return cell;
  }

  @Test
  void wallsArePassedThroughTheirGapOnly() {
    GridSpec g = Fields.grid(61, 61, 1, 0, 0);
    TraversalCost walled = Fields.level(g, (x, y) -> x > 30 && x < 31 && y > 3 ? 0 : 1);
    // The far side is 40 away through the gap in the south and 11 straight on.
    double screened = screened(walled, 10 * 61 + 20, 2 * 40);
    int open = 0;
    for (int i = 0; i < g.cells(); i++) {
      open += walled.allowed(i) != 0 && i % 61 < 30 ? 1 : 0;
    }
    assertTrue(screened <= open, screened + " of " + open);
  }
}

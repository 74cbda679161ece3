package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.Trace;
import org.scarpway.reach.question.ReachFigure;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Walker;
import org.scarpway.vehicle.Walkers;
import org.scarpway.vehicle.Walking;

/** Walks home along a lane and past one: every amount is a length times what a metre takes. */
class WalksHomeTest {
  private static final double ALL = Double.POSITIVE_INFINITY;

  /** 81 cells of 10 m. */
  private static final GridSpec LANE = Fields.grid(1, 81, 10, -5, -5);

  /** 2 m/s at 300 J/m, or at half a second at the peak for each metre. */
  private static TraversalCost lane(GridSpec spec, double perM) {
    int n = spec.cells();
    int[] allowed = new int[n];
    java.util.Arrays.fill(allowed, -1);
    GradeTable table = new GradeTable(-1, 1, new double[] {2, 2}, new double[] {perM, perM}, 0, 0);
    return new TraversalCost(spec, allowed, new float[n], new float[n], null, null, table);
  }

  private static WalksHome walks(TraversalCost field, double limitS, WalkHome.Limits limits) {
    WalkHome rules = new WalkHome(field, limitS, 0, limits, List.of(), List.of());
    try (Workers workers = new Workers(1)) {
      Floats level = Floats.of(new float[field.spec().cells()]);
      return WalksHome.of(rules, level, new int[] {0}, workers, Progress.NONE);
    }
  }

  /** Each limit alone ends the walk where its amount does: 400 m, 250 m, 300 m and 200 m. */
  @Test
  void everyLimitEndsTheWalkWhereItsAmountIsSpent() {
    TraversalCost field = lane(LANE, 300);
    TraversalCost peak = lane(LANE, 0.5);
    Object[][] cases = {
      {200.0, new WalkHome.Limits(ALL, ALL, null, null, ALL, ALL), 40},
      {1000.0, new WalkHome.Limits(75_001, ALL, null, null, ALL, ALL), 25},
      {1000.0, new WalkHome.Limits(ALL, 300.1, null, null, ALL, ALL), 30},
      {1000.0, new WalkHome.Limits(ALL, ALL, peak, null, 100.1, ALL), 20},
      {200.0, new WalkHome.Limits(75_001, 300.1, peak, null, 100.1, ALL), 20},
    };
    for (Object[] c : cases) {
      WalksHome w = walks(field, (double) c[0] * (1 + 1e-6), (WalkHome.Limits) c[1]);
      for (int cell = 0; cell < 81; cell++) {
        if (cell <= (int) c[2]) {
          assertEquals(5 * cell, w.timeS().get(cell), 1e-3);
          assertEquals(3000 * cell, w.energyJ().get(cell), 0.5);
          assertEquals(10 * cell, w.distanceM().get(cell), 1e-3);
        } else {
          assertTrue(Float.isNaN(w.timeS().get(cell)) && Float.isNaN(w.energyJ().get(cell)));
        }
      }
    }
  }

  /**
   * Two grounds, quick at much energy and slow at little. What is given keeps to every limit, what
   * a tighter limit gives a wider one gives too, and where the quickest way spends too much a
   * cheaper one is found.
   */
  @Test
  void oneWayKeepsToAllAndTighterLimitsNeverReachFurther() {
    GridSpec spec = Fields.grid(30, 30, 10, 0, 0);
    int n = spec.cells();
    Random random = new Random(7);
    int cheaper = 0;
    for (int k = 0; k < 12; k++) {
      int[] allowed = new int[n];
      byte[] ground = new byte[n];
      int quickCols = 4 + random.nextInt(8);
      for (int cell = 0; cell < n; cell++) {
        allowed[cell] = cell == 0 || random.nextDouble() > 0.03 ? -1 : 0;
        ground[cell] = (byte) (cell % 30 < quickCols ? 1 : 0);
      }
      TraversalCost field =
          new TraversalCost(
              spec,
              allowed,
              new float[n],
              new float[n],
              null,
              ground,
              new GradeTable(-1, 1, new double[] {0.8, 0.8}, new double[] {300, 300}, 0, 0),
              new GradeTable(-1, 1, new double[] {1.6, 1.6}, new double[] {700, 700}, 0, 0));
      WalkHome.Limits wide = new WalkHome.Limits(120_000, 400, null, null, ALL, ALL);
      WalkHome.Limits tight = new WalkHome.Limits(90_000, 300, null, null, ALL, ALL);
      WalksHome free = walks(field, 400, WalkHome.Limits.NONE);
      WalksHome far = walks(field, 400, wide);
      WalksHome near = walks(field, 330, tight);
      for (int cell = 0; cell < n; cell++) {
        if (!Float.isNaN(near.timeS().get(cell))) {
          assertTrue(near.timeS().get(cell) <= 330);
          assertTrue(near.energyJ().get(cell) <= 90_000 && near.distanceM().get(cell) <= 300);
          assertTrue(
              far.timeS().get(cell) <= near.timeS().get(cell) * (1 + 1e-6),
              far.timeS().get(cell) + " against " + near.timeS().get(cell));
        }
        if (!Float.isNaN(far.timeS().get(cell))) {
          assertTrue(
              free.timeS().get(cell) <= far.timeS().get(cell) * (1 + 1e-6),
              free.timeS().get(cell) + " against " + far.timeS().get(cell));
          cheaper += far.timeS().get(cell) > free.timeS().get(cell) ? 1 : 0;
        }
      }
    }
    assertTrue(cheaper > 50, "cheaper " + cheaper);
  }

  /**
   * Surely reached as far as a cell of the lane, 100 m each; the longest walk planned was 7.6 km.
   */
  @Test
  void walksLongerThanAnyInSuitsWasPlannedForAreRemarkedUpon() {
    TraversalCost field = lane(Fields.grid(1, 121, 100, -50, -50), 300);
    Walker walker =
        Walkers.walker("w", null, List.of(), 1, 20, 0.5, 30, 0, null, null, null, null, null);
    for (boolean suited : new boolean[] {true, false}) {
      Walking ground = new Walking(field, 121, 0, 0.5, 1, null, null, suited);
      WalkHome rules = WalkHome.of(walker, ground, List.of());
      WalksHome walks = walks(field, 100_000, rules.limits());
      for (int far : new int[] {10, 75, 77, 120}) {
        byte[] state = new byte[121];
        java.util.Arrays.fill(state, 0, far + 1, ReachState.SURELY);
        java.util.Arrays.fill(state, far + 1, 121, ReachState.POSSIBLY);
        List<String> notes = walks.notes(Bytes.of(state));
        if (suited && far > 76) {
          String of = "walks home of up to " + far / 10.0 + " km: the longest";
          assertEquals(1, notes.size());
          assertTrue(notes.get(0).startsWith(of), notes.get(0));
          assertTrue(notes.get(0).contains("nobody has walked so far home"), notes.get(0));
        } else {
          assertEquals(List.of(), notes);
        }
      }
    }
  }

  private static Bytes reached(int cells, int last) {
    byte[] state = new byte[cells];
    java.util.Arrays.fill(state, 0, last + 1, ReachState.SURELY);
    state[last + 1] = ReachState.POSSIBLY;
    return Bytes.of(state);
  }

  /** From 40 cells of what is surely reached: 400 m, 200 s and 120 kJ. */
  @Test
  void theLongestWalkOfAllThatIsReachedIsTold() {
    WalkHome.Limits told = new WalkHome.Limits(ALL, ALL, null, null, ALL, 399);
    WalksHome w = walks(lane(LANE, 300), 1000, told);
    List<ReachFigure> figures = w.figures(reached(81, 40));
    assertEquals(3, figures.size());
    assertEquals(0.4, figures.get(0).value(), 1e-6);
    assertEquals(200 / 3600.0, figures.get(1).value(), 1e-6);
    assertEquals(0.12, figures.get(2).value(), 1e-6);
    assertEquals(0.8, w.figures(reached(81, 79)).get(0).value(), 0.011);
    assertEquals(1, w.notes(reached(81, 40)).size());
    assertTrue(w.notes(reached(81, 40)).get(0).startsWith("walks home of up to 0.4 km"));
    assertTrue(w.notes(reached(81, 39)).isEmpty());
    WalkHome.Limits exact = new WalkHome.Limits(ALL, ALL, null, null, ALL, w.distanceM().get(40));
    assertTrue(walks(lane(LANE, 300), 1000, exact).notes(reached(81, 40)).isEmpty());
    // Without an energy model nothing is said of energy.
    WalksHome plain = walks(Fields.level(LANE, (x, y) -> 2), 1000, told);
    assertEquals(2, plain.figures(reached(81, 40)).size());
    assertTrue(Float.isNaN(plain.energyJ().get(40)));
    assertEquals(400, plain.distanceM().get(40), 1e-3);
  }

  /** A walk that meets its limits exactly is one, each limit by itself. */
  @Test
  void aLimitThatIsMetExactlyIsMet() {
    WalksHome free = walks(lane(LANE, 300), 1000, WalkHome.Limits.NONE);
    double s = free.timeS().get(30);
    double j = free.energyJ().get(30);
    double m = free.distanceM().get(30);
    TraversalCost peak = lane(LANE, 0.5);
    Object[][] cases = {
      {s, new WalkHome.Limits(ALL, ALL, null, null, ALL, ALL)},
      {1000.0, new WalkHome.Limits(j, ALL, null, null, ALL, ALL)},
      {1000.0, new WalkHome.Limits(ALL, m, null, null, ALL, ALL)},
      {1000.0, new WalkHome.Limits(ALL, ALL, peak, null, 150, ALL)},
    };
    for (Object[] c : cases) {
      WalksHome w = walks(lane(LANE, 300), (double) c[0], (WalkHome.Limits) c[1]);
      assertEquals(150, w.timeS().get(30), 1e-3);
      assertTrue(Float.isNaN(w.timeS().get(31)));
    }
  }

  /**
   * 200 m past a wall: 2 m/s at 700 J/m on the near side, 0.5 m/s at 100 J/m on the far side. The
   * walk follows the front whose figures it has.
   */
  @Test
  void theWalkFollowsTheStepsOfItsFigures() {
    GridSpec spec = Fields.grid(5, 21, 10, 0, 0);
    int n = spec.cells();
    int[] allowed = new int[n];
    byte[] ground = new byte[n];
    for (int cell = 0; cell < n; cell++) {
      int col = cell % 21;
      allowed[cell] = cell / 21 == 2 && col > 0 && col < 20 ? 0 : -1;
      ground[cell] = (byte) (cell / 21 > 2 ? 1 : 0);
    }
    TraversalCost field =
        new TraversalCost(
            spec,
            allowed,
            new float[n],
            new float[n],
            null,
            ground,
            new GradeTable(-1, 1, new double[] {2, 2}, new double[] {700, 700}, 0, 0),
            new GradeTable(-1, 1, new double[] {0.5, 0.5}, new double[] {100, 100}, 0, 0));
    int far = 2 * 21 + 20;
    WalksHome quick = walks(field, 1000, WalkHome.Limits.NONE);
    WalksHome cheap = walks(field, 1000, new WalkHome.Limits(100_000, ALL, null, null, ALL, ALL));
    assertTrue(quick.timeS().get(far) < 150 && quick.energyJ().get(far) > 140_000);
    assertTrue(cheap.timeS().get(far) > 400 && cheap.energyJ().get(far) < 70_000);
    for (WalksHome w : List.of(quick, cheap)) {
      int most = 0;
      for (int c : Trace.toSource(w.labels(far), far).cells()) {
        most = Math.max(most, c / 21);
      }
      assertEquals(w.energyJ().get(far) < 100_000, most > 2);
    }
    // A cell beside the refuge is walked to the quickest way by either.
    assertEquals(quick.timeS().get(3), cheap.timeS().get(3));
    WalksHome none = walks(field, 300, new WalkHome.Limits(100_000, ALL, null, null, ALL, ALL));
    assertTrue(Float.isNaN(none.timeS().get(far)));
  }

  /** 200 m at half a metre a second, or a way round of about 260 m at 2 m/s. */
  @Test
  void whereTheQuickestWalkIsTooLongTheShortestIsTaken() {
    GridSpec spec = Fields.grid(5, 21, 10, 0, 0);
    TraversalCost field =
        Fields.level(
            spec,
            (x, y) -> {
              int cell = spec.cellOf(x, y);
              int col = cell % 21;
              boolean wall = cell / 21 == 1 && col > 0 && col < 20;
              return wall ? 0 : cell / 21 == 0 ? 0.5 : 2;
            });
    int far = 20;
    WalksHome quick = walks(field, 1000, WalkHome.Limits.NONE);
    assertTrue(quick.timeS().get(far) < 200 && quick.distanceM().get(far) > 212);
    WalksHome near = walks(field, 1000, new WalkHome.Limits(ALL, 210, null, null, ALL, ALL));
    assertEquals(400, near.timeS().get(far), 4);
    assertEquals(200, near.distanceM().get(far), 2);
    assertTrue(Float.isNaN(near.energyJ().get(far)));
  }
}

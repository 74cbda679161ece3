package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Memory;
import org.scarpway.stage.Progress;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** One tile, many tiles, one thread, two, heap or file: the same labels and the same steps. */
class FrontTilesTest {
  private static final int ROWS = 150;
  private static final int COLS = 170;
  private static final int SOURCE = 90 * COLS + 40;
  private static final double EVERYTHING = Double.POSITIVE_INFINITY;

  private static TraversalCost rough() {
    TraversalCost f = FrontTest.rough(new GridSpec(ROWS, COLS, 5, 6, 0, 900, ""), 17);
    assertTrue(f.allowed(SOURCE) != 0);
    return f;
  }

  private static CostField labels(Costs costs, double budget, int side, boolean file, int threads) {
    ScratchFile scratch = file ? new Memory().scratch() : null;
    Front front = new Front(costs, true, budget, side, scratch, SOURCE);
    try (Workers workers = new Workers(threads)) {
      workers.all(new ArrayList<>(Collections.nCopies(threads, () -> front.work(Progress.NONE))));
    }
    return front.labels();
  }

  private static void assertSame(CostField expected, CostField got, double within, String what) {
    int n = expected.costs().field().spec().cells();
    int reached = 0;
    for (int i = 0; i < n; i++) {
      boolean in = expected.value(i) <= within;
      assertEquals(in ? expected.value(i) : EVERYTHING, got.value(i), what + " cell " + i);
      assertEquals(in ? expected.stepAt(i) : Stencil.NONE, got.stepAt(i), what + " step " + i);
      reached += in ? 1 : 0;
    }
    assertTrue(reached > 1000, what + " reached " + reached);
  }

  @Test
  void tilesThreadsAndFilesChangeNothing() {
    TraversalCost field = rough();
    for (Quantity q : List.of(Quantity.TIME_S, Quantity.ENERGY_J)) {
      Costs costs = new Costs(field, q, Direction.OUT);
      CostField whole = labels(costs, EVERYTHING, COLS, false, 1);
      for (int side : new int[] {3, 16, 64, 100}) {
        for (int threads = 1; threads <= 2; threads++) {
          boolean file = threads == 2 || side == 64;
          String what = q + " side " + side + " threads " + threads;
          assertSame(whole, labels(costs, EVERYTHING, side, file, threads), EVERYTHING, what);
        }
      }
    }
  }

  @Test
  void aBudgetEndsTheFrontAndChangesNothingInside() {
    Costs costs = new Costs(rough(), Quantity.TIME_S, Direction.HOME);
    CostField whole = labels(costs, EVERYTHING, COLS, false, 1);
    double budget = whole.value(SOURCE + 35);
    assertTrue(budget < EVERYTHING);
    for (int side : new int[] {16, 64, 100}) {
      assertSame(whole, labels(costs, budget, side, side == 64, 2), budget, "side " + side);
    }
  }

  @Test
  void frontsThatMeetHalfwayFindEveryRoundTripAndGoOnToTheSameEnd() {
    TraversalCost field = rough();
    for (Quantity q : List.of(Quantity.TIME_S, Quantity.ENERGY_J)) {
      CostField wholeOut = labels(new Costs(field, q, Direction.OUT), EVERYTHING, COLS, false, 1);
      CostField wholeHome = labels(new Costs(field, q, Direction.HOME), EVERYTHING, COLS, false, 1);
      double trip = wholeOut.value(SOURCE + 30) + wholeHome.value(SOURCE + 30);
      for (int side : new int[] {16, 64}) {
        Front out = new Front(new Costs(field, q, Direction.OUT), true, 0, side, null, SOURCE);
        Front home = new Front(new Costs(field, q, Direction.HOME), true, 0, side, null, SOURCE);
        // As much more as makes up for labels that are not exact.
        double most = 1.05 * trip + 16 * out.cellCost();
        help(out, home, 0.5 * most, null, null);
        ExpansionBound outMeets = new MeetHalfway(home.tiles(), 0.5 * most, most);
        ExpansionBound homeMeets = new MeetHalfway(out.tiles(), 0.5 * most, most);
        help(out, home, most, outMeets, homeMeets);
        int inside = 0;
        for (int i = 0; i < ROWS * COLS; i++) {
          double least = wholeOut.value(i) + wholeHome.value(i);
          double got = out.tiles().value(i) + home.tiles().value(i);
          assertEquals(least <= trip, got <= trip, q + " cell " + i);
          if (least <= trip) {
            assertEquals(wholeOut.value(i), out.tiles().value(i), q + " cell " + i);
            assertEquals(wholeHome.value(i), home.tiles().value(i), q + " cell " + i);
            inside++;
          }
        }
        assertTrue(inside > 1000 && inside < ROWS * COLS / 2, inside + " cells");
        help(out, home, EVERYTHING, null, null);
        assertSame(wholeOut, out.labels(), EVERYTHING, q + " out");
        assertSame(wholeHome, home.labels(), EVERYTHING, q + " home");
      }
    }
  }

  private static void help(
      Front out, Front home, double budget, ExpansionBound outFrom, ExpansionBound homeFrom) {
    out.allow(budget, outFrom);
    home.allow(budget, homeFrom);
    try (Workers workers = new Workers(2)) {
      workers.all(List.of(() -> out.work(Progress.NONE), () -> home.work(Progress.NONE)));
    }
  }

  @Test
  void aFailureOfOneThreadEndsAll() {
    Costs costs = new Costs(rough(), Quantity.TIME_S, Direction.OUT);
    Front front = new Front(costs, true, EVERYTHING, 16, null, SOURCE);
    Progress broken =
        new Progress() {
          @Override
          public void begin(String what, long total) {}

          @Override
          public void advance(long done) {
            throw new IllegalStateException("broken");
          }

          @Override
          public void end() {}
        };
    try (Workers workers = new Workers(2)) {
      List<Runnable> both = List.of(() -> front.work(broken), () -> front.work(broken));
      assertThrows(IllegalStateException.class, () -> workers.all(both));
    }
  }
}

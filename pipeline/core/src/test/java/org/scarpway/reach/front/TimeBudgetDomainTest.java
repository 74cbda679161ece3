package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNotSame;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** Ground within a time on one lane at 1 m/s, where it is the distance. */
class TimeBudgetDomainTest {
  private static final GridSpec LANE = Fields.grid(1, 401, 1, -200.5, -0.5);
  private static final int BASE = 200;

  /** By which the ground may be too large one way: labels of fronts are not exact. */
  private static final int MARGIN_CELLS = 18;

  /** Open up to a distance from the base. */
  private static TraversalCost lane(int openM) {
    return Fields.level(LANE, (x, y) -> Math.abs(x) <= openM ? 1 : 0);
  }

  private static TimeBudgetDomain within(TraversalCost field, boolean oneWay, double tripS) {
    try (Workers workers = new Workers(2)) {
      return TimeBudgetDomain.of(field, field, BASE, oneWay, tripS, workers, Progress.NONE);
    }
  }

  private static void holds(TimeBudgetDomain ground, double farM, int openM) {
    for (int cell = 0; cell < LANE.cells(); cell++) {
      double away = Math.abs(cell - BASE);
      String where = farM + ": " + away;
      if (away <= Math.min(farM, openM)) {
        assertTrue(ground.within().get(cell), where);
        assertEquals(away, ground.out().value(cell), 1e-6, where);
        if (!ground.oneWay()) {
          assertEquals(away, ground.home().value(cell), 1e-6, where);
        }
      } else if (away > openM || away > 1.02 * farM + MARGIN_CELLS) {
        assertFalse(ground.within().get(cell), where);
      }
    }
  }

  @Test
  void halfOfTheTimeOutAndHalfHome() {
    for (int far = 20; far <= 90; far += 35) {
      TimeBudgetDomain ground = within(lane(200), false, 2 * far);
      holds(ground, far, 200);
      assertFalse(ground.whole());
      assertNotNull(ground.home());
      assertFalse(ground.oneWay());
      assertFalse(ground.out().reached(BASE + far + 80), "goes on for nothing");
      assertFalse(ground.home().reached(BASE - far - 80), "goes on for nothing");
      assertEquals(2.0 * far, ground.tripS());
      assertEquals(BASE, ground.base());
    }
  }

  @Test
  void allOfItOutWhereNobodyComesHome() {
    for (int far = 20; far <= 70; far += 25) {
      TimeBudgetDomain ground = within(lane(200), true, far);
      holds(ground, far, 200);
      assertFalse(ground.whole());
      assertTrue(ground.oneWay());
      assertNull(ground.home());
      assertFalse(ground.out().reached(BASE + far + 80), "goes on for nothing");
    }
  }

  /** Half as fast home: a third of the time out, the rest home. */
  @Test
  void theWayHomeIsDrivenOnItsOwnField() {
    TraversalCost out = lane(200);
    TraversalCost home = Fields.level(LANE, (x, y) -> 0.5);
    try (Workers workers = new Workers(1)) {
      TimeBudgetDomain ground =
          TimeBudgetDomain.of(out, home, BASE, false, 90, workers, Progress.NONE);
      assertSame(out, ground.field(Costs.Direction.OUT));
      assertSame(home, ground.field(Costs.Direction.HOME));
      for (int away = 0; away <= 30; away++) {
        assertEquals(away, ground.out().value(BASE + away), 1e-6);
        assertEquals(2 * away, ground.home().value(BASE - away), 1e-6);
        assertTrue(ground.within().get(BASE + away));
      }
      assertFalse(ground.within().get(BASE + 50));
    }
  }

  /** More than half of what can be driven on: of 401 cells, or of 141 between walls. */
  @Test
  void frontsRunOverAllGroundWhereTheTimeSufficesForMostOfIt() {
    for (boolean oneWay : new boolean[] {false, true}) {
      int ways = oneWay ? 1 : 2;
      TimeBudgetDomain wide = within(lane(200), oneWay, ways * 110);
      assertTrue(wide.whole());
      holds(wide, 110, 200);
      assertEquals(200, wide.out().value(0), 1e-6);
      assertEquals(200, wide.out().value(400), 1e-6);
      if (!oneWay) {
        assertEquals(200, wide.home().value(0), 1e-6);
      }
      TimeBudgetDomain walled = within(lane(70), oneWay, ways * 45);
      assertTrue(walled.whole());
      holds(walled, 45, 70);
      assertEquals(70, walled.out().value(BASE + 70), 1e-6);
      assertFalse(within(lane(70), oneWay, ways * 12).whole());
    }
  }

  /** Fronts over all ground are found again on the same ground, those of less are not. */
  @Test
  void whatRanOverAllGroundIsKept() {
    for (boolean oneWay : new boolean[] {false, true}) {
      TraversalCost field = lane(200);
      int ways = oneWay ? 1 : 2;
      TimeBudgetDomain before = within(field, oneWay, ways * 50);
      assertSame(field, before.field(Costs.Direction.OUT));
      assertSame(field, before.field(Costs.Direction.HOME));
      TimeBudgetDomain wide = within(field, oneWay, ways * 110);
      assertNotSame(before.out(), wide.out());
      TimeBudgetDomain after = within(field, oneWay, ways * 50);
      assertSame(wide.out(), after.out());
      assertSame(wide.home(), after.home());
      assertFalse(after.whole());
      holds(after, 50, 200);
    }
  }
}

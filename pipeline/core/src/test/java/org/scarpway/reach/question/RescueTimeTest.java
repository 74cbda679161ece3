package org.scarpway.reach.question;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.trip.ReachSolver;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/** Alarm, loading and reserve against what there is: a lane of 10 m cells at 1 m/s. */
class RescueTimeTest {
  private static final GridSpec LANE = Fields.grid(1, 21, 10, -5, -5);

  private static ReachResult solve(Budget budget, Reserves kept, Rescue rescue, Vehicle vehicle) {
    TraversalCost field = Fields.level(LANE, (x, y) -> 1);
    ReachRequest q =
        new ReachRequest(
            "r", "b", 0, 0, budget, HomeRule.BASE_RESCUE, List.of(), 0, rescue, kept, true);
    try (Workers workers = new Workers(1)) {
      TraversalInput ground = Fields.ground(field, FloatGrid.empty(LANE), vehicle);
      return ReachSolver.solve(q, ground, null, List.of(), workers, Progress.NONE);
    }
  }

  /**
   * The next cell needs 30 s beyond alarm, loading and reserve: out, fetched, home; and 30 s of the
   * rescuer's life support beyond twice loading: out, and home with two crews.
   */
  @Test
  void whereNothingIsLeftToDriveItIsSaidAndOnlyThere() {
    Random random = new Random(11);
    int[] cases = new int[2];
    int twoCrews = 0;
    for (int i = 0; i < 160; i++) {
      Rescue rescue = new Rescue(1800 * random.nextDouble(), 0, 1800 * random.nextDouble(), 0);
      Reserves kept = new Reserves(30 * random.nextDouble(), 30 * random.nextDouble(), 0, 0);
      double needS = rescue.alarmS() + rescue.loadS() + 30;
      double timeS = needS * (0.8 + 0.8 * random.nextDouble());
      double lifeS = needS * (0.8 + 0.8 * random.nextDouble());
      double aliveS = lifeS * (1 - kept.lifeSupportPct() / 100);
      double spareS = Math.min(timeS * (1 - kept.timePct() / 100), aliveS) - needS;
      double sparedS = aliveS - 2 * rescue.loadS() - 30;
      if (Math.abs(spareS) < 1 || Math.abs(sparedS) < 1) {
        continue;
      }
      boolean usedUp = spareS < 0 || sparedS < 0;
      twoCrews += spareS > 0 && sparedS < 0 ? 1 : 0;
      Vehicle vehicle = Fields.vehicle(null, VehicleParts.crew(2, 4, lifeS / 3600));
      ReachResult r = solve(new Budget(timeS, null, null), kept, rescue, vehicle);
      int reached = 0;
      for (byte state : r.state().values()) {
        reached += state == ReachState.SURELY ? 1 : 0;
      }
      long said = r.warnings().stream().filter(w -> w.contains("leaves the base only")).count();
      String what = i + ": " + reached + " cells, " + r.warnings();
      assertEquals(usedUp ? 1 : 0, said, what);
      assertEquals(usedUp, reached <= 1, what);
      cases[usedUp ? 0 : 1]++;
    }
    assertTrue(cases[0] > 20 && cases[1] > 20, cases[0] + ", " + cases[1]);
    assertTrue(twoCrews > 5, twoCrews + " cases");
  }

  @Test
  void theSumIsTold() {
    Vehicle vehicle = Fields.vehicle(null, VehicleParts.crew(2, 4, 72.0));
    Reserves tenth = new Reserves(10, 10, 10, 10);
    Rescue half = new Rescue(1800, 0, 1800, 0);
    Budget hour = new Budget(3600.0, null, null);
    assertEquals(
        "base-rescue leaves the base only: of 60 min of time, 6 min of reserve, 30 min of"
            + " alarm and 30 min to load leave 0 min for the way out, the way of the vehicle"
            + " that comes and the way home",
        RescueTime.usedUp(HomeRule.BASE_RESCUE, hour, tenth, half, vehicle, 10));
    assertNull(RescueTime.usedUp(HomeRule.PAIR, hour, tenth, half, vehicle, 10));
    Budget more = new Budget(7200.0, null, null);
    assertNull(RescueTime.usedUp(HomeRule.BASE_RESCUE, more, tenth, half, vehicle, 10));
    Rescue slow = new Rescue(0, 0, 1800, 0);
    Budget life = new Budget(null, null, null, 3900.0);
    assertEquals(
        "base-rescue leaves the base only: of 65 min of life support of the vehicle that comes,"
            + " 6.5 min of reserve and twice 30 min to load, for two crews, leave 0 min for its way"
            + " out and twice the way home",
        RescueTime.usedUp(HomeRule.BASE_RESCUE, life, tenth, slow, vehicle, 10));
  }

  /**
   * Whichever lasts least decides: the time, the life support of question or vehicle, or the suits,
   * each less its own reserve.
   */
  @Test
  void whatLastsLeastIsNamedWithItsReserve() {
    Rescue rescue = new Rescue(1200, 0, 600, 0);
    Reserves kept = new Reserves(10, 20, 0, 0);
    Vehicle lasting = Fields.vehicle(null, VehicleParts.crew(2, 4, 72.0));
    Vehicle short50 = Fields.vehicle(null, VehicleParts.crew(2, 4, 50.0 / 60));
    // 80 min less 10 %, 50 min less 20 %, 45 min less 20 % or 30 of them.
    Budget time = new Budget(4800.0, null, null);
    Budget life = new Budget(4800.0, null, null, 3000.0);
    Budget suits = new Budget(4800.0, null, null, null, new ReachRequest.Suits(2700, 60));
    Budget kept30 = new Budget(4800.0, null, null, 3000.0, new ReachRequest.Suits(2700, 1800));
    Budget never = new Budget(null, null, null, 3000.0);
    assertNull(said(time, kept, rescue, lasting, 10));
    assertNull(said(time, kept, rescue, Fields.vehicle(null, null), 10));
    assertNull(said(new Budget(null, null, null), kept, rescue, lasting, 10));
    // 40 min planned, 30 of them before anybody drives.
    for (Budget b : List.of(life, never)) {
      assertTells(said(b, kept, rescue, lasting, 1000), "50", "life support", "10", "10");
    }
    assertTells(said(time, kept, rescue, short50, 1000), "50", "life support", "10", "10");
    assertTells(said(suits, kept, rescue, lasting, 1000), "45", "the suits' endurance", "9", "6");
    assertTells(said(kept30, kept, rescue, lasting, 10), "45", "the suits' endurance", "30", "0");
    // Suits that last longer than the life support do not count.
    Budget fresh = new Budget(4800.0, null, null, 3000.0, new ReachRequest.Suits(3600, 60));
    assertTells(said(fresh, kept, rescue, lasting, 1000), "50", "life support", "10", "10");
  }

  /** Three cells take just what is left: the next cell is reached. */
  @Test
  void justEnoughForTheNextCellIsEnough() {
    Budget budget = new Budget(1710.0, null, null);
    Rescue rescue = new Rescue(700, 0, 500, 0);
    for (double speedMs : new double[] {1, 2}) {
      // 510 s are left, for three cells of 170 m at 1 m/s.
      Vehicle vehicle = Fields.cart(speedMs, 0.0, null, null);
      assertNull(said(budget, Reserves.NONE, rescue, vehicle, 170 * speedMs));
      String more = said(budget, Reserves.NONE, rescue, vehicle, 171 * speedMs);
      assertTells(more, "28.5", "time", "0", "8.5");
    }
  }

  private static String said(
      Budget budget, Reserves kept, Rescue rescue, Vehicle vehicle, double cellM) {
    return RescueTime.usedUp(HomeRule.BASE_RESCUE, budget, kept, rescue, vehicle, cellM);
  }

  private static void assertTells(
      String said, String wholeMin, String of, String keptMin, String leftMin) {
    assertTrue(said != null, "nothing is said");
    String start = "only: of " + wholeMin + " min of " + of + ", " + keptMin + " min of reserve";
    assertTrue(said.contains(start), said);
    assertTrue(said.contains(" to load leave " + leftMin + " min for"), said);
  }
}

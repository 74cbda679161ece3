package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.reach.question.Left;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/** What a trip is held against, worked out by hand. */
class ReachLimitsTest {
  private static final double NONE = Double.POSITIVE_INFINITY;

  private final List<String> notes = new ArrayList<>();

  private ReachLimits of(
      HomeRule home, Budget budget, Reserves reserves, Double batteryKwh, Double massKg) {
    Rescue rescue = new Rescue(600, 900, 1200, 90);
    ReachRequest request =
        new ReachRequest("r", "b", 0, 0, budget, home, List.of(), 0, rescue, reserves, false);
    Vehicle vehicle =
        new Vehicle(
            "cart",
            "",
            massKg,
            null,
            null,
            null,
            null,
            null,
            null,
            batteryKwh,
            VehicleParts.crew(2, 4, 10.0));
    notes.clear();
    return ReachLimits.of(request, vehicle, true, notes);
  }

  @Test
  void aShareOfEachLimitIsKept() {
    Budget budget = new Budget(1000.0, 2000.0, 3000.0, 4000.0);
    ReachLimits l = of(HomeRule.DRIVE_BACK, budget, new Reserves(10, 20, 30, 40), null, null);
    assertEquals(900, l.timeS(), 1e-9);
    assertEquals(3200, l.lifeSupportS(), 1e-9);
    assertEquals(1400, l.energyJ(), 1e-9);
    assertEquals(1800, l.distanceM(), 1e-9);
    assertEquals(1000, Reserves.whole(l.timeS(), 10), 1e-9);
    assertEquals(4000, Reserves.whole(l.lifeSupportS(), 20), 1e-9);
    assertEquals(7, Reserves.whole(7, 0));
    assertTrue(Double.isNaN(Reserves.whole(NONE, 10)));
    ReachLimits all = of(HomeRule.DRIVE_BACK, budget, Reserves.NONE, null, null);
    assertEquals(1000, all.timeS());
    assertEquals(4000, all.lifeSupportS());
  }

  /** 2 kWh are 7.2 MJ; ten hours of supplies 36 000 s. */
  @Test
  void theLesserOfBudgetAndVehicleCounts() {
    HomeRule rule = HomeRule.DRIVE_BACK;
    Budget none = new Budget(null, null, null);
    assertEquals(7.2e6, of(rule, none, Reserves.NONE, 2.0, null).energyJ(), 1e-6);
    assertEquals(1, notes.size());
    assertTrue(notes.get(0).startsWith("the battery of 2.0 kWh is the energy limit"));
    assertEquals(36_000, of(rule, none, Reserves.NONE, null, null).lifeSupportS(), 1e-6);
    assertTrue(notes.isEmpty());
    assertEquals(NONE, of(rule, none, Reserves.NONE, null, null).energyJ());
    Budget less = new Budget(null, 7e6, null, 30_000.0);
    assertEquals(7e6, of(rule, less, Reserves.NONE, 2.0, null).energyJ());
    assertTrue(notes.isEmpty());
    assertEquals(30_000, of(rule, less, Reserves.NONE, 2.0, null).lifeSupportS());
    Budget same = new Budget(null, 7.2e6, null);
    assertEquals(7.2e6, of(rule, same, Reserves.NONE, 2.0, null).energyJ());
    assertTrue(notes.isEmpty());
  }

  /** Two persons of 90 kg, 10, 15 and 20 minutes. */
  @Test
  void whatARescueCountsIsTold() {
    Budget budget = new Budget(1000.0, null, null);
    of(HomeRule.PAIR, budget, Reserves.NONE, null, 900.0);
    String load = ", driven with 180 kg more (slopes, speed, energy)";
    assertEquals(
        List.of("pair counts 15 min to change vehicles and the way home in the other" + load),
        notes);
    of(HomeRule.BASE_RESCUE, budget, Reserves.NONE, null, 900.0);
    assertEquals(
        List.of(
            "base-rescue counts 10 min of alarm, the way out, 20 min to load and the way home"
                + load
                + "; both crews use the life support of the vehicle that comes from loading on"),
        notes);
    of(HomeRule.PAIR, budget, Reserves.NONE, null, null);
    assertTrue(notes.get(0).contains("its load is not counted"));
  }

  /** A ride of 100 s after 900 s to change: 1000 s of the time, 2000 s of the life support. */
  @Test
  void aRideMustBeLeftOfBoth() {
    double[][] cases = {
      {NONE, NONE, 1000},
      {5000, 36_000, 1000},
      {5000, 5500, 1500},
      {5000, 4000, 2000},
      {5000, 6000, 1000},
    };
    for (double[] c : cases) {
      ReachLimits l =
          new ReachLimits(
              HomeRule.PAIR, c[0], NONE, NONE, c[1], 0, new Rescue(0, 900, 0, 0), Reserves.NONE);
      assertEquals(c[2], l.leftForRideS(100), 1e-9);
      assertEquals(Math.min(c[0], c[1]), l.tripS());
      assertEquals(c[0] <= c[1] ? ReachEnd.TIME : ReachEnd.RESCUE_LIFE_SUPPORT, l.tripEnd());
    }
  }

  /** Whatever a crew says it has left, the limits of its question hold; suits last no longer. */
  @Test
  void nothingThatIsLeftRaisesALimit() {
    Random random = new Random(41);
    for (int i = 0; i < 500; i++) {
      ReachRequest.Suits suits =
          random.nextBoolean() ? new ReachRequest.Suits(3600, 1800 * random.nextDouble()) : null;
      Budget budget =
          new Budget(
              1 + 1e4 * random.nextDouble(),
              1 + 1e7 * random.nextDouble(),
              1 + 1e4 * random.nextDouble(),
              3600 + 1e5 * random.nextDouble(),
              suits);
      Reserves kept = new Reserves(random.nextInt(50), random.nextInt(50), random.nextInt(50), 10);
      ReachLimits whole = of(HomeRule.DRIVE_BACK, budget, kept, 2.0, null);
      Left left =
          whole.held(
              new Left(
                  2e4 * random.nextDouble(),
                  2e7 * random.nextDouble(),
                  2e4 * random.nextDouble(),
                  2e5 * random.nextDouble()));
      ReachLimits now = whole.underway(left);
      double once = 1 + 1e-12;
      assertTrue(now.timeS() <= whole.timeS() * once);
      assertTrue(now.energyJ() - now.usedJ() <= whole.energyJ() * once);
      assertTrue(now.distanceM() <= whole.distanceM() * once);
      assertTrue(now.lifeSupportS() <= whole.lifeSupportS() * once);
      assertTrue(now.usedJ() >= 0);
      if (suits != null) {
        assertTrue(left.lifeSupportS() <= 3600 * once, "more than the suits hold");
      }
      Left reserve = whole.reserveOf(left);
      assertEquals(kept.timePct() / 100 * budget.timeS(), reserve.timeS(), 1e-6);
    }
  }
}

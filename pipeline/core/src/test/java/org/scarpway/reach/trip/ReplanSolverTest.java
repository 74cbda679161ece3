package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.audit.Finding;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.question.Left;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReachResult.TargetReach;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.ReplanRequest;
import org.scarpway.reach.question.ReplanResult;
import org.scarpway.reach.question.ReplanResult.Amount;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.question.ReplanResult.TurnBack;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.VehicleParts;

/**
 * A crew underway on a lane of one row, where all figures are quotients worked out in the comments,
 * and relations that hold on any ground.
 */
class ReplanSolverTest {
  /** One row of 81 cells of 1 m; the base in the first, at 0 m. */
  private static final GridSpec LANE = Fields.grid(1, 81, 1, -0.5, -0.5);

  private static final GridSpec SPEC = Fields.grid(61, 61, 1, -30.5, -30.5);
  private static final Rescue AT_ONCE = new Rescue(0, 0, 0, 0);
  private static final Reserves TENTH = new Reserves(10, 10, 10, 10);

  /** 2 m/s, 1000 J/m and 50 W while moving or waiting: 1025 J for a metre driven. */
  private static TraversalInput lane() {
    int n = LANE.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    Arrays.fill(allowed, -1);
    Arrays.fill(cap, 2);
    GradeTable table =
        new GradeTable(-1, 1, new double[] {1e9, 1e9}, new double[] {1000, 1000}, 50, 0);
    TraversalCost field =
        new TraversalCost(LANE, allowed, new float[n], new float[n], cap, new byte[n], table);
    FloatGrid level = new FloatGrid(LANE, new float[n]);
    return Fields.ground(
        field, level, Fields.cart(2, 50.0, null, VehicleParts.crew(1, 2, 1e3 / 3600)));
  }

  private static ReachRequest question(HomeRule home, Budget budget, Reserves reserves) {
    return new ReachRequest("q", "b", 0, 0, budget, home, List.of(), 0, AT_ONCE, reserves, false);
  }

  private static Target stop(double xM, double stayS) {
    return new Target("x" + (int) xM, xM, 0, 1, stayS, 0);
  }

  private static ReplanResult solve(
      ReachRequest q, double xM, Left left, TraversalInput ground, WalkHome walk, Target... stops) {
    return solve(q, xM, 0, left, ground, walk, stops);
  }

  private static ReplanResult solve(
      ReachRequest q,
      double xM,
      double yM,
      Left left,
      TraversalInput ground,
      WalkHome walk,
      Target... stops) {
    ReplanRequest r = new ReplanRequest(q, xM, yM, left, List.of(stops), true, Quantity.TIME_S);
    try (Workers workers = new Workers(2)) {
      ReplanResult found = ReplanSolver.solve(r, ground, walk, workers, Progress.NONE);
      assertTrue(found.drivenAgain().stream().allMatch(Finding::holds), "driven again");
      return found;
    }
  }

  private static Amount amount(ReplanResult r, Consumable of) {
    return r.home().amounts().stream().filter(a -> a.of() == of).findFirst().orElseThrow();
  }

  /** Stops to which no way leads change nothing of what is told of the others and of home. */
  @Test
  void stopsWithoutAWayAreLeftOutOfThePlan() {
    Random random = new Random(26);
    int whole = 0;
    for (int trial = 0; trial < 40; trial++) {
      ReachRequest q = question(HomeRule.DRIVE_BACK, new Budget(60.0, null, null), TENTH);
      Left left = new Left(20.0 + random.nextInt(40), null, null, 500.0);
      List<Target> open = new ArrayList<>();
      List<Target> all = new ArrayList<>();
      for (int k = 0; k < 5; k++) {
        boolean shut = random.nextBoolean();
        Target t = stop(shut ? -5000 - k : 10 + 10 * random.nextInt(7), random.nextInt(4));
        all.add(t);
        if (!shut) {
          open.add(t);
        }
      }
      if (open.isEmpty()) {
        continue;
      }
      ReplanResult with = solve(q, 20, left, lane(), null, all.toArray(Target[]::new));
      ReplanResult without = solve(q, 20, left, lane(), null, open.toArray(Target[]::new));
      assertEquals(without.state(), with.state());
      assertEquals(without.home(), with.home());
      assertEquals(without.bindsFirst(), with.bindsFirst());
      assertEquals(without.turnBack(), with.turnBack());
      assertEquals(without.planned(), with.planned());
      assertEquals(
          without.stops(),
          with.stops().stream().filter(s -> s.stop().xM() > 0).toList(),
          "stops with a way");
      // Those after the point of no return are not told of.
      int last = (int) with.warnings().stream().filter(w -> w.contains("left out")).count();
      assertTrue(last <= all.size() - open.size());
      if (with.state() == ReachState.SURELY && with.turnBack().whole()) {
        assertEquals(all.size() - open.size(), last);
        whole++;
      }
    }
    assertTrue(whole > 3, whole + " whole plans");
  }

  @Test
  void homeAndThePointOfNoReturnByTime() {
    // Of 60 s a tenth is kept, 6 s. With 46 s left 40 s may be used; 20 m home take 10 s.
    ReachRequest q = question(HomeRule.DRIVE_BACK, new Budget(60.0, null, null), TENTH);
    Left left = new Left(46.0, null, null, 500.0);
    ReplanResult r = solve(q, 20, left, lane(), null, stop(70, 5));
    assertEquals(ReachState.SURELY, r.state());
    assertEquals(10, r.home().timeS(), 1e-5);
    assertEquals(20, r.home().distanceM(), 1e-5);
    assertEquals(20 * 1025, r.home().energyJ(), 0.1);
    assertEquals(6, amount(r, Consumable.TIME).reserve(), 1e-9);
    assertEquals(30, amount(r, Consumable.TIME).spare(), 1e-5);
    // (x - 20) / 2 + x / 2 = 40 at x = 50; the last border before that is at 49.5 m.
    TurnBack t = r.turnBack();
    assertEquals(49.5, t.xM(), 1e-9);
    assertEquals(14.75, t.timeS(), 1e-5);
    assertEquals(29.5, t.distanceM(), 1e-5);
    assertEquals(29.5 * 1025, t.energyJ(), 1);
    assertEquals("x70", t.to());
    assertEquals("", t.from());
    assertFalse(t.whole());
    assertEquals("time budget", t.end());
    assertFalse(r.stops().get(0).inOrder());
    assertEquals(0, r.stops().get(0).state());
  }

  @Test
  void thePointOfNoReturnByEnergyCountsWhatIsUsedAlready() {
    // Of 200 kJ 20 kJ are kept. With 100 kJ left 80 kJ may be used: 78.05 m at 1025 J, 20 m of it
    // between the crew and the base: x = 49.02; border 48.5 leaves the way home from cell 49.
    ReachRequest q = question(HomeRule.DRIVE_BACK, new Budget(null, 200_000.0, null), TENTH);
    Left left = new Left(null, 100_000.0, null, 500.0);
    ReplanResult r = solve(q, 20, left, lane(), null, stop(70, 5));
    assertEquals(ReachState.SURELY, r.state());
    assertEquals(20_000, amount(r, Consumable.ENERGY).reserve(), 1e-6);
    assertEquals(100_000 - 20 * 1025 - 20_000, amount(r, Consumable.ENERGY).spare(), 1);
    assertEquals(48.5, r.turnBack().xM(), 1e-9);
    assertEquals("energy budget", r.turnBack().end());
    // One joule per metre less than the reserve allows, and the crew does not get home by the
    // rules.
    Left less = new Left(null, 20_000 + 20 * 1024.0, null, 500.0);
    ReplanResult no = solve(q, 20, less, lane(), null, stop(70, 5));
    assertEquals(0, no.state());
    assertEquals("energy budget", no.end());
    assertEquals(-20, amount(no, Consumable.ENERGY).spare(), 1);
    assertTrue(amount(no, Consumable.ENERGY).atHome() > 0);
    assertNull(no.turnBack());
    assertEquals(20, no.wayHome().get(no.wayHome().size() - 1).distanceM(), 1e-4);
  }

  @Test
  void aStayIsCutToWhatIsLeft() {
    // 40 s may be used; 10 m on take 5 s, 30 m home 15 s: 20 s of the stay are possible.
    ReachRequest q = question(HomeRule.DRIVE_BACK, new Budget(60.0, null, null), TENTH);
    Left left = new Left(46.0, null, null, 500.0);
    TurnBack t = solve(q, 20, left, lane(), null, stop(30, 100)).turnBack();
    assertEquals("x30", t.from());
    assertEquals(30, t.xM(), 1e-9);
    assertEquals(20, t.stayS(), 1e-4);
    assertEquals(25, t.timeS(), 1e-4);
    // With a stay of 12 s all fits, and the plan ends at the base after 5 + 12 + 15 s.
    ReplanResult whole = solve(q, 20, left, lane(), null, stop(30, 12));
    assertTrue(whole.turnBack().whole());
    assertEquals(32, whole.turnBack().timeS(), 1e-4);
    assertTrue(whole.stops().get(0).inOrder());
    assertEquals(5, whole.stops().get(0).arriveS(), 1e-4);
    assertEquals(32, whole.stops().get(0).home().timeS(), 1e-4);
  }

  @Test
  void stopsFitAloneThatDoNotFitAfterOthers() {
    // Alone 35 m: 7.5 + 17.5 s and the stay of 10 s make 35 of 40 s; after 10 s at 25 m it is 45 s.
    ReachRequest q = question(HomeRule.DRIVE_BACK, new Budget(60.0, null, null), TENTH);
    Left left = new Left(46.0, null, null, 500.0);
    ReplanResult r = solve(q, 20, left, lane(), null, stop(25, 10), stop(35, 10));
    assertTrue(r.stops().get(0).inOrder());
    assertEquals(ReachState.SURELY, r.stops().get(1).state());
    assertFalse(r.stops().get(1).inOrder());
    // Arrived at 35 m after 2.5 + 10 + 5 s; 17.5 s home leave 5 s there.
    assertEquals(5, r.turnBack().stayS(), 1e-4);
    assertEquals("x35", r.turnBack().from());
  }

  @Test
  void onFootTheWalkHomeBindsBeforeTheDrive() {
    // 1 m/s on foot: from x the walk takes x s. 40 s may be used: (x - 20) / 2 + x = 40 at 33.3 m.
    // At the border 32.5 the walk from cell 33 takes 6.25 + 33 s, at 33.5 that from 33 takes 39.75
    // and from 34 40.75 s.
    TraversalCost walker = Fields.level(LANE, (x, y) -> 1);
    WalkHome walk = Questions.walkHome(walker, 100, 0, List.of());
    ReachRequest q = question(HomeRule.WALK_BACK, new Budget(60.0, null, null), TENTH);
    Left left = new Left(46.0, null, null, 500.0);
    ReplanResult r = solve(q, 20, left, lane(), walk, stop(70, 5));
    assertEquals(ReachState.SURELY, r.state());
    assertEquals(20, amount(r, Consumable.TIME).needed(), 1e-4);
    assertEquals(32.5, r.turnBack().xM(), 1e-9);
    // Beyond the walker's endurance the rule is broken from the outset; the drive home is told.
    WalkHome shortWalk = Questions.walkHome(walker, 15, 0, List.of());
    ReplanResult no = solve(q, 20, left, lane(), shortWalk, stop(70, 5));
    assertEquals(0, no.state());
    assertEquals("walk home takes longer than the walker's endurance", no.end());
    assertEquals(10, no.home().timeS(), 1e-5);
    assertNull(no.turnBack());
  }

  @Test
  void aPairSharesLifeSupportFromAnyStopOn() {
    // 40 s of life support, none kept: t + 2 x / 2 <= 40 with t = (x - 20) / 2: x = 33.3 m.
    ReachRequest q = question(HomeRule.PAIR, new Budget(1000.0, null, null), Reserves.NONE);
    Left left = new Left(1000.0, null, null, 40.0);
    ReplanResult r = solve(q, 20, left, lane(), null, stop(70, 5));
    assertEquals(ReachState.SURELY, r.state());
    assertEquals(20, amount(r, Consumable.LIFE_SUPPORT).needed(), 1e-4);
    assertEquals(32.5, r.turnBack().xM(), 1e-9);
  }

  /**
   * From x m home are x / 2 s and 1025 x J; two crews use the life support of one vehicle. Of the
   * reserves, 100 s, 100 s and 100 kJ, random shares would be used: what is told of each amount is
   * what the way home needs, whichever of them is short.
   */
  @Test
  void aPairIsToldWhatItLacks() {
    ReachRequest q = question(HomeRule.PAIR, new Budget(1000.0, 1e6, null), TENTH);
    Random random = new Random(12);
    int not = 0;
    for (int n = 0; n < 40; n++) {
      int x = 10 + random.nextInt(60);
      double timeS = x / 2.0 + 100 * (0.5 + random.nextDouble());
      double aliveS = x + 100 * (0.5 + random.nextDouble());
      double energyJ = 1025 * x + 1e5 * (0.5 + random.nextDouble());
      ReplanResult r = solve(q, x, new Left(timeS, energyJ, null, aliveS), lane(), null);
      boolean kept = timeS >= x / 2.0 + 100 && aliveS >= x + 100 && energyJ >= 1025 * x + 1e5;
      String where = "draw " + n;
      assertEquals(kept ? ReachState.SURELY : 0, r.state(), where);
      if (!kept) {
        not++;
        assertEquals(x / 2.0, amount(r, Consumable.TIME).needed(), 1e-3, where);
        assertEquals(x, amount(r, Consumable.LIFE_SUPPORT).needed(), 1e-3, where);
        assertEquals(1025 * x, amount(r, Consumable.ENERGY).needed(), 1, where);
        assertEquals(x / 2.0, r.home().timeS(), 1e-3, where);
      }
    }
    assertTrue(not > 10 && not < 40, not + " not home");
  }

  @Test
  void aRescuerComesWithAFullBatteryAndItsWholeDistance() {
    // From x the rescue takes 2 x / 2: (x - 20) / 2 + x = 40 at 33.3 m. The rescuer's 130 m of
    // distance allow 65 m, though the crew has only 50 m left: x - 20 + x = 50 at 35 m.
    ReachRequest q = question(HomeRule.BASE_RESCUE, new Budget(100.0, null, 130.0), Reserves.NONE);
    ReplanResult r = solve(q, 20, new Left(40.0, null, 50.0, 500.0), lane(), null, stop(70, 5));
    assertEquals(ReachState.SURELY, r.state());
    assertEquals(20, amount(r, Consumable.TIME).needed(), 1e-4);
    assertEquals(32.5, r.turnBack().xM(), 1e-9);
    // With 100 s the crew's own distance binds: at 34.5 m 14.5 m and 35 m home from cell 35.
    r = solve(q, 20, new Left(100.0, null, 50.0, 500.0), lane(), null, stop(70, 5));
    assertEquals(34.5, r.turnBack().xM(), 1e-9);
    assertEquals("distance budget", r.turnBack().end());
  }

  @Test
  void nobodyIsAskedHomeByTheRuleNone() {
    ReachRequest q = question(HomeRule.NONE, new Budget(60.0, null, null), TENTH);
    Left left = new Left(46.0, null, null, 500.0);
    assertThrows(UserError.class, () -> solve(q, 20, left, lane(), null));
  }

  /** The way home from a place is that of a job asked from the base, bit for bit. */
  @Test
  void homeFiguresAreThoseOfTheReachQuestion() {
    Random random = new Random(17);
    for (HomeRule home : HomeRule.values()) {
      for (int i = 0; home != HomeRule.NONE && i < 4; i++) {
        TraversalCost field = FrontTest.rough(SPEC, 100 + i);
        TraversalInput ground =
            Fields.ground(
                field, FloatGrid.empty(SPEC), Fields.vehicle(null, VehicleParts.crew(1, 2, 1e3)));
        WalkHome walk = Questions.walkHome(Fields.level(SPEC, (x, y) -> 1), 1e4, 0, List.of());
        double x = random.nextInt(41) - 20;
        double y = random.nextInt(41) - 20;
        ReachRequest q = question(home, new Budget(1e5, null, null), Reserves.NONE);
        Target there = new Target("p", x, y, 1, 0, 0);
        TargetReach said;
        try (Workers workers = new Workers(2)) {
          said =
              ReachSolver.solve(q, ground, walk, List.of(there), workers, Progress.NONE)
                  .targets()
                  .get(0);
        }
        if (!said.reached()) {
          continue;
        }
        ReplanResult r = solve(q, x, y, new Left(1e5, null, null, 3.6e6), ground, walk);
        assertEquals(ReachState.SURELY, r.state());
        assertEquals(said.homeTimeS(), r.home().timeS(), 0, home + " " + i);
        // Asked the other way round, the scheme looks at other cells: the same but for its error.
        double outS = Fields.timesOut(field, x, y)[SPEC.cellOf(0, 0)];
        if (home == HomeRule.DRIVE_BACK) {
          assertEquals(outS, r.home().timeS(), 0.01 * outS + 1e-3);
        }
      }
    }
  }

  /** Whatever is said to be sure is driven again, by every rule; {@link #solve} looks at it. */
  @Test
  void whatIsSureHoldsWhenItIsDrivenAgain() {
    Random random = new Random(5);
    int legs = 0;
    for (HomeRule home : HomeRule.values()) {
      for (int i = 0; home != HomeRule.NONE && i < 8; i++) {
        TraversalCost field = FrontTest.rough(SPEC, 700 + i);
        TraversalInput ground =
            Fields.ground(
                field, FloatGrid.empty(SPEC), Fields.vehicle(null, VehicleParts.crew(1, 2, 1e3)));
        WalkHome walk = Questions.walkHome(Fields.level(SPEC, (x, y) -> 1.5), 30, 3, List.of());
        ReachRequest q = question(home, new Budget(150.0, null, 300.0), TENTH);
        double x = random.nextInt(21) - 10;
        double y = random.nextInt(21) - 10;
        if (field.allowed(SPEC.cellOf(x, y)) == 0 || field.allowed(SPEC.cellOf(0, 0)) == 0) {
          continue;
        }
        Target[] stops = new Target[3];
        for (int k = 0; k < stops.length; k++) {
          stops[k] = new Target("s" + k, random.nextInt(41) - 20, random.nextInt(41) - 20, 1, 3, 0);
        }
        Left left = new Left(40 + 100 * random.nextDouble(), null, 200.0, 3.6e6);
        ReplanResult r = solve(q, x, y, left, ground, walk, stops);
        legs += r.drivenAgain().size();
      }
    }
    assertTrue(legs > 30, legs + " trips");
  }

  @Test
  void lessLeftAndLostGroundNeverImproveTheAnswer() {
    Random random = new Random(23);
    int surely = 0;
    int worse = 0;
    for (int i = 0; i < 24; i++) {
      TraversalCost field = FrontTest.rough(SPEC, 300 + i);
      TraversalInput ground =
          Fields.ground(
              field, FloatGrid.empty(SPEC), Fields.vehicle(null, VehicleParts.crew(1, 2, 1e3)));
      ReachRequest q = question(HomeRule.DRIVE_BACK, new Budget(100.0, null, 150.0), TENTH);
      double x = random.nextInt(21) - 10;
      double y = random.nextInt(21) - 10;
      if (field.allowed(SPEC.cellOf(x, y)) == 0 || field.allowed(SPEC.cellOf(0, 0)) == 0) {
        continue;
      }
      Target[] stops = new Target[2];
      for (int k = 0; k < stops.length; k++) {
        stops[k] = new Target("s" + k, random.nextInt(41) - 20, random.nextInt(41) - 20, 1, 3, 0);
      }
      double s = 20 + 60 * random.nextDouble();
      double m = 30 + 90 * random.nextDouble();
      ReplanResult full = solve(q, x, y, new Left(s, null, m, 3.6e6), ground, null, stops);
      Left less = new Left(s * random.nextDouble(), null, m * random.nextDouble(), 3.6e6);
      ReplanResult after = solve(q, x, y, less, ground, null, stops);
      noBetter(full, after);
      BitSet kept = new BitSet();
      for (int c = 0; c < SPEC.cells(); c++) {
        kept.set(c, random.nextInt(9) > 0);
      }
      kept.set(SPEC.cellOf(0, 0));
      kept.set(SPEC.cellOf(x, y));
      ReplanResult lost =
          solve(
              q,
              x,
              y,
              new Left(s, null, m, 3.6e6),
              ground.withField(field.within(kept)),
              null,
              stops);
      noBetter(full, lost);
      surely += full.state() == ReachState.SURELY ? 1 : 0;
      worse += after.state() != full.state() || lost.state() != full.state() ? 1 : 0;
    }
    assertTrue(surely > 5 && worse > 3, surely + " surely, " + worse + " worse");
  }

  @Test
  void aStopThatNoWayReachesChangesNothingOfTheRest() {
    Random random = new Random(41);
    int surely = 0;
    for (int i = 0; i < 12; i++) {
      double wallX = 21.5;
      TraversalCost rough = FrontTest.rough(SPEC, 600 + i);
      BitSet kept = new BitSet();
      for (int c = 0; c < SPEC.cells(); c++) {
        kept.set(c, SPEC.xM(c % SPEC.cols()) < wallX || SPEC.xM(c % SPEC.cols()) > wallX + 3);
      }
      TraversalInput ground =
          Fields.ground(
              rough.within(kept),
              FloatGrid.empty(SPEC),
              Fields.vehicle(null, VehicleParts.crew(1, 2, 1e3)));
      if (ground.field().allowed(SPEC.cellOf(0, 0)) == 0) {
        continue;
      }
      ReachRequest q = question(HomeRule.DRIVE_BACK, new Budget(100.0, null, null), TENTH);
      Left left = new Left(40 + 50 * random.nextDouble(), null, null, 3.6e6);
      Target a = new Target("a", random.nextInt(31) - 15, random.nextInt(31) - 15, 1, 3, 0);
      Target b = new Target("b", random.nextInt(31) - 15, random.nextInt(31) - 15, 1, 3, 0);
      if (ground.field().allowed(SPEC.cellOf(a.xM(), a.yM())) == 0
          || ground.field().allowed(SPEC.cellOf(b.xM(), b.yM())) == 0) {
        continue;
      }
      // Inside the wall, and behind it.
      Target shut = new Target("shut", random.nextBoolean() ? wallX + 1 : 27, 0, 1, 3, 0);
      ReplanResult without = solve(q, 0, 0, left, ground, null, a, b);
      ReplanResult with = solve(q, 0, 0, left, ground, null, shut, a, b);
      assertEquals(without.state(), with.state());
      assertEquals(without.turnBack(), with.turnBack());
      assertEquals(without.bindsFirst(), with.bindsFirst());
      assertEquals(without.stops(), with.stops().subList(1, 3));
      assertFalse(with.stops().get(0).inOrder());
      assertFalse(with.stops().get(0).end().isEmpty());
      if (with.state() == ReachState.SURELY) {
        surely++;
        assertTrue(with.warnings().stream().anyMatch(w -> w.contains("'shut' is left out")));
      }
    }
    assertTrue(surely > 3, "home from " + surely);
  }

  /** Where only the rule fails, the drive home told is that of the rule drive-back. */
  @Test
  void whoeverCanDriveHomeIsTold() {
    Random random = new Random(29);
    int alone = 0;
    for (int i = 0; i < 12; i++) {
      TraversalCost field = FrontTest.rough(SPEC, 500 + i);
      double x = random.nextInt(21) - 10;
      double y = random.nextInt(21) - 10;
      if (field.allowed(SPEC.cellOf(x, y)) == 0 || field.allowed(SPEC.cellOf(0, 0)) == 0) {
        continue;
      }
      BitSet kept = new BitSet();
      kept.set(SPEC.cellOf(x, y));
      kept.set(SPEC.cellOf(0, 0));
      TraversalInput ground =
          Fields.ground(
                  field, FloatGrid.empty(SPEC), Fields.vehicle(null, VehicleParts.crew(1, 2, 1e3)))
              .withLoaded(field.within(kept));
      WalkHome noWalk = Questions.walkHome(Fields.level(SPEC, (u, v) -> 1), 1, 0, List.of());
      Left left = new Left(100 * random.nextDouble(), null, null, 3.6e6);
      Budget budget = new Budget(100.0, null, null);
      ReplanResult drive =
          solve(question(HomeRule.DRIVE_BACK, budget, TENTH), x, y, left, ground, null);
      for (HomeRule home : List.of(HomeRule.PAIR, HomeRule.WALK_BACK)) {
        ReplanResult r = solve(question(home, budget, TENTH), x, y, left, ground, noWalk);
        if (r.state() == ReachState.SURELY) {
          continue;
        }
        assertEquals(0, r.state());
        assertEquals(drive.home() == null, r.home() == null, home + " " + i);
        assertEquals(r.home() != null, r.driveAlone());
        if (r.home() != null) {
          assertEquals(drive.home(), r.home(), home + " " + i);
          assertEquals(drive.wayHome(), r.wayHome());
          alone++;
        }
      }
    }
    assertTrue(alone > 6, alone + " drives alone");
  }

  private static void noBetter(ReplanResult before, ReplanResult after) {
    assertTrue(rank(after.state()) <= rank(before.state()), "home");
    // A stop without a way is left out, so those after it may fit sooner.
    boolean allBefore = true;
    for (int k = 0; k < before.stops().size(); k++) {
      boolean fits = after.stops().get(k).inOrder();
      assertTrue(
          rank(after.stops().get(k).state()) <= rank(before.stops().get(k).state()), "stop " + k);
      assertTrue(!fits || !allBefore || before.stops().get(k).inOrder(), "order " + k);
      allBefore &= fits;
    }
  }

  private static int rank(byte state) {
    return state == ReachState.SURELY ? 2 : state == ReachState.POSSIBLY ? 1 : 0;
  }
}

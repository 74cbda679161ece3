package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.audit.Finding;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.corridor.CorridorSolver;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.question.CorridorRequest.Cost;
import org.scarpway.reach.question.CorridorRequest.Stop;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.HomeAlong;
import org.scarpway.reach.question.HomeAlong.Turn;
import org.scarpway.reach.question.Left;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.ReplanRequest;
import org.scarpway.reach.question.ReplanResult.Amount;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.VehicleParts;

/**
 * Turn-back times on a lane of one row, where they are quotients worked out in the comments, and
 * against the answer for a crew underway at that moment.
 */
class TurnBackTimesTest {
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
    return Fields.ground(
        field,
        new FloatGrid(LANE, new float[n]),
        Fields.cart(2, 50.0, null, VehicleParts.crew(1, 2, 1e3 / 3600)));
  }

  private static ReachRequest question(HomeRule home, Budget budget, Reserves reserves) {
    return new ReachRequest("q", "b", 0, 0, budget, home, List.of(), 0, AT_ONCE, reserves, false);
  }

  private static CorridorResult route(TraversalInput ground, Stop... stops) {
    try (Workers workers = new Workers(2)) {
      return CorridorSolver.solve(
          Questions.corridor("c", List.of(stops), Cost.TIME, List.of(5.0), 0),
          ground,
          workers,
          Progress.NONE);
    }
  }

  private static CorridorResult thereAndBack(TraversalInput ground) {
    Stop base = Questions.stop("b", 0, 0);
    return route(ground, base, new Stop("far", 70, 0, 5), base);
  }

  private static HomeAlong along(
      CorridorResult route, ReachRequest q, TraversalInput ground, WalkHome walk) {
    BitSet all = new BitSet();
    all.set(0, route.centreline().size());
    try (Workers workers = new Workers(2)) {
      HomeAlong h = TurnBackTimes.of(route, q, all, ground, walk, workers, Progress.NONE);
      assertTrue(h.drivenAgain().stream().allMatch(Finding::holds), "driven again");
      assertEquals(route.centreline().size(), h.at().size());
      return h;
    }
  }

  /** Vertices lie on borders of cells: the farther cell, half a metre on, gives the time. */
  private static void assertLatest(double atCellS, double perMeterS, Turn t, String where) {
    assertTrue(t.latestS() <= atCellS + 1e-3, where + ": " + t.latestS());
    assertTrue(t.latestS() >= atCellS - 0.5 * perMeterS - 1e-3, where + ": " + t.latestS());
  }

  @Test
  void byTime() {
    // Of 100 s a tenth is kept: from x home takes x / 2, so turn by 90 - x / 2.
    CorridorResult route = thereAndBack(lane());
    ReachRequest q = question(HomeRule.DRIVE_BACK, new Budget(100.0, null, null), TENTH);
    HomeAlong h = along(route, q, lane(), null);
    assertTrue(h.everywhere());
    for (int i = 0; i < h.at().size(); i++) {
      ProfilePoint p = route.centreline().get(i);
      assertLatest(90 - p.xM() / 2, 0.5, h.at().get(i), "x " + p.xM());
      assertEquals("time budget", h.at().get(i).end());
    }
  }

  @Test
  void notSureAfterTheStay() {
    // 72 s: at 70 m 35 s and 35 s home are 70, after the stay of 5 s 75 and so on the whole way
    // back.
    CorridorResult route = thereAndBack(lane());
    ReachRequest q = question(HomeRule.DRIVE_BACK, new Budget(80.0, null, null), TENTH);
    HomeAlong h = along(route, q, lane(), null);
    boolean stayed = false;
    for (int i = 0; i < h.at().size(); i++) {
      ProfilePoint p = route.centreline().get(i);
      if (p.distanceM() > 71) {
        assertFalse(h.at().get(i).sure(), "way back, " + p.distanceM());
        assertEquals("time budget", h.at().get(i).end());
        stayed = true;
      } else if (p.distanceM() < 69) {
        assertTrue(h.at().get(i).sure(), "way out, " + p.distanceM());
      }
    }
    assertTrue(stayed);
  }

  @Test
  void byEnergyWhileWaiting() {
    // Out and home 2050 J for a metre, waiting 50 W: turn by x / 2 + (160 kJ - 2050 x) / 50.
    CorridorResult route = route(lane(), Questions.stop("b", 0, 0), Questions.stop("far", 70, 0));
    ReachRequest q = question(HomeRule.DRIVE_BACK, new Budget(null, 1.6e5, null), Reserves.NONE);
    TraversalInput ground = lane();
    HomeAlong h = along(route, q, ground, null);
    for (int i = 0; i < h.at().size(); i++) {
      double x = route.centreline().get(i).xM();
      // Life support of 1000 s ends it where energy does not.
      double latestS = Math.min(x / 2 + (1.6e5 - 2050 * x) / 50, 1000 - x / 2);
      assertLatest(latestS, 1025 / 50.0, h.at().get(i), "x " + x);
    }
    assertEquals("energy budget", h.at().get(h.at().size() - 1).end());
  }

  @Test
  void onFoot() {
    // 1 m/s on foot: from x the walk takes x s, so turn by 90 - x; beyond 45 m nobody walks home.
    CorridorResult route = thereAndBack(lane());
    WalkHome walk = Questions.walkHome(Fields.level(LANE, (x, y) -> 1), 45.1, 0, List.of());
    ReachRequest q = question(HomeRule.WALK_BACK, new Budget(100.0, null, null), TENTH);
    HomeAlong h = along(route, q, lane(), walk);
    for (int i = 0; i < h.at().size(); i++) {
      ProfilePoint p = route.centreline().get(i);
      if (p.xM() > 45.5) {
        assertFalse(h.at().get(i).sure(), "x " + p.xM());
        assertEquals("walk home takes longer than the walker's endurance", h.at().get(i).end());
      } else if (p.distanceM() < 44) {
        assertLatest(90 - p.xM(), 1, h.at().get(i), "x " + p.xM());
      }
    }
  }

  /**
   * At its turn-back time a crew underway, asked with what it then has left, surely comes home; a
   * reserve is a share of the whole.
   */
  @Test
  void aCrewAskedAtThatMomentSurelyComesHome() {
    Random random = new Random(21);
    int asked = 0;
    for (HomeRule home : HomeRule.values()) {
      for (int i = 0; home != HomeRule.NONE && i < 4; i++) {
        TraversalCost field = FrontTest.rough(SPEC, 300 + i);
        TraversalInput ground =
            Fields.ground(
                field, FloatGrid.empty(SPEC), Fields.vehicle(null, VehicleParts.crew(1, 2, 1e3)));
        WalkHome walk = Questions.walkHome(Fields.level(SPEC, (x, y) -> 1.5), 30, 3, List.of());
        double x = random.nextInt(41) - 20;
        double y = random.nextInt(41) - 20;
        if (field.allowed(SPEC.cellOf(x, y)) == 0 || field.allowed(SPEC.cellOf(0, 0)) == 0) {
          continue;
        }
        CorridorResult route;
        try {
          route = route(ground, Questions.stop("b", 0, 0), new Stop("p", x, y, 2));
        } catch (RuntimeException cutOff) {
          continue;
        }
        ReachRequest q = question(home, new Budget(150.0, null, null), TENTH);
        HomeAlong h = along(route, q, ground, walk);
        for (int v = 0; v < h.at().size(); v += 7) {
          ProfilePoint p = route.centreline().get(v);
          Turn t = h.at().get(v);
          if (t.sure() && isEnteredOrLeft(route, v)) {
            double leftS = 150 - t.latestS() + 1e-3;
            Left left = new Left(leftS, null, null, 3.6e6 - t.latestS());
            ReplanRequest r =
                new ReplanRequest(q, p.xM(), p.yM(), left, List.of(), true, Quantity.TIME_S);
            try (Workers workers = new Workers(2)) {
              byte state = ReplanSolver.solve(r, ground, walk, workers, Progress.NONE).state();
              assertEquals(ReachState.SURELY, state, home + " " + i + " vertex " + v);
            }
            asked++;
          }
        }
      }
    }
    assertTrue(asked > 15, asked + " asked");
  }

  /** False at a corner of cells that belongs to one which the line does not cross. */
  private static boolean isEnteredOrLeft(CorridorResult route, int v) {
    ProfilePoint p = route.centreline().get(v);
    ProfilePoint q = route.centreline().get(Math.max(0, v - 1));
    ProfilePoint r = route.centreline().get(Math.min(route.centreline().size() - 1, v + 1));
    int cell = SPEC.cellOf(p.xM(), p.yM());
    return cell == SPEC.cellOf((p.xM() + q.xM()) / 2, (p.yM() + q.yM()) / 2)
        || cell == SPEC.cellOf((p.xM() + r.xM()) / 2, (p.yM() + r.yM()) / 2);
  }

  /**
   * The way home that is told keeps every limit until the turn-back time that is told beside it:
   * what is spare on arrival covers the wait until then, at the load of the waiting vehicle. By
   * drive-back nothing else sets that time, so that some amount is used up.
   */
  @Test
  void theWayHomeToldKeepsEveryLimitUntilTheTurnBackTime() {
    int told = 0;
    int slower = 0;
    for (int i = 0; i < 10; i++) {
      TraversalCost field = FrontTest.rough(SPEC, 700 + i);
      double hotelW = field.table(0).hotelW();
      TraversalInput ground =
          Fields.ground(
              field,
              FloatGrid.empty(SPEC),
              Fields.cart(2, hotelW, null, VehicleParts.crew(1, 2, 1e3)));
      CorridorResult route;
      try {
        route = route(ground, Questions.stop("b", 0, 0), new Stop("p", 20 - 4 * i, 18, 3));
      } catch (RuntimeException cutOff) {
        continue;
      }
      double usedJ = route.visits().get(1).energyJ();
      Budget budget = new Budget(500.0, 2.6 * usedJ, null);
      for (HomeRule rule : new HomeRule[] {HomeRule.DRIVE_BACK, HomeRule.PAIR}) {
        HomeAlong h = along(route, question(rule, budget, TENTH), ground.withLoaded(field), null);
        for (int v = 0; v < h.at().size(); v++) {
          Turn t = h.at().get(v);
          if (t.way() == null) {
            assertTrue(!t.sure() || t.atBase(), "vertex " + v);
            continue;
          }
          double waitS = t.latestS() - route.centreline().get(v).timeS();
          double least = Double.POSITIVE_INFINITY;
          for (Amount a : t.way().home().amounts()) {
            double kept = a.spare() - waitS * (a.of() == Consumable.ENERGY ? hotelW : 1);
            double whole = a.now() - a.spare() + a.needed();
            assertTrue(kept >= -1e-6 * Math.abs(whole), rule + " " + v + ": " + a + ", " + waitS);
            least = Math.min(least, kept / Math.abs(whole));
          }
          assertEquals(0, least, 1e-4, "seed " + i + ", vertex " + v);
          slower += t.end().equals("energy budget") ? 1 : 0;
          told++;
          var line = t.way().line();
          assertEquals(
              0,
              SPEC.cellOf(line.get(line.size() - 1).xM(), line.get(line.size() - 1).yM())
                  - SPEC.cellOf(0, 0));
        }
      }
    }
    assertTrue(told > 200 && slower > 50, told + " told, " + slower + " by energy");
  }

  /** 1 m/s on foot: after a stop at x everybody is home in x seconds, by the drive in x / 2. */
  @Test
  void afterAStopItTakesTheTimeOfTheRule() {
    CorridorResult route = route(lane(), Questions.stop("b", 0, 0), Questions.stop("far", 40, 0));
    WalkHome walk = Questions.walkHome(Fields.level(LANE, (x, y) -> 1), 60, 0, List.of());
    Budget budget = new Budget(2000.0, null, null);
    Rescue rescue = new Rescue(11, 7, 5, 0);
    for (HomeRule rule : HomeRule.values()) {
      if (rule == HomeRule.NONE) {
        continue;
      }
      ReachRequest q =
          new ReachRequest(
              "q", "b", 0, 0, budget, rule, List.of(), 0, rescue, Reserves.NONE, false);
      HomeAlong h = along(route, q, lane().withLoaded(lane().field()), walk);
      assertEquals(List.of(Consumable.TIME, Consumable.LIFE_SUPPORT), h.limited());
      for (int v = 0; v < h.at().size(); v++) {
        double x = route.centreline().get(v).xM();
        Turn t = h.at().get(v);
        assertEquals(x <= 0.5, t.atBase(), "x " + x);
        if (!t.atBase()) {
          double afterS =
              switch (rule) {
                case DRIVE_BACK -> x / 2;
                case WALK_BACK -> x;
                case PAIR -> rescue.transferS() + x / 2;
                case BASE_RESCUE -> rescue.alarmS() + x / 2 + rescue.loadS() + x / 2;
                case NONE -> Double.NaN;
              };
          assertEquals(afterS, t.way().stoppedS(), 0.5 + 1e-3, rule + " from " + x);
        }
      }
    }
  }
}

package org.scarpway.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntFunction;
import org.junit.jupiter.api.Test;
import org.scarpway.audit.HomeRule.Need;
import org.scarpway.audit.HomeRule.Part;
import org.scarpway.audit.HomeRule.Peak;
import org.scarpway.audit.HomeRule.Proof;
import org.scarpway.audit.HomeRule.TwoCrews;
import org.scarpway.audit.HomeRule.Used;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * A level road of cells of 2 m in the second of three rows: 800 m out at 2 m/s for 100 J/m and 50 W
 * (400 s, 100 000 J), 30 s there and 20 s to change vehicles at 50 W, home at 1 m/s for 150 J/m and
 * 50 W (800 s, 160 000 J). All expected values by hand.
 */
class TripAuditByHandTest {
  private static final double NONE = Double.POSITIVE_INFINITY;
  private static final int COLS = 501;
  private static final GridSpec SPEC = new GridSpec(3, COLS, 2, 2, 100, 906, "");

  private static final double TRIP_S = 1250;
  private static final double TRIP_J = 262_500;
  private static final double TRIP_M = 1600;

  // Two cells of 400 each way: a share of 0.005.
  private static final double SLACK_S = 6;
  private static final double SLACK_J = 1300;
  private static final double SLACK_M = 8;

  private static TraversalCost road(double speedMs, double jPerM, int shutCol) {
    int n = SPEC.cells();
    int[] allowed = new int[n];
    Arrays.fill(allowed, COLS, 2 * COLS, -1);
    if (shutCol >= 0) {
      allowed[COLS + shutCol] = 0;
    }
    double[] speed = {speedMs, speedMs};
    double[] traction = {jPerM, jPerM};
    GradeTable table = new GradeTable(-1, 1, speed, traction, 50, 0);
    return new TraversalCost(SPEC, allowed, new float[n], new float[n], null, null, table);
  }

  private static Way way(int from, int to) {
    return new Way(new double[] {1, 1}, new double[] {from, to}, null);
  }

  private static Trip trip(int shutOut, int shutHome) {
    Floats level = Floats.of(new float[SPEC.cells()]);
    TraversalCost out = road(2, 100, shutOut);
    TraversalCost home = road(1, 150, shutHome);
    return new Trip("there", way(0, 400), 30, 20, way(400, 0), out, home, level);
  }

  private static Limits limits(
      double timeS, double lifeS, double j, double m, double footS, double comesS) {
    return new Limits(
        new Limit("time", timeS, timeS),
        new Limit("life support", lifeS, lifeS),
        new Limit("energy", j, j),
        new Limit("distance", m, m),
        new Limit("walk", footS, footS),
        new Limit("rescuer", comesS, comesS),
        50);
  }

  private static Limits only(int which, double amount) {
    double[] a = {NONE, NONE, NONE, NONE, NONE, NONE};
    a[which] = amount;
    return limits(a[0], a[1], a[2], a[3], a[4], a[5]);
  }

  private static HomeRule rule(IntFunction<List<Need>> out, List<Proof> proofs) {
    return new HomeRule() {
      @Override
      public List<Need> at(int cell, double usedJ, boolean onTheWayHome) {
        return onTheWayHome ? List.of(Need.NOTHING) : out.apply(cell - COLS);
      }

      @Override
      public List<Proof> proofs(int cell, boolean onTheWayHome, Used used) {
        return proofs;
      }
    };
  }

  /** Half a percent and two cells of each way are let pass, and no more. */
  @Test
  void whatIsLetPassIsRoundingAlone() {
    double[] used = {TRIP_S, TRIP_S, TRIP_J, TRIP_M};
    double[] slack = {SLACK_S, SLACK_S, SLACK_J, SLACK_M};
    for (int i = 0; i < 4; i++) {
      double least = (used[i] - slack[i]) / 1.005;
      Finding f = TripAudit.of(trip(-1, -1), only(i, least * (1 + 1e-7)), HomeRule.none());
      assertTrue(f.holds(), f.broken());
      assertEquals(TRIP_S, f.timeS(), 1e-6);
      assertEquals(TRIP_J, f.energyJ(), 1e-3);
      assertEquals(TRIP_M, f.distanceM(), 1e-6);
      assertEquals(901, f.xM());
      assertEquals(903, f.yM());
      assertEquals(100 * (least - used[i]) / least, f.leftPct(), 1e-4);
      assertFalse(TripAudit.of(trip(-1, -1), only(i, least * (1 - 1e-7)), HomeRule.none()).holds());
    }
    Finding f = TripAudit.of(trip(-1, -1), only(0, 1001), HomeRule.none());
    // The first moment beyond 1001 x 1.005 + 6 s: 563 s on the way home, on leaving cell 119.
    assertEquals(
        "time: 1013.00 needed by the end of the way home, 1001.00 may be planned"
            + " (home, 1013 s after the start, at x 339.0 y 903.0)",
        f.broken());
  }

  /** A tenth of all is kept: what is left counts of all, what is broken of the plan. */
  @Test
  void aReserveIsLeft() {
    Limit time = new Limit("time", 1500, 1350);
    Limit none = new Limit("", NONE, NONE);
    Finding f =
        TripAudit.of(
            trip(-1, -1), new Limits(time, none, none, none, none, none, 50), HomeRule.none());
    assertTrue(f.holds());
    assertEquals(100 * 250 / 1500.0, f.leftPct(), 1e-9);
    Limit less = new Limit("time", 1500, 1230);
    f =
        TripAudit.of(
            trip(-1, -1), new Limits(less, none, none, none, none, none, 50), HomeRule.none());
    assertFalse(f.holds());
  }

  /** One need in one cell, left after 150.5 s, 37 625 J and 301 m. */
  @Test
  void eachNeedIsHeldAgainstItsOwnLimit() {
    Object[][] cases = {
      {0, 2000.0, new Need(1500, 0, 0, 0, 0, 0), 1650.5, "time"},
      {1, 2000.0, new Need(0, 1500, 0, 0, 0, 0), 1650.5, "life support"},
      {2, 400_000.0, new Need(0, 0, 300_000, 0, 0, 0), 337_625.0, "energy"},
      {3, 4000.0, new Need(0, 0, 0, 3000, 0, 0), 3301.0, "distance"},
      {4, 4000.0, new Need(0, 0, 0, 0, 3000, 0), 3000.0, "walk"},
      {5, 4000.0, new Need(0, 0, 0, 0, 0, 3000), 3000.0, "rescuer"},
    };
    for (Object[] c : cases) {
      int which = (int) c[0];
      double given = (double) c[1];
      Need need = (Need) c[2];
      double used = (double) c[3];
      HomeRule rule = rule(x -> List.of(x == 150 ? need : Need.NOTHING), List.of());
      Finding f = TripAudit.of(trip(-1, -1), only(which, given), rule);
      assertTrue(f.holds(), f.broken());
      assertEquals(100 * (given - used) / given, f.leftPct(), 1e-9, need.toString());
      assertEquals(c[4], f.leftOf());
      assertEquals(150.5, f.leftAtS(), 1e-9);
      assertEquals(401, f.leftXM());
      assertEquals(903, f.leftYM());
      assertEquals("out", f.phase());
      Finding less = TripAudit.of(trip(-1, -1), only(which, used * 0.98), rule);
      boolean asWell = which > 1 && which < 4 && used < 1.1 * (which == 2 ? TRIP_J : TRIP_M);
      assertFalse(less.holds());
      assertTrue(asWell || less.broken().contains("(out, 1"), less.broken());
    }
  }

  private static Finding waysHome(Need... needs) {
    Limits limits =
        new Limits(
            new Limit("time", 10_000, 9000),
            new Limit("life support", NONE, NONE),
            new Limit("energy", 1e6, 1e6),
            new Limit("distance", NONE, NONE),
            new Limit("walk", NONE, NONE),
            new Limit("rescuer", NONE, NONE),
            50);
    HomeRule rule = rule(x -> x == 150 ? List.of(needs) : List.of(Need.NOTHING), List.of());
    return TripAudit.of(trip(-1, -1), limits, rule);
  }

  /** One that breaks nothing, else the one that leaves the most. */
  @Test
  void ofSeveralWaysHomeTheBestCounts() {
    Need easy = new Need(2000 - 150.5, 0, 0, 0, 0, 0);
    Need fair = new Need(8500 - 150.5, 0, 0, 0, 0, 0);
    Need tight = new Need(0, 0, 950_000 - 37_625, 0, 0, 0);
    Need late = new Need(9200 - 150.5, 0, 0, 0, 0, 0);
    Need later = new Need(9900 - 150.5, 0, 0, 0, 0, 0);
    Object[][] cases = {
      // Two ways home, what is left (%), whether all holds; 262 500 J leave 73.75 %.
      {easy, fair, 73.75, true}, {fair, later, 15.0, true}, {fair, tight, 15.0, true},
      {tight, late, 5.0, true}, {tight, later, 5.0, true}, {late, later, 8.0, false},
    };
    for (Object[] c : cases) {
      for (int order = 0; order < 2; order++) {
        Finding f = waysHome((Need) c[order], (Need) c[1 - order]);
        assertEquals((double) c[2], f.leftPct(), 1e-6, Arrays.toString(c));
        assertEquals(c[3], f.holds(), Arrays.toString(c) + f.broken());
      }
    }
  }

  private static Finding proved(Way way, TraversalCost field, double saidS, double mostJ) {
    return proved(way, field, saidS, mostJ, NONE, null);
  }

  private static Finding proved(
      Way way, TraversalCost field, double saidS, double mostJ, double mostM, Peak peak) {
    Part walk = new Part(0, 0, way, field, Floats.of(new float[SPEC.cells()]));
    Proof proof = Proof.walk(walk, saidS, mostJ, mostM, peak);
    return TripAudit.of(
        trip(-1, -1),
        only(0, 1e6),
        rule(x -> List.of(x == 50 ? new Need(5000, 0, 0, 0, 0, 0) : Need.NOTHING), List.of(proof)));
  }

  /**
   * 100 m, 50 cells, at 0.5 m/s for 80 J/m and 50 W: 200 s and 18 000 J; two cells are a share of
   * 0.04.
   */
  @Test
  void whatANeedRestsOnIsDriven() {
    TraversalCost slow = road(0.5, 80, -1);
    Way way = way(50, 0);
    double saidS = (200 - 8) / 1.005;
    double mostJ = (18_000 - 720) / 1.005;
    assertTrue(proved(way, slow, 1.0000001 * saidS, 1.0000001 * mostJ).holds());
    assertTrue(proved(way, slow, 300, NONE).holds());
    Finding late = proved(way, slow, 0.9999999 * saidS, NONE);
    assertTrue(late.broken().startsWith("the walk home takes 200.0 s, not 191.0 s"), late.broken());
    assertTrue(late.broken().contains("x 201.0 y 903.0"), late.broken());
    Finding dear = proved(way, slow, 300, 0.9999999 * mostJ);
    assertTrue(dear.broken().startsWith("the walk home takes 18000 J of 17194 J"), dear.broken());
    Finding shut = proved(way, road(0.5, 80, 20), 1e9, NONE);
    assertTrue(shut.broken().startsWith("the walk home: ") && shut.broken().contains("x 141.0"));
  }

  /** 100 m at 0.5 m/s; from column 20 on it is walked above the sustained rate. */
  @Test
  void lengthAndPeakOfAWalkAreHeld() {
    TraversalCost slow = road(0.5, 80, -1);
    Way way = way(50, 0);
    int n = SPEC.cells();
    int[] allowed = new int[n];
    Arrays.fill(allowed, COLS, 2 * COLS, -1);
    double[] speed = {0.5, 0.5};
    GradeTable never = new GradeTable(-1, 1, speed, new double[] {0, 0}, 0, 0);
    GradeTable above = new GradeTable(-1, 1, speed, new double[] {2, 2}, 0, 0);
    byte[] ground = new byte[n];
    Arrays.fill(ground, COLS + 20, 2 * COLS, (byte) 1);
    TraversalCost seconds =
        new TraversalCost(SPEC, allowed, new float[n], new float[n], null, null, never)
            .withTables(Bytes.of(ground), never, above);
    // 30.5 cells of 2 m from the middle of column 50 to the border of column 20: 122 s.
    double mostM = (100 - 4) / 1.005;
    double peakS = (122 - 8) / 1.005;
    for (int side = -1; side <= 1; side += 2) {
      double by = 1 + side * 1e-7;
      Finding far = proved(way, slow, 300, NONE, by * mostM, null);
      assertEquals(side > 0, far.holds(), far.broken());
      assertTrue(side > 0 || far.broken().startsWith("the walk home takes 100 m of 96 m"));
      Finding hard = proved(way, slow, 300, NONE, NONE, new Peak(seconds, by * peakS));
      assertEquals(side > 0, hard.holds(), hard.broken());
      assertTrue(
          side > 0
              || hard.broken()
                  .startsWith("the walk home takes 122.0 s above the sustained rate, not 113.4 s"),
          hard.broken());
    }
  }

  private static Finding rescued(
      double mostS, double mostJ, double mostM, double mostWaitS, double mostLivedS) {
    TraversalCost slow = road(0.5, 80, -1);
    Floats level = Floats.of(new float[SPEC.cells()]);
    List<Part> parts =
        List.of(
            new Part(30, 600, way(0, 50), slow, level),
            new Part(20, 1000, way(50, 0), slow, level));
    Used before = new Used(100, 5000, 70);
    Proof late = new Proof("the late one", parts, before, 1, NONE, NONE, NONE);
    TwoCrews lives = new TwoCrews(25, mostLivedS);
    Proof proof =
        new Proof("the rescue", parts, before, mostS, mostJ, mostM, mostWaitS, null, lives);
    boolean one = mostS < NONE;
    return TripAudit.of(
        trip(-1, -1),
        only(0, 1e6),
        rule(
            x -> List.of(x == 50 ? new Need(5000, 0, 0, 0, 0, 0) : Need.NOTHING),
            one ? List.of(proof) : List.of(late, proof)));
  }

  /**
   * Out and home at 200 s and 18 000 J each after 30 s and 600 J, and 20 s and 1000 J, with what
   * was used before: 550 s, 42 600 J and 270 m, the way home begins after 250 s. It sets out after
   * 25 s and comes after 230 s: 205 s of one crew and 220 s of two are 645 s. Two cells are a share
   * of 0.04 of each way, the last of which counts twice here.
   */
  @Test
  void aRescuerIsDrivenOutAndHome() {
    double[] most = {
      (550 - 16) / 1.005,
      (42_600 - 1440) / 1.005,
      (270 - 8) / 1.005,
      (250 - 8) / 1.005,
      (645 - 24) / 1.005
    };
    String[] told = {
      "takes 450.0 s",
      "takes 42600 J",
      "takes 270 m",
      "begins after 250.0 s",
      "uses up 645.0 s of the life support of the vehicle that comes, not 617.9 s"
    };
    for (int i = 0; i < most.length; i++) {
      for (int side = -1; side <= 1; side += 2) {
        double[] m = {1e9, NONE, NONE, NONE, NONE};
        m[i] = most[i] * (1 + side * 1e-9);
        Finding f = rescued(m[0], m[1], m[2], m[3], m[4]);
        assertEquals(side > 0, f.holds(), told[i] + ": " + f.broken());
        assertTrue(side > 0 || f.broken().startsWith("the rescue " + told[i]), f.broken());
        assertEquals(side > 0, f.waysHome() > 0, told[i]);
      }
    }
    // Of several one is enough.
    assertTrue(rescued(NONE, NONE, NONE, NONE, NONE).holds());
  }

  private static List<String> asked(Need everywhere, Limits limits) {
    List<String> asked = new ArrayList<>();
    HomeRule rule =
        new HomeRule() {
          @Override
          public List<Need> at(int cell, double usedJ, boolean onTheWayHome) {
            return List.of(everywhere);
          }

          @Override
          public List<Proof> proofs(int cell, boolean onTheWayHome, Used used) {
            asked.add(cell % COLS + (onTheWayHome ? " home" : " out"));
            return List.of();
          }
        };
    Finding f = TripAudit.of(trip(-1, -1), limits, rule);
    assertTrue(f.holds());
    if (limits.onFoot().isNone() && limits.time().isNone()) {
      assertTrue(Double.isNaN(f.leftXM()) && Double.isNaN(f.leftYM()) && f.phase().isEmpty());
    }
    return asked;
  }

  /** What leaves the least and what takes the longest are proved, each at its first moment. */
  @Test
  void theWorstMomentsAreProved() {
    Need foot = new Need(0, 0, 0, 0, 100, 0);
    assertEquals(List.of("0 home", "0 out"), asked(foot, only(0, 5000)));
    assertEquals(List.of("0 out", "0 out"), asked(foot, only(4, 500)));
    assertEquals(List.of("0 out"), asked(foot, only(0, NONE)));
    assertEquals(List.of("0 home"), asked(Need.NOTHING, only(0, 5000)));
    assertEquals(List.of(), asked(Need.NOTHING, only(0, NONE)));
    // Also where a vehicle that comes uses up the most of its own.
    Need comes = new Need(0, 0, 0, 0, 0, 100);
    assertEquals(List.of("0 home", "0 out"), asked(comes, only(0, 5000)));
  }

  /** The first cell of all is a place like any other. */
  @Test
  void aTripMayBeginInTheFirstCell() {
    int n = SPEC.cells();
    int[] allowed = new int[n];
    Arrays.fill(allowed, -1);
    GradeTable table = new GradeTable(-1, 1, new double[] {2, 2}, new double[] {100, 100}, 50, 0);
    TraversalCost field =
        new TraversalCost(SPEC, allowed, new float[n], new float[n], null, null, table);
    Way way = new Way(new double[] {0, 0}, new double[] {0, 400}, null);
    Floats level = Floats.of(new float[n]);
    Trip trip = new Trip("", way, 0, 0, null, field, field, level);
    Need foot = new Need(0, 0, 0, 0, 100, 0);
    List<Integer> asked = new ArrayList<>();
    HomeRule rule =
        new HomeRule() {
          @Override
          public List<Need> at(int cell, double usedJ, boolean onTheWayHome) {
            return List.of(foot);
          }

          @Override
          public List<Proof> proofs(int cell, boolean onTheWayHome, Used used) {
            asked.add(cell);
            return List.of();
          }
        };
    Finding f = TripAudit.of(trip, only(4, 500), rule);
    assertEquals(101, f.leftXM());
    assertEquals(905, f.leftYM());
    assertEquals(List.of(0, 0), asked);
  }

  /** Of a trip that nobody comes home from the end of the stay is the last moment. */
  @Test
  void theStayIsHeldAtItsEnd() {
    Trip there = trip(-1, -1);
    Trip stay =
        new Trip(
            "", there.out(), 30, 20, null, there.outField(), there.homeField(), there.heightM());
    Finding f = TripAudit.of(stay, limits(1000, 1000, NONE, NONE, NONE, NONE), HomeRule.none());
    assertEquals(430, f.leftAtS(), 1e-9);
    assertEquals(57, f.leftPct(), 1e-9);
    // Of two that leave the same the first is told.
    assertEquals("time", f.leftOf());
    assertEquals("stay", f.phase());
    assertEquals(901, f.leftXM());
    assertEquals(101_500, f.energyJ(), 1e-6);
  }

  /** A drive over closed ground ends there, out as well as home. */
  @Test
  void whatIsBarredEndsTheTrip() {
    Finding out = TripAudit.of(trip(250, -1), only(0, 1e6), HomeRule.none());
    assertTrue(
        out.broken().contains("(out, ") && out.broken().contains("at x 601.0 y 903.0)"),
        out.broken());
    assertEquals(249.5, out.timeS(), 1e-9);
    Finding home = TripAudit.of(trip(-1, 250), only(0, 1e6), HomeRule.none());
    assertTrue(
        home.broken().contains("(home, 749 s after the start, at x 601.0 y 903.0)"), home.broken());
    assertEquals(450 + 299, home.timeS(), 1e-9);
  }
}

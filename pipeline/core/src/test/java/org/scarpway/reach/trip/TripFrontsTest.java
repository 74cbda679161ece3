package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Band;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * Fronts and ways on a lane of cells of 10 m, by hand: 5 s and 1200 J a cell out, 10 s and 2400 J
 * home, 3000 J for a metre of height, the base at the western end.
 */
class TripFrontsTest {
  private static final double NONE = Double.POSITIVE_INFINITY;
  private static final int N = 121;
  private static final GridSpec LANE = Fields.grid(1, N, 10, -5, -5);

  private final float[] heightM = new float[N];
  private final List<Band> bands = new ArrayList<>();
  private double timeS = NONE;
  private double energyJ = NONE;
  private double distanceM = NONE;
  private double hotelW = 40;
  private boolean hasEnergy = true;
  private boolean beyond = true;
  private float[] stopS;
  private double[] stays = {0, 0};
  private final Told told = new Told();

  /** What is told as progress. */
  private static final class Told implements Progress {
    private final List<String> begun = new ArrayList<>();
    private long cells;
    private int ended;

    @Override
    public void begin(String what, long total) {
      begun.add(what.replace(" of reach 'r'", ""));
      cells = total;
    }

    @Override
    public void advance(long done) {}

    @Override
    public void end() {
      ended++;
    }
  }

  private void told(int ended, String... works) {
    assertEquals(List.of(works), told.begun);
    assertEquals(ended, told.ended);
    told.begun.clear();
    told.ended = 0;
  }

  private static TraversalCost lane(double speedMs, double jPerM) {
    int[] allowed = new int[N];
    float[] cap = new float[N];
    Arrays.fill(allowed, -1);
    Arrays.fill(cap, (float) speedMs);
    GradeTable table =
        new GradeTable(-1, 1, new double[] {1e9, 1e9}, new double[] {jPerM, jPerM}, 40, 3000);
    return new TraversalCost(LANE, allowed, new float[N], new float[N], cap, null, table);
  }

  private TripFronts solved(HomeRule home) {
    return solved(home, lane(2, 100), lane(1, 200));
  }

  private TripFronts solved(HomeRule home, TraversalCost outField, TraversalCost homeField) {
    Budget budget = new Budget(null, null, null, null);
    ReachRequest request =
        new ReachRequest(
            "r",
            "b",
            0,
            0,
            budget,
            home,
            bands,
            0,
            new Rescue(0, 12, 0, 0),
            Reserves.NONE,
            0,
            beyond);
    ReachLimits limits =
        new ReachLimits(
            home, timeS, energyJ, distanceM, NONE, hotelW, new Rescue(0, 12, 0, 0), Reserves.NONE);
    Stops stops =
        stopS == null ? Stops.none(limits) : new Stops(limits, Floats.of(stopS), null, List.of());
    try (Workers workers = new Workers(1)) {
      return new TripFronts(
          request,
          limits,
          outField,
          homeField,
          hasEnergy,
          Floats.of(heightM),
          0,
          stays,
          stops,
          workers,
          told);
    }
  }

  @Test
  void leastAmountsAreOfEachWayByItself() {
    for (int c = 0; c < N; c++) {
      heightM[c] = 3 + 0.25f * c;
    }
    energyJ = 1e9;
    distanceM = 1e9;
    bands.add(new Band("100 J", Quantity.ENERGY_J, 100));
    TripFronts both = solved(HomeRule.DRIVE_BACK);
    TripFronts out = solved(HomeRule.NONE);
    for (int c = 0; c < N; c++) {
      double outJ = (1000 + 40 * 5 + 750) * c;
      double homeJ = (2000 + 40 * 10 - 750) * c;
      assertEquals(outJ, both.leastOutJ(c), 1e-3 * outJ + 1e-3);
      assertEquals(outJ, both.leastEnergyJ(c, true), 1e-3 * outJ + 1e-3);
      assertEquals(outJ + homeJ, both.leastEnergyJ(c, false), 1e-3 * outJ + 1e-3);
      assertEquals(20 * c, both.leastDistanceM(c, false), 1e-6 * c);
      assertEquals(10 * c, both.leastDistanceM(c, true), 1e-6 * c);
      assertEquals(outJ, out.leastEnergyJ(c, true), 1e-3 * outJ + 1e-3);
      assertEquals(10 * c, out.leastDistanceM(c, true), 1e-6 * c);
      assertTrue(both.answers(c));
      assertFalse(both.neverInTime(c, 1e9));
    }
    assertEquals(3, both.outWays().size());
    assertEquals(3, both.homeWays().size());
    assertEquals(3, out.outWays().size());
    assertEquals(1, out.homeWays().size());
    assertNull(out.homeWays().get(0));
    assertFalse(both.ended());
    assertNull(both.within());
  }

  /** Energy fronts are left out where the quickest ways settle it, or nothing asks for them. */
  @Test
  void whatNobodyAsksForIsNotKnown() {
    TripFronts plain = solved(HomeRule.DRIVE_BACK);
    assertTrue(Double.isNaN(plain.leastDistanceM(5, false)));
    // The way home is not known then; the way out always is.
    assertEquals(6000, plain.leastEnergyJ(5, false), 6);
    assertEquals(1, plain.outWays().size());
    assertEquals(1, plain.homeWays().size());
    told(1, "ways");
    // Energy and time out, time home.
    assertEquals(3 * N, told.cells);
    energyJ = 1e9;
    assertEquals(1, solved(HomeRule.DRIVE_BACK).homeWays().size());
    // 36 kJ there and back to the tenth cell: further out the quickest ways settle nothing.
    energyJ = 36_000;
    TripFronts tight = solved(HomeRule.DRIVE_BACK);
    assertEquals(18_000, tight.leastEnergyJ(5, false), 20);
    assertEquals(2, tight.outWays().size());
    told(3, "ways", "ways", "least energy");
    bands.add(new Band("100 s", Quantity.TIME_S, 100));
    energyJ = 1e9;
    TripFronts timed = solved(HomeRule.DRIVE_BACK);
    assertEquals(1, timed.homeWays().size());
    assertTrue(Double.isNaN(timed.leastDistanceM(5, false)));
    bands.clear();
    hasEnergy = false;
    TripFronts none = solved(HomeRule.DRIVE_BACK);
    assertTrue(Double.isNaN(none.leastEnergyJ(5, false)));
    assertTrue(Double.isNaN(none.leastEnergyJ(5, true)));
    distanceM = 300;
    assertEquals(2, solved(HomeRule.DRIVE_BACK).homeWays().size());
    distanceM = NONE;
    bands.add(new Band("100 m", Quantity.DISTANCE_M, 100));
    assertEquals(100, solved(HomeRule.DRIVE_BACK).leastDistanceM(5, false), 1e-6);
  }

  /**
   * With the time ending the ground, a way may cost what there is less what the stay takes, and a
   * twentieth more: 200 m, and 36 kJ less 110 s at 40 W, which two crews need not wait out.
   */
  @Test
  void frontsEndWhereAWayAloneTakesTooMuch() {
    beyond = false;
    stays = new double[] {110, 110};
    timeS = 15 * 45 + 110;
    distanceM = 200;
    energyJ = 36_000;
    for (HomeRule home : List.of(HomeRule.DRIVE_BACK, HomeRule.PAIR)) {
      boolean pair = home == HomeRule.PAIR;
      timeS = 15 * 45 + (pair ? 12 : 110);
      for (boolean banded : new boolean[] {true, false}) {
        bands.clear();
        if (banded) {
          bands.add(new Band("100 J", Quantity.ENERGY_J, 100));
        }
        TripFronts s = solved(home);
        assertTrue(s.ended());
        assertTrue(s.answers(45) && !s.answers(100));
        assertTrue(s.within().get(45) && !s.within().get(100));
        for (int c = 0; c < 40; c++) {
          String where = home + ", cell " + c;
          assertEquals(10 * c <= 1.05 * 200 ? 10 * c : NONE, s.leastDistanceM(c, true), 1e-6);
          double mostJ = 1.05 * (36_000 - (pair ? 0 : 40 * 110));
          assertEquals(1200 * c <= mostJ ? 1200 * c : NONE, s.leastEnergyJ(c, true), 2, where);
          double bothJ = 2400 * c <= mostJ ? 3600 * c : NONE;
          assertEquals(bothJ, s.leastEnergyJ(c, false), 5, where);
        }
        assertEquals(3, s.outWays().size());
        assertEquals(3, s.homeWays().size());
      }
    }
    // Nobody has to come home: height may still give back what a way takes.
    timeS = 5 * 25 + 110;
    distanceM = 100;
    energyJ = 6000;
    TripFronts out = solved(HomeRule.NONE);
    assertEquals(200, out.leastDistanceM(20, true), 1e-6);
    assertEquals(24_000, out.leastEnergyJ(20, true), 40);
    assertTrue(out.answers(25) && !out.answers(100));
  }

  /** A stay leaves less ground to answer for; a ride home must do before it. */
  @Test
  void theStayEndsTheGround() {
    beyond = false;
    timeS = 2000;
    stays = new double[] {1800, 1900};
    assertFalse(solved(HomeRule.DRIVE_BACK).answers(60));
    assertEquals(1, solved(HomeRule.DRIVE_BACK).homeWays().size());
    assertTrue(solved(HomeRule.PAIR).answers(60));
  }

  /**
   * From the tenth cell it takes 500 s to walk, elsewhere a second: with 520 s for the trip it is
   * passed after 50 s too late, and 30 s are not too late.
   */
  @Test
  void beyondAPlaceFromWhichItTakesTooLongNobodyIsInTime() {
    stopS = new float[N];
    Arrays.fill(stopS, 1);
    stopS[10] = 500;
    timeS = 520;
    TripFronts s = solved(HomeRule.WALK_BACK);
    for (int c = 0; c < 10; c++) {
      assertFalse(s.neverInTime(c, 0), "cell " + c);
      assertFalse(s.neverInTime(c, 519 - 5 * c - 1e-3), "cell " + c);
      assertTrue(s.neverInTime(c, 519 - 5 * c + 1e-3), "cell " + c);
    }
    for (int c = 10; c < 30; c++) {
      assertTrue(s.neverInTime(c, 0), "cell " + c);
    }
    assertEquals(2, s.outWays().size());
    assertEquals(500, s.stopS(10));
    told(2, "ways", "ways in time");
    assertEquals(N, told.cells);
    timeS = 1e6;
    TripFronts wide = solved(HomeRule.WALK_BACK);
    assertFalse(wide.neverInTime(30, 0));
    assertEquals(1, wide.outWays().size());
    assertEquals(1, wide.homeWays().size());
  }

  /**
   * A stop in any of three cells asks for 400 s. On the way out they are left after 62.5 s at the
   * latest; on the way home the first of them must be reached 120 s after the start.
   */
  @Test
  void onTheWayHomeAPlaceMayComeTooLate() {
    stopS = new float[N];
    Arrays.fill(stopS, 1);
    Arrays.fill(stopS, 10, 13, 400);
    timeS = 520;
    stays = new double[] {0, 60};
    TripFronts s = solved(HomeRule.WALK_BACK);
    assertEquals(2, s.homeWays().size());
    for (int c = 10; c < 20; c++) {
      double leftS = 520 - 5 * c - 10 * (c - 10) - 400;
      if (leftS > 0.1) {
        assertFalse(s.neverInTime(c, leftS - 0.1), "cell " + c);
      }
      // A step over two cells may leave out what is asked for between.
      assertTrue(s.neverInTime(c, Math.max(0, leftS + 20.1)), "cell " + c);
    }
    assertFalse(s.neverInTime(9, 300));
    told(2, "ways", "ways home in time");
    // Whoever stays for 100 s at least cannot be beyond the ninth cell at all.
    Arrays.fill(stopS, 10, N, 400);
    stays = new double[] {100, 100};
    assertEquals(1, solved(HomeRule.WALK_BACK).homeWays().size());
    Arrays.fill(stopS, 13, N, 1);
    stays = new double[] {0, 60};
    timeS = 1e5;
    assertEquals(1, solved(HomeRule.WALK_BACK).homeWays().size());
    stays = new double[] {0, 99_900};
    assertEquals(2, solved(HomeRule.WALK_BACK).homeWays().size());
  }

  /** Rides are the ways home of the loaded vehicle, the cheapest among them where they count. */
  @Test
  void aPairRidesHomeAfterTheChange() {
    energyJ = 36_000;
    timeS = 1000;
    TripFronts s = solved(HomeRule.PAIR);
    assertTrue(s.stops().asked());
    assertEquals(2, s.stops().rides().size());
    for (int c = 0; c < 20; c++) {
      assertEquals(12 + 10 * c, s.stops().homeS().get(c), 1e-3);
      // 12 s at 40 W, 1200 J a cell out, 2400 J home.
      boolean holds = 480 + 3600 * c <= 36_000;
      assertEquals(!holds, s.outWays().get(0).broken(c), "cell " + c);
    }
    energyJ = NONE;
    assertEquals(1, solved(HomeRule.PAIR).stops().rides().size());
  }

  /**
   * Eleven by eleven cells, the base in the north-western corner: a lane along the northern edge,
   * and another that leaves it there for the south and comes back to it in a given column.
   */
  private static TraversalCost ring(int back, double alongMs, double roundMs, double jPerM) {
    int side = 11;
    int[] allowed = new int[N];
    float[] cap = new float[N];
    for (int c = 0; c < N; c++) {
      int row = c / side;
      int col = c % side;
      boolean round = row > 0 && row <= 6 && (col == 0 || col == back || (row == 6 && col < back));
      allowed[c] = row == 0 || round ? -1 : 0;
      cap[c] = (float) (round ? roundMs : alongMs);
    }
    GradeTable table =
        new GradeTable(-1, 1, new double[] {1e9, 1e9}, new double[] {jPerM, jPerM}, 40, 3000);
    GridSpec spec = Fields.grid(side, side, 10, -5, -5);
    return new TraversalCost(spec, allowed, new float[N], new float[N], cap, null, table);
  }

  /**
   * From the second cell of the straight lane nobody gets home in time. The way round it comes back
   * after 15 cells or more; the sixth and seventh cell of the straight lane are then come to after
   * 75 s or more, by the straight lane after 30 s. They let nobody pass who comes after 50 s, so
   * nobody is in time beyond them, from wherever it takes a second to get home; those who may come
   * until 200 s after the start are.
   */
  @Test
  void beyondAPlaceThatTheWayInTimeComesTooLateToNobodyIsInTime() {
    stopS = new float[N];
    timeS = 520;
    TraversalCost field = ring(4, 2, 2, 100);
    // Home they go on eastward and then round by the south.
    TraversalCost onward = ring(10, 2, 2, 100);
    for (double untilS : new double[] {50, 200}) {
      Arrays.fill(stopS, 1);
      stopS[2] = 1000;
      Arrays.fill(stopS, 6, 8, (float) (timeS - untilS));
      TripFronts s = solved(HomeRule.WALK_BACK, field, onward);
      assertFalse(s.neverInTime(0, 0));
      for (int c = 6; c < 11; c++) {
        assertEquals(untilS < 75, s.neverInTime(c, 0), "until " + untilS + ", cell " + c);
      }
    }
  }

  /**
   * From the eighth cell of the straight lane the other vehicle is home in 320 s by that lane, for
   * 2000 J/m and 40 W 172.8 kJ, and by the lane round in the south in less than 250 s for more than
   * 300 kJ: that is the quickest ride and takes too much, the other is as good until it does, too.
   */
  @Test
  void aPairMayRideHomeByTheCheapestWay() {
    timeS = 10_000;
    TraversalCost field = ring(8, 2, 2, 100);
    TraversalCost loaded = ring(8, 0.25, 1, 2000);
    // 80 m at 120 J/m and 12 s at 40 W before it.
    double beforeJ = 80 * 120 + 480;
    for (double sideJ : new double[] {-3000, 3000}) {
      energyJ = beforeJ + 172_800 + sideJ;
      TripFronts s = solved(HomeRule.PAIR, field, loaded);
      assertEquals(2, s.homeWays().size());
      assertTrue(s.homeWays().get(0).timeS(8) < 250);
      assertTrue(s.homeWays().get(0).energyJ(8) > 300_000);
      assertEquals(172_800, s.homeWays().get(1).energyJ(8), 100);
      for (int c = 1; c <= 8; c++) {
        assertEquals(c == 8 && sideJ < 0, s.outWays().get(0).broken(c), sideJ + ", cell " + c);
      }
    }
  }
}

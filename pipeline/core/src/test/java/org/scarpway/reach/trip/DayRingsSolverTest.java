package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.front.StartCell;
import org.scarpway.reach.question.DayRings;
import org.scarpway.reach.question.DayRingsRequest;
import org.scarpway.reach.question.DayRingsRequest.Camp;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.Rescue;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/** Relations that hold of rings by day whatever the ground, over seeded rough ground. */
class DayRingsSolverTest {
  private static final GridSpec SPEC = Fields.grid(81, 81, 1, -40.5, -40.5);
  private static final double NONE = Double.POSITIVE_INFINITY;

  private static DayRings rings(
      TraversalCost field, int days, double driveS, double lifeS, List<Camp> camps) {
    DayRingsRequest request =
        new DayRingsRequest(
            "r",
            "b",
            0,
            0,
            days,
            driveS,
            NONE,
            0,
            lifeS,
            HomeRule.DRIVE_BACK,
            new Rescue(0, 0, 0, 0),
            camps);
    try (Workers workers = new Workers(2)) {
      var ground = Fields.ground(field, FloatGrid.empty(SPEC));
      RingsAnswer answer =
          camps == null
              ? DayRingsSolver.answer(request, ground, null, workers, Progress.NONE)
              : CampRingsSolver.answer(request, ground, null, workers, Progress.NONE);
      return answer.rows(0, SPEC.rows());
    }
  }

  /** Nights anywhere: out and home take no more than all days, and the day follows from the way. */
  @Test
  void nightsAnywhereOnlyCutTheDrive() {
    Random random = new Random(3);
    for (int round = 0; round < 6; round++) {
      TraversalCost field = FrontTest.rough(SPEC, 100 + round);
      int days = 1 + random.nextInt(5);
      double driveS = 10 + 20 * random.nextDouble();
      DayRings r = rings(field, days, driveS, NONE, null);
      double[] outS = Fields.timesOut(field, 0, 0);
      double[] homeS = Fields.timesHome(field, 0, 0);
      int in = 0;
      for (int i = 0; i < SPEC.cells(); i++) {
        double wholeS = outS[i] + homeS[i];
        boolean surely = DayRings.surely(r.state().values()[i]);
        // Labels are compared with sums along ways, the same but for the error of the scheme.
        if (Math.abs(wholeS - days * driveS) > 0.03 * days * driveS) {
          assertEquals(wholeS < days * driveS, surely, "cell " + i);
        }
        double ofDay = outS[i] / driveS % 1;
        if (surely && ofDay > 0.1 && ofDay < 0.9) {
          assertEquals((int) Math.ceil(outS[i] / driveS), r.day().values()[i], "cell " + i);
        }
        in += surely ? 1 : 0;
      }
      assertTrue(in > 20, "too little to tell: " + in);
    }
  }

  /**
   * Battery: what is surely reached can be driven by the clock, full days first, with the load of
   * every night drawn before its charge comes; so can the wait until the last night told. Level
   * ground at 1 m/s and 1 J/m beside the load: out, home, days and amounts in closed form.
   */
  @Test
  void theBatteryHoldsEveryNightBeforeItsCharge() {
    Random random = new Random(17);
    int held = 0;
    int refused = 0;
    for (int round = 0; round < 60; round++) {
      int days = 2 + random.nextInt(3);
      double driveS = 10 + 20 * random.nextDouble();
      double hotelW = 0.01 * random.nextInt(3);
      double loadJ = hotelW * (DayRingsRequest.DAY_S - driveS);
      double chargeJ = loadJ * 1.5 * random.nextDouble();
      double batteryJ = 30 + loadJ * 2 * random.nextDouble();
      DayRings r = batteries(days, driveS, batteryJ, chargeJ, hotelW, HomeRule.DRIVE_BACK);
      for (int i = 0; i < SPEC.cells(); i += 7) {
        if (DayRings.surely(r.state().values()[i])) {
          double x = SPEC.xM(i % SPEC.cols());
          double y = SPEC.yM(i / SPEC.cols());
          // The octagon of ways over cells is no shorter than the straight line.
          double outS = Math.hypot(x, y) * 0.99;
          assertTrue(lasts(outS, 0, driveS, batteryJ, chargeJ, hotelW), "round " + round);
          int last = r.lastNight().values()[i];
          assertTrue(
              last == 0 || lasts(outS, last, driveS, batteryJ, chargeJ, hotelW),
              "round " + round + " night " + last);
          held++;
        }
      }
      refused += batteryJ < loadJ ? 1 : 0;
    }
    assertTrue(held > 1000 && refused > 5, held + " cells, " + refused + " batteries too small");
  }

  /** Nobody is surely fetched after a night that the charge of a broken vehicle must pay for. */
  @Test
  void noChargeIsCountedWhereTheVehicleMayBeBroken() {
    double driveS = 20;
    double hotelW = 0.01;
    double loadJ = hotelW * (DayRingsRequest.DAY_S - driveS);
    DayRings charged =
        batteries(4, driveS, 50 + 1.5 * loadJ, 2 * loadJ, hotelW, HomeRule.BASE_RESCUE);
    DayRings bare = batteries(4, driveS, 50 + 1.5 * loadJ, 0, hotelW, HomeRule.BASE_RESCUE);
    DayRings two = batteries(2, driveS, 50 + 1.5 * loadJ, 2 * loadJ, hotelW, HomeRule.BASE_RESCUE);
    int in = 0;
    for (int i = 0; i < SPEC.cells(); i++) {
      boolean surely = DayRings.surely(charged.state().values()[i]);
      assertEquals(DayRings.surely(bare.state().values()[i]), surely, "cell " + i);
      assertEquals(DayRings.surely(two.state().values()[i]), surely, "cell " + i);
      in += surely ? 1 : 0;
    }
    assertTrue(in > 20, "too little to tell: " + in);
  }

  private static DayRings batteries(
      int days, double driveS, double batteryJ, double chargeJ, double hotelW, HomeRule home) {
    double[] traction = {1, 1};
    int n = SPEC.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    Arrays.fill(allowed, -1);
    Arrays.fill(cap, 1);
    TraversalCost field =
        new TraversalCost(
            SPEC,
            allowed,
            new float[n],
            new float[n],
            cap,
            new byte[n],
            new GradeTable(-1, 1, new double[] {1, 1}, traction, hotelW, 0));
    DayRingsRequest request =
        new DayRingsRequest(
            "r",
            "b",
            0,
            0,
            days,
            driveS,
            batteryJ,
            chargeJ,
            NONE,
            home,
            new Rescue(0, 0, 0, 0),
            null);
    try (Workers workers = new Workers(2)) {
      var ground = Fields.ground(field, FloatGrid.empty(SPEC), Fields.cart(1, hotelW, 1.0, null));
      return DayRingsSolver.answer(request, ground, null, workers, Progress.NONE)
          .rows(0, SPEC.rows());
    }
  }

  /** Drives a trip night by night: out, nights there until the one named, and home. */
  private static boolean lasts(
      double outS, int night, double driveS, double batteryJ, double chargeJ, double hotelW) {
    double drawnJ = 0;
    double toGoS = outS;
    boolean home = false;
    for (int day = 1; day < 100; day++) {
      double leftS = driveS;
      double goS = Math.min(leftS, toGoS);
      leftS -= goS;
      toGoS -= goS;
      if (toGoS == 0 && !home && day > night) {
        home = true;
        toGoS = outS;
        double homeS = Math.min(leftS, toGoS);
        goS += homeS;
        toGoS -= homeS;
      }
      drawnJ += goS * (1 + hotelW);
      if (home && toGoS == 0) {
        return drawnJ <= batteryJ;
      }
      drawnJ += hotelW * (DayRingsRequest.DAY_S - goS);
      if (drawnJ > batteryJ) {
        return false;
      }
      drawnJ = Math.max(0, drawnJ - chargeJ);
    }
    return false;
  }

  /** A ring that fills all cells with a verdict ends where the model does: a lower bound. */
  @Test
  void theModelEndsWhereVerdictsDo() {
    for (int band = 0; band < 4; band++) {
      int n = SPEC.cells();
      int[] allowed = new int[n];
      float[] grad = new float[n];
      float[] cap = new float[n];
      for (int i = 0; i < n; i++) {
        int row = i / SPEC.cols();
        int col = i % SPEC.cols();
        int in = Math.min(Math.min(row, col), Math.min(80 - row, 80 - col));
        allowed[i] = in < band ? 0 : -1;
        grad[i] = in < band ? Float.NaN : 0;
        cap[i] = 1;
      }
      TraversalCost field =
          new TraversalCost(SPEC, allowed, grad, grad, cap, new byte[n], Fields.constant(1));
      DayRings all = rings(field, 2, 200, NONE, null);
      int side = 81 - 2 * band;
      assertEquals(4.0 * side - 4, all.edgeM().get(1), 1e-9, "band " + band);
      assertEquals(1, all.firstDayAtEdge());
      DayRings few = rings(field, 2, 30, NONE, null);
      assertEquals(0, few.firstDayAtEdge(), "band " + band);
    }
  }

  /** A day, an hour or a supply more never takes ground away; every camp more adds some or none. */
  @Test
  void moreNeverTakesGroundAway() {
    for (int round = 0; round < 4; round++) {
      TraversalCost field = FrontTest.rough(SPEC, 200 + round);
      Camp east = camp(field, 3, 1);
      Camp south = camp(field, -1, -4);
      double lifeS = 2.2 * DayRingsRequest.DAY_S;
      byte[] least = rings(field, 2, 15, lifeS, null).state().values();
      within(least, rings(field, 3, 15, lifeS, null).state().values());
      within(least, rings(field, 2, 18, lifeS, null).state().values());
      within(least, rings(field, 2, 15, 4 * lifeS, null).state().values());
      byte[] base = rings(field, 3, 15, NONE, List.of()).state().values();
      byte[] one = rings(field, 3, 15, NONE, List.of(east)).state().values();
      byte[] two = rings(field, 3, 15, NONE, List.of(east, south)).state().values();
      within(base, one);
      within(one, two);
      within(two, rings(field, 3, 15, NONE, null).state().values());
      // From the base alone every day is the same.
      within(base, rings(field, 1, 15, NONE, null).state().values());
      within(rings(field, 1, 15, NONE, null).state().values(), base);
    }
  }

  /** A camp in the open cell nearest to a place. */
  private static Camp camp(TraversalCost field, double xM, double yM) {
    int cell = SPEC.cellOf(xM, yM);
    cell = field.allowed(cell) == 0 ? StartCell.nearest(field, cell) : cell;
    return new Camp("c", SPEC.xM(cell % SPEC.cols()), SPEC.yM(cell / SPEC.cols()));
  }

  /** What nothing is stated of is no limit, and that is said. */
  @Test
  void whatIsNotCountedIsSaid() {
    double none = Double.POSITIVE_INFINITY;
    for (boolean life : new boolean[] {false, true}) {
      for (boolean energy : new boolean[] {false, true}) {
        List<String> notes =
            new DayRingsRequest(
                    "r",
                    "b",
                    0,
                    0,
                    9,
                    3600,
                    energy ? 1 : none,
                    0,
                    life ? 1e6 : none,
                    HomeRule.DRIVE_BACK,
                    new Rescue(0, 0, 0, 0),
                    null)
                .uncounted();
        assertEquals(!life, notes.stream().anyMatch(n -> n.contains("life support")));
        assertEquals(!energy, notes.stream().anyMatch(n -> n.contains("battery")));
      }
    }
  }

  private static void within(byte[] less, byte[] more) {
    int in = 0;
    for (int i = 0; i < less.length; i++) {
      assertTrue(!DayRings.surely(less[i]) || DayRings.surely(more[i]), "cell " + i);
      in += DayRings.surely(less[i]) ? 1 : 0;
    }
    assertTrue(in > 5, "too little to tell: " + in);
  }
}

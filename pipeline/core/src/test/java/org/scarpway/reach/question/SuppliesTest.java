package org.scarpway.reach.question;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.corridor.CorridorSolver;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.CorridorRequest.Cost;
import org.scarpway.reach.question.CorridorRequest.Stop;
import org.scarpway.reach.question.ReachRequest.Suits;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/** What a route takes of battery and life support beyond what may be planned: closed forms. */
class SuppliesTest {
  private static final GridSpec LANE = Fields.grid(1, 81, 1, -0.5, -0.5);
  private static final double HOTEL_W = 50;
  private static final double J_PER_M = 1000;

  private static CorridorResult solve(
      double speedMs, double stayS, Reserves kept, Suits suits, Double kwh, Double lifeH) {
    int n = LANE.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    Arrays.fill(allowed, -1);
    Arrays.fill(cap, (float) speedMs);
    GradeTable table =
        new GradeTable(-1, 1, new double[] {1e9, 1e9}, new double[] {J_PER_M, J_PER_M}, HOTEL_W, 0);
    TraversalCost field =
        new TraversalCost(LANE, allowed, new float[n], new float[n], cap, new byte[n], table);
    Vehicle vehicle =
        Fields.cart(speedMs, HOTEL_W, kwh, new Vehicle.Crew(2, 4, lifeH, suits != null));
    CorridorRequest q =
        new CorridorRequest(
            "c",
            List.of(
                Questions.stop("a", 0, 0), new Stop("b", 60, 0, stayS), Questions.stop("a", 0, 0)),
            false,
            Cost.TIME,
            List.of(5.0),
            0,
            50,
            0,
            kept,
            suits);
    try (Workers workers = new Workers(1)) {
      TraversalInput ground = Fields.ground(field, FloatGrid.empty(LANE), vehicle);
      return CorridorSolver.solve(q, ground, workers, Progress.NONE);
    }
  }

  private static long saying(List<String> all, String part) {
    return all.stream().filter(w -> w.contains(part)).count();
  }

  /** 60 m out, a stay, 60 m home. */
  @Test
  void aRouteBeyondItsSuppliesSaysSo() {
    Random random = new Random(29);
    int[] said = new int[4];
    for (int i = 0; i < 200; i++) {
      double speedMs = 1 + 3 * random.nextDouble();
      double stayS = 60 * random.nextDouble();
      double timeS = 120 / speedMs + stayS;
      double usedJ = 120 * J_PER_M + HOTEL_W * timeS;
      Reserves kept = new Reserves(50, 30 * random.nextDouble(), 30 * random.nextDouble(), 50);
      double kwh = usedJ / 3.6e6 * (0.7 + 0.8 * random.nextDouble());
      double lifeS = timeS * (0.7 + 0.8 * random.nextDouble());
      double wornS = timeS * (0.7 + 0.8 * random.nextDouble());
      double reserveS = 0.2 * wornS * random.nextDouble();
      Suits suits = i % 2 == 0 ? null : new Suits(wornS, reserveS);
      double plannedJ = kwh * 3.6e6 * (1 - kept.energyPct() / 100);
      double plannedS = lifeS * (1 - kept.lifeSupportPct() / 100);
      if (suits != null) {
        plannedS = Math.min(plannedS, wornS - reserveS);
        plannedS = Math.min(plannedS, wornS * (1 - kept.lifeSupportPct() / 100));
      }
      if (Math.abs(usedJ / plannedJ - 1) < 1e-3 || Math.abs(timeS / plannedS - 1) < 1e-3) {
        continue;
      }
      CorridorResult r = solve(speedMs, stayS, kept, suits, kwh, lifeS / 3600);
      String what = "case " + i + ": " + r.beyond();
      assertEquals(usedJ > plannedJ ? 1 : 0, saying(r.beyond(), "of the battery"), what);
      long alive = saying(r.beyond(), "of the life support") + saying(r.beyond(), "of the suits");
      assertEquals(timeS > plannedS ? 1 : 0, alive, what);
      assertTrue(r.warnings().containsAll(r.beyond()), what);
      said[usedJ > plannedJ ? 0 : 1]++;
      said[timeS > plannedS ? 2 : 3]++;
    }
    for (int n : said) {
      assertTrue(n > 20, Arrays.toString(said));
    }
  }

  /**
   * 20 m up at 300 + 500 J/m and 20 m down, where 200 J/m come back: 16 kJ at the crest, 12 kJ at
   * the end. Every way over the ridge needs what it has used at the crest.
   */
  @Test
  void everyWayNeedsWhatItsCrestTakesThoughTheDescentPutsItBack() {
    GridSpec spec = Fields.grid(31, 41, 1, -0.5, -15.5);
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] cap = new float[n];
    FloatGrid height = FloatGrid.empty(spec);
    Arrays.fill(allowed, -1);
    Random random = new Random(5);
    for (int cell = 0; cell < n; cell++) {
      int col = cell % 41;
      int row = Math.floorDiv(cell, 41);
      east[cell] = col < 20 ? 0.1f : col > 20 ? -0.1f : 0;
      height.values()[cell] = 2 - 0.1f * Math.abs(col - 20);
      // Slow ground between lanes, so that there are other ways.
      cap[cell] = row % 10 == 5 ? 2 : 0.5f + 0.2f * random.nextFloat();
    }
    GradeTable table =
        new GradeTable(-0.1, 0.1, new double[] {9, 9}, new double[] {-200, 800}, 0, 5000);
    TraversalCost field =
        new TraversalCost(spec, allowed, east, new float[n], cap, new byte[n], table);
    for (double plannedJ : new double[] {13_000, 15_000, 60_000}) {
      Vehicle vehicle = Fields.cart(2, 0.0, plannedJ / 3.6e6, VehicleParts.crew(2, 4, null));
      CorridorRequest q =
          new CorridorRequest(
              "c",
              List.of(Questions.stop("a", 0, 0), Questions.stop("b", 40, 0)),
              false,
              Cost.TIME,
              List.of(5.0),
              2,
              70,
              4,
              Reserves.NONE,
              null);
      try (Workers workers = new Workers(1)) {
        TraversalInput ground = Fields.ground(field, height, vehicle);
        CorridorResult r = CorridorSolver.solve(q, ground, workers, Progress.NONE);
        int ways = 1 + r.alternatives().size() + r.tradeOffs().size();
        assertTrue(r.alternatives().size() > 0 && r.tradeOffs().size() > 0, "ways " + ways);
        String what = plannedJ + ": " + r.beyond();
        // Once, with every way.
        assertEquals(plannedJ < 16_000 ? 1 : 0, r.beyond().size(), what);
        String said = plannedJ < 16_000 ? r.beyond().get(0) : "";
        assertEquals(plannedJ < 16_000 ? ways : 0, said.split(" kWh", -1).length - 1, what);
        for (int i = 1; i <= r.alternatives().size() && plannedJ < 16_000; i++) {
          assertTrue(said.contains("alternative " + i + " 0.00"), what);
        }
        for (int i = 1; i <= r.tradeOffs().size() && plannedJ < 16_000; i++) {
          assertTrue(said.contains("trade-off T" + i + " 0.00"), what);
        }
        assertTrue(said.isEmpty() || said.matches("the centreline needs 0.00.*"), what);
        assertTrue(said.isEmpty() || said.endsWith("may be planned of the battery"), what);
        r.alternatives().forEach(a -> assertTrue(a.mostJ() > 15_800 && a.energyJ() < a.mostJ()));
        r.tradeOffs().forEach(t -> assertTrue(t.mostJ() > 15_800 && t.energyJ() < t.mostJ()));
      }
    }
  }

  @Test
  void amountsAreTold() {
    // 120 m at 1 m/s and 30 s: 127.5 kJ of 100 kJ less a tenth; 150 s of 0.04 h.
    Reserves tenth = new Reserves(10, 10, 10, 10);
    CorridorResult r = solve(1, 30, tenth, null, 100e3 / 3.6e6, 0.04);
    assertEquals(
        List.of(
            "the centreline needs 0.03542 kWh; 0.02500 may be planned of the battery",
            "the centreline needs 0.04167 h with stays; 0.03600 may be planned of the life support"),
        r.beyond());
    assertEquals(List.of(), solve(1, 30, tenth, null, null, null).beyond());
  }
}

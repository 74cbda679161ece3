package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.stage.UserError;

/** Speeds within metabolic limits by solving the published equations for the speed. */
class WalkSpeedsTest {
  private static final double MOON = 1.62422 / 9.80665;

  /** 80 kg carrying 40 kg, 1 m/s wherever the limits allow it, steepest ground of 20 degrees. */
  private static Walker steady(String equation, Double peakW, Double meanW) {
    return steady(equation, 40.0, peakW, meanW);
  }

  private static Walker steady(String equation, Double loadKg, Double peakW, Double meanW) {
    List<Walker.SpeedAt> table = List.of(new Walker.SpeedAt(-30, 2), new Walker.SpeedAt(30, 2));
    return new Walker("w", null, table, 0.5, 20, 0.5, 7, 1, loadKg, 80.0, equation, peakW, meanW);
  }

  /** Pandolf by hand: 1.5 W, 2 (W + L)(L / W)2 and (W + L)(1.5 v2 + 35 v grade). */
  private static double pandolfW(double loadKg, double v, double grade, double share) {
    double moved = 80 + loadKg;
    double burden = 2 * moved * (loadKg / 80) * (loadKg / 80);
    return 120 + share * (burden + moved * (1.5 * v * v + 35 * v * grade));
  }

  @Test
  void thePeakHoldsTheSpeedToTheRootOfTheEquation() {
    for (double grade : new double[] {0.02, 0.1, 0.3}) {
      // 300 - 120 - 60 = 120 (1.5 v2 + 35 grade v)
      double v = (-35 * grade + Math.sqrt(1225 * grade * grade + 6)) / 3;
      WalkSpeeds s = new WalkSpeeds(steady("pandolf", 300.0, null), Body.EARTH);
      assertEquals(Math.min(1, v), s.speedMs(grade), 1e-9);
      assertEquals(pandolfW(40, 0.7, grade, 1), s.watts(grade, 0.7), 1e-9);
      // Minetti's cost at that grade, from the table of the publication's polynomial.
      double cost = MetabolicEquation.minettiJPerKgM(grade);
      WalkSpeeds m = new WalkSpeeds(steady("minetti", 100.0, null), Body.MOON);
      assertEquals(Math.min(1, 100 / (MOON * 120 * cost)), m.speedMs(grade), 1e-9);
    }
    WalkSpeeds halted = new WalkSpeeds(steady("pandolf", 179.0, null), Body.EARTH);
    assertEquals(0, halted.speedMs(0.1));
    assertEquals(1, halted.wantedMs(0.1));
    // Exactly what the speed takes is within the limit.
    WalkSpeeds exact = new WalkSpeeds(steady("pandolf", 360.0, null), Body.EARTH);
    assertEquals(1, exact.speedMs(0));
    WalkSpeeds free = new WalkSpeeds(steady(null, 1.0, 1.0), Body.EARTH);
    assertEquals(1, free.speedMs(0.3));
    assertEquals(0, free.watts(0.3, 1));
  }

  @Test
  void theMeanScalesEverySpeedAsItScalesTheLevel() {
    // 240 - 180 = 180 v2
    double v = Math.sqrt(1 / 3.0);
    WalkSpeeds s = new WalkSpeeds(steady("pandolf", null, 240.0), Body.EARTH);
    for (double grade = -0.3; grade <= 0.3; grade += 0.1) {
      assertEquals(v, s.speedMs(grade), 1e-9);
    }
    assertEquals(1, new WalkSpeeds(steady("pandolf", null, 360.0), Body.EARTH).speedMs(0));
    UserError e =
        assertThrows(
            UserError.class, () -> new WalkSpeeds(steady("pandolf", null, 170.0), Body.EARTH));
    assertTrue(e.getMessage().contains("180 W"), e.getMessage());
    assertTrue(e.getMessage().contains("170 W"), e.getMessage());
    // No speed on the level: nothing to hold.
    List<Walker.SpeedAt> climbs = List.of(new Walker.SpeedAt(0, 0), new Walker.SpeedAt(45, 1));
    Walker climber =
        new Walker("c", null, climbs, 1, 20, 0.5, 7, 1, 40.0, 80.0, "pandolf", null, 170.0);
    assertEquals(1, new WalkSpeeds(climber, Body.EARTH).speedMs(1), 1e-12);
  }

  @Test
  void standing() {
    assertEquals(180, WalkSpeeds.standingW(steady("pandolf", null, null), Body.EARTH), 1e-9);
    assertEquals(
        120 + 60 * MOON, WalkSpeeds.standingW(steady("pandolf", null, null), Body.MOON), 1e-9);
    Walker bare = steady("pandolf", null, null, null);
    assertEquals(120, WalkSpeeds.standingW(bare, Body.MOON), 1e-9);
    assertEquals(pandolfW(0, 1, 0.1, MOON), new WalkSpeeds(bare, Body.MOON).watts(0.1, 1), 1e-9);
    assertEquals(0, WalkSpeeds.standingW(steady("minetti", null, null), Body.EARTH));
    assertEquals(0, WalkSpeeds.standingW(steady(null, null, null), Body.EARTH));
    Walker noMass =
        new Walker("n", "tobler", List.of(), 1, 20, 0.5, 7, 1, 40.0, null, "pandolf", null, null);
    assertEquals(0, WalkSpeeds.standingW(noMass, Body.EARTH));
    UserError e = assertThrows(UserError.class, () -> new WalkSpeeds(noMass, Body.EARTH));
    assertTrue(e.getMessage().contains("body_kg"), e.getMessage());
    Walker noSpeed =
        new Walker("n", null, List.of(), 1, 20, 0.5, 7, 1, null, null, null, null, null);
    UserError s = assertThrows(UserError.class, () -> new WalkSpeeds(noSpeed, Body.EARTH));
    assertTrue(s.getMessage().contains("speed_function"), s.getMessage());
  }

  /** Entries of the table are the speeds and energies themselves, to the steepest ground walked. */
  @Test
  void theTableHoldsTheCurve() {
    WalkSpeeds s = new WalkSpeeds(steady("minetti", 500.0, null), Body.EARTH);
    GradeTable t = s.table();
    for (int i = -291; i <= 291; i++) {
      double grade = i * 0.00125;
      double cost = MetabolicEquation.minettiJPerKgM(grade);
      assertEquals(Math.min(1, 500 / (120 * cost)), t.speedMs(grade), 1e-9);
      assertEquals(120 * cost, t.tractionJPerM(grade), 1e-6);
    }
    assertEquals(0, t.hotelW());
    assertEquals(0, t.potentialJPerM());
    // tan 20 deg = 0.36397: 292 steps of 0.00125 reach it, 291 do not.
    assertTrue(t.speedMs(0.365) < t.speedMs(0.36375));
    assertEquals(t.speedMs(0.365), t.speedMs(0.4));
    GradeTable halted = new WalkSpeeds(steady("pandolf", 179.0, null), Body.EARTH).table();
    assertEquals(0, halted.speedMs(0.1));
    assertEquals(0, halted.tractionJPerM(0.1));
  }

  @Test
  void notesSayWhatIsSlowedAndWhere() {
    String mean = new WalkSpeeds(steady("pandolf", null, 240.0), Body.EARTH).notes().get(0);
    assertTrue(mean.contains("58 %") && mean.contains("360 W") && mean.contains("240 W"), mean);
    // 480 = 120 x 4.0: Minetti's polynomial is 4 at the grade 0.06612, the next entry 3.8 degrees.
    String peak = new WalkSpeeds(steady("minetti", 480.0, null), Body.EARTH).notes().get(0);
    assertTrue(peak.contains(" slowed by the peak") && peak.contains("480 W"), peak);
    assertTrue(peak.contains("from 3.8 to 20.1"), peak);
    String halted = new WalkSpeeds(steady("pandolf", 179.0, null), Body.EARTH).notes().get(0);
    assertTrue(halted.contains("slowed or halted by"), halted);
    assertEquals(List.of(), new WalkSpeeds(steady("pandolf", null, null), Body.EARTH).notes());
    for (double steepest : new double[] {24, 25}) {
      Walker w =
          new Walker(
              "m", "tobler", List.of(), 1, steepest, 0.5, 7, 1, 40.0, 80.0, "minetti", null, null);
      assertEquals(steepest > 24.2 ? 1 : 0, new WalkSpeeds(w, Body.EARTH).notes().size());
    }
  }

  /** Descents of 5 degrees are moderate, of 12 degrees steep: 10 min for 300 m are 2 s/m. */
  @Test
  void descentsAtTheEndsOfTheirRange() {
    WalkingFunction f = WalkingFunction.NAISMITH_LANGMUIR;
    double five = Math.tan(Math.toRadians(5));
    double twelve = Math.tan(Math.toRadians(12));
    assertEquals(Math.hypot(1, five) / (0.72 - 2 * five), f.speedMs(-five), 1e-12);
    assertEquals(Math.hypot(1, twelve) / (0.72 + 2 * twelve), f.speedMs(-twelve), 1e-12);
  }
}

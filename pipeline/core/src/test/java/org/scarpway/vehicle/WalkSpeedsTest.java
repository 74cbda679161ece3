package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.stage.UserError;

/** Speeds within metabolic limits by solving the published equations for the speed. */
class WalkSpeedsTest {
  /** 80 kg carrying 40 kg, 1 m/s wherever the limits allow it, steepest ground of 20 degrees. */
  private static Walker steady(String equation, Double peakW, Double meanW) {
    return steady(equation, 40.0, peakW, meanW);
  }

  private static Walker steady(String equation, Double loadKg, Double peakW, Double meanW) {
    List<Walker.SpeedAt> table = List.of(new Walker.SpeedAt(-30, 2), new Walker.SpeedAt(30, 2));
    return Walkers.walker(
        "w", null, table, 0.5, 20, 0.5, 7, 1, loadKg, 80.0, equation, peakW, meanW);
  }

  /** Pandolf by hand: 1.5 W, 2 (W + L)(L / W)2 and (W + L)(1.5 v2 + 35 v grade). */
  private static double pandolfW(double loadKg, double v, double grade) {
    double moved = 80 + loadKg;
    double burden = 2 * moved * (loadKg / 80) * (loadKg / 80);
    return 120 + burden + moved * (1.5 * v * v + 35 * v * grade);
  }

  @Test
  void aLimitHoldsTheSpeedToTheRootOfTheEquation() {
    for (double grade : new double[] {0, 0.02, 0.1, 0.3}) {
      // 300 - 120 - 60 = 120 (1.5 v2 + 35 grade v)
      double v = (-35 * grade + Math.sqrt(1225 * grade * grade + 6)) / 3;
      WalkSpeeds peak = new WalkSpeeds(steady("pandolf", 300.0, null), Body.EARTH);
      assertEquals(Math.min(1, v), peak.speedMs(grade), 1e-9);
      assertEquals(pandolfW(40, 0.7, grade), peak.watts(grade, 0.7), 1e-9);
      // The mean holds on every grade, and before the peak.
      WalkSpeeds mean = new WalkSpeeds(steady("pandolf", 500.0, 300.0), Body.EARTH);
      assertEquals(Math.min(1, v), mean.speedMs(grade), 1e-9);
      // Standing of 1.5 W/kg, and Minetti's cost at that grade for 80 + 20 kg.
      double cost = MetabolicEquation.minettiJPerKgM(grade);
      WalkSpeeds m = new WalkSpeeds(steady("minetti", 20.0, 400.0, null), Body.EARTH);
      assertEquals(Math.min(1, (400 - 120) / (100 * cost)), m.speedMs(grade), 1e-9);
    }
    // Exactly what the speed takes is within the limit.
    assertEquals(1, new WalkSpeeds(steady("pandolf", 360.0, null), Body.EARTH).speedMs(0));
    WalkSpeeds free = new WalkSpeeds(steady(null, 1.0, 1.0), Body.EARTH);
    assertEquals(1, free.speedMs(0.3));
    assertEquals(0, free.watts(0.3, 1));
  }

  /** Suited on the Moon: (3.28 m + 71.1)(0.661 v + 0.115) = 400 on the level with 180 kg. */
  @Test
  void suitedWalkingIsHeldToTheMeanOnEveryGrade() {
    Walker w = steady("suited-lunar", 100.0, 586.0, 400.0);
    WalkSpeeds s = new WalkSpeeds(w, Body.MOON);
    assertEquals((400 / 661.5 - 0.115) / 0.661, s.speedMs(0), 1e-9);
    Random random = new Random(1);
    for (int i = 0; i < 200; i++) {
      double grade = (random.nextDouble() - 0.5) * 0.72;
      double v = s.speedMs(grade);
      assertTrue(v > 0 && v <= s.wantedMs(grade), "grade " + grade);
      assertTrue(s.watts(grade, v) <= 400 + 1e-6);
      // Never below what was measured at the slowest, and dearer uphill and with more load.
      assertTrue(s.watts(grade, v) >= 288.2);
      assertTrue(s.watts(Math.abs(grade), 1) >= s.watts(0, 0.9));
      assertTrue(
          MetabolicEquation.SUITED_LUNAR.watts(80, 110, 1, grade, 1)
              > MetabolicEquation.SUITED_LUNAR.watts(80, 100, 1, grade, 1));
    }
    assertNull(s.peakSeconds());
    // 293 W x 7 h, six sevenths of it to be used; or what the supply says.
    Walker mean = steady("suited-lunar", 100.0, null, 293.0);
    assertEquals(293 * 6 * 3600, mean.usableJ(), 1e-3);
    Walker supply =
        Walkers.walker(
            "s",
            "tobler",
            List.of(),
            1,
            20,
            0.5,
            7,
            1,
            100.0,
            80.0,
            "suited-lunar",
            null,
            293.0,
            15,
            7.0,
            null);
    assertEquals(6e6, supply.usableJ(), 1e-3);
    assertEquals(Double.POSITIVE_INFINITY, steady(null, null, 293.0).usableJ());
    assertEquals(Double.POSITIVE_INFINITY, steady("pandolf", 400.0, null).usableJ());
  }

  /** Every equation is refused for weights, loads and masses that it is not made for. */
  @Test
  void outsideItsRangeAnEquationIsRefused() {
    for (String equation : new String[] {"pandolf", "minetti", "suited-lunar"}) {
      for (Body body : new Body[] {Body.EARTH, Body.MOON, Body.MARS}) {
        for (double load : new double[] {0, 15, 60, 110, 240}) {
          boolean earthly = !equation.equals("suited-lunar") && body.equals(Body.EARTH);
          boolean lunar = equation.equals("suited-lunar") && body.equals(Body.MOON);
          double most = equation.equals("pandolf") ? 70 : 20;
          boolean made = (earthly && load <= most) || (lunar && load >= 20 && load <= 170);
          Walker w = steady(equation, load, null, null);
          if (made) {
            new WalkSpeeds(w, body);
          } else {
            UserError e = assertThrows(UserError.class, () -> new WalkSpeeds(w, body));
            assertTrue(e.getMessage().contains("not made for"), e.getMessage());
          }
        }
      }
    }
    // Speeds beyond it are not walked, steeper ground is shut.
    List<Walker.SpeedAt> table = List.of(new Walker.SpeedAt(-30, 2), new Walker.SpeedAt(30, 2));
    Walker fast =
        Walkers.walker("f", null, table, 1, 45, 0.5, 7, 1, 100.0, 80.0, "suited-lunar", null, null);
    WalkSpeeds s = new WalkSpeeds(fast, Body.MOON);
    assertEquals(5.7 / 3.6, s.speedMs(0), 1e-12);
    assertEquals(Math.tan(Math.toRadians(20)), s.steepest(), 1e-12);
    assertTrue(s.notes().stream().anyMatch(n -> n.contains("shut")), s.notes().toString());
    Walker hiker =
        Walkers.walker("h", null, table, 1, 45, 0.5, 7, 1, 10.0, 80.0, "minetti", null, null);
    assertEquals(0.45, new WalkSpeeds(hiker, Body.EARTH).steepest(), 1e-12);
    Walker free = Walkers.walker("f", null, table, 1, 45, 0.5, 7, 1, null, null, null, null, null);
    assertEquals(1, new WalkSpeeds(free, Body.MOON).steepest(), 1e-12);
  }

  /**
   * Descents: beyond 12 % and with loads above Santee's no credit is given, so nobody is halted by
   * them, and nothing is cheaper than Minetti measured a steep descent to be against the level.
   */
  @Test
  void descentsBeyondTheCorrectionCostNoLessThanLevelGround() {
    for (double load : new double[] {0, 20, 27, 40}) {
      for (double v = 0.2; v <= 2; v += 0.2) {
        double level = MetabolicEquation.PANDOLF.watts(80, load, v, 0, 1);
        for (double grade = -0.45; grade < 0; grade += 0.005) {
          double w = MetabolicEquation.PANDOLF.watts(80, load, v, grade, 1);
          assertTrue(w >= 120);
          if (grade < -0.12 || load > 27) {
            double dearer = Math.max(1, MetabolicEquation.minettiJPerKgM(grade) / 2.5);
            assertEquals(level * dearer, w, 1e-9);
          }
        }
      }
    }
    Walker w = steady("pandolf", 20.0, 500.0, null);
    for (double grade = -0.36; grade < 0; grade += 0.01) {
      assertEquals(1, new WalkSpeeds(w, Body.EARTH).speedMs(grade), 1e-12);
    }
  }

  /**
   * Uphill to 45 % Pandolf lies above Minetti's measured cost at every speed: its range is held.
   */
  @Test
  void pandolfLiesAboveTheCostMeasuredUphill() {
    for (double grade = 0; grade <= 0.45; grade += 0.01) {
      for (double v = 0.1; v <= 1.4; v += 0.1) {
        double measured = 80 * v * MetabolicEquation.minettiJPerKgM(grade);
        assertTrue(MetabolicEquation.PANDOLF.watts(80, 0, v, grade, 1) >= 0.97 * measured);
      }
    }
  }

  @Test
  void whatCannotBeWalkedWithinTheLimitsIsRefused() {
    UserError e =
        assertThrows(
            UserError.class, () -> new WalkSpeeds(steady("pandolf", null, 170.0), Body.EARTH));
    assertTrue(e.getMessage().contains("180 W"), e.getMessage());
    assertTrue(e.getMessage().contains("mean of 170 W"), e.getMessage());
    UserError peak =
        assertThrows(
            UserError.class,
            () -> new WalkSpeeds(steady("suited-lunar", 100.0, 280.0, null), Body.MOON));
    assertTrue(peak.getMessage().contains("288 W"), peak.getMessage());
    Walker noMass =
        Walkers.walker(
            "n", "tobler", List.of(), 1, 20, 0.5, 7, 1, 40.0, null, "pandolf", null, null);
    UserError m = assertThrows(UserError.class, () -> new WalkSpeeds(noMass, Body.EARTH));
    assertTrue(m.getMessage().contains("body_kg"), m.getMessage());
    Walker noSpeed =
        Walkers.walker("n", null, List.of(), 1, 20, 0.5, 7, 1, null, null, null, null, null);
    UserError s = assertThrows(UserError.class, () -> new WalkSpeeds(noSpeed, Body.EARTH));
    assertTrue(s.getMessage().contains("speed_function"), s.getMessage());
  }

  /** Entries of the table are the speeds and energies themselves, to the steepest ground walked. */
  @Test
  void theTableHoldsTheCurve() {
    WalkSpeeds s = new WalkSpeeds(steady("minetti", 20.0, 600.0, null), Body.EARTH);
    GradeTable t = s.table();
    GradeTable atPeak = s.peakSeconds();
    for (int i = -291; i <= 291; i++) {
      double grade = i * 0.00125;
      double cost = 100 * MetabolicEquation.minettiJPerKgM(grade);
      double v = Math.min(1, 480 / cost);
      assertEquals(v, t.speedMs(grade), 1e-9);
      assertEquals(120 / v + cost, t.tractionJPerM(grade), 1e-6);
      // Half of the peak is kept up: 300 W.
      assertEquals(120 + cost * v > 300 ? 1 / v : 0, atPeak.tractionJPerM(grade), 1e-6);
    }
    assertEquals(0, t.hotelW());
    assertEquals(0, t.potentialJPerM());
    // tan 20 deg = 0.36397: 292 steps of 0.00125 reach it, 291 do not.
    assertTrue(t.speedMs(0.365) < t.speedMs(0.36375));
    assertEquals(t.speedMs(0.365), t.speedMs(0.4));
  }

  @Test
  void notesSayWhatIsSlowedAndWhere() {
    List<String> mean = new WalkSpeeds(steady("pandolf", null, 240.0), Body.EARTH).notes();
    assertTrue(mean.get(2).contains("mean metabolic limit of 240 W"), mean.get(2));
    assertTrue(mean.get(1).contains("terrain factor of 1 everywhere"), mean.get(1));
    assertTrue(mean.get(2).contains("240 W at 0.58 m/s"), mean.get(2));
    // 120 + 100 x 4.0: Minetti's polynomial is 4 at the grade 0.06612, the next entry 3.8 degrees.
    List<String> peak = new WalkSpeeds(steady("minetti", 20.0, 520.0, null), Body.EARTH).notes();
    assertTrue(peak.get(1).contains("not limited"), peak.get(1));
    assertTrue(peak.get(2).startsWith("Without mean_w, 260 W"), peak.get(2));
    assertTrue(peak.get(2).contains("half of peak_w") && peak.get(2).contains("15 min"));
    assertTrue(peak.get(3).startsWith("Slowed by the peak"), peak.get(3));
    assertTrue(peak.get(3).contains("from 3.8 to 20.1"), peak.get(3));
    assertEquals(List.of(), new WalkSpeeds(steady(null, null, null), Body.EARTH).notes());
    String suited =
        new WalkSpeeds(steady("suited-lunar", 100.0, null, 293.0), Body.MOON).notes().get(0);
    assertTrue(suited.contains("1.58 m/s") && suited.contains("288 W"), suited);
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

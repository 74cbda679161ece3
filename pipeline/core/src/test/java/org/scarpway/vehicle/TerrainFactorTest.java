package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;

/** What walking on soft ground takes: Pandolf's equation by hand, and that softer is never less. */
class TerrainFactorTest {
  private static Walker hiker(String equation, Double meanW) {
    List<Walker.SpeedAt> table =
        List.of(new Walker.SpeedAt(-30, 0.84), new Walker.SpeedAt(30, 0.84));
    return Walkers.walker("h", null, table, 1, 24, 0.5, 8, 1, 12.0, 75.0, equation, null, meanW);
  }

  /**
   * 112.5 W standing, 4.45 W of load, 87 x 1.5 x 0.84 x 0.84 = 92.08 W of going, times 2.1 on sand.
   */
  @Test
  void aWalkOnSand() {
    double standingW = 112.5 + 2 * 87 * 0.16 * 0.16;
    double goingW = 87 * 1.5 * 0.84 * 0.84;
    for (double factor : new double[] {1, 1.1, 1.8, 2.1}) {
      WalkSpeeds s = new WalkSpeeds(hiker("pandolf", null).on(factor), Body.EARTH);
      assertEquals(standingW + factor * goingW, s.watts(0, s.speedMs(0)), 1e-9);
      assertEquals((standingW + factor * goingW) / 0.84, s.table().tractionJPerM(0), 1e-6);
      // Held to a mean of 180 W the same sum gives the speed.
      WalkSpeeds held = new WalkSpeeds(hiker("pandolf", 180.0).on(factor), Body.EARTH);
      double v = Math.sqrt((180 - standingW) / (factor * 87 * 1.5));
      assertEquals(Math.min(0.84, v), held.speedMs(0), 1e-9);
      String told = s.notes().toString();
      assertTrue(told.contains("terrain factor of " + (factor == 1 ? "1" : factor)), told);
    }
  }

  @Test
  void softerGroundNeverTakesLessAndNobodyIsQuickerOnIt() {
    Random random = new Random(3);
    for (int i = 0; i < 5000; i++) {
      double bodyKg = 40 + 80 * random.nextDouble();
      double loadKg = 50 * random.nextDouble();
      double v = 2 * random.nextDouble();
      double grade = 0.9 * (random.nextDouble() - 0.5);
      double firm = 1 + random.nextDouble();
      double soft = firm + random.nextDouble();
      double less = MetabolicEquation.PANDOLF.watts(bodyKg, loadKg, v, grade, firm);
      double more = MetabolicEquation.PANDOLF.watts(bodyKg, loadKg, v, grade, soft);
      assertTrue(more >= less - 1e-9, grade + ": " + less + " then " + more);
      Walker w = hiker("pandolf", 300.0);
      double quick = new WalkSpeeds(w.on(firm), Body.EARTH).speedMs(grade);
      assertTrue(new WalkSpeeds(w.on(soft), Body.EARTH).speedMs(grade) <= quick + 1e-9);
      // Relations made on other ground do not know it.
      assertEquals(
          MetabolicEquation.MINETTI.watts(bodyKg, loadKg, v, grade, 1),
          MetabolicEquation.MINETTI.watts(bodyKg, loadKg, v, grade, soft));
    }
    String told = new WalkSpeeds(hiker("minetti", null).on(2.1), Body.EARTH).notes().toString();
    assertTrue(told.contains("minetti does not know"), told);
  }
}

package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

/** Metabolic rates, steps and what is told of ground on foot, worked by hand. */
class WalkByHandTest {
  private static final double STEEPEST = 0.3;

  /** 80 kg carrying 20 kg at 1 m/s: 120 W standing, 2 x 100 / 16 of load, 150 W of going. */
  @Test
  void pandolfUpAndDown() {
    MetabolicEquation p = MetabolicEquation.PANDOLF;
    assertEquals(282.5, p.watts(80, 20, 1, 0, 1), 1e-9);
    // 0.35 x 10 a kilogram.
    assertEquals(632.5, p.watts(80, 20, 1, 0.1, 1), 1e-9);
    // At -10 %: 282.5 - 350, less -1000 / 3.5 - 100 x 16 / 80 + 25 - 1 = -281.714: above standing.
    assertEquals(-67.5 + 281.7142857, p.watts(80, 20, 1, -0.1, 1), 1e-6);
    // At -12 %, the last of the trials: 282.5 - 420 + 1200 / 3.5 + 100 x 36 / 80 - 24.
    assertEquals(282.5 - 420 + 342.8571429 + 45 - 24, p.watts(80, 20, 1, -0.12, 1), 1e-6);
    // Standing at the least: 0.1 m/s at -3 % would take 112.8 - 9.13 W.
    assertEquals(120, p.watts(80, 0, 0.1, -0.03, 1), 1e-9);
    // Beyond the trials' slope or load: as level ground, more where Minetti's cost is more.
    assertEquals(282.5, p.watts(80, 20, 1, -0.2, 1), 1e-9);
    assertEquals(120 + 2 * 110 * 0.140625 + 165, p.watts(80, 30, 1, -0.1, 1), 1e-9);
    double i = -0.45;
    double cost =
        280.5 * Math.pow(i, 5)
            - 58.7 * Math.pow(i, 4)
            - 76.8 * i * i * i
            + 51.9 * i * i
            + 19.6 * i
            + 2.5;
    assertEquals(282.5 * cost / 2.5, p.watts(80, 20, 1, -0.45, 1), 1e-6);
  }

  /** 1.5 W/kg and the published cost: 2.5 J/(kg m) on the level, at 0.1 by its polynomial. */
  @Test
  void minettiOnTopOfStanding() {
    assertEquals(120 + 100 * 2.5 * 1.2, MetabolicEquation.MINETTI.watts(80, 20, 1.2, 0, 1), 1e-9);
    double at = 2.5 + 1.96 + 0.519 - 0.0768 - 0.00587 + 0.002805;
    assertEquals(at, MetabolicEquation.minettiJPerKgM(0.1), 1e-12);
    assertEquals(120 + 100 * at * 0.5, MetabolicEquation.MINETTI.watts(80, 20, 0.5, 0.1, 1), 1e-9);
  }

  /** 180 kg: 3.28 x 180 + 71.1 = 661.5. */
  @Test
  void suitedOnTheMoon() {
    MetabolicEquation s = MetabolicEquation.SUITED_LUNAR;
    assertEquals(661.5 * 0.776, s.watts(80, 100, 1, 0, 1), 1e-9);
    // Grade 0.75 is 3 : 4 : 5.
    double level = 661.5 * (0.661 * 0.8 + 0.115);
    double climbW = 180 * 1.62 * 0.6;
    assertEquals(level + 3.5 * climbW, s.watts(80, 100, 1, 0.75, 1), 1e-9);
    // Down 7.65 degrees the factor 2.4 has fallen to 0.3 of it.
    double deg = Math.toRadians(7.65);
    double down = 661.5 * (0.661 * Math.cos(deg) + 0.115) - 0.72 * 180 * 1.62 * Math.sin(deg);
    assertEquals(down, s.watts(80, 100, 1, -Math.tan(deg), 1), 1e-9);
    // 248 kcal/h measured at the slowest: 288.2 W.
    assertEquals(288.231, s.watts(80, 100, 0.05, 0, 1), 1e-3);
  }

  private static void refused(MetabolicEquation e, double bodyKg, double loadKg, double gravity) {
    UserError error = assertThrows(UserError.class, () -> e.require("w", bodyKg, loadKg, gravity));
    assertTrue(error.getMessage().contains(e.key()), error.getMessage());
  }

  /** At the ends of its range an equation holds, a hair beyond it is refused. */
  @Test
  void eachEquationWithinItsRange() {
    for (MetabolicEquation e : MetabolicEquation.values()) {
      MetabolicEquation.Range r = e.range();
      double gravity = r.leastGravityMs2();
      e.require("w", r.leastKg() - r.loadKg() / 10, r.loadKg() / 10, gravity);
      e.require("w", r.mostKg() - r.loadKg(), r.loadKg(), r.mostGravityMs2());
      refused(e, r.leastKg() - 1, 0.5, gravity);
      refused(e, r.mostKg(), 0.5, gravity);
      refused(e, r.mostKg() - r.loadKg() - 1, r.loadKg() + 0.5, gravity);
      refused(e, r.mostKg() - 10, 5, gravity - 0.01);
      refused(e, r.mostKg() - 10, 5, r.mostGravityMs2() + 0.01);
      assertEquals(e, MetabolicEquation.ofKey("w", e.key()));
    }
    assertEquals("suited-lunar", MetabolicEquation.SUITED_LUNAR.key());
    assertTrue(
        MetabolicEquation.SUITED_LUNAR.range().text().contains("20.0 deg, 100 to 250 kg"),
        MetabolicEquation.SUITED_LUNAR.range().text());
  }

  @Test
  void shareOfGroundThatStepsShut() {
    assertTrue(
        new Walking(null, 200, 3, 0.5, 4.25, null, null, true)
            .note()
            .contains("0.50 m between cells"));
    assertTrue(
        new Walking(null, 200, 3, 0.5, 4.25, null, null, true).note().contains("shut 1.50 %"));
    assertTrue(
        new Walking(null, 200, 3, 0.5, 4.25, null, null, true).note().contains("up to 4.3 m"));
    assertTrue(new Walking(null, 0, 0, 0.5, 4.25, null, null, true).note().contains("shut 0.00 %"));
  }

  /**
   * Profiles of five cells 2 m apart, the same along seven cells 4 m apart: out of the rises before
   * and after, or beyond 0.3 of the distance, whichever is more.
   */
  @Test
  void stepsByHand() {
    double[][] profiles = {
      {0, 0, 0, 1, 1}, {0, 0, 0.5, 1, 1}, {0, 1, 2, 3, 4}, {0, 0, 0.4, 0, 0}, {0.7, 0, 0, 0, 0}
    };
    int[] place = {2, 2, 2, 2, 0};
    double[] want = {1, 0, 0.4, 0.4, 0.7};
    for (int n = 0; n < want.length; n++) {
      float[] along = new float[35];
      float[] down = new float[35];
      for (int i = 0; i < 35; i++) {
        along[i] = (float) profiles[n][i % 5];
        down[i] = (float) profiles[n][Math.floorDiv(i, 7)];
      }
      StepsOnFoot east = new StepsOnFoot(along, 7, 5, 2, 4, STEEPEST);
      assertEquals(want[n], east.largestM(3, place[n]), 1e-6);
      StepsOnFoot south = new StepsOnFoot(down, 5, 7, 4, 2, STEEPEST);
      assertEquals(want[n], south.largestM(place[n], 3), 1e-6);
    }
    assertEquals(3, StepsOnFoot.hiddenM(5, 0.3), 1e-12);
  }

  private static Walker walker(String equation, Double peakW, Double meanW) {
    return Walkers.walker(
        "w", "tobler", List.of(), 1, 20, 0.5, 7, 1, 20.0, 80.0, equation, peakW, meanW);
  }

  private static Walking walk(GridSpec spec, Walker w, double gravity, Progress progress) {
    Terrain flat = Grounds.plane(spec, 0, 0);
    Body body = new Body("b", 6e6, 6e6, gravity);
    try (Workers workers = new Workers(1)) {
      return WalkStage.compute(flat, Grounds.noHazard(spec).causes(), w, body, workers, progress);
    }
  }

  @Test
  void whatIsToldOfTheGround() {
    GridSpec spec = new GridSpec(3, 3, 5, 8, 0, 24, "");
    AtomicLong total = new AtomicLong();
    AtomicLong done = new AtomicLong();
    AtomicLong ends = new AtomicLong();
    Progress counted =
        new Progress() {
          @Override
          public void begin(String what, long all) {
            total.set(what.contains("w") ? all : 0);
          }

          @Override
          public void advance(long more) {
            done.addAndGet(more);
          }

          @Override
          public void end() {
            ends.incrementAndGet();
          }
        };
    Walking own = walk(spec, walker("pandolf", 400.0, null), 9, counted);
    assertEquals(9, total.get());
    assertEquals(9, done.get());
    assertEquals(1, ends.get());
    assertFalse(own.suited());
    assertEquals(9, own.gentleCells());
    assertEquals(0, own.steppedCells());
    assertEquals(0.5, own.maxStepM());
    // Two edges of the longer side, 8 m, at 20 degrees.
    assertEquals(16 * Math.tan(Math.toRadians(20)), own.hiddenStepM(), 1e-9);
    assertNotNull(own.peakSeconds());
    assertNull(walk(spec, walker("pandolf", 400.0, 300.0), 9, Progress.NONE).peakSeconds());
    assertTrue(walk(spec, walker(null, null, null), 8.99, Progress.NONE).suited());
  }

  /** Ground that takes twice as much; half a metre a second up 3 : 4 : 5 in a suit. */
  @Test
  void softWaysAndSlowClimbs() {
    assertEquals(1132.5, MetabolicEquation.pandolfW(80, 20, 1, 10, 2), 1e-9);
    // -10 x 100 x 0.5 / 3.5 - 100 x 16 / 80 + 25 - 0.25, twice.
    assertEquals(
        2 * (-142.8571429 - 20 + 24.75), MetabolicEquation.santeeW(80, 20, 0.5, -10, 2), 1e-6);
    assertEquals(
        661.5 * (0.661 * 0.4 + 0.115) + 3.5 * 180 * 1.62 * 0.3,
        MetabolicEquation.suitedLunarW(180, 0.5, 0.75),
        1e-9);
  }

  /**
   * A wall of 2 m between the fourth and fifth of seven columns: two cells of each row asked for.
   */
  @Test
  void cellsBesideAWallAreCounted() {
    GridSpec spec = Grounds.square(7, 5);
    Terrain wall = Grounds.of(spec, (x, y) -> x > 20 ? 2 : 0, 0, 0, 0);
    Walker w = walker(null, null, null);
    try (Workers workers = new Workers(1)) {
      Walking walked =
          WalkStage.compute(
              wall, Grounds.noHazard(spec).causes(), w, Body.MOON, 2, 3, workers, Progress.NONE);
      assertEquals(21, walked.gentleCells());
      assertEquals(6, walked.steppedCells());
      for (int cell = 0; cell < 49; cell++) {
        int row = Math.floorDiv(cell, 7);
        boolean open = row >= 2 && row < 5 && cell % 7 != 3 && cell % 7 != 4;
        assertEquals(open, walked.field().allowed(cell) != 0, "cell " + cell);
      }
    }
  }
}

package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

class WalkStageTest {
  private static final GridSpec SPEC = Grounds.square(3, 5);

  private static Walker walker(String function, String equation, Double peakW, Double meanW) {
    return Walkers.walker(
        "w", function, List.of(), 0.8, 25, 0.5, 7, 1, 30.0, 80.0, equation, peakW, meanW);
  }

  private static TraversalCost run(Terrain t, Hazard h, Walker w) {
    try (Workers workers = new Workers(1)) {
      return WalkStage.compute(t, h.causes(), w, Body.MOON, workers, Progress.NONE).field();
    }
  }

  @Test
  void speedIsTheFunctionTimesTheScale() {
    Terrain t = Grounds.plane(SPEC, 0, 0.1);
    TraversalCost f = run(t, Grounds.noHazard(SPEC), walker("tobler", null, null, null));
    double up = 0.8 * WalkingFunction.TOBLER.speedMs(0.1);
    assertEquals(Math.sqrt(1.01) / up, f.timeSPerM(4, 0), 1e-6);
    double down = 0.8 * WalkingFunction.TOBLER.speedMs(-0.1);
    assertEquals(Math.sqrt(1.01) / down, f.timeSPerM(4, 16), 1e-6);
    assertEquals(0, f.energyJPerM(4, 0), 0);
  }

  @Test
  void steepKeptOutAndUnknownGroundIsShut() {
    Walker w = walker("tobler", null, null, null);
    assertEquals(0, run(Grounds.plane(SPEC, 0.47, 0), Grounds.noHazard(SPEC), w).allowed(4));
    assertEquals(-1, run(Grounds.plane(SPEC, 0.46, 0), Grounds.noHazard(SPEC), w).allowed(4));
    Terrain flat = Grounds.plane(SPEC, 0, 0);
    flat.gradEast().values()[4] = Float.NaN;
    Hazard h = Grounds.noHazard(SPEC);
    h.causes().values()[3] = (byte) Hazard.Cause.KEEP_OUT.bit();
    TraversalCost f = run(flat, h, w);
    assertEquals(0, f.allowed(4));
    assertEquals(0, f.allowed(3));
    assertEquals(-1, f.allowed(2));
  }

  /** Whatever the ground: a place is walkable on its own exactly where the whole field is open. */
  @Test
  void onePlaceIsJudgedAsTheWholeGround() {
    Walker w = walker("tobler", null, null, null);
    GridSpec spec = Grounds.square(12, 2);
    Random random = new Random(3);
    int[] shut = new int[3];
    int open = 0;
    for (int trial = 0; trial < 40; trial++) {
      Terrain t = Grounds.plane(spec, 0.3 * random.nextDouble(), 0.3 * random.nextDouble());
      Hazard h = Grounds.noHazard(spec);
      for (int i = 0; i < spec.cells(); i++) {
        t.heightM().values()[i] += random.nextInt(8) == 0 ? random.nextFloat() : 0;
        t.gradEast().values()[i] += random.nextInt(8) == 0 ? random.nextFloat() - 0.5F : 0;
        if (random.nextInt(60) == 0) {
          t.gradNorth().values()[i] = Float.NaN;
        }
        if (random.nextInt(60) == 0) {
          h.causes().values()[i] = (byte) Hazard.Cause.KEEP_OUT.bit();
        }
      }
      TraversalCost field = run(t, h, w);
      for (int i = 0; i < spec.cells(); i++) {
        OnFoot here = WalkStage.at(t, h.causes(), w, Body.MOON, i);
        assertEquals(field.allowed(i) != 0, here.walkable(), "trial " + trial + " cell " + i);
        open += here.walkable() ? 1 : 0;
        shut[0] += here.slopeHeld() ? 0 : 1;
        shut[1] += here.stepHeld() ? 0 : 1;
        shut[2] += here.keptOut() ? 1 : 0;
      }
    }
    assertTrue(open > 500 && shut[0] > 50 && shut[1] > 50 && shut[2] > 50, "every reason came up");
  }

  /** A wall of 0.7 m on level ground, and a slope of 30 degrees, by hand. */
  @Test
  void saysWhichLimitOfTheWalkerShutsAPlace() {
    Walker w = walker("tobler", null, null, null);
    GridSpec spec = Grounds.square(5, 5);
    Terrain wall = Grounds.plane(spec, 0, 0);
    for (int i = 0; i < spec.cells(); i++) {
      wall.heightM().values()[i] = i % 5 < 2 ? 0 : 0.7F;
    }
    OnFoot foot = WalkStage.at(wall, Grounds.noHazard(spec).causes(), w, Body.MOON, 11);
    assertEquals(0.7, foot.stepM(), 1e-6);
    assertEquals(0.5, foot.maxStepM());
    assertTrue(foot.slopeHeld() && !foot.stepHeld() && !foot.walkable());
    Terrain steep = Grounds.plane(spec, Math.tan(Math.toRadians(30)), 0);
    OnFoot slope = WalkStage.at(steep, Grounds.noHazard(spec).causes(), w, Body.MOON, 12);
    assertEquals(30, slope.slopeDeg(), 1e-4);
    assertEquals(25, slope.maxSlopeDeg(), 1e-9);
    assertTrue(!slope.slopeHeld() && !slope.walkable());
  }

  @Test
  void metabolicLimitsSlowAndSaySo() {
    Walker held = walker("tobler", "pandolf", 400.0, null);
    WalkSpeeds speeds = new WalkSpeeds(held, Body.EARTH);
    for (double g = -0.3; g <= 0.3; g += 0.05) {
      double v = speeds.speedMs(g);
      assertTrue(v <= speeds.wantedMs(g));
      assertTrue(speeds.watts(g, v) <= 400 + 1e-6 || v == 0);
    }
    List<String> notes = WalkStage.notes(held, Body.EARTH);
    assertTrue(notes.get(notes.size() - 1).contains("peak"), notes.toString());
  }

  @Test
  void tablesAreLinearBetweenTheirRowsAndHeldBeyond() {
    Walker w =
        Walkers.walker(
            "t",
            null,
            List.of(
                new Walker.SpeedAt(-20, 0.5),
                new Walker.SpeedAt(0, 1),
                new Walker.SpeedAt(20, 0.4)),
            1,
            30,
            0.5,
            7,
            1,
            null,
            null,
            null,
            null,
            null);
    WalkSpeeds s = new WalkSpeeds(w, Body.MOON);
    assertEquals(0.75, s.speedMs(SlopeGeometry.tan(-10)), 1e-12);
    assertEquals(0.7, s.speedMs(SlopeGeometry.tan(10)), 1e-12);
    assertEquals(0.4, s.speedMs(SlopeGeometry.tan(28)), 1e-12);
    assertEquals(0.5, s.speedMs(SlopeGeometry.tan(-28)), 1e-12);
  }

  @Test
  void unknownNamesAreRefusedWithTheKnownOnes() {
    UserError f =
        assertThrows(
            UserError.class, () -> new WalkSpeeds(walker("tobbler", null, null, null), Body.MOON));
    assertTrue(f.getMessage().contains("tobler, naismith, naismith-langmuir"), f.getMessage());
    UserError e =
        assertThrows(
            UserError.class,
            () -> new WalkSpeeds(walker("tobler", "pandolff", null, null), Body.MOON));
    assertTrue(e.getMessage().contains("pandolf, minetti, suited-lunar"), e.getMessage());
  }
}

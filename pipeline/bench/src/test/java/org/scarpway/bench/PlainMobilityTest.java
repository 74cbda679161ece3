package org.scarpway.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.HornGradient;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.MobilityStage;
import org.scarpway.vehicle.Vehicle;

/** The product and the plain per-cell evaluation give the same, cell by cell. */
class PlainMobilityTest {
  @Test
  void onRollingGround() {
    same(MobilityBench.terrain(150, 1, false), MobilityBench.vehicle(), 0.2);
  }

  @Test
  void amongBoulders() {
    same(MobilityBench.terrain(150, 1, true), MobilityBench.vehicle(), 0.02);
  }

  /** Rough ground on cells that are not square, steps and roughness of their own, some voids. */
  @Test
  void onRandomGround() {
    for (int seed = 1; seed <= 6; seed++) {
      same(random(seed), seed % 2 == 0 ? MobilityBench.vehicle() : lopsided(), 0.02);
    }
  }

  /** Not the same turned about: the axles are not in the middle, the ends differ. */
  private static Vehicle lopsided() {
    Vehicle v = MobilityBench.vehicle();
    return new Vehicle(
        "lopsided",
        "",
        v.massKg(),
        new Vehicle.Chassis(4.4, 2.9, 0.36, 0.7, 0.9, 1.1),
        MobilityBench.rigidWheels(List.of(1.6, -0.2, -1.5), 2.3, 0.4, 0.3),
        new Vehicle.Limits(20.0, 18.0, 15.0, 0.25, 8.0),
        v.slowFrom(),
        v.drive(),
        null,
        null,
        null);
  }

  private static Terrain random(int seed) {
    GridSpec spec = new GridSpec(90, 110, 0.9, 1.1, 0, 0, "");
    Random random = new Random(seed);
    FloatGrid height = FloatGrid.empty(spec);
    FloatGrid step = FloatGrid.empty(spec);
    FloatGrid rough = FloatGrid.empty(spec);
    double east = 0.3 * random.nextDouble();
    double north = 0.25 * random.nextDouble();
    for (int i = 0; i < spec.cells(); i++) {
      double x = 0.9 * (i % 110);
      double y = -1.1 * Math.floorDiv(i, 110);
      height.values()[i] =
          (float)
              (900 + east * x + north * y + Math.sin(x / 9) + 0.06 * seed * random.nextGaussian());
      step.values()[i] = (float) (0.33 * random.nextDouble());
      rough.values()[i] = (float) (0.2 * random.nextDouble());
      if (random.nextInt(700) == 0) {
        height.values()[i] = Float.NaN;
      }
    }
    FloatGrid ge = FloatGrid.empty(spec);
    FloatGrid gn = FloatGrid.empty(spec);
    HornGradient.fill(height.values(), 90, 110, 0, 90, 0.9, 1.1, ge.values(), gn.values());
    // Gentler than the slopes that leave windows narrower than the spacing of the headings.
    for (int i = 0; i < spec.cells(); i++) {
      double t = Math.hypot(ge.values()[i], gn.values()[i]);
      if (t > 0.34) {
        ge.values()[i] *= (float) (0.34 / t);
        gn.values()[i] *= (float) (0.34 / t);
      }
    }
    return new Terrain(height, step, ge, gn, rough, step, step);
  }

  private static void same(Terrain terrain, Vehicle vehicle, double leastOpen) {
    GridSpec spec = terrain.gradEast().spec();
    PlainMobility plain = new PlainMobility(vehicle, terrain, Body.MOON);
    plain.rows(0, spec.rows());
    try (Workers workers = new Workers(2)) {
      Mobility m =
          MobilityStage.compute(
              terrain, MobilityBench.noHazard(spec), vehicle, Body.MOON, workers, Progress.NONE);
      int[] byClass = new int[4];
      for (int cell = 0; cell < spec.cells(); cell++) {
        String where = "cell " + cell;
        byClass[plain.cls[cell]]++;
        assertEquals(plain.cls[cell], m.cls().values()[cell], where);
        assertEquals(plain.bits[cell], m.field().allowed(cell), where);
        near(plain.headingsPct[cell], m.headingsPct().values()[cell], where);
        near(plain.margin01[cell], m.margin01().values()[cell], where);
        near(plain.speedMs[cell], m.speedMs().values()[cell], where);
        near(plain.energyJm[cell], m.energyJm().values()[cell], where);
      }
      assertTrue(
          byClass[Mobility.GO] + byClass[Mobility.SLOW] > leastOpen * spec.cells(),
          Arrays.toString(byClass));
    }
  }

  private static void near(float expected, float got, String where) {
    if (Float.isNaN(expected)) {
      assertTrue(Float.isNaN(got), where);
    } else {
      assertEquals(expected, got, 1e-5 * Math.max(1, Math.abs(expected)), where);
    }
  }
}

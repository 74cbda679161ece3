package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;
import org.scarpway.validation.Validation;

/** Speed among rocks: paths drawn one by one, stopping distance, and what mobility makes of it. */
class RockSpeedTest {
  private static final GridSpec SPEC = Grounds.square(4, 5);
  private static final double G = Body.MOON.gravityMs2();

  @Test
  void pathsDrawnOneByOneTakeAsLong() {
    // No track or soil: swerves and brakes at half of gravity.
    RockSpeed rocks = new RockSpeed(Vehicles.plain(20.0, 20.0, 15.0), G);
    Random random = new Random(7);
    double worst = 0;
    for (double meanM : new double[] {8, 15, 40, 200}) {
      for (double freeMs : new double[] {0.5, 1, 1.8}) {
        double swerveS = 2 * Math.sqrt(1 / (G / 2));
        double timeS = 0;
        double wayM = 0;
        for (int n = 0; n < 400_000; n++) {
          double pathM = -meanM * Math.log(1 - random.nextDouble());
          wayM += pathM;
          timeS += Math.max(pathM / freeMs, swerveS);
        }
        double got = rocks.speedMs(freeMs, 1 / meanM, 1);
        worst = Math.max(worst, Math.abs(got / (wayM / timeS) - 1));
        assertTrue(got <= freeMs);
      }
    }
    Validation.near(
        "13-boulders-speed",
        "speed among rocks: closed form against free paths drawn one by one, largest relative error",
        "own derivation",
        "C",
        0,
        worst,
        0.005);
    // 1.62 / 2 m/s2 over 2 m: v2 = 2 b l, whatever the drive can do.
    assertEquals(Math.sqrt(2 * G / 2 * 2), rocks.speedMs(1000, 0.5, 1e-9), 1e-9);
  }

  private static Mobility run(double deg, double hitsPerKm, double slowM) {
    Terrain slope = Grounds.plane(SPEC, 0.02, SlopeGeometry.tan(deg));
    Hazard none = Grounds.noHazard(SPEC);
    Hazard rocks =
        none.with(
            new Hazard.Boulders(Grounds.filled(SPEC, hitsPerKm), Grounds.filled(SPEC, 1), slowM, 4),
            none.detourFactor());
    try (Workers workers = new Workers(1)) {
      return MobilityStage.compute(
          slope,
          rocks,
          Vehicles.full(4200, 20, 15, 0.3, 5, Vehicles.LUNAR),
          Body.MOON,
          workers,
          Progress.NONE);
    }
  }

  @Test
  void moreRocksAreNeverEasierAndSlowFromAStatedPath() {
    for (double deg : new double[] {0, 4, 9}) {
      Mobility last = run(deg, 0, 50);
      for (double hits = 1; hits < 240; hits *= 1.5) {
        Mobility more = run(deg, hits, 50);
        assertTrue(more.cls().values()[5] >= last.cls().values()[5]);
        assertTrue(more.speedMs().values()[5] <= last.speedMs().values()[5]);
        assertTrue(more.energyJm().values()[5] >= last.energyJm().values()[5] * (1 - 1e-6));
        assertTrue(more.margin01().values()[5] <= last.margin01().values()[5]);
        last = more;
      }
      assertEquals(Mobility.SLOW, last.cls().values()[5]);
    }
    assertEquals(Mobility.GO, run(0, 19, 50).cls().values()[5], "a rock every 53 m");
    assertEquals(Mobility.SLOW, run(0, 21, 50).cls().values()[5], "a rock every 48 m");
    assertEquals(Mobility.GO, run(0, 21, 0).cls().values()[5], "never slow");
  }
}

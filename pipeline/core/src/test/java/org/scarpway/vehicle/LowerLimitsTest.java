package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.Dem;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.hazard.HazardParams;
import org.scarpway.hazard.HazardStrips;
import org.scarpway.hazard.RockParams;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainStage;

/**
 * A vehicle that may do less never finds a cell better: over random ground with knolls, pits and
 * ramps, with the room between blocked ground, on cells that resolve the wheels and on coarser
 * ones.
 */
class LowerLimitsTest {
  private static final int SIZE = 40;
  private static final int LIMITS = 5;

  private static Terrain terrain(Random random, double cellM, Workers workers) {
    GridSpec spec = new GridSpec(SIZE, SIZE, cellM, cellM, 0, SIZE * cellM, "");
    FloatGrid z = FloatGrid.empty(spec);
    double east = 0.3 * random.nextGaussian();
    double north = 0.3 * random.nextGaussian();
    double roughM = 0.08 * cellM * random.nextDouble();
    double[] knolls = new double[4 * 25];
    for (int k = 0; k < knolls.length; k += 4) {
      knolls[k] = SIZE * cellM * random.nextDouble();
      knolls[k + 1] = SIZE * cellM * random.nextDouble();
      knolls[k + 2] = cellM * (1 + 4 * random.nextDouble());
      knolls[k + 3] = 0.5 * knolls[k + 2] * random.nextGaussian();
    }
    for (int i = 0; i < spec.cells(); i++) {
      double x = spec.xM(i % SIZE);
      double y = spec.yM(i / SIZE);
      double h = east * x + north * y + roughM * random.nextGaussian();
      for (int k = 0; k < knolls.length; k += 4) {
        double off = Math.hypot(x - knolls[k], y - knolls[k + 1]) / knolls[k + 2];
        h += knolls[k + 3] * Math.exp(-off * off);
      }
      z.values()[i] = (float) h;
    }
    TerrainParams params =
        new TerrainParams(TerrainParams.SlopeMethod.HORN, Math.max(4, cellM), 2.6, 3.4);
    return TerrainStage.compute(
        new Dem(z, 0, Body.MOON, List.of()), params, workers, Progress.NONE);
  }

  /** Climb, descent, side slope, step and margin to tipping over, each less by a share. */
  private static Vehicle vehicle(double[] less) {
    Vehicle v = Vehicles.full(4200, 24, 20, 0.5, 2, null);
    Vehicle.Limits l = v.limits();
    Vehicle.Limits lower =
        new Vehicle.Limits(
            l.climbDeg() * (1 - less[0]),
            l.descendDeg() * (1 - less[1]),
            l.sideDeg() * (1 - less[2]),
            l.stepM() * (1 - less[3]),
            l.tipMarginDeg() + 15 * less[4]);
    return new Vehicle(
        v.name(),
        "",
        v.massKg(),
        v.body(),
        v.wheels(),
        lower,
        v.slowFrom(),
        v.drive(),
        null,
        v.batteryKwh(),
        v.crew());
  }

  private static Mobility run(Terrain t, Vehicle v, Workers workers) {
    double turnM = Math.hypot(v.body().lengthM(), v.body().widthM());
    HazardParams params =
        new HazardParams(
            new RockParams(null, null, v.body().clearanceM(), v.body().widthM()),
            List.of(),
            0,
            45,
            v.limits().stepM(),
            v.body().clearanceM(),
            turnM,
            new HazardParams.Room(v.body().widthM(), turnM, v.limits().steepestDeg()));
    Hazard hazard =
        new HazardStrips(t.heightM().spec(), params).strip(t, 0, null, workers, Progress.NONE);
    return MobilityStage.compute(t, hazard, v, Body.MOON, workers, Progress.NONE);
  }

  @Test
  void noCellGetsBetterWhereALimitIsLowered() {
    Random random = new Random(13);
    int rooms = 0;
    int worse = 0;
    try (Workers workers = new Workers(1)) {
      for (int trial = 0; trial < 60; trial++) {
        double cellM = new double[] {0.4, 0.8, 1.3, 2, 3}[trial % 5];
        Terrain t = terrain(random, cellM, workers);
        double[] less = new double[LIMITS];
        Mobility before = run(t, vehicle(less), workers);
        assertEquals(cellM <= 1.3, before.notes().get(0).startsWith("Wheels set"));
        for (int more = 0; more < 3; more++) {
          less[random.nextInt(LIMITS)] += 0.3 * random.nextDouble();
          Mobility after = run(t, vehicle(less), workers);
          for (int i = 0; i < SIZE * SIZE; i++) {
            byte a = before.cls().values()[i];
            byte b = after.cls().values()[i];
            String where = "trial " + trial + ", cells of " + cellM + ", cell " + i;
            assertTrue(b >= a, where + ": " + a + " becomes " + b);
            worse += b > a ? 1 : 0;
            rooms += before.limit().values()[i] == Limit.ROOM.code() ? 1 : 0;
          }
          before = after;
        }
      }
    }
    assertTrue(rooms > 500 && worse > 2000, rooms + " without room, " + worse + " worse");
  }
}

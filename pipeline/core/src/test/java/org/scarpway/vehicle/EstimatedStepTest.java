package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.Dem;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainStage;

/** A step carried down to the wheels from cells of 90 m slows and never stops. */
class EstimatedStepTest {
  /** The numbers of a field-test truck. */
  static final Vehicle TRUCK =
      new Vehicle(
          "truck",
          "",
          2600.0,
          new Vehicle.Chassis(4.7, 1.9, 0.24, 0.8, 1.0, 0.8),
          VehicleParts.wheels(List.of(1.35, -1.55), 1.6, 0.39, 0.26),
          new Vehicle.Limits(25.0, 25.0, 15.0, 0.22, 10.0),
          VehicleParts.slowFrom(12.0, 0.10, 0.08),
          VehicleParts.drive(8, 1.0, 60000.0, 0.75, 0.0, 600.0, 0.08),
          null,
          null,
          null);

  /** Coastal hills of some 200 m relief: waves over many scales, on 90 m cells. */
  private static Dem hills() {
    GridSpec spec = Grounds.square(120, 90);
    Random random = new Random(11);
    float[] height = new float[spec.cells()];
    for (int k = 0; k < 40; k++) {
      double waveM = 9000 * Math.pow(0.88, k);
      double high = 40 * Math.pow(waveM / 9000, 0.9);
      double a = 2 * Math.PI * random.nextDouble();
      double phase = 2 * Math.PI * random.nextDouble();
      for (int i = 0; i < height.length; i++) {
        double x = 90.0 * (i % 120);
        int row = i / 120;
        double y = 90.0 * row;
        double along = x * Math.cos(a) + y * Math.sin(a);
        height[i] += (float) (high * Math.sin(2 * Math.PI * along / waveM + phase));
      }
    }
    return new Dem(new FloatGrid(spec, height), 0, Body.EARTH, List.of());
  }

  @Test
  void coarseCellsDoNotShutTheGround() {
    try (Workers workers = new Workers(1)) {
      TerrainParams params =
          new TerrainParams(TerrainParams.SlopeMethod.HORN, 270, 1.6, 2.9, null, null, 25.0);
      Terrain t = TerrainStage.compute(hills(), params, workers, Progress.NONE);
      assertNotNull(t.extrapolation().step());
      GridSpec spec = t.gradEast().spec();
      Mobility m =
          MobilityStage.compute(
              t, Grounds.noHazard(spec), TRUCK, Body.EARTH, workers, Progress.NONE);
      int over = 0;
      int noGo = 0;
      int known = 0;
      for (int cell = 0; cell < spec.cells(); cell++) {
        byte cls = m.cls().values()[cell];
        known += cls == 0 ? 0 : 1;
        noGo += cls == Mobility.NO_GO ? 1 : 0;
        if (t.stepM().values()[cell] > 0.22 && cls != 0) {
          over++;
          assertTrue(
              cls == Mobility.SLOW || m.limit().values()[cell] != Limit.STEP.code(),
              "cell " + cell);
          if (cls == Mobility.SLOW) {
            assertEquals(1, m.field().speedCapMs(cell), 0);
          }
        }
      }
      assertTrue(over > 100, "the estimate must exceed the limit somewhere: " + over);
      assertTrue(noGo < 0.5 * known, noGo + " of " + known + " no-go");
      assertTrue(
          m.notes().stream().anyMatch(n -> n.contains("steps only slow")), m.notes().toString());
    }
  }
}

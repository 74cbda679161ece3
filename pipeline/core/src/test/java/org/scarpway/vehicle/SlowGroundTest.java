package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

/** What slow ground is said to be slow for, against the thresholds cell by cell. */
class SlowGroundTest {
  private static final GridSpec SPEC = Grounds.square(40, 5);

  /** Slopes up to 25 degrees, steps up to 0.4 m, roughness up to 0.2 m, each by itself. */
  private static Terrain ground(Random random) {
    FloatGrid[] layers = new FloatGrid[6];
    for (int i = 0; i < layers.length; i++) {
      layers[i] = FloatGrid.empty(SPEC);
    }
    for (int cell = 0; cell < SPEC.cells(); cell++) {
      double t = SlopeGeometry.tan(25 * random.nextDouble());
      double a = 2 * Math.PI * random.nextDouble();
      layers[1].values()[cell] = (float) SlopeGeometry.deg(t);
      layers[2].values()[cell] = (float) (t * Math.sin(a));
      layers[3].values()[cell] = (float) (t * Math.cos(a));
      layers[4].values()[cell] = (float) (0.2 * random.nextDouble());
      layers[5].values()[cell] = (float) (0.4 * random.nextDouble());
    }
    FloatGrid none = layers[0];
    return new Terrain(none, layers[1], layers[2], layers[3], layers[4], layers[5], none);
  }

  private static Mobility on(Terrain t, Vehicle v) {
    try (Workers workers = new Workers(2)) {
      return MobilityStage.compute(t, Grounds.noHazard(SPEC), v, Body.MOON, workers, Progress.NONE);
    }
  }

  @Test
  void everyThresholdCountsByItself() {
    Vehicle v = Vehicles.slowFrom(Vehicles.withStep(0.3), VehicleParts.slowFrom(9.0, 0.15, 0.1));
    Random random = new Random(41);
    for (int draw = 0; draw < 5; draw++) {
      Terrain t = ground(random);
      Mobility m = on(t, v);
      long[] want = new long[4];
      for (int i = 0; i < SPEC.cells(); i++) {
        double g = Math.hypot(t.gradEast().values()[i], t.gradNorth().values()[i]);
        boolean steep = SlopeGeometry.deg(g) > 9;
        boolean high = t.stepM().values()[i] > 0.15;
        boolean rough = t.roughnessM().values()[i] > 0.1;
        if (t.stepM().values()[i] <= 0.3 && (steep || high || rough)) {
          want[0]++;
          want[1] += steep ? 1 : 0;
          want[2] += high ? 1 : 0;
          want[3] += rough ? 1 : 0;
        }
      }
      assertEquals(want[0], m.slow().cells());
      assertEquals(want[1], m.slow().cells(SlowCause.SLOPE));
      assertEquals(want[2], m.slow().cells(SlowCause.STEP));
      assertEquals(want[3], m.slow().cells(SlowCause.ROUGHNESS));
      assertEquals(0, m.slow().cells(SlowCause.HEADINGS));
      assertTrue(want[1] > 100 && want[2] > 100 && want[3] > 100);
    }
  }

  @Test
  void closedHeadingsAreOfTheCellsThatHaveThem() {
    Mobility m = on(ground(new Random(42)), Vehicles.plain(20.0, 20.0, 15.0));
    long some = 0;
    for (int i = 0; i < SPEC.cells(); i++) {
      boolean open = m.headingsPct().values()[i] < 100 && m.headingsPct().values()[i] > 0;
      some += open && m.cls().values()[i] == Mobility.SLOW ? 1 : 0;
    }
    assertEquals(some, m.slow().cells(SlowCause.HEADINGS));
    assertEquals(some, m.slow().cells());
    assertTrue(some > 100, some + " cells");
  }
}

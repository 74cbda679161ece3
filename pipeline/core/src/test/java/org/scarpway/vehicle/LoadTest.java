package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;

/** What more mass aboard makes of a vehicle, by the laws of motion, and that it never helps. */
class LoadTest {
  private static final double MOON = 1.62;
  private static final GridSpec SPEC = new GridSpec(8, 9, 5, 5, 0, 40, "");

  private static Vehicle vehicle(double massKg, double regeneration, Soil soil) {
    return new Vehicle(
        "cart",
        "",
        massKg,
        new Vehicle.Chassis(3, 2, 0.4, null, null, 0.8),
        VehicleParts.wheels(List.of(1.1, -1.1), 1.8, 0.4, 0.25),
        new Vehicle.Limits(null, null, null, null, null),
        null,
        VehicleParts.drive(3, 0.5, 1400.0, 0.6, regeneration, 90.0, 0.12),
        soil,
        9.0,
        null);
  }

  /**
   * c (m + load) g / efficiency and the hotel load over the speed, P efficiency / (c (m + load) g).
   */
  @Test
  void levelGroundTakesForceInProportionToMass() {
    DriveModel loaded = new DriveModel(vehicle(720, 0, null).withLoad(360), MOON);
    double force = 0.12 * 1080 * MOON;
    assertEquals(force, loaded.forceN(0), 1e-9);
    double speed = Math.min(3, 1400 * 0.6 / force);
    assertEquals(speed, loaded.speedMs(0), 1e-9);
    assertEquals(force / 0.6 + 90 / speed, loaded.energyJPerM(0), 1e-9);
  }

  /** On every cell and heading, whatever is drawn: no quicker, no cheaper, nowhere newly open. */
  @Test
  void moreMassNeverHelps() {
    Random random = new Random(17);
    Soil loose =
        VehicleParts.soil(
            "loose", new Soil.Bekker(1, 1400, 820_000), new Soil.Shear(170, 35, 0.018), null);
    int shut = 0;
    int dearer = 0;
    for (int round = 0; round < 40; round++) {
      Vehicle v =
          vehicle(
              300 + random.nextInt(900),
              random.nextBoolean() ? 0 : 0.4,
              round % 2 == 0 ? loose : null);
      TraversalCost light = field(v, new Random(round));
      TraversalCost own = field(v.withLoad(360), new Random(round));
      TraversalCost loaded = light.withLoad(own);
      for (int cell = 0; cell < SPEC.cells(); cell++) {
        for (int k = 0; k < Headings.COUNT; k++) {
          double s = loaded.timeSPerM(cell, k);
          assertTrue(s >= light.timeSPerM(cell, k) * (1 - 1e-6));
          shut += s == Double.POSITIVE_INFINITY && light.allows(cell, k) ? 1 : 0;
          if (s < Double.POSITIVE_INFINITY) {
            double j = loaded.energyJPerM(cell, k);
            double without = light.energyJPerM(cell, k);
            assertTrue(j >= without - 1e-6 * Math.abs(without), j + " and " + without);
            assertTrue(j >= own.energyJPerM(cell, k) - 1e-3 * Math.abs(j));
            dearer += j > 1.2 * without ? 1 : 0;
          }
        }
      }
    }
    assertTrue(shut > 100 && dearer > 1000, shut + " and " + dearer);
  }

  /** Cells of random gradients with the headings that the vehicle's own drive carries. */
  private static TraversalCost field(Vehicle v, Random random) {
    DriveModel drive = new DriveModel(v, MOON);
    double up = Math.min(drive.steepestDrivenGrade(), drive.steepestPoweredGrade());
    int n = SPEC.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    float[] cap = new float[n];
    Headings headings = Headings.of(SPEC);
    for (int i = 0; i < n; i++) {
      east[i] = (float) (0.5 * random.nextGaussian());
      north[i] = (float) (0.5 * random.nextGaussian());
      cap[i] = 1 + 2 * random.nextFloat();
      for (int k = 0; k < Headings.COUNT; k++) {
        double g = east[i] * headings.east(k) + north[i] * headings.north(k);
        allowed[i] |= g <= up ? 1 << k : 0;
      }
    }
    GradeTable table = drive.table(3, Math.min(3, Math.max(0.1, up)));
    return new TraversalCost(SPEC, allowed, east, north, cap, new byte[n], table);
  }
}

package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.terrain.Extrapolation;
import org.scarpway.terrain.LayerErrors;
import org.scarpway.terrain.StepError;
import org.scarpway.terrain.Terrain;

/**
 * Limits that are the same on every heading, by hand: a step of 0.3 m, a belly at 0.42 m, crawl
 * speed from a roughness of 0.1 x 4.2 / 0.8 = 0.525 m on.
 */
class IsotropicLimitsTest {
  private static final GridSpec SPEC = Grounds.square(2, 5);
  private static final MoveLimits LIMITS = new MoveLimits(Vehicles.full(), Body.MOON);

  private static Terrain ground(double stepM, double roughnessM, double convexityM) {
    return Grounds.of(SPEC, (x, y) -> 0, stepM, roughnessM, convexityM);
  }

  private static Hazard rocks(double detour, double hitsPerKm, double slowM, double noGoM) {
    return Grounds.noHazard(SPEC)
        .with(
            new Hazard.Boulders(
                Grounds.filled(SPEC, hitsPerKm), Grounds.filled(SPEC, 0.5), slowM, noGoM),
            Grounds.filled(SPEC, detour));
  }

  private static IsotropicLimits of(Terrain t, Hazard h, Allowances allowances) {
    return new IsotropicLimits(LIMITS, t, h, true, true, allowances);
  }

  /** One sigma of 2 cm for the one height that steps are told from and of 3 cm for the belly. */
  private static Allowances sure() {
    LayerErrors errors =
        new LayerErrors(null, 0.01, 0.01, new StepError(1, 0.02, 1e-9, 1e-9), null, 0.03);
    return Allowances.of(new HeightTrust(0.9, errors), ground(0, 0, 0), null);
  }

  private static void assertUse(double use, Limit limit, IsotropicLimits cell) {
    cell.judge(3, 0);
    assertEquals(use, cell.use, 1e-6);
    assertEquals(limit, cell.limit);
  }

  @Test
  void eachLimitTakesItsShare() {
    Hazard none = Grounds.noHazard(SPEC);
    Allowances plain = Allowances.NONE;
    assertUse(0, null, of(ground(0, 0, 0), none, plain));
    assertUse(0, null, of(ground(0, 0, -0.3), none, plain));
    assertUse(0.5, Limit.STEP, of(ground(0.15, 0.2, 0.2), none, plain));
    assertUse(2, Limit.STEP, of(ground(0.6, 2, 0.2), none, plain));
    assertUse(0.5, Limit.CLEARANCE, of(ground(0.14, 0.2, 0.21), none, plain));
    assertUse(0.5, Limit.ROUGHNESS, of(ground(0.14, 0.2625, 0.2), none, plain));
    // Rough ground slows but does not stop.
    assertUse(1, Limit.ROUGHNESS, of(ground(0, 2, 0), none, plain));
    IsotropicLimits unasked =
        new IsotropicLimits(LIMITS, ground(0.03, 2, 2), none, false, false, plain);
    assertUse(0.1, Limit.STEP, unasked);
    assertEquals(0, unasked.roughnessM(3));
    assertEquals(2, of(ground(0, 2, 0), none, plain).roughnessM(3));
    assertEquals(0.15, of(ground(0.15, 2, 0), none, plain).stepM(3), 1e-6);
  }

  /**
   * 1.6449 sigmas of 2 cm, as steps go up and down, and 1.2816 of 3 cm are kept: 0.26710 m of the
   * step, 0.38155 m of the belly.
   */
  @Test
  void errorsTakeFromStepAndBelly() {
    Hazard none = Grounds.noHazard(SPEC);
    assertUse(0.15 / 0.26710293, Limit.STEP, of(ground(0.15, 0, 0), none, sure()));
    assertUse(0.21 / 0.38155345, Limit.CLEARANCE, of(ground(0, 0, 0.21), none, sure()));
    // A step at one sigma from its limit, a bump at two: normal tails of 0.15866, up and down, and
    // 0.02275.
    IsotropicLimits both = of(ground(0.28, 0, 0.36), none, sure());
    both.judge(3, 0);
    assertTrue(both.use > LimitUse.FULL);
    assertEquals(2 * 0.1586553 + 0.0227501, both.broken(3), 1e-5);
    IsotropicLimits high = of(ground(0.7, 0, 0.9), none, sure());
    high.judge(3, 0);
    assertEquals(1, high.broken(3));
    IsotropicLimits hollow = of(ground(0, 0, -5), none, sure());
    hollow.judge(3, 0);
    assertEquals(0, hollow.broken(3), 1e-9);
  }

  @Test
  void withoutErrorsALimitIsBrokenOrNot() {
    for (double convexityM : new double[] {0.41, 0.43}) {
      IsotropicLimits c = of(ground(0, 0, convexityM), Grounds.noHazard(SPEC), Allowances.NONE);
      c.judge(3, 0);
      assertEquals(convexityM > 0.42 ? 1 : 0, c.broken(3));
    }
    for (double stepM : new double[] {0.29, 0.31}) {
      IsotropicLimits c = of(ground(stepM, 0, 0), Grounds.noHazard(SPEC), Allowances.NONE);
      c.judge(3, 0);
      assertEquals(stepM > 0.3 ? 1 : 0, c.broken(3));
    }
  }

  /** A step carried down from far away tells rough ground, which slows, and no more. */
  @Test
  void stepsFromFarAwayOnlySlow() {
    Terrain t = ground(0.6, 0, 0);
    Terrain far =
        new Terrain(
            t.heightM(),
            t.slopeDeg(),
            t.gradEast(),
            t.gradNorth(),
            t.roughnessM(),
            t.stepM(),
            t.convexityM(),
            new Extrapolation(null, null, new Extrapolation.Scale(90, 2.6, 0.5, 0.4)),
            null);
    assertUse(1, Limit.STEP, of(far, Grounds.noHazard(SPEC), Allowances.NONE));
  }

  /** 50 rocks in a kilometre: one in 20 m. */
  @Test
  void rocksInTheWay() {
    Terrain t = ground(0, 0, 0);
    IsotropicLimits few = of(t, rocks(1.25, 50, 19.9, 10), Allowances.NONE);
    assertUse(0.5, Limit.ROCKS, few);
    assertFalse(few.slowedByRocks(3));
    assertTrue(of(t, rocks(1.25, 50, 20.1, 10), Allowances.NONE).slowedByRocks(3));
    // A way of 1.25 times the length: 1 - 1 / 1.25.
    assertUse(0.2, Limit.ROCKS, of(t, rocks(1.25, 50, 20, 3), Allowances.NONE));
    assertUse(1, Limit.ROCKS, of(t, rocks(1.25, 50, 20, 45), Allowances.NONE));
    assertEquals(0.1, few.amongRocksMs(3, 0.3, 0.1));
    // Stopping within 20 m with at most half of gravity: v2 = 2 x 0.81211 x 20.
    assertTrue(few.amongRocksMs(3, 1e3, 1e3) <= Math.sqrt(40 * 0.81211));
    assertTrue(few.amongRocksMs(3, 1e3, 1e3) > 0);
    assertEquals(9, of(t, rocks(1, 0, 20, 10), Allowances.NONE).amongRocksMs(3, 1, 9));
    assertEquals(9, of(t, rocks(1, Double.NaN, 20, 10), Allowances.NONE).amongRocksMs(3, 1, 9));
    IsotropicLimits none = of(t, Grounds.noHazard(SPEC), Allowances.NONE);
    assertEquals(9, none.amongRocksMs(3, 1, 9));
    assertFalse(none.slowedByRocks(3));
    assertFalse(few.rocksUnknown(3) || few.fullOfRocks(3));
    assertTrue(of(t, rocks(Double.NaN, 0, 1, 1), Allowances.NONE).rocksUnknown(3));
    assertTrue(of(t, rocks(Double.POSITIVE_INFINITY, 0, 1, 1), Allowances.NONE).fullOfRocks(3));
  }

  @Test
  void unknownLayersAndCauses() {
    for (int layer = 0; layer < 6; layer++) {
      Terrain t = ground(0, 0, 0);
      FloatGrid[] grids = {
        t.gradEast(), t.gradNorth(), t.stepM(), t.roughnessM(), t.convexityM(), t.slopeDeg()
      };
      grids[layer].values()[3] = Float.NaN;
      IsotropicLimits c = of(t, Grounds.noHazard(SPEC), Allowances.NONE);
      assertEquals(layer < 5, c.unknown(3), "layer " + layer);
      assertFalse(c.unknown(2));
    }
    for (Hazard.Cause cause : Hazard.Cause.values()) {
      Hazard h = Grounds.noHazard(SPEC);
      h.causes().values()[3] = (byte) cause.bit();
      IsotropicLimits c = of(ground(0, 0, 0), h, Allowances.NONE);
      assertEquals(cause == Hazard.Cause.KEEP_OUT, c.keptOut(3));
      boolean tight = cause == Hazard.Cause.NARROW || cause == Hazard.Cause.POCKET;
      assertEquals(tight, c.withoutRoom(3));
    }
    assertNull(of(ground(0, 0, 0), Grounds.noHazard(SPEC), Allowances.NONE).limit);
  }

  /**
   * Shares of depth and slip by the model itself, the deepest of clearance and step being 0.3 m.
   */
  @Test
  void softGroundAndGroundThatHardlyBears() {
    Hazard none = Grounds.noHazard(SPEC);
    Terrain t = ground(0, 0, 0);
    for (double share : new double[] {1, 0.2}) {
      Soil soil =
          VehicleParts.soil(
              "soft",
              new Soil.Bekker(1, 1400 * share, 820_000 * share),
              new Soil.Shear(170, 35, 0.0178),
              null);
      Vehicle v = Vehicles.full(4200, 20, 15, 0.3, 5, soil);
      MoveLimits m = new MoveLimits(v, Body.MOON);
      double sunk = m.model.sinkageM(0) / 0.3;
      double slipped = m.model.slip(0) / 0.6;
      IsotropicLimits c = new IsotropicLimits(m, t, none, true, true, Allowances.NONE);
      c.judge(3, 0);
      assertEquals(Math.max(sunk, slipped), c.use, 1e-9);
      assertEquals(sunk > slipped ? Limit.SINKAGE : Limit.TRACTION, c.limit);
    }
    // 2720 W on 3 : 4 : 5 give half of the speed: two thirds of what may be lost.
    Vehicle weak =
        new Vehicle(
            "weak",
            "",
            1000.0,
            null,
            null,
            new Vehicle.Limits(45.0, 45.0, 45.0, null, null),
            new Vehicle.SlowFrom(null, null, null, null, null, 10.0),
            VehicleParts.drive(4, 1.0, 2720.0, null, null, null, 0.1),
            null,
            null,
            null);
    MoveLimits limits = new MoveLimits(weak, new Body("b", 1e6, 1e6, 2));
    IsotropicLimits slow = new IsotropicLimits(limits, t, none, true, true, Allowances.NONE);
    slow.judge(3, 0.75);
    assertEquals(2 / 3.0, slow.use, 1e-9);
    assertEquals(Limit.POWER, slow.limit);
    Soil fine = VehicleParts.soil("fine", null, null, 60.0);
    MoveLimits cone = new MoveLimits(Vehicles.full(4200, 20, 15, 0.3, 5, fine), Body.EARTH);
    IsotropicLimits borne = new IsotropicLimits(cone, t, none, true, true, Allowances.NONE);
    borne.judge(3, 0);
    double needed = cone.bearing.once() / 60;
    double slip = cone.model.slip(0) / 0.6;
    assertEquals(Math.max(needed, slip), borne.use, 1e-9);
    assertEquals(Limit.TRACTION, borne.limit);
  }
}

package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.stage.UserError;

/** Limits, caps on the speed and loss of speed, worked by hand. */
class MoveLimitsByHandTest {
  private static final double INFINITE = Double.POSITIVE_INFINITY;
  private static final Vehicle.Wheels WHEELS =
      VehicleParts.wheels(List.of(1.5, -1.5), List.of(2.0, 2.0), 0.45, 0.3);
  private static final Vehicle.Limits LIMITS = new Vehicle.Limits(20.0, 30.0, 15.0, 0.3, 4.0);
  private static final Vehicle.SlowFrom SLOW = VehicleParts.slowFrom(10.0, 0.1, 0.05);

  private static Vehicle vehicle(
      Vehicle.Wheels wheels, Vehicle.Limits limits, Vehicle.SlowFrom slow, Vehicle.Drive drive) {
    return vehicle(
        1000.0, new Vehicle.Chassis(4, 2.4, 0.4, 0.6, 1.0, 1.2), wheels, limits, slow, drive, null);
  }

  private static Vehicle vehicle(
      Double massKg,
      Vehicle.Chassis body,
      Vehicle.Wheels wheels,
      Vehicle.Limits limits,
      Vehicle.SlowFrom slow,
      Vehicle.Drive drive,
      Soil soil) {
    return new Vehicle("v", "", massKg, body, wheels, limits, slow, drive, soil, null, null);
  }

  private static Vehicle.Drive drive(double speedMs, Double crawlMs) {
    return VehicleParts.drive(speedMs, crawlMs, null, null, null, null, null);
  }

  private static MoveLimits limits(Vehicle v) {
    return new MoveLimits(v, Body.MOON);
  }

  private static double tan(double deg) {
    return Math.tan(Math.toRadians(deg));
  }

  @Test
  void eachRuleCapsTheSpeed() {
    MoveLimits m = limits(vehicle(WHEELS, LIMITS, SLOW, drive(4, 1.0)));
    assertEquals(INFINITE, m.speedCapMs(tan(9.99), 0.1, 0.05));
    // Half way from 10 degrees to the steepest limit of 30.
    assertEquals(2.5, m.speedCapMs(tan(20), 0, 0), 1e-9);
    assertEquals(3.25, m.speedCapMs(tan(15), 0, 0), 1e-9);
    assertEquals(1, m.speedCapMs(tan(40), 0, 0), 1e-9);
    // Half and a quarter of the way from 0.1 to 0.3 m, and above.
    assertEquals(2.5, m.speedCapMs(0, 0.2, 0), 1e-9);
    assertEquals(3.25, m.speedCapMs(0, 0.15, 0), 1e-9);
    assertEquals(1, m.speedCapMs(0, 0.31, 0));
    // Ride: speed times roughness stays 4 x 0.05.
    assertEquals(2, m.speedCapMs(0, 0, 0.1), 1e-12);
    assertEquals(1, m.speedCapMs(0, 0, 0.9));
    assertEquals(0.2, m.crawlRoughnessM, 1e-12);
    assertEquals(2, m.speedCapMs(tan(20), 0.15, 0.1), 1e-9);
    assertEquals(2.5, m.speedCapMs(tan(20), 0.15, 0.06), 1e-9);
    assertEquals(30, m.crawlSlopeDeg);
    assertTrue(m.needsStep() && m.needsRoughness() && m.needsConvexity());
  }

  @Test
  void rulesWithoutTheirNumbersCapNothing() {
    MoveLimits none = limits(vehicle(WHEELS, LIMITS, SLOW, drive(4, null)));
    assertEquals(INFINITE, none.speedCapMs(tan(28), 0.29, 0.9));
    Vehicle.Limits noStep = new Vehicle.Limits(20.0, 30.0, 15.0, null, null);
    MoveLimits steps = limits(vehicle(WHEELS, noStep, SLOW, drive(4, 1.0)));
    assertEquals(INFINITE, steps.speedCapMs(0, 5, 0));
    assertTrue(steps.needsStep());
    assertEquals(0, steps.tipMargin);
    // Slow from above the limit: full speed up to it, crawl beyond.
    Vehicle.SlowFrom late = VehicleParts.slowFrom(35.0, 0.4, null);
    MoveLimits above = limits(vehicle(WHEELS, LIMITS, late, drive(4, 1.0)));
    assertEquals(INFINITE, above.speedCapMs(tan(40), 0.29, 9));
    assertEquals(1, above.speedCapMs(0, 0.41, 0));
    assertFalse(above.needsRoughness());
    Vehicle.Limits noSlope = new Vehicle.Limits(null, null, null, null, null);
    MoveLimits flat = limits(vehicle(WHEELS, noSlope, SLOW, drive(4, 1.0)));
    assertEquals(INFINITE, flat.crawlSlopeDeg);
    assertEquals(4, flat.speedCapMs(tan(20), 0, 0), 1e-12);
    Vehicle bare = vehicle(null, null, null, null, null, drive(4, 1.0), null);
    MoveLimits m = limits(bare);
    assertEquals(INFINITE, m.speedCapMs(3, 3, 3));
    assertFalse(m.needsStep() || m.needsRoughness() || m.needsConvexity());
    assertFalse(m.tip.known());
    for (double limit :
        new double[] {m.climb, m.descend, m.side, m.stepM, m.trough, m.tractionUp, m.power}) {
      assertEquals(INFINITE, limit);
    }
    assertEquals(INFINITE, m.tractionDown);
    assertEquals(INFINITE, m.deepestM());
  }

  @Test
  void anglesBecomeGrades() {
    MoveLimits m = limits(vehicle(WHEELS, LIMITS, SLOW, drive(4, 1.0)));
    assertEquals(0.36397023, m.climb, 1e-8);
    assertEquals(0.57735027, m.descend, 1e-8);
    assertEquals(0.26794919, m.side, 1e-8);
    assertEquals(0.17632698, m.slowSlope, 1e-8);
    assertEquals(0.06992681, m.tipMargin, 1e-8);
    assertEquals(0.3, m.deepestM());
    assertEquals(0.4, m.bellyM(0.2));
    // Half the track of 2 m over 1.2 m.
    assertEquals(1 / 1.2, m.tip.side(0), 1e-12);
  }

  /** The ramp touches the wheel and the lower edge of the longer overhang, at either end. */
  @Test
  void theLongerOverhangMeetsRampsFirst() {
    for (Double[] ends : new Double[][] {{0.6, 1.0}, {1.0, 0.6}, {1.0, null}, {null, 1.0}}) {
      Vehicle.Chassis body = new Vehicle.Chassis(4, 2.4, 0.4, ends[0], ends[1], null);
      Vehicle v = vehicle(null, body, WHEELS, null, null, drive(4, null), null);
      double angle = Math.atan(limits(v).trough);
      assertEquals(0.45, 1.0 * Math.sin(angle) + (0.45 - 0.4) * Math.cos(angle), 1e-12);
    }
    Vehicle.Chassis inside = new Vehicle.Chassis(4, 2.4, 0.4, 0.3, 0.4, null);
    assertEquals(
        INFINITE, limits(vehicle(null, inside, WHEELS, null, null, drive(4, null), null)).trough);
  }

  /**
   * Grade 0.75 is 3 : 4 : 5: of 1000 kg at 2 m/s2 the slope takes 1200 N and rolling a tenth of
   * 1600 N. 2720 W give 2 m/s of the rated 4.
   */
  @Test
  void lossOfSpeedByPower() {
    Body body = new Body("b", 1e6, 1e6, 2);
    Vehicle.Limits limits = new Vehicle.Limits(45.0, 45.0, 45.0, null, null);
    for (double pct : new double[] {49.9, 50.1}) {
      Vehicle.Drive d = VehicleParts.drive(4, 1.0, 2720.0, null, null, null, 0.1);
      Vehicle.SlowFrom slow = new Vehicle.SlowFrom(null, null, null, null, null, pct);
      SoftGround soft = new MoveLimits(vehicle(null, limits, slow, d), body).soft;
      assertEquals(0.5, soft.lossShare(0.75), 1e-9);
      assertEquals(0.5 / 0.75, soft.lossUse(0.75), 1e-9);
      assertEquals(0, soft.lossShare(0));
      assertEquals(0, soft.lossUse(0));
      assertEquals(pct < 50, (soft.slowCauses(0.75) != 0));
      assertFalse((soft.slowCauses(0) != 0));
      // Nearly straight between entries; slopes beyond the limit of 1 go on to lose more.
      assertEquals(
          (soft.lossShare(0.75) + soft.lossShare(0.755)) / 2, soft.lossShare(0.7525), 1e-12);
      assertEquals(1 - 2720 / (2200 / Math.sqrt(2)) / 4, soft.lossShare(1), 1e-9);
      assertEquals(1 - 2720 / (6200 / Math.sqrt(10)) / 4, soft.lossShare(3), 1e-9);
      assertEquals(0, soft.slip(0.75));
      assertEquals(0, soft.sinkageM(0.75));
    }
    Vehicle.Drive noCrawl = VehicleParts.drive(4, null, 2720.0, null, null, null, 0.1);
    Vehicle.SlowFrom slow = new Vehicle.SlowFrom(null, null, null, null, null, 10.0);
    SoftGround all = new MoveLimits(vehicle(null, limits, slow, noCrawl), body).soft;
    assertEquals(0.5, all.lossUse(0.75), 1e-9);
    SoftGround unasked = new MoveLimits(vehicle(null, limits, null, noCrawl), body).soft;
    assertEquals(0, unasked.lossUse(0.75));
    assertFalse((unasked.slowCauses(0.75) != 0));
  }

  /** Ruts take from belly and step what the deepest wheel sinks, and never leave less than none. */
  @Test
  void rutsTakeFromBellyAndStep() {
    Soil soft =
        VehicleParts.soil(
            "s", new Soil.Bekker(1, 1400, 820_000), new Soil.Shear(170, 35, 0.0178), null);
    Vehicle.Chassis body = new Vehicle.Chassis(4, 2.4, 0.4, null, null, null);
    Vehicle.Limits step = new Vehicle.Limits(20.0, 20.0, 20.0, 0.3, null);
    MoveLimits m = limits(vehicle(1000.0, body, WHEELS, step, null, drive(4, 1.0), soft));
    double sunkM = m.model.sinkageM(0.1);
    assertTrue(sunkM > 0.005);
    assertEquals(0.4 - sunkM, m.bellyM(0.1), 1e-9);
    assertEquals(0.3 - sunkM, m.stepM(0.1), 1e-9);
    assertEquals(m.model.slip(0.1) / 0.6, m.soft.slipUse(0.1), 1e-6);
    Soil swamp =
        VehicleParts.soil("s", new Soil.Bekker(1, 1, 900), new Soil.Shear(170, 35, 0.0178), null);
    MoveLimits deep = limits(vehicle(1000.0, body, WHEELS, step, null, drive(4, 1.0), swamp));
    assertEquals(0, deep.bellyM(0.1));
    assertEquals(0, deep.stepM(0.1));
  }

  private static void refused(String word, Body body, Vehicle v) {
    UserError e = assertThrows(UserError.class, () -> new MoveLimits(v, body));
    assertTrue(e.getMessage().contains(word), e.getMessage());
  }

  @Test
  void vehiclesThatLackANumberAreRefused() {
    Vehicle.Chassis body = new Vehicle.Chassis(4, 2.4, 0.4, null, null, null);
    Soil lunar = Vehicles.LUNAR;
    Soil loose = VehicleParts.soil("loose", null, lunar.shear(), null);
    Soil fine = VehicleParts.soil("fine", null, null, 200.0);
    Vehicle.Drive d = drive(4, 1.0);
    Vehicle.Wheels one = VehicleParts.wheels(List.of(0.0), List.of(2.0), 0.45, 0.3);
    refused("drive speed", Body.MOON, vehicle(null, body, WHEELS, null, null, null, null));
    refused(
        "drive speed", Body.MOON, vehicle(null, body, WHEELS, null, null, drive(0, null), null));
    refused("1 axle", Body.MOON, vehicle(null, body, one, null, null, d, null));
    refused("without mass", Body.MOON, vehicle(null, body, WHEELS, null, null, d, lunar));
    refused("without mass", Body.MOON, vehicle(1000.0, body, null, null, null, d, lunar));
    refused("bekker", Body.MOON, vehicle(1000.0, body, WHEELS, null, null, d, loose));
    refused("cone index", Body.MOON, vehicle(1000.0, body, WHEELS, null, null, d, fine));
    refused("cone index", Body.EARTH, vehicle(1000.0, null, WHEELS, null, null, d, fine));
    Body light = new Body("light", 6e6, 6e6, 9.7);
    Body near = new Body("near", 6e6, 6e6, 9.75);
    Vehicle v = vehicle(1000.0, body, WHEELS, null, null, d, fine);
    refused("cone index", light, v);
    assertTrue(new MoveLimits(v, near).bearing != null);
  }

  @Test
  void crawlAndConeIndexBoundTheSpeed() {
    MoveLimits slow = limits(vehicle(WHEELS, LIMITS, SLOW, drive(4, 0.5)));
    assertEquals(0.4, slow.crawlRoughnessM, 1e-12);
    assertEquals(0.5, slow.speedCapMs(0, 0, 3));
    MoveLimits none = limits(vehicle(WHEELS, null, SLOW, drive(4, 1.0)));
    assertEquals(INFINITE, none.crawlSlopeDeg);
    Vehicle.Chassis body = new Vehicle.Chassis(4, 2.4, 0.4, null, null, null);
    Vehicle v = vehicle(1000.0, body, WHEELS, null, null, drive(4, 0.5), null);
    ConeBearing bare = ConeBearing.of(v.withSoil(VehicleParts.soil("fine", null, null, 50.0)));
    for (double share : new double[] {0.25, 0.75}) {
      double rating = bare.once() + share * (bare.often() - bare.once());
      Vehicle on = v.withSoil(VehicleParts.soil("fine", null, null, rating));
      assertEquals(4 * share, new MoveLimits(on, Body.EARTH).speedCapMs(0, 0, 0), 1e-9);
    }
  }

  /** Tacks make good grades up to the corner of a limit along and that across. */
  @Test
  void theTableHoldsTheSteepestOpenSlope() {
    Vehicle.Drive weak = VehicleParts.drive(4, 0.1, 1000.0, 1.0, 0.5, null, 0.1);
    Vehicle.Limits limits = new Vehicle.Limits(20.0, 30.0, 15.0, null, null);
    MoveLimits m = limits(vehicle(null, limits, null, weak));
    double up = Math.hypot(tan(20), tan(15));
    double down = Math.hypot(tan(30), tan(15));
    for (double share : new double[] {0.9, 1}) {
      assertEquals(m.model.speedMs(share * up), m.table.speedMs(share * up), 1e-5);
      assertEquals(
          m.model.tractionJPerM(-share * down), m.table.tractionJPerM(-share * down), 1e-2);
    }
    // No limit across: what is along is all.
    Vehicle.Limits along = new Vehicle.Limits(20.0, 30.0, null, null, null);
    MoveLimits free = limits(vehicle(null, along, null, weak));
    assertEquals(free.model.speedMs(tan(20)), free.table.speedMs(tan(20)), 1e-5);
    assertEquals(free.table.speedMs(0.3651), free.table.speedMs(3), 1e-4);
  }
}

package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.hazard.Hazard;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

class MobilityStageTest {
  private static final Workers WORKERS = new Workers(2);
  private static final GridSpec SPEC = Grounds.square(3, 5);
  private static final int MIDDLE = 4;

  @AfterAll
  static void close() {
    WORKERS.close();
  }

  private static Mobility run(Terrain t, Hazard h, Vehicle v) {
    return MobilityStage.compute(t, h, v, Body.MOON, WORKERS, Progress.NONE);
  }

  private static Mobility onPlane(double slopeDeg, double azimuthDeg, Vehicle v) {
    double g = SlopeGeometry.tan(slopeDeg);
    double a = Math.toRadians(azimuthDeg);
    return run(Grounds.plane(SPEC, g * Math.sin(a), g * Math.cos(a)), Grounds.noHazard(SPEC), v);
  }

  private static int cls(Mobility m) {
    return m.cls().values()[MIDDLE];
  }

  private static Limit limit(Mobility m) {
    return Limit.ofCode(m.limit().values()[MIDDLE]);
  }

  private static double margin(Mobility m) {
    return m.margin01().values()[MIDDLE];
  }

  @Test
  void plainVehicleKeepsItsSpeedExactlyWhereItsLimitsHold() {
    Mobility m = onPlane(10, 30, Vehicles.plain(20.0, 20.0, 15.0));
    assertEquals(Mobility.GO, cls(m));
    assertEquals(100, m.headingsPct().values()[MIDDLE]);
    assertEquals(3, m.speedMs().values()[MIDDLE]);
    assertEquals(0, m.energyJm().values()[MIDDLE]);
    for (int k = 0; k < Headings.COUNT; k++) {
      double g = m.field().grade(MIDDLE, k);
      assertEquals(Math.sqrt(1 + g * g) / 3, m.field().timeSPerM(MIDDLE, k), 0);
    }
  }

  @Test
  void vehicleWithoutLimitsGoesAnywhere() {
    Vehicle v = Vehicles.plain(null, null, null);
    Mobility m = onPlane(50, 0, v);
    assertEquals(Mobility.GO, cls(m));
    assertEquals(0, m.limit().values()[MIDDLE]);
    assertEquals(1, margin(m));
  }

  @Test
  void groundExactlyAtTheLimitIsOpen() {
    for (int azimuth = 0; azimuth < 360; azimuth += 15) {
      assertEquals(Mobility.GO, cls(onPlane(15, azimuth, Vehicles.plain(20.0, 20.0, 15.0))));
      assertEquals(Mobility.SLOW, cls(onPlane(15.001, azimuth, Vehicles.plain(20.0, 20.0, 15.0))));
    }
  }

  @Test
  void sideSlopeTakesHeadingsBeforeClimb() {
    Mobility m = onPlane(18, 0, Vehicles.plain(20.0, 20.0, 15.0));
    assertEquals(Mobility.SLOW, cls(m));
    assertEquals(Limit.SIDE, limit(m));
    assertEquals(0, margin(m));
    // |sin psi| <= tan 15 / tan 18.
    double share = 4 * Math.asin(SlopeGeometry.tan(15) / SlopeGeometry.tan(18)) / (2 * Math.PI);
    assertEquals(100 * share, m.headingsPct().values()[MIDDLE], 1e-4);
    for (int k = 0; k < Headings.COUNT; k++) {
      double azimuth = Headings.of(SPEC).azimuthDeg(k);
      double cross = SlopeGeometry.tan(18) * Math.abs(Math.sin(Math.toRadians(azimuth)));
      boolean open = cross <= SlopeGeometry.tan(15);
      assertEquals(open, m.field().allows(MIDDLE, k), "heading " + azimuth);
    }
  }

  @Test
  void tooSteepToClimbStraightIsOpenOnATack() {
    Mobility m = onPlane(22, 0, Vehicles.plain(20.0, 20.0, 15.0));
    assertEquals(Mobility.SLOW, cls(m));
    assertTrue(!m.field().allows(MIDDLE, 0), "straight up");
    assertTrue(!m.field().allows(MIDDLE, 8), "straight across");
    assertTrue(m.field().allowed(MIDDLE) != 0);
  }

  @Test
  void noGoOnlyBeyondTheCornerOfClimbAndSide() {
    double corner = SlopeGeometry.deg(Math.hypot(SlopeGeometry.tan(20), SlopeGeometry.tan(15)));
    for (int azimuth = 0; azimuth < 360; azimuth += 7) {
      Vehicle v = Vehicles.plain(20.0, 20.0, 15.0);
      Mobility below = onPlane(corner - 0.01, azimuth, v);
      assertEquals(Mobility.SLOW, cls(below), "azimuth " + azimuth);
      assertTrue(below.headingsPct().values()[MIDDLE] > 0);
      Mobility above = onPlane(corner + 0.01, azimuth, v);
      assertEquals(Mobility.NO_GO, cls(above));
      assertEquals(Limit.CLIMB, limit(above));
      assertTrue(margin(above) < 0 && margin(above) > -0.01);
      assertEquals(0, above.field().allowed(MIDDLE));
      assertTrue(Float.isNaN(above.speedMs().values()[MIDDLE]));
    }
  }

  @Test
  void windowBetweenHeadingsIsMadeGoodByTacksAndSaysSo() {
    double corner = SlopeGeometry.deg(Math.hypot(SlopeGeometry.tan(20), SlopeGeometry.tan(15)));
    Vehicle v = Vehicles.plain(20.0, 20.0, 15.0);
    Mobility m = onPlane(corner - 0.01, 0, v);
    assertEquals(Mobility.SLOW, cls(m));
    assertTrue(m.notes().stream().anyMatch(n -> n.contains("tacks")), m.notes().toString());
    // Windows at 36.35 deg off the fall line, uphill and downhill: next inwards is 26.57 deg.
    double psi = Math.atan(SlopeGeometry.tan(15) / SlopeGeometry.tan(20));
    double inwards = Math.atan(0.5);
    for (int k : new int[] {2, 30, 14, 18}) {
      assertTrue(m.field().allows(MIDDLE, k));
      double g = m.field().grade(MIDDLE, k);
      double way = Math.cos(inwards) / Math.cos(psi);
      assertEquals(way * Math.sqrt(1 + g * g) / 3, m.field().timeSPerM(MIDDLE, k), 1e-3);
    }
    assertEquals(4, Integer.bitCount(m.field().allowed(MIDDLE)));
  }

  @Test
  void windowAlongTheFallLineBetweenTwoHeadingsStaysShutAndSaysSo() {
    // 20.05 deg with side slope 2 deg: open within 5.8 deg of a fall line halfway between 0 and 14.
    Mobility m = onPlane(20, 7, Vehicles.plain(20.0, 20.0, 2.0));
    assertEquals(0, m.field().allowed(MIDDLE));
    assertEquals(Mobility.SLOW, cls(m));
    assertTrue(Float.isNaN(m.speedMs().values()[MIDDLE]));
    assertTrue(m.notes().stream().anyMatch(n -> n.contains("along the fall line")));
  }

  @Test
  void limitsOfTheWholeCell() {
    Hazard none = Grounds.noHazard(SPEC);
    Vehicle v = Vehicles.full();
    Grounds.Surface flat = (x, y) -> 0;
    Mobility step = run(Grounds.of(SPEC, flat, 0.31, 0, 0), none, v);
    assertEquals(Mobility.NO_GO, cls(step));
    assertEquals(Limit.STEP, limit(step));
    assertEquals(1 - 0.31 / 0.3, margin(step), 1e-6);
    Mobility belly = run(Grounds.of(SPEC, flat, 0, 0, 0.5), none, v);
    assertEquals(Limit.CLEARANCE, limit(belly));
    assertEquals(Mobility.NO_GO, cls(belly));
    assertEquals(Mobility.GO, cls(run(Grounds.of(SPEC, flat, 0.1, 0.05, 0.3), none, v)));
    assertEquals(Mobility.SLOW, cls(run(Grounds.of(SPEC, flat, 0.2, 0.05, 0.3), none, v)));
    Mobility rough = run(Grounds.of(SPEC, flat, 0, 0.2, 0), none, v);
    assertEquals(Mobility.SLOW, cls(rough));
    assertEquals(Limit.ROUGHNESS, limit(rough));
    assertEquals(2.1, rough.speedMs().values()[MIDDLE], 1e-6);
    Mobility roughest = run(Grounds.of(SPEC, flat, 0, 5, 0), none, v);
    assertEquals(Mobility.SLOW, cls(roughest));
    assertEquals(0.8, roughest.speedMs().values()[MIDDLE], 1e-6);
  }

  @Test
  void keepOutRocksAndVoids() {
    Terrain flat = Grounds.plane(SPEC, 0, 0);
    Hazard h = Grounds.noHazard(SPEC);
    h.causes().values()[MIDDLE] = (byte) Hazard.Cause.KEEP_OUT.bit();
    Mobility kept = run(flat, h, Vehicles.full());
    assertEquals(Mobility.NO_GO, cls(kept));
    assertEquals(Limit.KEEP_OUT, limit(kept));
    Mobility rocks = run(flat, Grounds.hazard(SPEC, Double.POSITIVE_INFINITY), Vehicles.full());
    assertEquals(Limit.ROCKS, limit(rocks));
    assertEquals(Mobility.NO_GO, cls(rocks));
    flat.gradEast().values()[MIDDLE] = Float.NaN;
    Mobility unknown = run(flat, Grounds.noHazard(SPEC), Vehicles.full());
    assertEquals(0, cls(unknown));
    assertEquals(Limit.VOID, limit(unknown));
    assertEquals(0, unknown.field().allowed(MIDDLE));
  }

  @Test
  void detourLengthensTheWayAndKeepsTheHeightGained() {
    double g = SlopeGeometry.tan(10);
    Terrain slope = Grounds.plane(SPEC, 0, g);
    Vehicle v = Vehicles.full();
    Mobility straight = run(slope, Grounds.noHazard(SPEC), v);
    Mobility around = run(slope, Grounds.hazard(SPEC, 1.5), v);
    double t0 = straight.field().timeSPerM(MIDDLE, 0);
    assertEquals(1.5 * t0, around.field().timeSPerM(MIDDLE, 0), 1e-9);
    DriveModel model = new DriveModel(v, Body.MOON.gravityMs2());
    double surplus = 0.5 * model.tractionJPerM(0) * Math.sqrt(1 + g * g) + 0.5 * 1800 * t0;
    assertEquals(
        straight.field().energyJPerM(MIDDLE, 0) + surplus,
        around.field().energyJPerM(MIDDLE, 0),
        1e-6);
  }

  @Test
  void troughAheadStopsTheOverhang() {
    // A V-shaped valley along the middle column: 18 deg down from the west, 18 deg up to the east.
    GridSpec spec = Grounds.square(9, 5);
    double g = SlopeGeometry.tan(18);
    Terrain valley = Grounds.of(spec, (x, y) -> g * Math.abs(x - 22.6), 0, 0, 0);
    Vehicle low =
        new Vehicle(
            "low",
            "",
            null,
            new Vehicle.Chassis(4, 2, 0.3, 1.0, 1.0, null),
            VehicleParts.wheels(List.of(1.0, -1.0), 1.6, 0.3, 0.2),
            new Vehicle.Limits(30.0, 30.0, 30.0, null, null),
            null,
            VehicleParts.drive(3, null, null, null, null, null, null),
            null,
            null,
            null);
    // Approach angle 33.4 deg, break 36 deg.
    Mobility m = run(valley, Grounds.noHazard(spec), low);
    int west = 4 * 9 + 4;
    assertTrue(!m.field().allows(west, 8), "into the trough");
    assertTrue(m.field().allows(west, 24), "away from it");
    assertTrue(m.field().allows(west, 0), "along it");
    assertEquals(Mobility.SLOW, m.cls().values()[west]);
    assertEquals(Limit.APPROACH, Limit.ofCode(m.limit().values()[west]));
  }

  @Test
  void bearingStrengthByConeIndex() {
    Vehicle soft =
        Vehicles.powered(
            Vehicles.full(4200, 20, 15, 0.3, 5, VehicleParts.soil("mud", null, null, 10.0)),
            90_000);
    Terrain flat = Grounds.plane(SPEC, 0, 0);
    Mobility m =
        MobilityStage.compute(
            flat, Grounds.noHazard(SPEC), soft, Body.EARTH, WORKERS, Progress.NONE);
    assertEquals(Mobility.NO_GO, cls(m));
    assertEquals(Limit.TRACTION, limit(m));
    Vehicle firm =
        Vehicles.full(4200, 20, 15, 0.3, 5, VehicleParts.soil("clay", null, null, 150.0));
    Mobility good =
        MobilityStage.compute(
            flat, Grounds.noHazard(SPEC), firm, Body.EARTH, WORKERS, Progress.NONE);
    assertEquals(Mobility.GO, cls(good));
    assertThrows(UserError.class, () -> run(flat, Grounds.noHazard(SPEC), firm));
  }

  @Test
  void groundThatDoesNotCarryTheVehicleIsShutBySoil() {
    Soil slick =
        VehicleParts.soil("slick", Vehicles.LUNAR.bekker(), new Soil.Shear(10, 5, 0.02), null);
    Soil mire =
        VehicleParts.soil(
            "mire", new Soil.Bekker(1, 100, 20_000), new Soil.Shear(10, 5, 0.02), null);
    for (double slopeDeg : new double[] {0, 2, 4}) {
      for (Soil soil : List.of(slick, mire)) {
        Mobility m = onPlane(slopeDeg, 40, Vehicles.full(4200, 20, 15, 0.3, 5, soil));
        assertEquals(Mobility.NO_GO, cls(m));
        assertEquals(mire.equals(soil) ? Limit.SINKAGE : Limit.TRACTION, limit(m));
        assertTrue(margin(m) < -0.5, "margin " + margin(m));
      }
    }
  }

  @Test
  void incompleteVehiclesAreRefusedInOneLine() {
    Vehicle noMass =
        new Vehicle(
            "no-mass",
            "",
            null,
            new Vehicle.Chassis(3, 2, 0.4, null, null, null),
            null,
            null,
            null,
            VehicleParts.drive(3, null, null, null, null, null, null),
            Vehicles.LUNAR,
            null,
            null);
    UserError e =
        assertThrows(
            UserError.class, () -> run(Grounds.plane(SPEC, 0, 0), Grounds.noHazard(SPEC), noMass));
    assertTrue(e.getMessage().startsWith("vehicle no-mass: soil lunar"), e.getMessage());
    assertEquals(-1, e.getMessage().indexOf('\n'));
  }

  @Test
  void sameBytesForAnyThreadCount() {
    GridSpec spec = Grounds.square(200, 5);
    Terrain hills =
        Grounds.of(
            spec, (x, y) -> 20 * Math.sin(x / 40) + 25 * Math.cos(y / 37 + x / 90), 0.1, 0.05, 0.1);
    Mobility two = run(hills, Grounds.noHazard(spec), Vehicles.full());
    try (Workers one = new Workers(1)) {
      Mobility single =
          MobilityStage.compute(
              hills, Grounds.noHazard(spec), Vehicles.full(), Body.MOON, one, Progress.NONE);
      assertArrayEquals(single.cls().values(), two.cls().values());
      assertArrayEquals(single.energyJm().values(), two.energyJm().values());
      assertArrayEquals(single.margin01().values(), two.margin01().values());
    }
  }
}

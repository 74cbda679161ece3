package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;

/** Speeds from which the vehicle stops within sight, against braking in small steps. */
class StoppingSightTest {
  private static Vehicle seeing(double sightM, Double brakeMs2, double reactionS, Soil soil) {
    Vehicle v = Vehicles.full(4200, 40, 15, 0.3, 5, soil);
    return new Vehicle(
        "seeing",
        "",
        v.massKg(),
        v.body(),
        v.wheels(),
        v.limits(),
        v.slowFrom(),
        new Vehicle.Drive(
            20,
            0.8,
            null,
            null,
            null,
            null,
            0.1,
            0,
            1,
            null,
            false,
            new Vehicle.Sight(sightM, brakeMs2, reactionS)),
        soil,
        null,
        null);
  }

  /** Way (m) from seeing to standing, by small steps of time. */
  private static double stoppedAfterM(double v, double reactionS, double decelerationMs2) {
    double dt = 1e-4;
    double way = v * reactionS;
    for (double u = v; u > 0; u -= decelerationMs2 * dt) {
      way += (u - 0.5 * decelerationMs2 * dt) * dt;
    }
    return way;
  }

  @Test
  void stopsWithinSightAndNoShorter() {
    Random random = new Random(73);
    int driven = 0;
    for (int i = 0; i < 60; i++) {
      double sightM = 5 + 40 * random.nextDouble();
      double reactionS = 3 * random.nextDouble();
      double grade = 0.4 * (random.nextDouble() - 0.7);
      double brake = 0.5 + random.nextDouble();
      double g = 1.62;
      Vehicle v = seeing(sightM, brake, reactionS, null);
      double speed = new DriveModel(v, g).speedMs(grade);
      double down = Math.max(0, -Math.sin(Math.atan(grade)));
      if (speed > 0.08 && speed < 20) {
        driven++;
        assertEquals(sightM, stoppedAfterM(speed, reactionS, brake - g * down), 0.01 * sightM);
      }
    }
    assertTrue(driven > 40, driven + " drawn");
  }

  @Test
  void theSoilBoundsTheBrakes() {
    double tan = Math.tan(Math.toRadians(35));
    double side = Math.sin(Math.toRadians(15));
    double grip = Body.MOON.gravityMs2() * Math.sqrt(tan * tan - side * side);
    for (Double brake : new Double[] {null, 100.0}) {
      Vehicle v = seeing(8, brake, 0, Vehicles.LUNAR);
      double level = new DriveModel(v, Body.MOON.gravityMs2()).speedMs(0);
      assertEquals(Math.sqrt(2 * grip * 8), level, 1e-6);
    }
  }

  /**
   * On a descent of 3 : 4 : 5 grip bears 0.8 of the weight, less the side slope, and 0.6 of the
   * weight pulls. Soil that a side slope takes all grip of stops nothing.
   */
  @Test
  void gripOnASlope() {
    Soil firm =
        VehicleParts.soil("firm", Vehicles.LUNAR.bekker(), new Soil.Shear(170, 50, 0.0178), null);
    double tan = Math.tan(Math.toRadians(50));
    double side = Math.sin(Math.toRadians(15));
    StoppingSight s = StoppingSight.of(seeing(8, null, 2, firm), 2);
    double a = 2 * Math.sqrt(0.64 * tan * tan - side * side);
    assertEquals(a, s.decelerationMs2(0.75), 1e-12);
    assertEquals(a - 1.2, s.decelerationMs2(-0.75), 1e-12);
    double v = s.speedMs(-0.75);
    assertEquals(8, 2 * v + v * v / (2 * (a - 1.2)), 1e-9);
    Soil slick =
        VehicleParts.soil("slick", Vehicles.LUNAR.bekker(), new Soil.Shear(170, 10, 0.0178), null);
    assertEquals(0, StoppingSight.of(seeing(8, null, 0, slick), 2).speedMs(0));
  }

  /** Where the brakes lose to the weight no heading down the slope is left open. */
  @Test
  void descentsThatBrakesDoNotHoldAreShut() {
    double brake = 0.4;
    double lost = Math.tan(Math.asin(brake / Body.MOON.gravityMs2()));
    for (double t : new double[] {0.5 * lost, 1.05 * lost}) {
      GridSpec spec = Grounds.square(2, 5);
      Mobility m;
      try (Workers w = new Workers(1)) {
        m =
            MobilityStage.compute(
                Grounds.plane(spec, 0, t),
                Grounds.hazard(spec, 1),
                seeing(50, brake, 0, null),
                Body.MOON,
                w,
                Progress.NONE);
      }
      boolean open = m.field().allows(0, Headings.COUNT / 2);
      assertEquals(t < lost, open, "down " + t);
      if (open) {
        double a = brake - Body.MOON.gravityMs2() * Math.sin(Math.atan(t));
        double v = Math.sqrt(2 * a * 50);
        assertEquals(
            Math.sqrt(1 + t * t) / v, m.field().timeSPerM(0, Headings.COUNT / 2), 1e-4 / v);
      }
    }
  }

  /**
   * However little can be seen, every open heading is driven at what is stopped within it, levels
   * and climbs as well as descents; a tenth of the crawl speed is the least, and what leaves less
   * is shut and named.
   */
  @Test
  void crawlingIsNoExcuse() {
    Random random = new Random(75);
    GridSpec spec = Grounds.square(3, 5);
    double least = 0.08;
    int below = 0;
    int shut = 0;
    try (Workers workers = new Workers(1)) {
      for (int i = 0; i < 200; i++) {
        double sightM = 0.1 + 2 * random.nextDouble() * random.nextDouble();
        double brake = 0.2 + 0.5 * random.nextDouble();
        double reactionS = 4 * random.nextDouble();
        double t = i % 4 == 0 ? 0 : Math.tan(Math.toRadians(14 * random.nextDouble()));
        Vehicle v = seeing(sightM, brake, reactionS, null);
        Mobility m =
            MobilityStage.compute(
                Grounds.plane(spec, 0, t),
                Grounds.noHazard(spec),
                v,
                Body.MOON,
                workers,
                Progress.NONE);
        for (int k = 0; k < Headings.COUNT; k++) {
          double grade = t * Headings.of(spec).north(k);
          double a =
              brake - Body.MOON.gravityMs2() * Math.max(0, -grade) / Math.sqrt(1 + grade * grade);
          double stopped =
              a > 0 ? Math.sqrt(a * a * reactionS * reactionS + 2 * a * sightM) - a * reactionS : 0;
          boolean open = m.field().allows(4, k);
          if (Math.abs(stopped / least - 1) < 0.02) {
            continue;
          }
          assertEquals(stopped > least, open, "case " + i + ", heading " + k + ": " + stopped);
          if (open) {
            double got = Math.sqrt(1 + grade * grade) / m.field().timeSPerM(4, k);
            assertTrue(got <= stopped * 1.0001, got + " m/s where " + stopped + " is stopped");
            assertEquals(stopped, got, 0.02 * stopped, "case " + i + ", heading " + k);
            below += stopped < 0.8 ? 1 : 0;
          } else {
            shut++;
            if (m.field().allowed(4) == 0) {
              assertEquals(Limit.SIGHT.code(), m.limit().values()[4], "case " + i);
            }
          }
        }
        boolean nowhere = m.notes().stream().anyMatch(n -> n.contains("no heading is open"));
        boolean level = new DriveModel(v, Body.MOON.gravityMs2()).withinSightMs(0) < least;
        assertEquals(level, nowhere, "case " + i);
      }
    }
    assertTrue(below > 1000 && shut > 300, below + " below crawl, " + shut + " shut");
  }

  @Test
  void lessSightNeverQuicker() {
    Random random = new Random(74);
    for (int i = 0; i < 500; i++) {
      double sightM = 1 + 40 * random.nextDouble();
      double grade = 0.6 * (random.nextDouble() - 0.5);
      DriveModel far = new DriveModel(seeing(sightM, 0.6, 1, null), 1.62);
      DriveModel near = new DriveModel(seeing(sightM * random.nextDouble(), 0.6, 1, null), 1.62);
      DriveModel late = new DriveModel(seeing(sightM, 0.6, 1 + random.nextDouble(), null), 1.62);
      assertTrue(near.speedMs(grade) <= far.speedMs(grade));
      assertTrue(late.speedMs(grade) <= far.speedMs(grade));
      assertTrue(near.steepestStoppedGrade() <= far.steepestStoppedGrade());
    }
  }

  @Test
  void sightWithoutBrakesIsRefused() {
    assertThrows(UserError.class, () -> new MoveLimits(seeing(50, null, 1, null), Body.MOON));
    Soil fine = VehicleParts.soil("fine", null, null, 200.0);
    UserError e =
        assertThrows(UserError.class, () -> new MoveLimits(seeing(50, null, 1, fine), Body.EARTH));
    assertTrue(e.getMessage().contains("soil fine"), e.getMessage());
  }

  /** Ground on which sight takes headings, or most of the speed, names it. */
  @Test
  void whatSightTakesIsNamed() {
    Random random = new Random(97);
    GridSpec spec = new GridSpec(9, 9, 10, 10, 0, 90, "");
    int shut = 0;
    try (Workers workers = new Workers(1)) {
      for (int i = 0; i < 60; i++) {
        double sightM = 1 + 3 * random.nextDouble();
        Vehicle near = seeing(sightM, 0.15, 1, null);
        double t = Math.tan(Math.toRadians(1 + 11 * random.nextDouble()));
        Mobility m =
            MobilityStage.compute(
                Grounds.plane(spec, t, 0),
                Grounds.noHazard(spec),
                near,
                Body.MOON,
                workers,
                Progress.NONE);
        int cell = spec.cells() / 2;
        double steepest = new DriveModel(near, Body.MOON.gravityMs2()).steepestStoppedGrade();
        if (t > 1.01 * steepest && steepest < Math.tan(Math.toRadians(15))) {
          assertEquals(Limit.SIGHT.code(), m.limit().values()[cell], "case " + i);
          shut++;
        }
      }
    }
    assertTrue(shut > 10, shut + " cases");
    Vehicle s = seeing(8, 0.5, 2.5, null);
    Vehicle.SlowFrom loss = new Vehicle.SlowFrom(12.0, 0.15, 0.1, null, null, 40.0);
    Vehicle v =
        new Vehicle(
            s.name(),
            "",
            s.massKg(),
            s.body(),
            s.wheels(),
            s.limits(),
            loss,
            s.drive(),
            null,
            null,
            null);
    SoftGround soft = new SoftGround(new DriveModel(v, 1.62), v);
    assertTrue(soft.bySight(0) && soft.bySight(0.1) && soft.lossUse(0.1) > 0.5);
  }
}

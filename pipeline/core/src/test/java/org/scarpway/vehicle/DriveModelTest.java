package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;

class DriveModelTest {
  private static final double G = Body.MOON.gravityMs2();

  private static Vehicle driving(
      double rolling, double efficiency, double regeneration, Soil soil) {
    Vehicle v = Vehicles.full();
    return new Vehicle(
        v.name(),
        v.summary(),
        v.massKg(),
        v.body(),
        v.wheels(),
        v.limits(),
        v.slowFrom(),
        VehicleParts.drive(4.2, 0.8, 9000.0, efficiency, regeneration, 1800.0, rolling),
        soil,
        v.batteryKwh(),
        v.crew());
  }

  @Test
  void powerLimitsTheSpeedUphill() {
    DriveModel m = new DriveModel(driving(0.12, 0.65, 0.2, null), G);
    double grade = SlopeGeometry.tan(15);
    double force = 4200 * G * (0.12 * Math.cos(Math.atan(grade)) + Math.sin(Math.atan(grade)));
    assertEquals(9000 * 0.65 / force, m.speedMs(grade), 1e-9);
    assertEquals(4.2, m.speedMs(0), 0);
    assertEquals(4.2, m.speedMs(-grade), 0);
  }

  @Test
  void regenerationReturnsItsShare() {
    DriveModel m = new DriveModel(driving(0.12, 0.65, 0.2, null), G);
    double a = Math.toRadians(-15);
    double force = 4200 * G * (0.12 * Math.cos(a) + Math.sin(a));
    assertTrue(force < 0);
    assertEquals(0.2 * force, m.tractionJPerM(Math.tan(a)), 1e-9);
  }

  @Test
  void slipCostsSpeedAndEnergy() {
    DriveModel firm = new DriveModel(driving(0.12, 0.65, 0.2, null), G);
    DriveModel soft = new DriveModel(driving(0.12, 0.65, 0.2, Vehicles.LUNAR), G);
    double slip = soft.slip(0.2);
    assertTrue(slip > 0 && slip < Slip.USABLE);
    assertEquals(0, firm.slip(0.2), 0);
    assertEquals(soft.forceN(0.2) / (0.65 * (1 - slip)), soft.tractionJPerM(0.2), 1e-9);
    assertTrue(soft.speedMs(0.2) < 4.2 * (1 - slip) + 1e-9);
  }

  @Test
  void axleLoadsBalanceForcesAndMoments() {
    List<Double> axles = List.of(1.7, 0.2, -1.5);
    double[] load = new double[3];
    double angle = Math.toRadians(12);
    AxleLoads.fill(axles, 1.3, 1000, angle, load);
    double force = 0;
    double moment = 0;
    for (int i = 0; i < 3; i++) {
      force += load[i];
      moment += load[i] * axles.get(i);
    }
    assertEquals(1000 * Math.cos(angle), force, 1e-9);
    assertEquals(-1000 * Math.sin(angle) * 1.3, moment, 1e-9);
    assertTrue(load[2] > load[0]);
  }

  @Test
  void heavierVehicleOnWeakerSoilClimbsLess() {
    double light =
        new DriveModel(
                driving(
                    0.1,
                    0.7,
                    0,
                    VehicleParts.soil(
                        "a",
                        new Soil.Bekker(1, 1400, 820_000),
                        new Soil.Shear(170, 35, 0.0178),
                        null)),
                G)
            .steepestDrivenGrade();
    double weak =
        new DriveModel(
                driving(
                    0.1,
                    0.7,
                    0,
                    VehicleParts.soil(
                        "b",
                        new Soil.Bekker(1, 1400, 400_000),
                        new Soil.Shear(170, 30, 0.0178),
                        null)),
                G)
            .steepestDrivenGrade();
    assertTrue(weak < light);
    assertTrue(light > 0.2 && light < SlopeGeometry.tan(35), "grade " + light);
  }

  @Property(tries = 300, seed = "20260")
  void energyLessPotentialIsNeverNegative(
      @ForAll @DoubleRange(min = 0, max = 0.4) double rolling,
      @ForAll @DoubleRange(min = 0.2, max = 1) double efficiency,
      @ForAll @DoubleRange(min = 0, max = 0.95) double regeneration,
      @ForAll @DoubleRange(min = -3, max = 3) double grade) {
    GradeTable t = new DriveModel(driving(rolling, efficiency, regeneration, null), G).table(9, 9);
    double planM = t.tractionJPerM(grade) * Math.sqrt(1 + grade * grade);
    assertTrue(planM - t.potentialJPerM() * grade >= -1e-6 * 4200 * G, "at " + grade);
  }

  @Property(tries = 20, seed = "20260")
  void energyLessPotentialIsNeverNegativeOnSoil(
      @ForAll @DoubleRange(min = 0, max = 0.95) double regeneration) {
    GradeTable t = new DriveModel(driving(0, 0.7, regeneration, Vehicles.LUNAR), G).table(0.6, 0.6);
    for (double g = -0.6; g <= 0.6; g += 0.0007) {
      assertTrue(
          t.tractionJPerM(g) * Math.sqrt(1 + g * g) - t.potentialJPerM() * g >= 0, "at " + g);
    }
  }

  /**
   * P e / (W (sin + r cos)) is the crawl speed where sin(a + atan r) = P e / (v W sqrt(1 + r2)).
   */
  @Test
  void steepestGradeThatPowerClimbsAtACrawl() {
    for (double rolling : new double[] {0.05, 0.2}) {
      for (double efficiency : new double[] {0.01, 0.2, 0.3, 0.5}) {
        double share = 9000 * efficiency / 0.8 / (4200 * G);
        double angle = Math.asin(share / Math.hypot(1, rolling)) - Math.atan(rolling);
        double grade =
            new DriveModel(driving(rolling, efficiency, 0, null), G).steepestPoweredGrade();
        assertEquals(Math.tan(angle), grade, 1e-9);
      }
    }
    Vehicle v = driving(0.1, 0.5, 0, null);
    for (int missing = 0; missing < 2; missing++) {
      Vehicle.Drive d =
          VehicleParts.drive(
              4.2, missing == 0 ? null : 0.8, missing == 1 ? null : 9000.0, 0.5, 0.0, 0.0, 0.1);
      assertEquals(
          Double.POSITIVE_INFINITY, new DriveModel(with(v, d, null), G).steepestPoweredGrade());
    }
    // With power to spare for a cliff nothing ends it.
    assertEquals(
        Double.POSITIVE_INFINITY,
        new DriveModel(driving(0.1, 1, 0, null), G).steepestPoweredGrade());
    // Power goes into slip as well.
    DriveModel soft = new DriveModel(driving(0, 0.3, 0, Vehicles.LUNAR), G);
    double grade = soft.steepestPoweredGrade();
    double slip = soft.slip(grade);
    assertTrue(slip > 0.01 && slip < Slip.USABLE, "slip " + slip);
    assertEquals(0.8 * soft.forceN(grade), 9000 * 0.3 * (1 - slip), 1e-6 * 2700);
  }

  private static Vehicle with(Vehicle v, Vehicle.Drive drive, Soil soil) {
    // Centre of gravity on the ground: every wheel bears the same.
    return new Vehicle(
        "even",
        "",
        v.massKg(),
        null,
        new Vehicle.Wheels(List.of(1.7, 0.0, -1.7), List.of(2.6, 2.6, 2.6), 0.45, 0.35, 0.3, 0.15),
        v.limits(),
        null,
        drive,
        soil,
        null,
        null);
  }

  /**
   * Six wheels alike, by the published laws written out for n = 1: sinkage, rut and shear. Driving
   * up ends where thrust at the best slip is rut and slope, holding down where it is slope less
   * rut. Driven wheels sink (1 + s) / (1 - s / 2) as deep, and the rut resists with the root.
   */
  @Test
  void steepestGradesThatSoilDrivesAndHolds() {
    Vehicle.Drive d = VehicleParts.drive(4.2, 0.8, null, null, null, null, null);
    Vehicle v = with(driving(0, 1, 0, null), d, Vehicles.LUNAR);
    DriveModel m = new DriveModel(v, G);
    double weightN = 4200 * G;
    double driven = Math.atan(m.steepestDrivenGrade());
    double held = Math.atan(m.steepestHeldGrade());
    // Slips are looked at in hundredths, which may miss the best one by half of that.
    double most = 0;
    for (double s = 0.0005; s <= 0.6; s += 0.0005) {
      double rut = rutN(weightN, driven) * Math.sqrt((1 + s) / (1 - s / 2));
      most = Math.max(most, thrustN(weightN, driven, s) - rut);
    }
    assertEquals(most, weightN * Math.sin(driven), 0.06);
    assertEquals(thrustN(weightN, held, 0.6) + rutN(weightN, held), weightN * Math.sin(held), 1e-4);
    assertTrue(held > driven && driven > 0.3);
    assertEquals(
        thrustN(weightN, 0, 0.3) - rutN(weightN, 0) * Math.sqrt(1.3 / 0.85),
        m.drawbarPullN(0.3),
        1e-6);
    double level = m.slip(0);
    assertEquals(sinkageM(weightN / 6) * (1 + level) / (1 - level / 2), m.sinkageM(0), 1e-12);
    // Beyond what the soil drives speed and energy stay those of the largest usable slip.
    double steep = Math.tan(driven) + 0.02;
    assertTrue(m.slip(steep) > 0.6);
    assertEquals(4.2 * 0.4, m.speedMs(steep), 1e-9);
    assertEquals(m.forceN(steep) / 0.4, m.tractionJPerM(steep), 1e-9);
    DriveModel firm = new DriveModel(with(v, d, null), G);
    assertEquals(Double.POSITIVE_INFINITY, firm.steepestDrivenGrade());
    assertEquals(Double.POSITIVE_INFINITY, firm.steepestHeldGrade());
    assertEquals(Double.POSITIVE_INFINITY, firm.drawbarPullN(0.3));
    assertEquals(0, firm.sinkageM(0.1));
    assertEquals(0, firm.tractionJPerM(0));
  }

  private static double sinkageM(double loadN) {
    return Math.cbrt(Math.pow(3 * loadN / (2 * (1400 + 0.35 * 820_000) * Math.sqrt(0.9)), 2));
  }

  private static double rutN(double weightN, double angle) {
    double z = sinkageM(weightN * Math.cos(angle) / 6);
    return 6 * (1400 + 0.35 * 820_000) * z * z / 2;
  }

  private static double thrustN(double weightN, double angle, double slip) {
    double x = slip * 0.3 / 0.0178;
    double full = 6 * 0.35 * 0.3 * 170 + weightN * Math.cos(angle) * Math.tan(Math.toRadians(35));
    return full * (1 - (1 - Math.exp(-x)) / x);
  }

  /** Entries are the model's own values, from the steepest grade down to the steepest up. */
  @Test
  void theTableHoldsTheCurveAndEndsWhereItIsAsked() {
    DriveModel m = new DriveModel(driving(0.05, 0.65, 0.2, null), G);
    GradeTable t = m.table(0.1, 0.3);
    for (int i = -80; i <= 240; i++) {
      double grade = i * 0.00125;
      double angle = Math.atan(grade);
      double force = 4200 * G * (0.05 * Math.cos(angle) + Math.sin(angle));
      double speed = force > 0 ? Math.min(4.2, 9000 * 0.65 / force) : 4.2;
      double joules = force > 0 ? force / 0.65 : 0.2 * force;
      assertEquals(speed, t.speedMs(grade), 1e-9);
      assertEquals(joules, t.tractionJPerM(grade), 1e-6);
      assertEquals(joules + 1800 / speed, m.energyJPerM(grade), 1e-6);
    }
    assertEquals(t.tractionJPerM(-0.1), t.tractionJPerM(-0.2));
    assertEquals(t.tractionJPerM(0.3), t.tractionJPerM(0.4));
    assertEquals(1800, t.hotelW());
    assertEquals(0.2 * 4200 * G, t.potentialJPerM(), 1e-9);
    // At least ten steps either way, and no more than 3.75.
    GradeTable least = m.table(0, 0.00001);
    assertEquals(m.speedMs(0.0125), least.speedMs(0.5), 1e-12);
    assertEquals(m.tractionJPerM(-0.0125), least.tractionJPerM(-0.5), 1e-9);
    GradeTable most = m.table(9, 9);
    assertEquals(m.tractionJPerM(3.75), most.tractionJPerM(5), 1e-9);
    assertEquals(m.tractionJPerM(-3.75), most.tractionJPerM(-5), 1e-9);
  }

  /** An axle that lifts carries nothing; two axles by moments about the rear one. */
  @Test
  void loadsOfAxlesThatShiftAndLift() {
    double[] load = new double[2];
    for (double deg = -30; deg <= 30; deg += 10) {
      double a = Math.toRadians(deg);
      AxleLoads.fill(List.of(1.2, -1.5), 0.9, 1000, a, load);
      double front = 1000 * (1.5 * Math.cos(a) - 0.9 * Math.sin(a)) / 2.7;
      assertEquals(front, load[0], 1e-9);
      assertEquals(1000 * Math.cos(a) - front, load[1], 1e-9);
    }
    double steep = Math.toRadians(70);
    AxleLoads.fill(List.of(1.2, -1.5), 0.9, 1000, steep, load);
    assertEquals(0, load[0]);
    assertEquals(1000 * Math.cos(steep), load[1], 1e-9);
    double[] one = new double[1];
    AxleLoads.fill(List.of(0.3), 0.9, 1000, 0.2, one);
    assertEquals(1000 * Math.cos(0.2), one[0], 1e-9);
  }

  /** Axles that bear unlike loads on rigid wheels, by moments and the published laws for n = 1. */
  @Test
  void steepestGradesOfWheelsThatBearUnlikeLoads() {
    Vehicle v = driving(0, 1, 0, null);
    Vehicle uneven =
        new Vehicle(
            "uneven",
            "",
            v.massKg(),
            new Vehicle.Chassis(4.6, 3.2, 0.42, null, null, 0.9),
            VehicleParts.wheels(List.of(1.2, -1.5), List.of(2.6, 2.6), 0.45, 0.35),
            v.limits(),
            null,
            VehicleParts.drive(4.2, null, null, null, null, null, null),
            Vehicles.LUNAR,
            null,
            null);
    double weightN = 4200 * G;
    DriveModel m = new DriveModel(uneven, G);
    // By moments about the rear axle the front one bears 1.5 / 2.7, which is more.
    double level = m.slip(0);
    double deeper = (1 + level) / (1 - level / 2);
    assertEquals(sinkageM(weightN * 1.5 / 2.7 / 2) * deeper, m.sinkageM(0), 1e-9);
    double up = Math.atan(m.steepestDrivenGrade());
    double down = Math.atan(m.steepestHeldGrade());
    double most = 0;
    for (double s = 0.0005; s <= 0.6; s += 0.0005) {
      most = Math.max(most, unlikeN(weightN, up, s, -Math.sqrt((1 + s) / (1 - s / 2))));
    }
    assertEquals(weightN * Math.sin(up), most, 0.06);
    // Downhill the front bears more still; alike loads hold least, and only they are sure to.
    double normalN = weightN * Math.cos(down);
    double even = axlesN(normalN / 2, normalN, 0.6, 1);
    assertEquals(weightN * Math.sin(down), even, 1e-4);
    assertTrue(even < unlikeN(weightN, -down, 0.6, 1));
    assertTrue(even < axlesN(normalN * 1.5 / 2.7, normalN, 0.6, 1));
    assertTrue(up > 0.2 && down > up);
  }

  /** A higher centre of gravity shifts more load but never opens a descent, on any soil. */
  @Test
  void higherCentreOfGravityHoldsNoSteeperDescent() {
    Random random = new Random(20_271);
    Vehicle v = driving(0, 1, 0, null);
    for (int i = 0; i < 60; i++) {
      Soil.Bekker bekker =
          new Soil.Bekker(
              0.5 + random.nextDouble(), 3000 * random.nextDouble(), 1e5 * (1 + random.nextInt(9)));
      double cohesionPa = i % 3 == 0 ? 0 : 3000 * random.nextDouble();
      double frictionDeg = 10 + 25 * random.nextDouble();
      Soil soil =
          VehicleParts.soil("soil", bekker, new Soil.Shear(cohesionPa, frictionDeg, 0.0178), null);
      double aheadM = 0.4 + 1.6 * random.nextDouble();
      List<Double> axlesM = List.of(aheadM, aheadM - 2.4);
      double before = Double.POSITIVE_INFINITY;
      for (double heightM = 0; heightM < 1.3; heightM += 0.2) {
        Vehicle higher =
            new Vehicle(
                "higher",
                "",
                v.massKg(),
                new Vehicle.Chassis(4.6, 3.2, 0.42, null, null, heightM),
                VehicleParts.wheels(axlesM, List.of(2.6, 2.6), 0.45, 0.35),
                v.limits(),
                null,
                VehicleParts.drive(4.2, null, null, null, null, null, null),
                soil,
                null,
                null);
        double held = new DriveModel(higher, G).steepestHeldGrade();
        assertTrue(held > 0 && held <= before * (1 + 1e-9), "soil " + i + ", at " + heightM);
        before = held;
      }
    }
  }

  /** Thrust at a slip, and so many times the rut at rest added or taken off. */
  private static double unlikeN(double weightN, double angle, double slip, double rut) {
    double front = weightN * (1.5 * Math.cos(angle) - 0.9 * Math.sin(angle)) / 2.7;
    return axlesN(front, weightN * Math.cos(angle), slip, rut);
  }

  private static double axlesN(double front, double normalN, double slip, double rut) {
    double sum = 0;
    for (double axleN : new double[] {front, normalN - front}) {
      double z = sinkageM(axleN / 2);
      double length = 0.45 * Math.acos(1 - z / 0.45);
      double x = slip * length / 0.0178;
      double full = 0.35 * length * 170 + axleN / 2 * Math.tan(Math.toRadians(35));
      double rutN = (1400 + 0.35 * 820_000) * z * z / 2;
      sum += 2 * (full * (1 - (1 - Math.exp(-x)) / x) + rut * rutN);
    }
    return sum;
  }

  /** On soil that shears but does not sink the thrust is the slope's pull; power goes into slip. */
  @Test
  void slipOnSoilThatDoesNotSink() {
    Soil sheared = VehicleParts.soil("sheared", null, new Soil.Shear(170, 35, 0.0178), null);
    Vehicle.Drive d = VehicleParts.drive(4.2, 0.8, 3000.0, 0.5, null, null, null);
    Vehicle v = with(driving(0, 1, 0, null), d, sheared);
    double weightN = 4200 * G;
    for (double deg : new double[] {5, 15, 20}) {
      double a = Math.toRadians(deg);
      DriveModel m = new DriveModel(v, G);
      double slip = m.slip(Math.tan(a));
      assertEquals(weightN * Math.sin(a), thrustN(weightN, a, slip), 1e-6);
      double byPower = 3000 * 0.5 * (1 - slip) / (weightN * Math.sin(a));
      assertEquals(Math.min(4.2 * (1 - slip), byPower), m.speedMs(Math.tan(a)), 1e-9);
      assertTrue(byPower < 4.2 * (1 - slip));
    }
    // Hardly any slip: half of the shear's first order.
    assertEquals(5e-7, JanosiShear.share(1e-6, 0.3, 0.3), 1e-12);
    // A vehicle of no weight stands on no axle.
    double[] load = new double[2];
    AxleLoads.fill(List.of(1.2, -1.5), 0.9, 0, 0.1, load);
    assertEquals(0, load[0]);
    assertEquals(0, load[1]);
  }
}

package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
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
        new Vehicle.Drive(4.2, 0.8, 9000.0, efficiency, regeneration, 1800.0, rolling),
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
    assertTrue(slip > 0 && slip < DriveModel.USABLE_SLIP);
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
                    new Soil(
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
                    new Soil(
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
}

package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/** Vehicles of any size on ground of any cone index. */
class ConeTractionTest {
  private static final double G = Body.EARTH.gravityMs2();

  private static Vehicle vehicle(Random random, double rci, int passes) {
    double radiusM = 0.3 + 0.5 * random.nextDouble();
    double widthM = radiusM * (0.4 + 0.6 * random.nextDouble());
    double front = 1 + random.nextDouble();
    double rear = 1 + random.nextDouble();
    double massKg = 40_000 * widthM * radiusM * (0.3 + random.nextDouble());
    double deflection = 0.05 + 0.3 * random.nextDouble();
    return new Vehicle(
        "any",
        "",
        massKg,
        new Vehicle.Chassis(6, 3, 0.3, null, null, 0.9),
        new Vehicle.Wheels(
            List.of(front, -rear), List.of(2.0, 2.0), radiusM, widthM, null, deflection),
        new Vehicle.Limits(30.0, 30.0, 30.0, null, null),
        null,
        VehicleParts.drive(8, 1.0, null, null, null, null, 0.05, 0, passes),
        VehicleParts.soil("fine", null, null, rci),
        null,
        null);
  }

  /**
   * From VCI on, and nothing below; more of the index never climbs less, resists more or slips
   * more, and pull stays below what either published relation gives.
   */
  @Test
  void pullComesFromTheExcessAlone() {
    for (int seed = 0; seed < 60; seed++) {
      int passes = seed % 2 == 0 ? 1 : 50;
      ConeBearing bearing = ConeBearing.of(vehicle(new Random(seed), 100, passes));
      double needed = passes == 1 ? bearing.once() : bearing.often();
      assertEquals(needed, bearing.needed());
      double climb = Double.NEGATIVE_INFINITY;
      double force = Double.POSITIVE_INFINITY;
      double slip = Double.POSITIVE_INFINITY;
      for (double excess : new double[] {0.5, 0.999, 1, 1.002, 1.1, 1.5, 2, 4, 10}) {
        Vehicle v = vehicle(new Random(seed), needed * excess, passes);
        DriveModel m = new DriveModel(v, G);
        double grade = m.steepestDrivenGrade();
        String where = "seed " + seed + ", RCI over VCI " + excess;
        assertTrue(excess > 1 || grade <= 1e-9, where);
        assertTrue(excess > 1.002 || grade < SlopeGeometry.tan(1), where);
        assertTrue(grade >= climb && m.forceN(0) <= force && m.slip(0) <= slip, where);
        climb = grade;
        force = m.forceN(0);
        slip = m.slip(0);
        double[] bounds = published(v, needed * excess);
        assertTrue(m.forceN(0) >= bounds[0] * v.massKg() * G * (1 - 1e-9), where);
        assertTrue(m.drawbarPullN(0.6) <= bounds[1] * v.massKg() * G * (1 + 1e-9), where);
      }
      assertTrue(climb > 0.2, "firm ground is climbed, seed " + seed);
    }
  }

  /** Least resistance and most pull over weight, written out for the lightest wheel. */
  private static double[] published(Vehicle v, double rci) {
    double front = v.wheels().axlesM().get(0);
    double rear = -v.wheels().axlesM().get(1);
    double wheelKn = v.massKg() * G / 2000 * Math.min(front, rear) / (front + rear);
    double d = 2 * v.wheels().radiusM();
    double b = v.wheels().widthM();
    double cn = rci * 6.894757 * b * d / wheelKn;
    double m = cn * Math.sqrt(v.wheels().deflectionShare()) / (1 + b / (2 * d));
    double resistance = Math.max(0.04 + 1.2 / cn, 0.049 + 0.287 / m);
    double wismerLuth = 0.75 * (1 - Math.exp(-0.3 * cn * 0.6)) - 0.04 - 1.2 / cn;
    // A wheel that gives no thrust at all still resists no less.
    double pull = Math.max(-resistance, Math.min(wismerLuth, 0.796 - 0.92 / m));
    return new double[] {resistance, pull};
  }

  /** By class and speed: shut below what is needed, slow to below what fifty passes need. */
  @Test
  void classAndSpeedFollowTheExcess() {
    GridSpec spec = Grounds.square(3, 5);
    int stuck = 0;
    try (Workers w = new Workers(1)) {
      for (int seed = 0; seed < 20; seed++) {
        ConeBearing b = ConeBearing.of(vehicle(new Random(seed), 100, 1));
        float before = 0;
        for (double share : new double[] {0.1, 0.5, 0.9, 1.5}) {
          double rci = b.once() + share * (b.often() - b.once());
          Mobility m =
              MobilityStage.compute(
                  Grounds.plane(spec, 0, 0),
                  Grounds.noHazard(spec),
                  vehicle(new Random(seed), rci, 1),
                  Body.EARTH,
                  w,
                  Progress.NONE);
          float speed = m.speedMs().values()[4];
          // The relations for wheels may leave no pull where the index suffices.
          DriveModel model = new DriveModel(vehicle(new Random(seed), rci, 1), G);
          if (model.steepestDrivenGrade() < 0) {
            assertEquals(Mobility.NO_GO, m.cls().values()[4]);
            stuck++;
            continue;
          }
          assertEquals(share < 1 ? Mobility.SLOW : Mobility.GO, m.cls().values()[4]);
          assertTrue(speed >= before && speed <= Math.max(1, 8 * Math.min(1, share)) + 1e-6);
          before = speed;
        }
      }
    }
    assertTrue(stuck < 20, stuck + " of 80");
  }

  /**
   * Axles of unlike loads: the worse one decides; the stated branches never help a larger index.
   */
  @Test
  void theWorstAxleCounts() {
    Vehicle v = vehicle(new Random(3), 100, 1);
    double front = v.wheels().axlesM().get(0);
    double rear = -v.wheels().axlesM().get(1);
    double mostKg = v.massKg() * Math.max(front, rear) / (front + rear);
    double mi = ConeIndex.mobilityIndex(mostKg, v.wheels().widthM(), v.wheels().radiusM(), 0.3);
    double tyres = ConeIndex.deflectionFactor(v.wheels().deflectionShare());
    assertEquals(ConeIndex.wheeled1(mi, tyres), ConeBearing.of(v).once(), 1e-9);
    double once = 0;
    double often = 0;
    for (double index = 1; index < 300; index += 0.5) {
      Vehicle.Drive d =
          VehicleParts.drive(8, 1.0, null, null, null, null, 0.05, 0, 1, index, false);
      Vehicle given =
          new Vehicle(
              "given", "", v.massKg(), v.body(), v.wheels(), null, null, d, v.soil(), null, null);
      ConeBearing b = ConeBearing.of(given);
      assertTrue(b.once() >= once && b.often() >= often && b.often() > b.once(), "MI " + index);
      once = b.once();
      often = b.often();
    }
  }
}

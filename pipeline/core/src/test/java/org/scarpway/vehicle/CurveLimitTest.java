package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;

/**
 * Curves by statics in space: what the ground must bear, as vectors, against what tips and slides.
 */
class CurveLimitTest {
  private static double[] cross(double[] a, double[] b) {
    return new double[] {
      a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]
    };
  }

  private static double dot(double[] a, double[] b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  }

  private static double[] unit(double[] a) {
    double n = Math.sqrt(dot(a, a));
    return new double[] {a[0] / n, a[1] / n, a[2] / n};
  }

  private static double[] onPlane(double x, double y, double ge, double gn) {
    return new double[] {x, y, ge * x + gn * y};
  }

  /**
   * Largest share of what tips or slides that a curve uses: accelerations by differences along the
   * curve on the plane, the force of the ground from Newton's law, moments about the outer wheels.
   */
  private static double use(
      double ge,
      double gn,
      double azimuth,
      double radiusM,
      boolean right,
      double v,
      double g,
      double tip,
      double friction) {
    double dx = Math.sin(azimuth);
    double dy = Math.cos(azimuth);
    double side = right ? 1 : -1;
    double cx = side * radiusM * dy;
    double cy = -side * radiusM * dx;
    double[][] p = new double[3][];
    double step = 1e-3;
    for (int i = 0; i < 3; i++) {
      double a = -side * (i - 1) * step;
      double rx = -cx * Math.cos(a) + cy * Math.sin(a);
      double ry = -cx * Math.sin(a) - cy * Math.cos(a);
      p[i] = onPlane(cx + rx, cy + ry, ge, gn);
    }
    double[] velocity = new double[3];
    double[] second = new double[3];
    for (int k = 0; k < 3; k++) {
      velocity[k] = (p[2][k] - p[0][k]) / (2 * step);
      second[k] = (p[2][k] - 2 * p[1][k] + p[0][k]) / (step * step);
    }
    double[] ahead = unit(velocity);
    double[] up = unit(new double[] {-ge, -gn, 1});
    double[] left = cross(up, ahead);
    double rate = v / Math.sqrt(dot(velocity, velocity));
    double along = dot(second, ahead);
    double[] ground = new double[3];
    for (int k = 0; k < 3; k++) {
      // Steady speed: only the part across the heading accelerates the vehicle.
      ground[k] = rate * rate * (second[k] - along * ahead[k]) + (k == 2 ? g : 0);
    }
    double normal = dot(ground, up);
    // The curve asks the ground to push towards its inside.
    double push = (right ? -1 : 1) * dot(ground, left);
    return Math.max(
        push / (tip * normal), Math.hypot(push, dot(ground, ahead)) / (friction * normal));
  }

  @Test
  void atTheSpeedSomethingIsUsedUpAndNothingMore() {
    Random random = new Random(71);
    int open = 0;
    for (int i = 0; i < 5000; i++) {
      double ge = 0.8 * (random.nextDouble() - 0.5);
      double gn = 0.8 * (random.nextDouble() - 0.5);
      double azimuth = 2 * Math.PI * random.nextDouble();
      double radiusM = 2 + 40 * random.nextDouble();
      double g = 1 + 9 * random.nextDouble();
      double tip = 0.4 + random.nextDouble();
      double friction = 0.3 + random.nextDouble();
      boolean right = random.nextBoolean();
      double grade = SlopeGeometry.grade(ge, gn, Math.sin(azimuth), Math.cos(azimuth));
      double cross = SlopeGeometry.cross(ge, gn, Math.sin(azimuth), Math.cos(azimuth));
      double v = new CurveLimit(g, tip, friction).speedMs(grade, cross, radiusM, right);
      if (v > 0) {
        open++;
        assertEquals(1, use(ge, gn, azimuth, radiusM, right, v, g, tip, friction), 1e-5);
      } else {
        double still = use(ge, gn, azimuth, radiusM, right, 1e-3, g, tip, friction);
        assertTrue(still >= 1 - 1e-4, "closed where " + still + " is used");
      }
    }
    assertTrue(open > 3000, open + " of 5000 drawn");
  }

  @Test
  void worseNumbersNeverAllowMore() {
    Random random = new Random(72);
    for (int i = 0; i < 2000; i++) {
      double grade = random.nextDouble() - 0.5;
      double cross = random.nextDouble() - 0.5;
      double tip = 0.3 + random.nextDouble();
      double friction = 0.3 + random.nextDouble();
      double radiusM = 1 + 50 * random.nextDouble();
      boolean right = random.nextBoolean();
      double v = new CurveLimit(1.62, tip, friction).speedMs(grade, cross, radiusM, right);
      double less = random.nextDouble();
      assertTrue(
          new CurveLimit(1.62, tip * less, friction).speedMs(grade, cross, radiusM, right) <= v);
      assertTrue(
          new CurveLimit(1.62, tip, friction * less).speedMs(grade, cross, radiusM, right) <= v);
      assertTrue(
          new CurveLimit(1.62, tip, friction).speedMs(grade, cross, radiusM * less, right) <= v);
      // Steeper across, and the outside of the curve lower.
      double lower = right ? Math.abs(cross) : -Math.abs(cross);
      assertTrue(
          new CurveLimit(1.62, tip, friction).speedMs(grade, lower, radiusM, right)
              >= new CurveLimit(1.62, tip, friction)
                  .speedMs(grade, lower * (1 + less), radiusM, right));
    }
  }

  /** The narrowest axle and the margin count; without a height or a soil nothing is known. */
  @Test
  void whatTheFileSays() {
    Soil soil =
        VehicleParts.soil("s", Vehicles.LUNAR.bekker(), new Soil.Shear(170, 60, 0.0178), null);
    Vehicle five = Vehicles.onTracks(Vehicles.full(4200, 20, 15, 0.3, 5, soil), 2.6, 2.2, 2.6);
    double tip = Math.tan(Math.atan(2.2 / 2.6) - Math.toRadians(5));
    double v = CurveLimit.of(five, Body.MOON.gravityMs2()).speedMs(0, 0, 10, true);
    assertEquals(Math.sqrt(Body.MOON.gravityMs2() * 10 * tip), v, 1e-9);
    assertTrue(CurveLimit.of(five, 1).known());
    Vehicle plain = Vehicles.plain(20.0, 20.0, 15.0);
    assertTrue(!CurveLimit.of(plain, 1).known());
    assertEquals(Double.POSITIVE_INFINITY, CurveLimit.of(plain, 1).speedMs(0.1, 0.1, 1, false));
    Vehicle onlySoil = plain.withSoil(Vehicles.LUNAR);
    assertEquals(
        Math.sqrt(8 * 5 * Math.tan(Math.toRadians(35))),
        CurveLimit.of(onlySoil, 8).speedMs(0, 0, 5, false),
        1e-9);
    assertEquals(List.of(2.6, 2.2, 2.6), five.wheels().tracksM());
  }
}

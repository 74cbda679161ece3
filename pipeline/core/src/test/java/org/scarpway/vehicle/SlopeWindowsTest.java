package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;

/**
 * Which headings a slope leaves open, against asking one heading after the other, and the two
 * grades of a heading against the angle between it and the fall line.
 */
class SlopeWindowsTest {
  private static final int DIRECTIONS = 20_000;

  private static double tan(double deg) {
    return Math.tan(Math.toRadians(deg));
  }

  private static SlopeBounds bounds(
      double climb, double descend, double side, double front, double rear, double cgM) {
    Vehicle v =
        new Vehicle(
            "windows",
            "",
            null,
            new Vehicle.Chassis(5, 3, 0.4, null, null, cgM),
            VehicleParts.wheels(List.of(1.6, -1.5), List.of(front, rear), 0.4, 0.3),
            new Vehicle.Limits(climb, descend, side, null, 4.0),
            null,
            VehicleParts.drive(3, null, null, null, null, null, null),
            null,
            null,
            null);
    return new SlopeBounds(new MoveLimits(v, Body.MOON));
  }

  @Test
  void theShareThatIsOpenIsCounted() {
    Random random = new Random(31);
    int partly = 0;
    int shut = 0;
    for (int n = 0; n < 120; n++) {
      boolean skewed = n % 2 == 0;
      double front = 1.4 + 0.6 * random.nextDouble();
      SlopeBounds b =
          bounds(
              10 + 20 * random.nextDouble(),
              10 + 20 * random.nextDouble(),
              8 + 20 * random.nextDouble(),
              front,
              skewed ? front + 0.8 : front,
              1.2 + 1.4 * random.nextDouble());
      double t = tan(5 + 30 * random.nextDouble());
      b.at(t);
      int open = 0;
      double least = Double.POSITIVE_INFINITY;
      for (int k = 0; k < DIRECTIONS; k++) {
        double psi = 2 * Math.PI * (k + 0.5) / DIRECTIONS;
        double use = b.use(t * Math.cos(psi), t * Math.sin(psi));
        open += use <= LimitUse.FULL ? 1 : 0;
        least = Math.min(least, use);
      }
      String what = "case " + n + ", least use " + least;
      double share = (double) open / DIRECTIONS;
      assertEquals(share, b.share(t), 5e-4, what);
      if (Math.abs(least - 1) > 1e-3) {
        if (!skewed) {
          assertEquals(least < 1, b.open(t), what);
        } else if (b.open(t)) {
          assertTrue(least < 1, what);
        }
      }
      partly += share > 0 && share < 1 ? 1 : 0;
      shut += open == 0 ? 1 : 0;
    }
    assertTrue(partly > 40 && shut > 10, partly + " partly open, " + shut + " shut");
  }

  /** The steepest slope that meets climb or descent and side at once is open, any steeper shut. */
  @Test
  void theCornerOfTheBoundsIsOpen() {
    for (double[] deg : new double[][] {{10, 8, 20}, {20, 12, 9}, {8, 14, 25}, {9, 24, 11}}) {
      SlopeBounds b = bounds(deg[0], deg[1], deg[2], 9, 9, 0.5);
      double corner = Math.hypot(tan(Math.max(deg[0], deg[1])), tan(deg[2]));
      b.at(corner);
      assertTrue(b.open(corner), "corner " + corner);
      assertTrue(b.share(corner) > 0, "corner " + corner);
      assertFalse(b.open(corner * (1 + 1e-4)), "corner " + corner);
      assertEquals(0, b.share(corner * (1 + 1e-4)), "corner " + corner);
      assertEquals(1, b.leastUse(corner), 1e-12);
    }
  }

  /** Soil that takes more to roll on than it gives: no heading on any slope, and it is to blame. */
  @Test
  void soilThatDoesNotCarryShutsEveryHeading() {
    Soil mire =
        VehicleParts.soil(
            "mire", new Soil.Bekker(1, 100, 20_000), new Soil.Shear(10, 5, 0.02), null);
    SlopeBounds b =
        new SlopeBounds(new MoveLimits(Vehicles.full(4200, 20, 15, 0.3, 5, mire), Body.MOON));
    assertTrue(b.up < 0, "traction of " + b.up);
    for (double t : new double[] {0, tan(3), tan(12)}) {
      b.at(t);
      assertEquals(LimitUse.BLOCKED, b.leastUse(t));
      assertEquals(Limit.TRACTION, b.nearest(t));
      assertEquals(0, b.share(t));
      assertFalse(b.open(t));
      assertTrue(b.use(t, 0) >= LimitUse.BLOCKED);
    }
  }

  /** Long between the axles, so that only what is across can tip: the worst of all headings. */
  @Test
  void theWorstAcrossIsThatOfTheWorstHeading() {
    Random random = new Random(32);
    for (int n = 0; n < 40; n++) {
      double front = 1.5 + random.nextDouble();
      double rear = n % 2 == 0 ? front : front + 0.5;
      Vehicle v =
          new Vehicle(
              "long",
              "",
              null,
              new Vehicle.Chassis(60, 3, 0.4, null, null, 1.5),
              VehicleParts.wheels(List.of(29.0, -29.0), List.of(front, rear), 0.4, 0.3),
              new Vehicle.Limits(80.0, 80.0, 10 + 30 * random.nextDouble(), null, 3.0),
              null,
              VehicleParts.drive(3, null, null, null, null, null, null),
              null,
              null,
              null);
      SlopeBounds b = new SlopeBounds(new MoveLimits(v, Body.MOON));
      double t = tan(1 + 30 * random.nextDouble());
      b.at(t);
      double worst = 0;
      for (int k = 0; k < DIRECTIONS; k++) {
        double psi = 2 * Math.PI * k / DIRECTIONS;
        worst = Math.max(worst, b.use(t * Math.cos(psi), t * Math.sin(psi)));
      }
      assertEquals(worst, b.worstAcross(t), 1e-4 * worst, "case " + n);
    }
  }

  @Test
  void gradesOfAHeadingFollowTheAngleToTheFallLine() {
    for (int fall = 0; fall < 360; fall += 25) {
      for (int heading = 0; heading < 360; heading += 35) {
        // Uphill towards the azimuth of the fall line, 20 degrees steep.
        double up = Math.toRadians(fall);
        double along = Math.toRadians(heading);
        double east = tan(20) * Math.sin(up);
        double north = tan(20) * Math.cos(up);
        double grade = SlopeGeometry.grade(east, north, Math.sin(along), Math.cos(along));
        double cross = SlopeGeometry.cross(east, north, Math.sin(along), Math.cos(along));
        double psi = up - along;
        assertEquals(tan(20) * Math.cos(psi), grade, 1e-12);
        assertEquals(tan(20) * Math.sin(psi), cross, 1e-12);
      }
    }
    // Heading north on ground that rises to the east, to its right.
    assertEquals(0.5, SlopeGeometry.cross(0.5, 0, 0, 1));
    assertEquals(30, SlopeGeometry.deg(SlopeGeometry.tan(30)), 1e-12);
    assertEquals(45, SlopeGeometry.deg(1), 1e-12);
    assertEquals(1, SlopeGeometry.tan(45), 1e-12);
  }
}

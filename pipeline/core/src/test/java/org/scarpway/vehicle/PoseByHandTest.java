package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.CellMobility.Check;
import org.scarpway.vehicle.CellMobility.OnHeading;

/**
 * A vehicle of any axles and tracks on rough ground: every wheel set on the ground by itself and
 * the plane through the wheels by the normal equations, one cell and one heading at a time.
 */
class PoseByHandTest {
  private static final GridSpec SPEC = new GridSpec(34, 150, 0.5, 0.4, 100, 200, "");
  private static final double CLEARANCE_M = 0.42;
  private static final double STEP_M = 0.3;
  private static final double RADIUS_M = 0.3;
  private static final double WIDTH_M = 3.1;

  private static Vehicle vehicle(List<Double> axlesM, List<Double> tracksM, double frontM) {
    return new Vehicle(
        "any",
        "",
        null,
        new Vehicle.Chassis(5, WIDTH_M, CLEARANCE_M, frontM, 0.7, 1.3),
        VehicleParts.wheels(axlesM, tracksM, RADIUS_M, 0.3),
        new Vehicle.Limits(20.0, 18.0, 15.0, STEP_M, 4.0),
        null,
        VehicleParts.drive(3, null, null, null, null, null, null),
        null,
        null,
        null);
  }

  private static double heightM(Terrain t, double xM, double yM) {
    GridSpec spec = t.heightM().spec();
    double c = (xM - spec.westM()) / spec.cellXM() - 0.5;
    double r = (spec.yM(0) - yM) / spec.cellYM();
    int c0 = (int) Math.floor(c);
    int r0 = (int) Math.floor(r);
    double upper = t.heightM().at(r0, c0) * (c0 + 1 - c) + t.heightM().at(r0, c0 + 1) * (c - c0);
    double lower =
        t.heightM().at(r0 + 1, c0) * (c0 + 1 - c) + t.heightM().at(r0 + 1, c0 + 1) * (c - c0);
    return upper * (r0 + 1 - r) + lower * (r - r0);
  }

  /** Height ahead and to the right of a place on a heading. */
  private static double heightM(Terrain t, int row, int col, int k, double ahead, double right) {
    GridSpec spec = t.heightM().spec();
    Headings h = Headings.of(spec);
    double azimuth = Math.toRadians(h.azimuthDeg(k));
    double x = spec.xM(col) + ahead * Math.sin(azimuth) + right * Math.cos(azimuth);
    double y = spec.yM(row) + ahead * Math.cos(azimuth) - right * Math.sin(azimuth);
    return heightM(t, x, y);
  }

  /** Least squares z = p0 + p1 x + p2 y by Cramer's rule on the normal equations. */
  static double[] plane(double[] x, double[] y, double[] z) {
    double[][] m = new double[3][4];
    for (int i = 0; i < x.length; i++) {
      double[] row = {1, x[i], y[i], z[i]};
      for (int a = 0; a < 3; a++) {
        for (int b = 0; b < 4; b++) {
          m[a][b] += row[a] * row[b];
        }
      }
    }
    double[] p = new double[3];
    for (int a = 0; a < 3; a++) {
      double[][] with = new double[3][3];
      double[][] plain = new double[3][3];
      for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
          plain[i][j] = m[i][j];
          with[i][j] = j == a ? m[i][3] : m[i][j];
        }
      }
      p[a] = determinant(with) / determinant(plain);
    }
    return p;
  }

  private static double determinant(double[][] m) {
    return m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
        - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
        + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
  }

  private static Terrain rough(Random random) {
    return rough(random, SPEC, 0.3, 0.15);
  }

  private static Terrain rough(Random random, GridSpec spec, double slope, double roughM) {
    Terrain t = Grounds.of(spec, (x, y) -> 0, 0, 0, 0);
    double ge = slope * random.nextGaussian();
    double gn = slope * random.nextGaussian();
    for (int i = 0; i < spec.cells(); i++) {
      double x = spec.xM(i % spec.cols()) - 100;
      double y = spec.yM(i / spec.cols()) - 200;
      t.heightM().values()[i] = (float) (ge * x + gn * y + roughM * random.nextGaussian());
      t.gradEast().values()[i] = (float) ge;
      t.gradNorth().values()[i] = (float) gn;
    }
    return t;
  }

  @Test
  void everyHeadingOfAnyVehicle() {
    Random random = new Random(6);
    for (int n = 0; n < 12; n++) {
      List<Double> axles = new ArrayList<>();
      List<Double> tracks = new ArrayList<>();
      int count = 2 + n % 3;
      boolean oneTrack = n % 2 == 0;
      for (int i = 0; i < count; i++) {
        axles.add(1.6 - 3.0 * i / (count - 1) - 0.2 * random.nextDouble());
        tracks.add(oneTrack ? 2.2 : 1.8 + random.nextDouble());
      }
      // The front overhang of every third lies over the wheels: the wheels meet the ground first.
      Vehicle v = vehicle(axles, tracks, n % 3 == 0 ? 0.25 : 0.9);
      Terrain t = rough(random);
      RowPoseEstimator pose =
          new RowPoseEstimator(
              new WheelLayout(v, SPEC),
              new MoveLimits(v, Body.MOON),
              SPEC,
              t.heightM().values(),
              t.gradEast().values(),
              t.gradNorth().values(),
              Allowances.NONE);
      for (int i = 0; i < 6; i++) {
        int row = 14 + i;
        int col = i % 2 == 0 ? 20 + random.nextInt(100) : 130 + random.nextInt(8);
        pose.at(row, col);
        assertTrue(pose.known());
        pose.requireBody();
        CellMobility told =
            MobilityExplain.at(t, Grounds.noHazard(SPEC), v, Body.MOON, row * SPEC.cols() + col);
        for (int k = 0; k < Headings.COUNT; k++) {
          agrees(pose, told.headings().get(k), v, t, row, col, k);
        }
      }
    }
  }

  /**
   * What belly, ends and wheels meet may be left out where it can neither shut a heading nor bind:
   * the largest use of all is the same as if it never were.
   */
  @Test
  void whatIsLeftOutNeverMatters() {
    Random random = new Random(7);
    GridSpec small = new GridSpec(21, 17, 0.5, 0.4, 100, 200, "");
    int met = 0;
    int sloped = 0;
    for (int n = 0; n < 400; n++) {
      Vehicle v = vehicle(List.of(1.4, n % 2 == 0 ? -1.4 : -1.2), List.of(2.2, 2.2), 0.7);
      double roughM = 0.1 * Math.pow(10, -2 * random.nextDouble());
      Terrain t = rough(random, small, 0.1 * random.nextDouble(), roughM);
      WheelLayout layout = new WheelLayout(v, small);
      MoveLimits limits = new MoveLimits(v, Body.MOON);
      float[] heightM = t.heightM().values();
      float[] east = t.gradEast().values();
      float[] north = t.gradNorth().values();
      RowPoseEstimator pose =
          new RowPoseEstimator(layout, limits, small, heightM, east, north, Allowances.NONE);
      pose.at(10, 8);
      assertTrue(pose.known());
      double told = pose.worstUse();
      pose.requireBody();
      double slope = 0;
      double contact = 0;
      for (int k = 0; k < Headings.COUNT; k++) {
        slope = Math.max(slope, pose.slopeUse(k));
        double aboveM = Math.max(pose.bellyGroundM(k), pose.endsGroundM(k));
        double use = Math.max(aboveM / CLEARANCE_M, pose.offPlaneM(k) / STEP_M);
        contact = Math.max(contact, use);
      }
      assertEquals(Math.max(slope, contact), told, 1e-9, "ground " + n);
      met += contact > slope ? 1 : 0;
      sloped += slope > contact ? 1 : 0;
    }
    assertTrue(met > 50 && sloped > 50, met + " by what is met, " + sloped + " by the slope");
  }

  private static void agrees(
      RowPoseEstimator pose, OnHeading told, Vehicle v, Terrain t, int row, int col, int k) {
    int axles = v.wheels().axlesM().size();
    double[] x = new double[2 * axles];
    double[] y = new double[2 * axles];
    double[] z = new double[2 * axles];
    for (int i = 0; i < 2 * axles; i++) {
      x[i] = v.wheels().axlesM().get(i / 2);
      y[i] = (i % 2 == 0 ? -1 : 1) * v.wheels().tracksM().get(i / 2) / 2;
      z[i] = heightM(t, row, col, k, x[i], y[i]);
    }
    double[] p = plane(x, y, z);
    assertEquals(p[1], pose.grade(k), 1e-6, "grade on heading " + k);
    assertEquals(p[2], pose.cross(k), 1e-6, "cross grade on heading " + k);
    double off = 0;
    for (int i = 0; i < 2 * axles; i++) {
      off = Math.max(off, Math.abs(z[i] - p[0] - p[1] * x[i] - p[2] * y[i]));
    }
    assertEquals(off, pose.offPlaneM(k), 1e-6, "wheel on heading " + k);
    double front = v.wheels().axlesM().get(0);
    double rear = v.wheels().axlesM().get(axles - 1);
    double ends = Double.NEGATIVE_INFINITY;
    for (int side = -1; side <= 1; side++) {
      double aside = side * WIDTH_M / 2;
      // An end behind the circle of its wheel never meets the ground before it.
      if (v.body().frontOverhangM() > RADIUS_M) {
        ends = Math.max(ends, above(t, row, col, k, front + v.body().frontOverhangM(), aside, p));
      }
      ends = Math.max(ends, above(t, row, col, k, rear - v.body().rearOverhangM(), aside, p));
    }
    assertEquals(ends, pose.endsGroundM(k), 1e-6, "ends on heading " + k);
    double belly = Double.NEGATIVE_INFINITY;
    // Three rows between the wheels, no points further apart than a cell.
    double narrow = v.wheels().tracksM().stream().mapToDouble(Double::doubleValue).min().orElse(0);
    double between = 0.75 * (narrow - 0.3) / 2;
    int along = Math.min(7, (int) Math.ceil((front - rear) / 0.4) + 1);
    for (int i = 0; i < along; i++) {
      for (int side = -1; side <= 1; side++) {
        double at = rear + (front - rear) * i / (along - 1);
        belly = Math.max(belly, above(t, row, col, k, at, side * between, p));
      }
    }
    assertEquals(belly, pose.bellyGroundM(k), 1e-6, "belly on heading " + k);
    uses(pose, k, p, off, Math.max(0, belly), Math.max(0, ends));
    assertEquals(Math.toDegrees(Math.atan(p[1])), told.gradeDeg(), 1e-4);
    assertEquals(Math.toDegrees(Math.atan(p[2])), told.crossDeg(), 1e-4);
    tells(told, Limit.CLEARANCE, Math.max(0, belly), CLEARANCE_M);
    tells(told, Limit.APPROACH, Math.max(0, ends), CLEARANCE_M);
    tells(told, Limit.STEP, off, STEP_M);
    tells(told, Limit.SIDE, Math.toDegrees(Math.atan(Math.abs(p[2]))), 15);
    boolean up = p[1] >= 0;
    double gradeDeg = Math.toDegrees(Math.atan(Math.abs(p[1])));
    tells(told, up ? Limit.CLIMB : Limit.DESCEND, gradeDeg, up ? 20 : 18);
  }

  private static void tells(OnHeading told, Limit limit, double got, double allowed) {
    Check check = told.checks().stream().filter(c -> c.limit() == limit).findFirst().orElseThrow();
    assertEquals(got, check.got(), 1e-4, limit + " towards " + told.azimuthDeg());
    assertEquals(allowed, check.allowed(), 1e-9);
  }

  private static double above(
      Terrain t, int row, int col, int k, double ahead, double right, double[] p) {
    return heightM(t, row, col, k, ahead, right) - p[0] - p[1] * ahead - p[2] * right;
  }

  private static void uses(
      RowPoseEstimator pose, int k, double[] p, double off, double belly, double ends) {
    double use = Math.max(Math.max(belly, ends) / CLEARANCE_M, off / STEP_M);
    assertEquals(use, pose.contactUse(k), 1e-5, "use by contact on heading " + k);
    Limit limit = pose.contactLimit(k);
    assertEquals(limit == Limit.STEP, off / STEP_M >= use, "heading " + k);
    assertEquals(limit == Limit.CLEARANCE, belly / CLEARANCE_M >= use, "heading " + k);
    double t = Math.tan(Math.toRadians(p[1] >= 0 ? 20 : 18));
    double rated = Math.max(Math.abs(p[1]) / t, Math.abs(p[2]) / Math.tan(Math.toRadians(15)));
    assertTrue(pose.slopeUse(k) >= rated - 1e-5, "use by slope on heading " + k);
    assertTrue(pose.worstUse() >= Math.max(use, rated) - 1e-5);
  }
}

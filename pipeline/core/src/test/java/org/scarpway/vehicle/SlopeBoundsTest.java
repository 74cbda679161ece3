package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/** Which limit on slopes binds, and by how much, on axles of one track and of several. */
class SlopeBoundsTest {
  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  private static Vehicle vehicle(
      Double climb, Double descend, Double side, Vehicle.Wheels wheels, Double cgM) {
    return vehicle(climb, descend, side, wheels, cgM, null);
  }

  private static Vehicle vehicle(
      Double climb,
      Double descend,
      Double side,
      Vehicle.Wheels wheels,
      Double cgM,
      Double marginDeg) {
    return new Vehicle(
        "bounds",
        "",
        null,
        new Vehicle.Chassis(5, 3, 0.4, null, null, cgM),
        wheels,
        new Vehicle.Limits(climb, descend, side, null, marginDeg),
        null,
        VehicleParts.drive(3, null, null, null, null, null, null),
        null,
        null,
        null);
  }

  private static SlopeBounds bounds(Vehicle v) {
    return new SlopeBounds(new MoveLimits(v, Body.MOON));
  }

  private static double tan(double deg) {
    return Math.tan(Math.toRadians(deg));
  }

  /** Share of the way to tipping: how far the vertical may go on before it leaves the hull. */
  private static double tipShare(Vehicle.Wheels w, double cgM, double grade, double cross) {
    Coordinate[] at = new Coordinate[2 * w.axlesM().size()];
    for (int i = 0; i < w.axlesM().size(); i++) {
      at[2 * i] = new Coordinate(w.axlesM().get(i), w.tracksM().get(i) / 2);
      at[2 * i + 1] = new Coordinate(w.axlesM().get(i), -w.tracksM().get(i) / 2);
    }
    Geometry hull = GEOMETRY.createMultiPointFromCoords(at).convexHull();
    double low = 0;
    double high = 100;
    for (int i = 0; i < 50; i++) {
      double mid = (low + high) / 2;
      Coordinate below = new Coordinate(-mid * cgM * grade, -mid * cgM * cross);
      boolean stands = hull.covers(GEOMETRY.createPoint(below));
      low = stands ? mid : low;
      high = stands ? high : mid;
    }
    return 1 / low;
  }

  @Test
  void theLargestShareOfAnyLimitBinds() {
    Random random = new Random(21);
    int tips = 0;
    for (int n = 0; n < 600; n++) {
      boolean skewed = n % 2 == 0;
      double front = 1.4 + 0.5 * random.nextDouble();
      double rear = skewed ? 2 + 0.8 * random.nextDouble() : front;
      Vehicle.Wheels w = VehicleParts.wheels(List.of(1.6, -1.5), List.of(front, rear), 0.4, 0.3);
      double cgM = 1.4 + 1.2 * random.nextDouble();
      double climb = 20 + 25 * random.nextDouble();
      double descend = 20 + 25 * random.nextDouble();
      double side = 15 + 25 * random.nextDouble();
      SlopeBounds b = bounds(vehicle(climb, descend, side, w, cgM));
      assertEquals(skewed, b.skewed);
      assertEquals(!skewed, b.plain());
      double grade = 0.8 * random.nextDouble() - 0.4;
      double cross = 0.8 * random.nextDouble() - 0.4;
      b.at(Math.hypot(grade, cross));
      double along = Math.max(grade / tan(climb), -grade / tan(descend));
      double across = Math.abs(cross) / tan(side);
      double tip = tipShare(w, cgM, grade, cross);
      double use = Math.max(tip, Math.max(along, across));
      assertEquals(use, b.use(grade, cross), 1e-9, "case " + n);
      double second = Math.min(Math.max(along, across), Math.max(tip, Math.min(along, across)));
      if (use - second > 1e-6 * use) {
        Limit want =
            tip == use
                ? Limit.TIP
                : across == use ? Limit.SIDE : grade >= 0 ? Limit.CLIMB : Limit.DESCEND;
        assertEquals(want, b.limit(grade, cross), "case " + n);
        tips += tip == use ? 1 : 0;
      }
    }
    assertTrue(tips > 100 && tips < 500, tips + " tip");
  }

  /**
   * Whole rows of grades, forwards and in reverse, with a margin to tipping: the slope may be
   * steeper by it before the vertical leaves the hull.
   */
  @Test
  void rowsOfGradesTakeTheSameShares() {
    Random random = new Random(23);
    int n = 200;
    int[] largest = new int[3];
    for (int round = 0; round < 12; round++) {
      boolean skewed = round % 3 == 2;
      Vehicle.Wheels w =
          VehicleParts.wheels(List.of(1.6, -1.2), List.of(2.0, skewed ? 2.6 : 2.0), 0.4, 0.3);
      double cgM = 1.2 + 0.8 * random.nextDouble();
      double climb = 15 + 15 * random.nextDouble();
      double descend = 15 + 15 * random.nextDouble();
      double side = 20 + 15 * random.nextDouble();
      double margin = 8 * random.nextDouble();
      SlopeBounds b = bounds(vehicle(climb, descend, side, w, cgM, margin));
      double[] grade = new double[n];
      double[] cross = new double[n];
      for (int i = 0; i < n; i++) {
        grade[i] = 1.2 * random.nextDouble() - 0.6;
        cross[i] = 1.2 * random.nextDouble() - 0.6;
      }
      for (int sign = -1; sign <= 1; sign += 2) {
        for (double most : new double[] {1.3, 1e9}) {
          double[] use = new double[n];
          b.fillUse(b.plain(), sign, n, grade, cross, most, use);
          for (int i = 0; i < n; i++) {
            double g = sign * grade[i];
            double c = sign * cross[i];
            double slope = Math.hypot(g, c);
            double tip =
                tipShare(w, cgM, g, c) * tan(Math.toDegrees(Math.atan(slope)) + margin) / slope;
            double along = Math.max(g / tan(climb), -g / tan(descend));
            double across = Math.abs(c) / tan(side);
            double want = Math.max(tip, Math.max(along, across));
            assertEquals(Math.min(most, want), Math.min(most, use[i]), 1e-9 * want, "row " + round);
            largest[want == tip ? 0 : want == along ? 1 : 2]++;
          }
        }
      }
    }
    for (int count : largest) {
      assertTrue(count > 100, count + " of one kind");
    }
  }

  /** Steeper than the margin leaves: as much as there is to say, not a use below it. */
  @Test
  void aSlopeThatMarginAndSlopeTogetherStandOnEndIsShut() {
    Vehicle.Wheels w = VehicleParts.wheels(List.of(1.6, -1.2), List.of(2.0, 2.0), 0.4, 0.3);
    SlopeBounds b = bounds(vehicle(null, null, null, w, 1.0, 10.0));
    double[] use = new double[3];
    double t = tan(81);
    b.fillUse(true, 1, 3, new double[] {t, 0, -t}, new double[] {0, t, 0}, 7, use);
    for (double u : use) {
      assertEquals(7, u);
    }
    b.at(t);
    assertTrue(b.use(t, 0) > 1 && b.use(0, t) > 1);
    assertFalse(b.open(t));
  }

  /** Too steep on every heading: the best of many directions is the corner of climb and side. */
  @Test
  void groundThatIsShutSaysHowFarTheBestHeadingIsFromIt() {
    Random random = new Random(22);
    for (int n = 0; n < 100; n++) {
      double climb = 5 + 25 * random.nextDouble();
      double descend = 5 + 25 * random.nextDouble();
      double side = 5 + 25 * random.nextDouble();
      SlopeBounds b = bounds(vehicle(climb, descend, side, null, null));
      double t = tan(46 + 20 * random.nextDouble());
      b.at(t);
      assertFalse(b.open(t));
      assertEquals(0, b.share(t));
      double best = Double.POSITIVE_INFINITY;
      for (int k = 0; k < 36_000; k++) {
        double psi = Math.PI * k / 18_000;
        double grade = t * Math.cos(psi);
        double along = grade > 0 ? grade / tan(climb) : -grade / tan(descend);
        best = Math.min(best, Math.max(along, t * Math.abs(Math.sin(psi)) / tan(side)));
      }
      assertEquals(best, b.leastUse(t), 1e-3 * best);
      Limit widest = climb >= descend ? Limit.CLIMB : Limit.DESCEND;
      assertEquals(side > Math.max(climb, descend) ? Limit.SIDE : widest, b.nearest(t));
    }
  }

  /**
   * Soil that takes more to roll on than it gives: shut also where wheels are set on the ground, up
   * to where the slope itself brings the vehicle down.
   */
  @Test
  void groundThatDoesNotCarryTheVehicle() {
    Soil slick =
        VehicleParts.soil("slick", Vehicles.LUNAR.bekker(), new Soil.Shear(10, 5, 0.02), null);
    GridSpec fine = Grounds.square(25, 0.5);
    try (Workers workers = new Workers(1)) {
      for (double slopeDeg : new double[] {0, 2, 4}) {
        Mobility m =
            MobilityStage.compute(
                Grounds.plane(fine, tan(slopeDeg) * 0.6, tan(slopeDeg) * 0.8),
                Grounds.noHazard(fine),
                Vehicles.full(4200, 20, 15, 0.3, 5, slick),
                Body.MOON,
                workers,
                Progress.NONE);
        assertEquals(Mobility.NO_GO, m.cls().values()[312]);
        assertEquals(Limit.TRACTION, Limit.ofCode(m.limit().values()[312]));
        assertEquals(0, m.field().allowed(312));
      }
    }
  }

  @Test
  void shares() {
    assertEquals(0.5, LimitUse.ratio(1, 2));
    assertEquals(0, LimitUse.ratio(0, Double.POSITIVE_INFINITY));
    assertEquals(0, LimitUse.ratio(0, 0));
    // Nothing is allowed: any amount is too much, none is not.
    assertTrue(LimitUse.ratio(1e-9, 0) > 1);
    assertTrue(LimitUse.ratio(1, -1) > 1);
    assertEquals(0, LimitUse.ratio(-1, 0));
  }
}

package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/** Tip-over about the support polygon, against the convex hull that JTS draws of all wheels. */
class TipOverTest {
  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  private static Vehicle.Wheels wheels(Random random) {
    int axles = 2 + random.nextInt(3);
    List<Double> x = new ArrayList<>();
    List<Double> tracks = new ArrayList<>();
    for (int i = 0; i < axles; i++) {
      x.add(2 - 4.0 * i / (axles - 1) + 0.3 * random.nextDouble());
      tracks.add(1 + 2 * random.nextDouble());
    }
    return VehicleParts.wheels(x, tracks, 0.4, 0.3);
  }

  private static Geometry hull(Vehicle.Wheels w) {
    Coordinate[] at = new Coordinate[2 * w.axlesM().size()];
    for (int i = 0; i < w.axlesM().size(); i++) {
      at[2 * i] = new Coordinate(w.axlesM().get(i), w.tracksM().get(i) / 2);
      at[2 * i + 1] = new Coordinate(w.axlesM().get(i), -w.tracksM().get(i) / 2);
    }
    return GEOMETRY.createMultiPointFromCoords(at).convexHull();
  }

  /** Whether the vertical through the centre of gravity meets the ground inside the hull. */
  private static boolean stands(Geometry hull, double heightM, double grade, double cross) {
    Coordinate below = new Coordinate(-heightM * grade, -heightM * cross);
    return hull.covers(GEOMETRY.createPoint(below));
  }

  /** The largest cross grade on which the vehicle stands on every grade up to t, either way. */
  private static double leastSide(Geometry hull, double heightM, double t) {
    double low = 0;
    double high = 10;
    for (int i = 0; i < 40; i++) {
      double mid = (low + high) / 2;
      boolean any = stands(hull, heightM, t, mid) && stands(hull, heightM, -t, mid);
      low = any ? mid : low;
      high = any ? high : mid;
    }
    return low;
  }

  @Test
  void tipsWhereTheVerticalLeavesTheHull() {
    Random random = new Random(11);
    for (int i = 0; i < 600; i++) {
      Vehicle.Wheels w = wheels(random);
      double heightM = 0.5 + 2 * random.nextDouble();
      double psi = 2 * Math.PI * random.nextDouble();
      TipOver tip = TipOver.of(w, heightM);
      double atMost = 1 / tip.use(Math.cos(psi), Math.sin(psi));
      Geometry hull = hull(w);
      double in = atMost * (1 - 1e-9);
      double out = atMost * (1 + 1e-9);
      assertTrue(stands(hull, heightM, in * Math.cos(psi), in * Math.sin(psi)), w + " " + psi);
      assertFalse(stands(hull, heightM, out * Math.cos(psi), out * Math.sin(psi)), w + " " + psi);
      assertEquals(leastSide(hull, heightM, 0.2), tip.leastSide(0.2, 1), 1e-9, w.toString());
      double mostUse = 0;
      for (int k = 0; k < 3600; k++) {
        double at = Math.PI * k / 1800;
        mostUse = Math.max(mostUse, tip.sideUse(Math.cos(at), Math.sin(at)));
      }
      assertEquals(mostUse, tip.mostSideUse(1), 1e-5 * mostUse);
    }
  }

  @Test
  void oneTrackIsARectangle() {
    TipOver tip = TipOver.of(VehicleParts.wheels(List.of(1.7, 0.1, -1.5), 2.6, 0.4, 0.3), 1.3);
    assertFalse(tip.skewed());
    assertEquals(1.5 / 1.3, tip.up);
    assertEquals(1.7 / 1.3, tip.down);
    assertEquals(2.6 / (2 * 1.3), tip.side(0));
    assertEquals(2.6 / (2 * 1.3), tip.widest);
    // An axle narrower than the line between its neighbours stands inside the hull.
    TipOver waist =
        TipOver.of(
            VehicleParts.wheels(List.of(1.7, 0.1, -1.5), List.of(2.6, 2.0, 2.6), 0.4, 0.3), 1.3);
    assertFalse(waist.skewed());
    assertEquals(tip.side(0), waist.side(0));
    TipOver broad =
        TipOver.of(
            VehicleParts.wheels(List.of(1.7, 0.1, -1.5), List.of(2.6, 3.0, 2.6), 0.4, 0.3), 1.3);
    assertTrue(broad.skewed());
  }

  /** Against 7200 headings, each judged for itself. */
  @Test
  void shareOfHeadingsIsThatOfManyHeadings() {
    Random random = new Random(13);
    for (int i = 0; i < 200; i++) {
      TipOver tip = TipOver.of(wheels(random), 1 + 2 * random.nextDouble());
      double t = 0.1 + random.nextDouble();
      double up = random.nextDouble() - 0.1;
      double down = -random.nextDouble();
      double side = random.nextDouble();
      double usable = 0.5 + 0.5 * random.nextDouble();
      int open = 0;
      for (int k = 0; k < 7200; k++) {
        double psi = Math.PI * (k + 0.5) / 3600;
        double grade = t * Math.cos(psi);
        double cross = t * Math.sin(psi);
        boolean rated = grade <= up && grade >= down && Math.abs(cross) <= side;
        open += rated && tip.sideUse(grade, cross) <= usable ? 1 : 0;
      }
      double share = new SkewedWindow(tip).share(t, down, up, side, usable);
      assertEquals(open / 7200.0, share, 16 / 7200.0, "plane " + i);
    }
    TipOver plain = TipOver.of(VehicleParts.wheels(List.of(1.7, -1.5), 2.6, 0.4, 0.3), 1.3);
    for (double t : new double[] {0.2, 0.6, 0.9, 1.4}) {
      double side = Math.min(0.8, plain.side(0) * 0.7);
      assertEquals(
          HeadingWindow.share(t, -0.6, 0.5, side),
          new SkewedWindow(plain).share(t, -0.6, 0.5, 0.8, 0.7),
          1e-12);
    }
  }

  /** Planes of any slope and aspect: the headings left open are those on which the hull stands. */
  @Test
  void mobilityKeepsToTheHull() {
    GridSpec coarse = Grounds.square(2, 5);
    GridSpec fine = Grounds.square(18, 0.45);
    Random random = new Random(12);
    int partly = 0;
    try (Workers workers = new Workers(1)) {
      for (int i = 0; i < 60; i++) {
        Vehicle.Wheels w = wheels(random);
        double heightM = 1.5 + 1.5 * random.nextDouble();
        Vehicle v =
            new Vehicle(
                "skewed",
                "",
                null,
                new Vehicle.Chassis(5, 3.2, 0.4, null, null, heightM),
                w,
                new Vehicle.Limits(60.0, 60.0, 60.0, null, null),
                null,
                VehicleParts.drive(3, null, null, null, null, null, null),
                null,
                null,
                null);
        double t = 0.25 + 0.5 * random.nextDouble();
        double fall = 2 * Math.PI * random.nextDouble();
        double ge = t * Math.sin(fall);
        double gn = t * Math.cos(fall);
        for (GridSpec spec : List.of(coarse, fine)) {
          Mobility m =
              MobilityStage.compute(
                  Grounds.plane(spec, ge, gn),
                  Grounds.noHazard(spec),
                  v,
                  Body.MOON,
                  workers,
                  Progress.NONE);
          int cell = spec.cells() / 2 + spec.cols() / 2;
          partly += keepsToTheHull(m, cell, hull(w), heightM, ge, gn) ? 1 : 0;
        }
      }
    }
    assertTrue(partly > 20, "planes with some headings shut: " + partly);
  }

  private static boolean keepsToTheHull(
      Mobility m, int cell, Geometry hull, double heightM, double ge, double gn) {
    Headings headings = Headings.of(m.field().spec());
    boolean some = false;
    boolean every = true;
    for (int k = 0; k < Headings.COUNT; k++) {
      double grade = ge * headings.east(k) + gn * headings.north(k);
      double cross = ge * headings.north(k) - gn * headings.east(k);
      boolean inside = stands(hull, heightM, grade * (1 - 1e-4), cross * (1 - 1e-4));
      boolean surely = stands(hull, heightM, grade * (1 + 1e-4), cross * (1 + 1e-4));
      boolean own = m.field().allows(cell, k) && m.field().pathRatio(cell, k) == 1;
      assertTrue(!surely || own, "heading " + k + " is shut on " + ge + ", " + gn);
      assertTrue(!own || inside, "heading " + k + " is open on " + ge + ", " + gn);
      some |= own;
      every &= own;
    }
    assertTrue(!some || m.cls().values()[cell] != Mobility.NO_GO);
    assertTrue(!every || m.headingsPct().values()[cell] == 100);
    return some && !every;
  }
}

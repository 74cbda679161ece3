package org.scarpway.validation;

import static org.scarpway.validation.Validation.holds;
import static org.scarpway.validation.Validation.near;
import static org.scarpway.validation.Validation.nearRel;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.corridor.CorridorSolver;
import org.scarpway.reach.corridor.RouteCurve;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.CorridorRequest;
import org.scarpway.reach.question.CorridorRequest.Cost;
import org.scarpway.reach.question.CorridorRequest.Stop;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.survey.RouteGrade;
import org.scarpway.reach.survey.RouteLeg;
import org.scarpway.reach.survey.RouteSurvey;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.SlopeClass;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.vehicle.DriveModel;
import org.scarpway.vehicle.Soil;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/**
 * Routes and ground by the published classes of grade, curve and slope, read off centrelines and
 * slope rasters of ground with known grades.
 */
class RouteCheck {
  private static final String ROUTE = "STANAG 2253 as taught in Engineer subcourse EN5622";
  private static final String SLOPES = "FM 5-33, slope classes (from memory)";
  private static final String TERRAIN = "FM 34-130, ATP 2-01.3, terrain classes (from memory)";

  private static CorridorResult solve(
      TraversalCost field, FloatGrid heightM, double turnM, Stop... stops) {
    Vehicle.Drive drive = VehicleParts.drive(1, null, null, null, null, null, null, turnM);
    Vehicle cart = new Vehicle("cart", "", null, null, null, null, null, drive, null, null, null);
    try (Workers workers = new Workers(2)) {
      return CorridorSolver.solve(
          Questions.corridor("c", List.of(stops), Cost.TIME, List.of(5.0), 0),
          Fields.ground(field, heightM, cart),
          workers,
          Progress.NONE);
    }
  }

  /** Straight up a plane and down again: two legs. */
  private static List<RouteLeg> upAndDown(double grade, double planM) {
    GridSpec g = Fields.grid(5, (int) Math.rint(planM / 10) + 5, 10, -25, -25);
    Stop low = Questions.stop("low", 0, 0);
    Stop high = Questions.stop("high", planM, 0);
    TraversalCost field = Fields.slope(g, grade, 0, s -> 1, k -> true);
    return RouteSurvey.legs(solve(field, Fields.heights(g, grade, 0), 0, low, high, low));
  }

  @Test
  void gradeIsRoundedUp() {
    RouteLeg up = upAndDown(93.0 / 3720, 3720).get(0);
    near(
        "5.5-route-93-3720-pct",
        "grade of 93 m on 3720 m, percent rounded up",
        ROUTE + ", worked example 2.5 to 3 %",
        "V",
        3,
        up.steepestUpPct(),
        0);
    near("5.5-route-93-3720-rise-m", "climb of that leg (m)", ROUTE, "C", 93, up.riseM(), 1e-3);
    RouteLeg down = upAndDown(93.0 / 3720, 3720).get(1);
    near(
        "5.5-route-93-3720-down-pct",
        "the same way back, descent in percent rounded up",
        ROUTE,
        "C",
        3,
        down.steepestDownPct(),
        0);
  }

  @Test
  void gradesThatCount() {
    Object[][] rows = {
      {4.0, false, false, RouteGrade.BELOW_5},
      {5.0, true, false, RouteGrade.FROM_5},
      {6.0, true, false, RouteGrade.FROM_5},
      {7.0, true, true, RouteGrade.FROM_7},
      {9.0, true, true, RouteGrade.FROM_7},
      {10.0, true, true, RouteGrade.FROM_10},
      {13.0, true, true, RouteGrade.FROM_10},
      {14.0, true, true, RouteGrade.FROM_14}
    };
    for (Object[] r : rows) {
      double pct = (Double) r[0];
      for (RouteLeg leg : upAndDown(pct / 100, 500)) {
        boolean up = leg.from().equals("low");
        double recorded = (Boolean) r[1] ? leg.lengthM() : 0;
        double obstructed = (Boolean) r[2] ? leg.lengthM() : 0;
        holds(
            String.format(Locale.ROOT, "5.5-route-class-%02.0f-%s", pct, up ? "up" : "down"),
            String.format(
                Locale.ROOT,
                "%s of %.0f %%: %s recorded, %s, symbol %s",
                up ? "climb" : "descent",
                pct,
                (Boolean) r[1] ? "all" : "nothing",
                (Boolean) r[2] ? "obstruction" : "no obstruction",
                ((RouteGrade) r[3]).label()),
            ROUTE,
            "V",
            leg.grade() == r[3]
                && Math.abs(leg.recordedM() - recorded) < 1e-6
                && Math.abs(leg.obstructedM() - obstructed) < 1e-6);
      }
    }
  }

  @Test
  void curves() {
    Object[][] rows = {
      {25.0, RouteCurve.OBSTRUCTION},
      {25.1, RouteCurve.REPORTED},
      {45.0, RouteCurve.REPORTED},
      {45.1, RouteCurve.OPEN}
    };
    GridSpec g = Fields.grid(81, 121, 5, -2.5, -202.5);
    // A wall that ends in the open: the way comes back on its other side in one curve.
    TraversalCost wall = Fields.level(g, (x, y) -> x > 150 && Math.abs(y) < 3 && x < 450 ? 0 : 1);
    FloatGrid flat = Fields.heights(g, 0, 0);
    Stop below = Questions.stop("below", 350, -20);
    Stop above = Questions.stop("above", 350, 20);
    for (Object[] r : rows) {
      double radius = (Double) r[0];
      // A tenth of a metre more costs hardly more and is of a wider class, so the line takes it.
      double driven = radius == 25 || radius == 45 ? radius + 0.1 : radius;
      RouteLeg leg = RouteSurvey.legs(solve(wall, flat, radius, below, above)).get(0);
      String id = String.format(Locale.ROOT, "5.5-curve-%.1f", radius);
      String curve = String.format(Locale.ROOT, "curve of %.1f m", radius);
      nearRel(
          id + "-m",
          curve + ", radius off the line (m)",
          "turning circle that the line keeps, or the least one of a wider class",
          "C",
          driven,
          leg.tightestM(),
          1e-3);
      holds(
          id + "-class",
          curve + ": " + ((RouteCurve) r[1]).label(),
          ROUTE,
          "V",
          RouteCurve.of(radius) == r[1] && leg.curve() == RouteCurve.of(driven));
    }
    RouteLeg kinked = RouteSurvey.legs(solve(wall, flat, 0, below, above)).get(0);
    holds(
        "5.5-curve-on-the-spot",
        "a line that turns at corners has radius 0 and obstructs",
        ROUTE,
        "C",
        kinked.tightestM() == 0 && kinked.curve() == RouteCurve.OBSTRUCTION);
    TraversalCost open = Fields.level(g, (x, y) -> 1);
    RouteLeg straight =
        RouteSurvey.legs(
                solve(open, flat, 0, Questions.stop("w", 50, 0), Questions.stop("e", 500, 0)))
            .get(0);
    holds(
        "5.5-curve-none",
        "a straight line has no curve to report",
        ROUTE,
        "C",
        Double.isInfinite(straight.tightestM()) && straight.curve() == RouteCurve.OPEN);
  }

  @Test
  void groundBySlopeClass() {
    Object[][] rows = {
      {1.5, SlopeClass.TO_3, SLOPES},
      {6.0, SlopeClass.TO_10, SLOPES},
      {15.0, SlopeClass.TO_20, SLOPES},
      {25.0, SlopeClass.TO_30, SLOPES},
      {29.0, SlopeClass.TO_30, TERRAIN},
      {30.0, SlopeClass.TO_45, TERRAIN},
      {45.0, SlopeClass.TO_45, TERRAIN},
      {46.0, SlopeClass.OVER_45, TERRAIN},
      {60.0, SlopeClass.OVER_45, SLOPES}
    };
    for (Object[] r : rows) {
      double pct = (Double) r[0];
      SlopeClass c = (SlopeClass) r[1];
      // East, where a float gradient of the plane is exact to its last bits.
      Ground plane = Ground.of(5, 5, 10, 0, 0, (x, y) -> pct / 100 * x);
      float[] slopeDeg = plane.slopeAspect(SlopeMethod.HORN)[0];
      long[] cells = new long[SlopeClass.values().length];
      SlopeClass.count(slopeDeg, 0, slopeDeg.length, cells);
      holds(
          String.format(Locale.ROOT, "5.5-slope-class-%04.1f", pct),
          String.format(
              Locale.ROOT, "ground of %.1f %%: class %s, %s", pct, c.label(), c.terrain()),
          (String) r[2],
          "M",
          cells[c.ordinal()] == 9);
    }
  }

  /** Rays are circular arcs where the speed grows steadily across them. */
  @Test
  void arcWhereTheSpeedGrows() {
    GridSpec g = Fields.grid(150, 250, 0.5, -10.25, -9.25);
    TraversalCost field = Fields.level(g, (x, y) -> 1 + 0.1 * y);
    CorridorResult r =
        solve(
            field,
            Fields.heights(g, 0, 0),
            0,
            Questions.stop("w", 0, 0),
            Questions.stop("e", 100, 0));
    double apexM = 0;
    for (ProfilePoint p : r.centreline()) {
      apexM = Math.max(apexM, p.yM());
    }
    nearRel(
        "7-P10-arc-apex",
        "highest point of the quickest way (0, 0) to (100, 0), speed 1 + 0.1 y (m)",
        "circular arc about (50, -10), closed form",
        "C",
        40.990195,
        apexM,
        0.02);
  }

  /** T 1.83 m, h 0.75 m, friction 0.6: slides before it tips. */
  private static double throughTenMetres(Body body) {
    Soil soil =
        VehicleParts.soil(
            "firm",
            new Soil.Bekker(1, 1400, 820_000),
            new Soil.Shear(0, Math.toDegrees(Math.atan(0.6)), 0.0178),
            null);
    Vehicle v =
        new Vehicle(
            "buggy",
            "",
            700.0,
            new Vehicle.Chassis(3, 2, 0.36, null, null, 0.75),
            VehicleParts.wheels(List.of(1.15, -1.15), 1.83, 0.41, 0.24),
            null,
            null,
            VehicleParts.drive(20, null, null, null, null, null, null, 10),
            soil,
            null,
            null);
    GridSpec spec = Fields.grid(81, 121, 1, -0.5, -40.5);
    int n = spec.cells();
    int[] allowed = new int[n];
    for (int i = 0; i < n; i++) {
      double x = spec.xM(i % spec.cols());
      allowed[i] = x > 30 && x < 90 && Math.abs(spec.yM(i / spec.cols())) < 0.6 ? 0 : -1;
    }
    TraversalCost field =
        new TraversalCost(
            spec,
            allowed,
            new float[n],
            new float[n],
            null,
            null,
            new DriveModel(v, body.gravityMs2()).table(1, 1));
    CorridorRequest round =
        Questions.corridor(
            "c",
            List.of(Questions.stop("below", 70, -4), Questions.stop("above", 70, 4)),
            Cost.TIME,
            List.of(5.0),
            0);
    try (Workers workers = new Workers(2)) {
      var ground = Fields.ground(field, new FloatGrid(spec, new float[n]), v);
      CorridorResult r = CorridorSolver.solve(round, ground, workers, Progress.NONE);
      return RouteSurvey.legs(r).get(0).slowestCurveMs();
    }
  }

  @Test
  void speedInCurves() {
    String source = "v2 = g R min(T / 2h, tan phi); sliding and rollover as in texts on vehicles";
    String what = "speed of a drawn line through a curve of 10 m, T 1.83, h 0.75, mu 0.6 (m/s), ";
    nearRel(
        "5.5-curve-moon-ms", what + "Moon", source, "V", 3.118, throughTenMetres(Body.MOON), 2e-3);
    nearRel(
        "5.5-curve-earth-ms",
        what + "Earth",
        source,
        "V",
        7.672,
        throughTenMetres(Body.EARTH),
        2e-3);
  }
}

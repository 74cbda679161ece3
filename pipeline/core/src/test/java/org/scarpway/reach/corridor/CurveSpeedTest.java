package org.scarpway.reach.corridor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.CorridorRequest.Cost;
import org.scarpway.reach.question.CorridorRequest.Stop;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.survey.RouteLeg;
import org.scarpway.reach.survey.RouteSurvey;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.DriveModel;
import org.scarpway.vehicle.Soil;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/** Speeds in the curves of centrelines, measured on the lines that are handed out. */
class CurveSpeedTest {
  private static final double G = Body.MOON.gravityMs2();
  private static final double FRICTION = 0.6;
  private static final double TIP = 1.83 / (2 * 0.75);
  private static final GridSpec SPEC = Fields.grid(81, 121, 1, -0.5, -40.5);

  private static Vehicle buggy(double turnM) {
    Soil soil =
        VehicleParts.soil(
            "firm",
            new Soil.Bekker(1, 1400, 820_000),
            new Soil.Shear(5000, Math.toDegrees(Math.atan(FRICTION)), 0.0178),
            null);
    return new Vehicle(
        "buggy",
        "",
        700.0,
        new Vehicle.Chassis(3, 2, 0.36, null, null, 0.75),
        VehicleParts.wheels(List.of(1.15, -1.15), 1.83, 0.41, 0.24),
        null,
        null,
        VehicleParts.drive(4, 0.7, 4000.0, 0.6, 0.0, 90.0, null, turnM),
        soil,
        9.0,
        null);
  }

  private static CorridorResult solve(
      double turnM, double gradEast, double gradNorth, boolean wall, Cost cost, Stop... stops) {
    int n = SPEC.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    float[] height = new float[n];
    for (int i = 0; i < n; i++) {
      double x = SPEC.xM(i % SPEC.cols());
      double y = SPEC.yM(i / SPEC.cols());
      allowed[i] = wall && x > 30 && x < 90 && Math.abs(y) < 0.6 ? 0 : -1;
      east[i] = (float) gradEast;
      north[i] = (float) gradNorth;
      height[i] = (float) (gradEast * x + gradNorth * y);
    }
    Vehicle v = buggy(turnM);
    TraversalCost field =
        new TraversalCost(SPEC, allowed, east, north, null, null, new DriveModel(v, G).table(1, 1));
    try (Workers workers = new Workers(2)) {
      return CorridorSolver.solve(
          Questions.corridor("c", List.of(stops), cost, List.of(5.0), 0),
          Fields.ground(field, new FloatGrid(SPEC, height), v),
          workers,
          Progress.NONE);
    }
  }

  private static final Stop BELOW = Questions.stop("below", 70, -4);
  private static final Stop ABOVE = Questions.stop("above", 70, 4);

  private static double[] at(ProfilePoint p, double gradEast, double gradNorth) {
    return new double[] {p.xM(), p.yM(), gradEast * p.xM() + gradNorth * p.yM()};
  }

  private static double apart(double[] a, double[] b) {
    return Math.sqrt(
        Math.pow(a[0] - b[0], 2) + Math.pow(a[1] - b[1], 2) + Math.pow(a[2] - b[2], 2));
  }

  /** Corners of the line: where it turns, and its ends. */
  private static List<Integer> corners(List<ProfilePoint> line) {
    List<Integer> kept = new ArrayList<>();
    for (int i = 0; i < line.size(); i++) {
      int n = kept.size();
      if (n > 1) {
        ProfilePoint a = line.get(kept.get(n - 2));
        ProfilePoint b = line.get(kept.get(n - 1));
        ProfilePoint c = line.get(i);
        double area = (b.xM() - a.xM()) * (c.yM() - b.yM()) - (b.yM() - a.yM()) * (c.xM() - b.xM());
        if (Math.abs(area) < 1e-9) {
          kept.remove(n - 1);
        }
      }
      kept.add(i);
    }
    return kept;
  }

  /**
   * The circle through three corners in space, the weight split along the plane: no formula of the
   * program. Lateral force over normal force stays within both ratios.
   */
  @Test
  void noCurveAsksForMoreThanTipAndGrip() {
    double[][] grounds = {{0, 0}, {0.1, 0}, {-0.1, 0}, {0, 0.12}, {0, -0.12}, {0.08, -0.1}};
    for (double[] g : grounds) {
      for (double turnM : new double[] {4, 8}) {
        List<ProfilePoint> line =
            solve(turnM, g[0], g[1], true, Cost.TIME, BELOW, ABOVE).centreline();
        List<Integer> c = corners(line);
        double worst = 0;
        for (int i = 1; i + 1 < c.size(); i++) {
          double[] p = at(line.get(c.get(i - 1)), g[0], g[1]);
          double[] q = at(line.get(c.get(i)), g[0], g[1]);
          double[] r = at(line.get(c.get(i + 1)), g[0], g[1]);
          double a = apart(p, q);
          double b = apart(q, r);
          if (Math.abs(a / b - 1) > 0.2) {
            continue;
          }
          double s = (a + b + apart(p, r)) / 2;
          double area = Math.sqrt(s * (s - a) * (s - b) * (s - apart(p, r)));
          double radiusM = a * b * apart(p, r) / (4 * area);
          double v = line.get(c.get(i)).speedMs();
          // Inwards, in the plane, across the chord.
          double[] in = new double[3];
          double[] ahead = new double[3];
          double[] along = new double[3];
          for (int k = 0; k < 3; k++) {
            in[k] = (p[k] + r[k]) / 2 - q[k];
            ahead[k] = (r[k] - p[k]) / apart(p, r);
          }
          double off = in[0] * ahead[0] + in[1] * ahead[1] + in[2] * ahead[2];
          double length = 0;
          for (int k = 0; k < 3; k++) {
            along[k] = in[k] - off * ahead[k];
            length += along[k] * along[k];
          }
          double push = v * v / radiusM + G * along[2] / Math.sqrt(length);
          double normal = G / Math.sqrt(1 + g[0] * g[0] + g[1] * g[1]);
          double use =
              Math.max(push / (TIP * normal), Math.hypot(push, G * ahead[2]) / (FRICTION * normal));
          worst = Math.max(worst, use);
          assertTrue(use < 1.03, g[0] + ", " + g[1] + ", " + turnM + " m: uses " + use);
        }
        assertTrue(worst > 0.9, g[0] + ", " + g[1] + ", " + turnM + " m: uses only " + worst);
      }
    }
  }

  @Test
  void timesAndEnergiesAreThoseOfTheSpeeds() {
    for (Cost cost : Cost.values()) {
      CorridorResult result = solve(6, 0.05, 0.03, true, cost, BELOW, ABOVE, BELOW);
      List<ProfilePoint> line = result.centreline();
      double timeS = 0;
      double lostS = 0;
      for (int i = 0; i + 1 < line.size(); i++) {
        double m = line.get(i + 1).distanceM() - line.get(i).distanceM();
        timeS += m / line.get(i).speedMs();
        lostS += m / line.get(i).speedMs() - m / line.get(i).straightMs();
        assertEquals(timeS, line.get(i + 1).timeS(), 1e-6 * timeS + 1e-9);
      }
      assertTrue(lostS > 0.05 * timeS, lostS + " of " + timeS);
      assertEquals(lostS, result.curvesS(), 1e-6);
      double legsS = 0;
      for (RouteLeg leg : RouteSurvey.legs(result)) {
        legsS += leg.curvesS();
        assertTrue(leg.slowestCurveMs() < 3.2, leg.slowestCurveMs() + " m/s");
        assertEquals(leg.lengthM() > 0, leg.timeS() > leg.curvesS());
      }
      assertEquals(lostS, legsS, 1e-6);
      assertEquals(timeS, result.wholeTimeS(), 1e-6 * timeS);
      for (float pct : result.excessPct().values()) {
        assertTrue(!(pct < 0), "excess " + pct);
      }
    }
  }

  /** The cabin runs on while a curve is taken more slowly. */
  @Test
  void slowerCurvesUseTheHotelLoad() {
    CorridorResult result = solve(6, 0, 0, true, Cost.DISTANCE, BELOW, ABOVE);
    ProfilePoint end = result.centreline().get(result.centreline().size() - 1);
    double tractionJ = new DriveModel(buggy(6), G).tractionJPerM(0) * end.distanceM();
    assertEquals(tractionJ + 90 * end.timeS(), end.energyJ(), 1e-4 * end.energyJ());
  }

  @Test
  void straightWaysAreAsTheyWere() {
    for (double turnM : new double[] {0, 6}) {
      CorridorResult result =
          solve(
              turnM,
              0,
              0,
              false,
              Cost.TIME,
              Questions.stop("w", 10, 0),
              Questions.stop("e", 110, 0));
      assertEquals(0, result.curvesS());
      for (ProfilePoint p : result.centreline()) {
        assertEquals(p.straightMs(), p.speedMs());
      }
      assertTrue(Double.isNaN(RouteSurvey.legs(result).get(0).slowestCurveMs()));
    }
  }

  /** A line of sharp corners is rounded within half a cell, or crawled round on the spot. */
  @Test
  void cornersAreRoundedWithinTheirCells() {
    CorridorResult result = solve(0, 0, 0, true, Cost.TIME, BELOW, ABOVE);
    assertTrue(result.curvesS() > 0);
    for (ProfilePoint p : result.centreline()) {
      assertTrue(p.speedMs() >= 0.7 - 1e-12 && p.speedMs() <= p.straightMs());
    }
  }
}

package org.scarpway.reach.corridor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
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
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/** Centrelines against the turning circle, measured on the line that is handed out. */
class TurningTest {
  private static final GridSpec SPEC = Fields.grid(81, 121, 1, -0.5, -40.5);
  private static final Stop WEST = Questions.stop("west", 10, 0);
  private static final Stop EAST = Questions.stop("east", 110, 0);

  private static CorridorResult solve(TraversalCost field, double turnM, Stop... stops) {
    Vehicle.Drive drive = VehicleParts.drive(1, null, null, null, null, null, null, turnM);
    Vehicle cart = new Vehicle("cart", "", null, null, null, null, null, drive, null, null, null);
    try (Workers workers = new Workers(2)) {
      return CorridorSolver.solve(
          Questions.corridor("c", List.of(stops), Cost.TIME, List.of(5.0), 0),
          Fields.ground(field, FloatGrid.empty(SPEC), cart),
          workers,
          Progress.NONE);
    }
  }

  /** Vertices where the line changes direction, and both ends. */
  private static List<ProfilePoint> corners(List<ProfilePoint> line) {
    List<ProfilePoint> kept = new ArrayList<>();
    for (ProfilePoint p : line) {
      int n = kept.size();
      if (n > 0
          && Math.hypot(p.xM() - kept.get(n - 1).xM(), p.yM() - kept.get(n - 1).yM()) < 1e-9) {
        continue;
      }
      if (n > 1 && Math.abs(turn(kept.get(n - 2), kept.get(n - 1), p)) < 1e-9) {
        kept.remove(n - 1);
      }
      kept.add(p);
    }
    return kept;
  }

  private static double turn(ProfilePoint a, ProfilePoint b, ProfilePoint c) {
    double before = Math.atan2(b.yM() - a.yM(), b.xM() - a.xM());
    double after = Math.atan2(c.yM() - b.yM(), c.xM() - b.xM());
    return Math.IEEEremainder(after - before, 2 * Math.PI);
  }

  /**
   * A line inscribed in a track of radius R or more, with chords of at most a step, turns at each
   * vertex by at most half of what both chords turn. Straight stretches count as a step: so a kink
   * between them is found.
   */
  private static void assertKeepsTo(double radiusM, List<ProfilePoint> line) {
    List<ProfilePoint> c = corners(line);
    double stepM = TurnSearch.stepM(SPEC);
    for (int i = 1; i + 1 < c.size(); i++) {
      double in = Math.hypot(c.get(i).xM() - c.get(i - 1).xM(), c.get(i).yM() - c.get(i - 1).yM());
      double out = Math.hypot(c.get(i + 1).xM() - c.get(i).xM(), c.get(i + 1).yM() - c.get(i).yM());
      double most =
          Math.asin(Math.min(in, stepM) / 2 / radiusM)
              + Math.asin(Math.min(out, stepM) / 2 / radiusM);
      double got = Math.abs(turn(c.get(i - 1), c.get(i), c.get(i + 1)));
      assertTrue(got <= most * (1 + 1e-4), i + ": turns by " + got + ", at most " + most);
    }
  }

  private static void assertOnAllowedGround(TraversalCost field, List<ProfilePoint> line) {
    for (int i = 1; i < line.size(); i++) {
      for (int k = 0; k <= 20; k++) {
        double x = line.get(i - 1).xM() + k / 20.0 * (line.get(i).xM() - line.get(i - 1).xM());
        double y = line.get(i - 1).yM() + k / 20.0 * (line.get(i).yM() - line.get(i - 1).yM());
        boolean inside = Math.abs(x - Math.rint(x)) < 0.499 && Math.abs(y - Math.rint(y)) < 0.499;
        assertTrue(!inside || field.allowed(SPEC.cellOf(x, y)) != 0, "at " + x + ", " + y);
      }
    }
  }

  /** A wall that ends in the open: the vehicle must come back on its other side. */
  private static TraversalCost hairpin() {
    return Fields.level(SPEC, (x, y) -> x > 30 && Math.abs(y) < 0.6 && x < 90 ? 0 : 1);
  }

  @Test
  void roundTheEndOfAWallInCircles() {
    Stop below = Questions.stop("below", 70, -4);
    Stop above = Questions.stop("above", 70, 4);
    for (double r : new double[] {2, 5, 10}) {
      CorridorResult bent = solve(hairpin(), r, below, above);
      assertTrue(bent.turning().tooTight().isEmpty(), bent.warnings().toString());
      assertKeepsTo(r, bent.centreline());
      assertOnAllowedGround(hairpin(), bent.centreline());
      ProfilePoint end = bent.centreline().get(bent.centreline().size() - 1);
      assertEquals(70, end.xM(), 1e-9);
      assertEquals(4, end.yM(), 1e-9);
      // Two tangents to the circle that just holds the end of the wall, and its outer arc.
      double centreX = 89.5 - Math.sqrt(r * r - 0.25);
      double away = Math.hypot(centreX - 70, 4);
      double angle = Math.atan2(4, centreX - 70) + Math.acos(r / away);
      double exact = 2 * Math.sqrt(away * away - r * r) + r * (2 * Math.PI - 2 * angle);
      assertTrue(end.timeS() >= exact * 0.999, r + " m: " + end.timeS() + " for " + exact);
      assertEquals(exact, end.timeS(), 0.03 * exact, r + " m");
      assertEquals(100 * (end.timeS() / bent.bestCost() - 1), bent.turning().extraPct(), 1e-6);
    }
  }

  @Test
  void straightWaysCostNothingMore() {
    TraversalCost flat = Fields.level(SPEC, (x, y) -> 1);
    CorridorResult bent = solve(flat, 8, WEST, EAST);
    assertEquals(0, bent.turning().extraPct(), 0.05);
    assertKeepsTo(8, bent.centreline());
    CorridorResult slant = solve(flat, 8, WEST, Questions.stop("slant", 97, 31));
    assertEquals(0, slant.turning().extraPct(), 0.5);
    assertKeepsTo(8, slant.centreline());
  }

  @Test
  void betweenStaggeredWalls() {
    TraversalCost slalom =
        Fields.level(
            SPEC,
            (x, y) ->
                (Math.abs(x - 40) < 0.6 && y > -8) || (Math.abs(x - 75) < 0.6 && y < 8) ? 0 : 1);
    CorridorResult bent = solve(slalom, 6, WEST, EAST);
    assertTrue(bent.turning().tooTight().isEmpty(), bent.warnings().toString());
    assertKeepsTo(6, bent.centreline());
    assertOnAllowedGround(slalom, bent.centreline());
    assertTrue(bent.turning().extraPct() < 6, bent.turning().extraPct() + " %");
  }

  @Test
  void tooTightPlacesAreNamedNotCut() {
    // A corridor three cells wide with a right angle: a turn of 12 m does not fit into it.
    TraversalCost angle =
        Fields.level(
            SPEC,
            (x, y) ->
                (Math.abs(y) < 1.6 && x < 61.6) || (Math.abs(x - 60) < 1.6 && y > -1.6 && y < 33)
                    ? 1
                    : 0);
    Stop north = Questions.stop("north", 60, 30);
    CorridorResult bent = solve(angle, 12, WEST, north);
    assertEquals(1, bent.turning().tooTight().size());
    assertEquals(60, bent.turning().tooTight().get(0).xM(), 6);
    assertEquals(0, bent.turning().tooTight().get(0).yM(), 6);
    assertTrue(bent.warnings().get(0).contains("turning radius of 12.0 m"));
    assertOnAllowedGround(angle, bent.centreline());
    CorridorResult small = solve(angle, 1.5, WEST, north);
    assertTrue(small.turning().tooTight().isEmpty(), small.warnings().toString());
    assertKeepsTo(1.5, small.centreline());
    assertOnAllowedGround(angle, small.centreline());
  }

  @Test
  void barredHeadingsAreNeverTaken() {
    // Nothing within 45 degrees of north may be driven: the way up is a tack.
    TraversalCost slope = Fields.slope(SPEC, 0, 0.1, v -> 1, k -> Math.min(k, 32 - k) >= 4);
    CorridorResult bent =
        solve(slope, 3, Questions.stop("low", 60, -25), Questions.stop("high", 60, 25));
    if (bent.turning().tooTight().isEmpty()) {
      assertKeepsTo(3, bent.centreline());
    }
    List<ProfilePoint> c = bent.centreline();
    for (int i = 1; i < c.size(); i++) {
      double east = c.get(i).xM() - c.get(i - 1).xM();
      double north = c.get(i).yM() - c.get(i - 1).yM();
      if (Math.hypot(east, north) > 1e-9) {
        assertTrue(north <= Math.abs(east) * (1 + 1e-9), "heads " + east + ", " + north);
      }
    }
  }

  /** Classes of curves by STANAG 2253: tight ones are told where the ground asks for them. */
  @Test
  void curvesAreTightOnlyWhereTheGroundIs() {
    GridSpec wide = Fields.grid(81, 121, 5, -2.5, -202.5);
    Stop west = Questions.stop("west", 50, 0);
    Stop east = Questions.stop("east", 550, 0);
    TraversalCost open = Fields.level(wide, (x, y) -> 1);
    TraversalCost block = Fields.level(wide, (x, y) -> Math.hypot(x - 300, y) < 40 ? 0 : 1);
    TraversalCost hairpin = Fields.level(wide, (x, y) -> Math.abs(y) < 3 && x < 500 ? 0 : 1);
    assertEquals(
        RouteCurve.OPEN, tightest(wide, open, west, Questions.stop("slant", 520, 117)).curve());
    for (double turnM : new double[] {4, 6.5, 20}) {
      RouteLeg leg = tightest(wide, block, turnM, west, east);
      assertEquals(RouteCurve.OPEN, leg.curve(), "radius " + leg.tightestM());
      // Tangents to a circle of 40 m and the arc between, and a cell to pass it by.
      double exact = 2 * Math.sqrt(250 * 250 - 1600) + 40 * (Math.PI - 2 * Math.acos(40 / 250.0));
      assertEquals(exact, leg.lengthM(), 0.03 * exact);
    }
    RouteLeg round =
        tightest(
            wide, hairpin, Questions.stop("below", 450, -15), Questions.stop("above", 450, 15));
    assertEquals(RouteCurve.OBSTRUCTION, round.curve(), "radius " + round.tightestM());
    assertTrue(round.tightestM() >= 6.5 * (1 - 1e-6), "radius " + round.tightestM());
  }

  private static RouteLeg tightest(GridSpec spec, TraversalCost field, Stop... stops) {
    return tightest(spec, field, 6.5, stops);
  }

  private static RouteLeg tightest(
      GridSpec spec, TraversalCost field, double turnM, Stop... stops) {
    Vehicle.Drive drive = VehicleParts.drive(1, null, null, null, null, null, null, turnM);
    Vehicle cart = new Vehicle("cart", "", null, null, null, null, null, drive, null, null, null);
    try (Workers workers = new Workers(2)) {
      return RouteSurvey.legs(
              CorridorSolver.solve(
                  Questions.corridor("c", List.of(stops), Cost.TIME, List.of(5.0), 0),
                  Fields.ground(field, new FloatGrid(spec, new float[spec.cells()]), cart),
                  workers,
                  Progress.NONE))
          .get(0);
    }
  }
}

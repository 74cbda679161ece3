package org.scarpway.reach.survey;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.reach.corridor.CorridorSolver;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.question.CorridorRequest.Cost;
import org.scarpway.reach.question.CorridorRequest.Stop;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** Waypoints of routes over rough ground, and on a straight line. */
class WaypointsTest {
  private static CorridorResult route(TraversalInput ground, Stop... stops) {
    try (Workers workers = new Workers(2)) {
      return CorridorSolver.solve(
          Questions.corridor("c", List.of(stops), Cost.TIME, List.of(5.0), 0),
          ground,
          workers,
          Progress.NONE);
    }
  }

  @Test
  void straightLinesHaveTheirDirections() {
    GridSpec spec = Fields.grid(41, 41, 10, -5, -5);
    TraversalInput level = Fields.level(Fields.level(spec, (x, y) -> 2));
    Stop a = Questions.stop("a", 200, 200);
    double[][] ends = {{0, 200, 270}, {200, 400, 0}, {400, 200, 90}, {200, 0, 180}, {350, 350, 45}};
    for (double[] e : ends) {
      CorridorResult to = route(level, a, Questions.stop("b", e[0], e[1]));
      Waypoints w = Waypoints.of(to, new StraightDrive(level.field()));
      assertEquals(1, w.legs());
      assertEquals("a", w.all().get(0).name());
      assertEquals("b", w.all().get(w.all().size() - 1).name());
      for (Waypoint p : w.all().subList(0, w.all().size() - 1)) {
        assertEquals(0, Math.IEEEremainder(p.gridDeg() - e[2], 360), 1e-6);
        assertEquals(2, p.speedMs(), 1e-4);
      }
    }
  }

  /**
   * The line lies as close to the straight lines between waypoints as is told, by JTS; lengths and
   * times add up to those of the stops, stays included.
   */
  @Test
  void lieOnTheRouteAndAddUp() {
    GridSpec spec = Fields.grid(61, 61, 1, -30.5, -30.5);
    int routes = 0;
    for (int i = 0; i < 12; i++) {
      TraversalInput ground = Fields.ground(FrontTest.rough(spec, 40 + i), FloatGrid.empty(spec));
      CorridorResult route;
      try {
        route =
            route(
                ground,
                Questions.stop("a", -25, -20 + i),
                new Stop("b", 25, 15 - i, 60),
                new Stop("c", -20, 25, 30),
                Questions.stop("a", -25, -20 + i));
      } catch (RuntimeException cutOff) {
        continue;
      }
      routes++;
      Waypoints w = Waypoints.of(route, new StraightDrive(ground.field()));
      assertEquals(3, w.legs());
      for (int leg = 0; leg < 3; leg++) {
        List<Waypoint> at = w.ofLeg(leg);
        assertTrue(at.size() >= 2, at.size() + " waypoints");
        Visit from = route.visits().get(leg);
        Visit to = route.visits().get(leg + 1);
        Waypoint last = at.get(at.size() - 1);
        assertEquals(from.timeS() + from.stayS(), at.get(0).timeS(), 1e-6);
        assertEquals(to.timeS(), last.timeS(), 1e-6);
        assertEquals(to.distanceM() - from.distanceM(), last.legM(), 1e-6);
        assertEquals(
            last.legM(),
            at.subList(0, at.size() - 1).stream().mapToDouble(Waypoint::nextM).sum(),
            1e-6);
        LineString straight = line(at);
        for (int v = at.get(0).vertex(); v <= last.vertex(); v++) {
          var p = route.centreline().get(v);
          double m =
              straight.distance(new GeometryFactory().createPoint(new Coordinate(p.xM(), p.yM())));
          assertTrue(m <= w.asideM().get(leg) + 1e-9, m + " m aside");
        }
      }
    }
    assertTrue(routes > 6, routes + " routes");
  }

  /**
   * No straight line between waypoints comes into a closed cell, and between vertices that do not
   * follow each other every cell that it enters is open on both headings beside it, by JTS.
   */
  @Test
  void straightLinesLieOnOpenGround() {
    GridSpec spec = Fields.grid(31, 43, 2, -43, -31);
    int[] stretches = new int[2];
    int most = 0;
    int routes = 0;
    for (int seed = 0; seed < 24; seed++) {
      TraversalCost field = seed % 2 == 0 ? maze(spec, seed) : FrontTest.rough(spec, 400 + seed);
      CorridorResult route;
      try {
        route =
            route(
                Fields.ground(field, FloatGrid.empty(spec)),
                Questions.stop("a", -40, 28),
                Questions.stop("b", 40, -28),
                Questions.stop("c", -40, -28));
      } catch (RuntimeException cutOff) {
        continue;
      }
      routes++;
      Waypoints w = Waypoints.of(route, new StraightDrive(field));
      for (int leg = 0; leg < w.legs(); leg++) {
        List<Waypoint> at = w.ofLeg(leg);
        most = Math.max(most, at.size());
        for (int i = 0; i + 1 < at.size(); i++) {
          boolean far = at.get(i + 1).vertex() > at.get(i).vertex() + 1;
          stretches[far ? 1 : 0]++;
          assertOpen(field, at.subList(i, i + 2), far, "seed " + seed + ", leg " + leg);
        }
      }
    }
    assertTrue(routes > 14, routes + " routes");
    assertTrue(most > 18, most + " waypoints on a leg");
    assertTrue(stretches[1] > 200, stretches[1] + " stretches of several vertices");
  }

  private static void assertOpen(
      TraversalCost field, List<Waypoint> ends, boolean headings, String where) {
    GridSpec spec = field.spec();
    LineString straight = line(ends);
    Envelope box = straight.getEnvelopeInternal();
    double deg = ends.get(0).gridDeg();
    for (int cell = 0; cell < spec.cells(); cell++) {
      double x = spec.xM(cell % spec.cols());
      double y = spec.yM(cell / spec.cols());
      double halfX = spec.cellXM() / 2 - 1e-6;
      double halfY = spec.cellYM() / 2 - 1e-6;
      Envelope inside = new Envelope(x - halfX, x + halfX, y - halfY, y + halfY);
      if (!box.intersects(inside)
          || straight.intersection(new GeometryFactory().toGeometry(inside)).getLength() < 1e-6) {
        continue;
      }
      assertTrue(field.allowed(cell) != 0, where + ": " + straight + " enters " + x + " " + y);
      for (int k = 0; headings && k < Headings.COUNT; k++) {
        double off = Math.abs(Math.IEEEremainder(deg - degrees(spec, k), 360));
        double next =
            Math.abs(Math.IEEEremainder(deg - degrees(spec, (k + 1) % Headings.COUNT), 360));
        double apart =
            Math.abs(
                Math.IEEEremainder(
                    degrees(spec, (k + 1) % Headings.COUNT) - degrees(spec, k), 360));
        boolean between = off < apart - 1e-6 && next < apart - 1e-6;
        assertTrue(
            !between || (field.allows(cell, k) && field.allows(cell, (k + 1) % Headings.COUNT)),
            where + ": heading " + deg + " at " + x + " " + y);
      }
    }
  }

  private static double degrees(GridSpec spec, int heading) {
    Headings all = Headings.of(spec);
    return Math.toDegrees(Math.atan2(all.east(heading), all.north(heading)));
  }

  /** Passages of one cell between walls of one cell (depth first), with some walls taken away. */
  private static TraversalCost maze(GridSpec spec, long seed) {
    Random random = new Random(seed);
    boolean[] open = new boolean[spec.cells()];
    Deque<Integer> way = new ArrayDeque<>();
    way.push(spec.cols() + 1);
    open[way.peek()] = true;
    int[] steps = {2, -2, 2 * spec.cols(), -2 * spec.cols()};
    while (!way.isEmpty()) {
      List<Integer> free = new ArrayList<>();
      for (int step : steps) {
        int to = way.peek() + step;
        boolean within =
            to > 0
                && to < open.length
                && to % spec.cols() > 0
                && to % spec.cols() < spec.cols() - 1
                && to / spec.cols() < spec.rows() - 1
                && to / spec.cols() > 0;
        if (within && !open[to]) {
          free.add(step);
        }
      }
      if (free.isEmpty()) {
        way.pop();
      } else {
        int step = free.get(random.nextInt(free.size()));
        open[way.peek() + step / 2] = true;
        way.push(way.peek() + step);
        open[way.peek()] = true;
      }
    }
    for (int cell = 0; cell < open.length; cell++) {
      open[cell] |= random.nextInt(25) == 0;
    }
    return Fields.level(spec, (x, y) -> open[spec.cellOf(x, y)] ? 2 : 0);
  }

  private static LineString line(List<Waypoint> at) {
    return new GeometryFactory()
        .createLineString(
            at.stream()
                .map(w -> new Coordinate(w.at().xM(), w.at().yM()))
                .toArray(Coordinate[]::new));
  }
}

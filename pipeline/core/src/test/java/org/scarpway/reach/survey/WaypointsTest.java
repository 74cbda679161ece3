package org.scarpway.reach.survey;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
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
      Waypoints w = Waypoints.of(route(level, a, Questions.stop("b", e[0], e[1])));
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
      Waypoints w = Waypoints.of(route);
      assertEquals(3, w.legs());
      for (int leg = 0; leg < 3; leg++) {
        List<Waypoint> at = w.ofLeg(leg);
        assertTrue(at.size() >= 2 && at.size() <= 18, at.size() + " waypoints");
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

  private static LineString line(List<Waypoint> at) {
    return new GeometryFactory()
        .createLineString(
            at.stream()
                .map(w -> new Coordinate(w.at().xM(), w.at().yM()))
                .toArray(Coordinate[]::new));
  }
}

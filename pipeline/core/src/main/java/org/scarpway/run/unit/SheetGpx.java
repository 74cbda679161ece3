package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.geodata.crs.WorldMap;
import org.scarpway.geodata.vector.Gpx;
import org.scarpway.grid.Body;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.PinchPoint;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.survey.Waypoint;
import org.scarpway.report.CrewSheetData;
import org.scarpway.report.CrewSheetData.TurnBack;
import org.scarpway.stage.Digits;

/**
 * Writes a crew's way for a satellite receiver: stops and narrow places, a route and the line as
 * driven for each leg.
 */
final class SheetGpx {
  private SheetGpx() {}

  /** Writes nothing on other bodies than Earth, or if longitudes are not known there. */
  static void write(Path file, CrewSheetData data, WorldMap world, Body body) {
    if (!world.known() || !body.sameFigureAs(Body.EARTH.semiMajorM(), Body.EARTH.semiMinorM())) {
      return;
    }
    CorridorResult route = data.route();
    List<Gpx.Waypoint> places = new ArrayList<>();
    for (CorridorResult.Visit v : route.visits()) {
      String stay = v.stayS() > 0 ? Digits.text(", stay %s min", v.stayS() / 60) : "";
      String at = "planned " + data.departs().notEarlier(v.timeS()) + stay;
      places.add(point(world, v.xM(), v.yM(), v.name(), at));
    }
    for (int i = 0; i < route.pinchPoints().size(); i++) {
      PinchPoint p = route.pinchPoints().get(i);
      String width = Digits.text("%s m wide", p.widthM());
      places.add(point(world, p.xM(), p.yM(), "P" + (i + 1), width));
    }
    List<Gpx.Route> legs = new ArrayList<>();
    List<Gpx.Track> lines = new ArrayList<>();
    for (int leg = 0; leg < data.waypoints().legs(); leg++) {
      List<Gpx.Waypoint> points = new ArrayList<>();
      for (Waypoint w : data.waypoints().ofLeg(leg)) {
        String name = (points.size() + 1) + (w.name().isEmpty() ? "" : " " + w.name());
        points.add(point(world, w.at().xM(), w.at().yM(), name, turnBack(data, w)));
      }
      String ends = route.visits().get(leg).name() + " to " + route.visits().get(leg + 1).name();
      String named = "Leg " + (leg + 1) + ": " + ends;
      legs.add(new Gpx.Route(named, "", points));
      List<Waypoint> at = data.waypoints().ofLeg(leg);
      lines.add(
          new Gpx.Track(
              named,
              "the driven line",
              lonLat(
                  world,
                  route
                      .centreline()
                      .subList(at.get(0).vertex(), at.get(at.size() - 1).vertex() + 1))));
      TurnBack end = data.turnBackAt(at.get(at.size() - 1).vertex());
      if (end.turn() != null && end.turn().way() != null) {
        lines.add(
            new Gpx.Track(
                "Home from " + route.visits().get(leg + 1).name(),
                "drive home by " + end.question().question().name(),
                end.turn().way().line().stream()
                    .map(p -> world.toLonLat(p.xM(), p.yM()))
                    .toList()));
      }
    }
    Gpx.write(
        file,
        route.request().name(),
        "Planning aid, not clearance to drive. Vehicle "
            + route.vehicle()
            + "; times: "
            + data.departs().about(),
        places,
        legs,
        lines);
  }

  private static List<double[]> lonLat(WorldMap world, List<ProfilePoint> line) {
    return line.stream().map(p -> world.toLonLat(p.xM(), p.yM())).toList();
  }

  private static String turnBack(CrewSheetData data, Waypoint w) {
    TurnBack t = data.turnBackAt(w.vertex());
    String planned = "planned " + data.departs().notEarlier(w.timeS());
    if (t.turn() == null) {
      return planned;
    }
    if (!t.turn().sure()) {
      return planned + ", NO way home by " + t.question().question().name();
    }
    if (t.turn().atBase() || t.turn().latestS() == Double.POSITIVE_INFINITY) {
      return planned;
    }
    String by = data.turnBackBy(t, w.timeS());
    return planned + ", turn back " + (by.startsWith("at") ? "" : "by ") + by;
  }

  private static Gpx.Waypoint point(
      WorldMap world, double xM, double yM, String name, String description) {
    double[] lonLat = world.toLonLat(xM, yM);
    return new Gpx.Waypoint(lonLat[0], lonLat[1], name, description);
  }
}

package org.scarpway.run.replan;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.geodata.vector.Feature;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.ReplanResult;
import org.scarpway.reach.question.ReplanResult.TurnBack;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.product.Layers;

/** Writes the tables, answer.json and the lines of replan/. */
final class ReplanProducts {
  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  private ReplanProducts() {}

  /**
   * @param lost what is said of the areas that may no longer be entered
   * @param limitsNotResolved names of limits of the vehicle that the cells do not resolve, or empty
   * @param warnings on ground and vehicle
   */
  static void write(
      Path dir,
      ReplanResult r,
      OpenJob open,
      List<String> lost,
      String limitsNotResolved,
      List<String> warnings) {
    GridSpec spec = open.spec();
    ReplanTables.write(dir, r, lost, limitsNotResolved, warnings, open.stages().frame());
    ReplanJson.write(
        dir.resolve("answer.json"), r, lost, limitsNotResolved, warnings, open.stages().frame());
    List<Feature> lines = new ArrayList<>();
    addLine(lines, "way home", r.wayHome(), ReplanTables.state(r.state()));
    addLine(lines, "planned way", r.planned(), "surely");
    Layers.write(
        dir.resolve("ways.gpkg"),
        spec,
        Layers.lines(
            new Layers.Words(
                "ways",
                "",
                "ways of the crew underway",
                "Way home and planned way, as far as home is sure"),
            lines));
    Layers.writeGeoJson(dir.resolve("ways.geojson"), spec, open.job().dem().body(), lines);
    List<Feature> points = new ArrayList<>();
    points.add(point("crew", r.request().xM(), r.request().yM(), 0));
    TurnBack t = r.turnBack();
    if (t != null) {
      String role = t.whole() ? "end of the plan" : "point of no return";
      points.add(point(role, t.xM(), t.yM(), t.timeS()));
    }
    Layers.write(
        dir.resolve("places.gpkg"),
        spec,
        Layers.points(
            new Layers.Words("places", "", "crew underway", "The crew and its point of no return"),
            points));
    Layers.writeGeoJson(dir.resolve("places.geojson"), spec, open.job().dem().body(), points);
  }

  private static Feature point(String role, double xM, double yM, double timeS) {
    Map<String, Object> about = new LinkedHashMap<>();
    about.put("role", role);
    about.put("time_s", timeS);
    return new Feature(GEOMETRY.createPoint(new Coordinate(xM, yM)), about);
  }

  /** Adds a way; one without length is left out. */
  private static void addLine(
      List<Feature> lines, String role, List<ProfilePoint> points, String state) {
    if (points.isEmpty() || !(points.get(points.size() - 1).distanceM() > 0)) {
      return;
    }
    ProfilePoint end = points.get(points.size() - 1);
    Coordinate[] at = new Coordinate[points.size()];
    for (int i = 0; i < at.length; i++) {
      at[i] = new Coordinate(points.get(i).xM(), points.get(i).yM());
    }
    Map<String, Object> about = new LinkedHashMap<>();
    about.put("role", role);
    about.put("home", state);
    about.put("length_m", end.distanceM());
    about.put("time_s", end.timeS());
    about.put("energy_j", end.energyJ());
    lines.add(new Feature(GEOMETRY.createLineString(at), about));
  }
}

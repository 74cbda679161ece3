package org.scarpway.reach.survey;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.PinchPoint;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.stage.Digits;

/**
 * The waypoints of a route, leg by leg: the stops, the narrow places and further vertices of the
 * line, so many that the straight lines between them lie on open ground ({@link WaypointChoice}).
 *
 * @param all in the order of travel; a stop ends one leg and begins the next
 * @param asideM for each leg, the largest distance of the line from the straight lines between its
 *     waypoints (m)
 * @param longerS for each leg, what straight lines take longer than the line, summed over those
 *     that do (s)
 */
public record Waypoints(List<Waypoint> all, List<Double> asideM, List<Double> longerS) {
  /** Copies the lists. */
  public Waypoints {
    all = List.copyOf(all);
    asideM = List.copyOf(asideM);
    longerS = List.copyOf(longerS);
  }

  /**
   * The waypoints of the centreline.
   *
   * @param straight straight drives over the ground of the vehicle
   */
  public static Waypoints of(CorridorResult route, StraightDrive straight) {
    List<Waypoint> all = new ArrayList<>();
    List<Double> aside = new ArrayList<>();
    List<Double> longer = new ArrayList<>();
    List<ProfilePoint> line = route.centreline();
    List<Visit> visits = route.visits();
    int from = 0;
    double stayedS = 0;
    for (int i = 1; i < visits.size(); i++) {
      int to = from;
      while (to + 1 < line.size() && line.get(to).distanceM() < visits.get(i).distanceM()) {
        to++;
      }
      WaypointChoice chosen = WaypointChoice.of(line, from, to, narrow(route, from, to), straight);
      aside.add(chosen.asideM());
      longer.add(chosen.longerS());
      add(all, route, i - 1, chosen.vertices(), stayedS);
      stayedS += visits.get(i).stayS();
      from = Math.min(to + 1, line.size() - 1);
    }
    return new Waypoints(all, aside, longer);
  }

  /** Number of legs. */
  public int legs() {
    return asideM.size();
  }

  /** The waypoints of a leg. */
  public List<Waypoint> ofLeg(int leg) {
    return all.stream().filter(w -> w.leg() == leg).toList();
  }

  /** Vertices of a leg nearest to the narrowest places on it, at most half a page. */
  private static TreeSet<Integer> narrow(CorridorResult route, int from, int to) {
    TreeSet<Integer> at = new TreeSet<>();
    for (PinchPoint p : route.pinchPoints()) {
      int vertex = WaypointChoice.vertexAt(route.centreline(), from, to, p.distanceM());
      if (vertex >= 0 && at.size() < WaypointChoice.PAGE / 2) {
        at.add(vertex);
      }
    }
    return at;
  }

  private static void add(
      List<Waypoint> all, CorridorResult route, int leg, List<Integer> vertices, double stayedS) {
    List<ProfilePoint> line = route.centreline();
    double startM = line.get(vertices.get(0)).distanceM();
    for (int i = 0; i < vertices.size(); i++) {
      int v = vertices.get(i);
      ProfilePoint p = line.get(v);
      ProfilePoint next = i + 1 < vertices.size() ? line.get(vertices.get(i + 1)) : null;
      double nextM = next == null ? Double.NaN : next.distanceM() - p.distanceM();
      double nextS = next == null ? Double.NaN : next.timeS() - p.timeS();
      all.add(
          new Waypoint(
              leg,
              v,
              name(route, leg, v, i == 0, next == null),
              p,
              p.timeS() + stayedS,
              p.distanceM() - startM,
              nextM,
              next == null ? Double.NaN : directionDeg(p, next),
              nextS > 0 ? nextM / nextS : Double.NaN));
    }
  }

  private static String name(
      CorridorResult route, int leg, int vertex, boolean first, boolean last) {
    if (first || last) {
      return route.visits().get(first ? leg : leg + 1).name();
    }
    List<ProfilePoint> line = route.centreline();
    for (int i = 0; i < route.pinchPoints().size(); i++) {
      PinchPoint p = route.pinchPoints().get(i);
      if (WaypointChoice.vertexAt(line, vertex - 1, vertex + 1, p.distanceM()) == vertex) {
        return "P" + (i + 1) + ", " + Digits.of(p.widthM()) + " m wide";
      }
    }
    return "";
  }

  private static double directionDeg(ProfilePoint from, ProfilePoint to) {
    double deg = StrictMath.toDegrees(StrictMath.atan2(to.xM() - from.xM(), to.yM() - from.yM()));
    return deg < 0 ? deg + 360 : deg;
  }
}

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
 * Chooses the waypoints of a route, leg by leg: the stops, the narrow places, then the vertices
 * that lie farthest from the straight lines between those chosen before (Douglas and Peucker 1973),
 * until the line is close to them or a printed page is full. Long stretches are divided.
 *
 * @param all in the order of travel; a stop ends one leg and begins the next
 * @param asideM for each leg, the largest distance of the line from the straight lines between its
 *     waypoints (m)
 */
public record Waypoints(List<Waypoint> all, List<Double> asideM) {
  /** Rows of a table that fit on a page beside what else stands there. */
  private static final int MOST = 18;

  /** Share of a leg's length that the line may lie aside of the straight lines. */
  private static final double ASIDE = 1 / 400.0;

  private static final double LEAST_ASIDE_M = 5;

  /** Share of a leg's length above which a stretch is divided. */
  private static final double LONG = 1 / 8.0;

  /** Copies the lists. */
  public Waypoints {
    all = List.copyOf(all);
    asideM = List.copyOf(asideM);
  }

  /** The waypoints of the centreline. */
  public static Waypoints of(CorridorResult route) {
    List<Waypoint> all = new ArrayList<>();
    List<Double> aside = new ArrayList<>();
    List<ProfilePoint> line = route.centreline();
    List<Visit> visits = route.visits();
    int from = 0;
    double stayedS = 0;
    for (int i = 1; i < visits.size(); i++) {
      int to = from;
      while (to + 1 < line.size() && line.get(to).distanceM() < visits.get(i).distanceM()) {
        to++;
      }
      TreeSet<Integer> chosen = chosen(line, from, to, narrow(route, from, to));
      aside.add(asideM(line, chosen));
      add(all, route, i - 1, List.copyOf(chosen), stayedS);
      stayedS += visits.get(i).stayS();
      from = Math.min(to + 1, line.size() - 1);
    }
    return new Waypoints(all, aside);
  }

  /** Number of legs. */
  public int legs() {
    return asideM.size();
  }

  /** The waypoints of a leg. */
  public List<Waypoint> ofLeg(int leg) {
    return all.stream().filter(w -> w.leg() == leg).toList();
  }

  /** Vertices of a leg nearest to the narrowest places on it, at most half of all waypoints. */
  private static TreeSet<Integer> narrow(CorridorResult route, int from, int to) {
    TreeSet<Integer> at = new TreeSet<>();
    for (PinchPoint p : route.pinchPoints()) {
      int vertex = vertexAt(route.centreline(), from, to, p.distanceM());
      if (vertex >= 0 && at.size() < MOST / 2) {
        at.add(vertex);
      }
    }
    return at;
  }

  /** The vertex of a leg at a distance, -1 if the leg does not come there. */
  private static int vertexAt(List<ProfilePoint> line, int from, int to, double distanceM) {
    if (distanceM < line.get(from).distanceM() || distanceM > line.get(to).distanceM()) {
      return -1;
    }
    int v = from;
    while (v < to
        && Math.abs(line.get(v + 1).distanceM() - distanceM)
            <= Math.abs(line.get(v).distanceM() - distanceM)) {
      v++;
    }
    return v;
  }

  private static TreeSet<Integer> chosen(
      List<ProfilePoint> line, int from, int to, TreeSet<Integer> narrow) {
    TreeSet<Integer> chosen = new TreeSet<>(narrow);
    chosen.add(from);
    chosen.add(to);
    double lengthM = line.get(to).distanceM() - line.get(from).distanceM();
    double closeM = Math.max(LEAST_ASIDE_M, ASIDE * lengthM);
    while (chosen.size() < MOST) {
      int far = farthest(line, chosen);
      if (far < 0 || asideM(line, far, chosen) <= closeM) {
        break;
      }
      chosen.add(far);
    }
    while (chosen.size() < MOST) {
      int middle = middleOfLongest(line, chosen, LONG * lengthM);
      if (middle < 0 || !chosen.add(middle)) {
        break;
      }
    }
    return chosen;
  }

  /** The vertex that lies farthest from the straight lines, -1 if none lies between. */
  private static int farthest(List<ProfilePoint> line, TreeSet<Integer> chosen) {
    int far = -1;
    double farM = -1;
    for (int v = chosen.first() + 1; v < chosen.last(); v++) {
      if (!chosen.contains(v)) {
        double m = asideM(line, v, chosen);
        if (m > farM) {
          farM = m;
          far = v;
        }
      }
    }
    return far;
  }

  private static double asideM(List<ProfilePoint> line, TreeSet<Integer> chosen) {
    int far = farthest(line, chosen);
    return far < 0 ? 0 : asideM(line, far, chosen);
  }

  /** Distance of a vertex from the straight line between the waypoints about it. */
  private static double asideM(List<ProfilePoint> line, int vertex, TreeSet<Integer> chosen) {
    ProfilePoint a = line.get(chosen.lower(vertex));
    ProfilePoint b = line.get(chosen.higher(vertex));
    ProfilePoint p = line.get(vertex);
    double dx = b.xM() - a.xM();
    double dy = b.yM() - a.yM();
    double squared = dx * dx + dy * dy;
    double along = (p.xM() - a.xM()) * dx + (p.yM() - a.yM()) * dy;
    double t = squared > 0 ? Math.max(0, Math.min(1, along / squared)) : 0;
    return Math.hypot(p.xM() - a.xM() - t * dx, p.yM() - a.yM() - t * dy);
  }

  /** The vertex nearest to the middle of the longest stretch, -1 if no stretch is long. */
  private static int middleOfLongest(
      List<ProfilePoint> line, TreeSet<Integer> chosen, double longM) {
    int middle = -1;
    double longestM = longM;
    for (int a : chosen) {
      Integer b = chosen.higher(a);
      if (b != null && b - a > 1) {
        double startM = line.get(a).distanceM();
        double lengthM = line.get(b).distanceM() - startM;
        int v = vertexAt(line, a + 1, b - 1, startM + lengthM / 2);
        if (lengthM > longestM && v >= 0) {
          longestM = lengthM;
          middle = v;
        }
      }
    }
    return middle;
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
      if (vertexAt(line, vertex - 1, vertex + 1, p.distanceM()) == vertex) {
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

package org.scarpway.reach.survey;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;

/**
 * The vertices of one leg between which a crew drives straight: some that are given, then those
 * that lie farthest from the straight lines between those chosen before (Douglas and Peucker 1973),
 * until the line is close to them or a printed page is full. Then as many more as it takes until
 * every straight line is open; between vertices that follow each other it is the driven line.
 */
final class WaypointChoice {
  /** Rows of a table that fit on a page beside what else stands there. */
  static final int PAGE = 18;

  /** Share of a leg's length that the line may lie aside of the straight lines. */
  private static final double ASIDE = 1 / 400.0;

  private static final double LEAST_ASIDE_M = 5;

  /** Share of a leg's length above which a stretch is divided. */
  private static final double LONG = 1 / 8.0;

  private final List<ProfilePoint> line;
  private final int from;
  private final int to;
  private final StraightDrive straight;
  private final double lengthM;
  private final double closeM;
  private final TreeSet<Integer> chosen = new TreeSet<>();

  /**
   * @param given vertices that are chosen in any case, beside the ends
   */
  private WaypointChoice(
      List<ProfilePoint> line, int from, int to, SortedSet<Integer> given, StraightDrive straight) {
    this.line = line;
    this.from = from;
    this.to = to;
    this.straight = straight;
    this.lengthM = line.get(to).distanceM() - line.get(from).distanceM();
    this.closeM = Math.max(LEAST_ASIDE_M, ASIDE * lengthM);
    chosen.addAll(given);
    chosen.add(from);
    chosen.add(to);
  }

  static WaypointChoice of(
      List<ProfilePoint> line, int from, int to, SortedSet<Integer> given, StraightDrive straight) {
    WaypointChoice c = new WaypointChoice(line, from, to, given, straight);
    c.approach();
    c.divide();
    c.open();
    return c;
  }

  /** The vertices, in the order of travel. */
  List<Integer> vertices() {
    return List.copyOf(chosen);
  }

  /** The largest distance of the line from the straight lines (m). */
  double asideM() {
    int far = farthest();
    return far < 0 ? 0 : asideM(far);
  }

  /** What straight lines take longer than the line, summed over those that do (s). */
  double longerS() {
    double sum = 0;
    for (int a = from; a < to; a = chosen.higher(a)) {
      int b = chosen.higher(a);
      if (b - a > 1) {
        double lineS = line.get(b).timeS() - line.get(a).timeS();
        sum += Math.max(0, straight.timeS(line.get(a), line.get(b)) - lineS);
      }
    }
    return sum;
  }

  private void approach() {
    while (chosen.size() < PAGE) {
      int far = farthest();
      if (far < 0 || asideM(far) <= closeM) {
        return;
      }
      chosen.add(far);
    }
  }

  private void divide() {
    while (chosen.size() < PAGE) {
      int middle = middleOfLongest(LONG * lengthM);
      if (middle < 0 || !chosen.add(middle)) {
        return;
      }
    }
  }

  /** Divides stretches that are not open, at the vertex farthest from each. */
  private void open() {
    Deque<int[]> stretches = new ArrayDeque<>();
    for (int a = from; a < to; a = chosen.higher(a)) {
      stretches.add(new int[] {a, chosen.higher(a)});
    }
    while (!stretches.isEmpty()) {
      int[] s = stretches.remove();
      if (s[1] - s[0] > 1
          && straight.timeS(line.get(s[0]), line.get(s[1])) == Double.POSITIVE_INFINITY) {
        int v = farthest(s[0], s[1]);
        chosen.add(v);
        stretches.add(new int[] {s[0], v});
        stretches.add(new int[] {v, s[1]});
      }
    }
  }

  /** The vertex between two that lies farthest from the straight line, the middle one of many. */
  private int farthest(int a, int b) {
    int far = (a + b) / 2;
    double farM = asideM(far, a, b);
    for (int v = a + 1; v < b; v++) {
      double m = asideM(v, a, b);
      if (m > farM) {
        farM = m;
        far = v;
      }
    }
    return far;
  }

  /** The vertex that lies farthest from the straight lines, -1 if none lies between. */
  private int farthest() {
    int far = -1;
    double farM = -1;
    for (int v = from + 1; v < to; v++) {
      if (!chosen.contains(v)) {
        double m = asideM(v);
        if (m > farM) {
          farM = m;
          far = v;
        }
      }
    }
    return far;
  }

  private double asideM(int vertex) {
    return asideM(vertex, chosen.lower(vertex), chosen.higher(vertex));
  }

  /** Distance of a vertex from the straight line between two others. */
  private double asideM(int vertex, int before, int after) {
    ProfilePoint a = line.get(before);
    ProfilePoint b = line.get(after);
    ProfilePoint p = line.get(vertex);
    double dx = b.xM() - a.xM();
    double dy = b.yM() - a.yM();
    double squared = dx * dx + dy * dy;
    double along = (p.xM() - a.xM()) * dx + (p.yM() - a.yM()) * dy;
    double t = squared > 0 ? Math.max(0, Math.min(1, along / squared)) : 0;
    return Math.hypot(p.xM() - a.xM() - t * dx, p.yM() - a.yM() - t * dy);
  }

  /** The vertex nearest to the middle of the longest stretch, -1 if no stretch is long. */
  private int middleOfLongest(double longM) {
    int middle = -1;
    double longestM = longM;
    for (int a : chosen) {
      Integer b = chosen.higher(a);
      if (b != null && b - a > 1) {
        double startM = line.get(a).distanceM();
        double stretchM = line.get(b).distanceM() - startM;
        int v = vertexAt(line, a + 1, b - 1, startM + stretchM / 2);
        if (stretchM > longestM && v >= 0) {
          longestM = stretchM;
          middle = v;
        }
      }
    }
    return middle;
  }

  /** The vertex nearest to a distance among some, -1 if the distance is not between theirs. */
  static int vertexAt(List<ProfilePoint> line, int from, int to, double distanceM) {
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
}

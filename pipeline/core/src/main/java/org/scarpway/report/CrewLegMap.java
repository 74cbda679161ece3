package org.scarpway.report;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.reach.question.HomeAlong.Turn;
import org.scarpway.reach.survey.Waypoint;

/** The map of one leg of a crew's sheet: the part of the ground about it, in drawing units. */
final class CrewLegMap {
  /** Share of a leg's size that its map shows about it. */
  private static final double RIM = 0.15;

  private static final double LEAST_SIDE = 40;
  private static final int MOST_TICKS = 6;

  private final CrewSheetData data;
  private final GridSpec spec;
  private final List<Waypoint> at;
  private final double perM;
  private final double west;
  private final double top;
  private final double width;
  private final double height;

  /** Radius of a waypoint's circle. */
  private final double unit;

  CrewLegMap(CrewSheetData data, List<Waypoint> at) {
    this.data = data;
    this.spec = data.heightM().spec();
    this.at = at;
    this.perM = SvgPath.WIDTH / (spec.cols() * spec.cellXM());
    double left = Double.POSITIVE_INFINITY;
    double right = Double.NEGATIVE_INFINITY;
    double upper = Double.POSITIVE_INFINITY;
    double lower = Double.NEGATIVE_INFINITY;
    List<ProfilePoint> line = data.route().centreline();
    for (ProfilePoint p : line.subList(first().vertex(), last().vertex() + 1)) {
      left = Math.min(left, x(p.xM()));
      right = Math.max(right, x(p.xM()));
      upper = Math.min(upper, y(p.yM()));
      lower = Math.max(lower, y(p.yM()));
    }
    double tall = (lower - upper) * (1 + 2 * RIM);
    width = Math.max(LEAST_SIDE, Math.max((right - left) * (1 + 2 * RIM), tall));
    height = Math.min(width, Math.max(0.5 * width, tall));
    west = (left + right - width) / 2;
    top = (upper + lower - height) / 2;
    unit = width / 60;
  }

  /**
   * A map as the template shows it.
   *
   * @param home the ways home from the waypoints, as path data
   * @param grid lines at round coordinates, as path data
   * @param size of letters, in drawing units
   */
  record View(
      String viewBox,
      String words,
      String home,
      String grid,
      String size,
      List<Text> ticks,
      List<Text> names,
      List<Point> points,
      Bar bar) {}

  /** A waypoint; its number is empty where it would cover another. */
  record Point(String x, String y, String r, String number) {}

  /** Words on the map, placed at their start, middle or end. */
  record Text(String x, String y, String anchor, String text) {}

  /** The scale bar. */
  record Bar(String x, String y, String width, String height, String textY, String text) {}

  View view() {
    List<Text> ticks = new ArrayList<>();
    String grid = grid(ticks);
    return new View(
        fixed(west) + " " + fixed(top) + " " + fixed(width) + " " + fixed(height),
        words(),
        home(),
        grid,
        Figures.fixed(1.5 * unit, 2),
        ticks,
        names(),
        points(),
        bar());
  }

  private Waypoint first() {
    return at.get(0);
  }

  private Waypoint last() {
    return at.get(at.size() - 1);
  }

  private double x(double xM) {
    return (xM - spec.westM()) * perM;
  }

  private double y(double yM) {
    return (spec.northM() - yM) * perM;
  }

  private static String fixed(double v) {
    return Figures.fixed(v, 1);
  }

  private String words() {
    return "Up is grid north; kilometres east and north of the map's origin at the edges. Solid: the"
        + " drive; dashed: the drives home that turn-back times rest on"
        + (data.home().isEmpty() ? " (none asked)." : ".");
  }

  private String grid(List<Text> ticks) {
    StringBuilder lines = new StringBuilder();
    double westKm = (spec.westM() + west / perM) / 1000;
    Ticks east = Ticks.between(westKm, westKm + width / perM / 1000, MOST_TICKS);
    for (double km : east.values()) {
      double x = x(1000 * km);
      lines.append('M').append(fixed(x)).append(' ').append(fixed(top)).append('v');
      lines.append(fixed(height));
      ticks.add(new Text(fixed(x), fixed(top + height - 0.5 * unit), "middle", east.text(km)));
    }
    double northKm = (spec.northM() - top / perM) / 1000;
    Ticks north = Ticks.between(northKm - height / perM / 1000, northKm, MOST_TICKS);
    for (double km : north.values()) {
      double y = y(1000 * km);
      lines.append('M').append(fixed(west)).append(' ').append(fixed(y)).append('h');
      lines.append(fixed(width));
      ticks.add(new Text(fixed(west + 0.5 * unit), fixed(y + 0.5 * unit), "start", north.text(km)));
    }
    return lines.toString();
  }

  private String home() {
    StringBuilder all = new StringBuilder();
    for (Waypoint w : at) {
      Turn t = data.turnBackAt(w.vertex()).turn();
      if (t != null && t.way() != null) {
        all.append(SvgPath.places(spec, t.way().line()));
      }
    }
    return all.toString();
  }

  private List<Text> names() {
    CorridorResult route = data.route();
    List<Text> all = new ArrayList<>();
    Set<String> named = new HashSet<>();
    for (Visit v : route.visits()) {
      double x = x(v.xM());
      double y = y(v.yM());
      boolean shown = x >= west && x <= west + width && y >= top && y <= top + height;
      if (shown && named.add(v.name())) {
        boolean right = x > west + width / 2;
        all.add(
            new Text(
                fixed(right ? x - 1.4 * unit : x + 1.4 * unit),
                fixed(y + (y > top + 3 * unit ? -1.2 : 2.4) * unit),
                right ? "end" : "start",
                v.name()));
      }
    }
    return all;
  }

  private List<Point> points() {
    List<Point> all = new ArrayList<>();
    List<double[]> numbered = new ArrayList<>();
    for (int i = at.size() - 1; i >= 0; i--) {
      double x = x(at.get(i).at().xM());
      double y = y(at.get(i).at().yM());
      boolean free = numbered.stream().allMatch(p -> Math.hypot(p[0] - x, p[1] - y) > 1.9 * unit);
      if (free) {
        numbered.add(new double[] {x, y});
      }
      all.add(
          new Point(
              fixed(x),
              fixed(y),
              Figures.fixed(free ? unit : unit / 3, 2),
              free ? Integer.toString(i + 1) : ""));
    }
    return all;
  }

  private Bar bar() {
    ScaleBar scale = ScaleBar.of(width / perM);
    double barWidth = scale.lengthM() * perM;
    return new Bar(
        fixed(west + width - barWidth - unit),
        fixed(top + height - 3 * unit),
        fixed(barWidth),
        Figures.fixed(0.4 * unit, 2),
        fixed(top + height - 3.5 * unit),
        scale.label());
  }
}

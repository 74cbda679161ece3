package org.scarpway.report;

import java.util.List;
import java.util.function.ToDoubleFunction;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.PinchPoint;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;

/**
 * Draws the profile of a centreline as SVG: height, pitch and roll, speed and energy over the
 * distance along the ground. The SVG contains numbers and fixed words only, no text from the user.
 */
final class ProfileChart {
  private static final int WIDTH = 860;
  private static final int LEFT = 74;
  private static final int RIGHT = 14;
  private static final int TOP = 26;
  private static final int PANEL = 104;
  private static final int GAP = 26;
  private static final int BOTTOM = 40;

  private final List<ProfilePoint> points;
  private final double lengthM;
  private final StringBuilder svg = new StringBuilder();

  private ProfileChart(List<ProfilePoint> points) {
    this.points = points;
    this.lengthM = points.get(points.size() - 1).distanceM();
  }

  private record Curve(String css, ToDoubleFunction<ProfilePoint> value) {}

  /** Returns the chart, or an empty text if the line has no length. */
  static String svg(CorridorResult corridor) {
    List<ProfilePoint> line = corridor.centreline();
    if (line.size() < 2 || !(line.get(line.size() - 1).distanceM() > 0)) {
      return "";
    }
    return new ProfileChart(line).draw(corridor.pinchPoints());
  }

  private String draw(List<PinchPoint> pinches) {
    int height = TOP + 4 * PANEL + 3 * GAP + BOTTOM;
    svg.append("<svg class=\"chart\" viewBox=\"0 0 ").append(WIDTH).append(' ').append(height);
    svg.append(
        "\" role=\"img\" aria-label=\"Profile along the centreline: height, pitch and roll, ");
    svg.append("speed and energy over distance.\">");
    panel(0, "height (m)", false, new Curve("c1", ProfilePoint::heightM));
    panel(
        1,
        "pitch, roll (deg)",
        true,
        new Curve("c1", ProfilePoint::pitchDeg),
        new Curve("c2", ProfilePoint::rollDeg));
    panel(2, "speed (m/s)", true, new Curve("c1", ProfilePoint::speedMs));
    panel(3, "energy (kWh)", true, new Curve("c1", p -> p.energyJ() / 3.6e6));
    key();
    Ticks km = Ticks.between(0, lengthM / 1000, 9);
    int foot = TOP + 4 * PANEL + 3 * GAP;
    for (double v : km.values()) {
      text(x(v * 1000), foot + 16, "middle", km.text(v));
    }
    text((LEFT + WIDTH - RIGHT) / 2.0, foot + 34, "middle", "distance along the ground (km)");
    for (int i = 0; i < pinches.size(); i++) {
      double px = x(pinches.get(i).distanceM());
      svg.append("<path class=\"pinch\" d=\"M").append(n(px)).append(' ').append(TOP - 4);
      svg.append('V').append(TOP + PANEL).append("\"/>");
      text(px, TOP - 8, "middle", "P" + (i + 1));
    }
    return svg.append("</svg>").toString();
  }

  private void panel(int index, String title, boolean withZero, Curve... curves) {
    int top = TOP + index * (PANEL + GAP);
    double low = withZero ? 0 : Double.POSITIVE_INFINITY;
    double high = withZero ? 0 : Double.NEGATIVE_INFINITY;
    for (Curve c : curves) {
      for (ProfilePoint p : points) {
        double v = c.value.applyAsDouble(p);
        if (Double.isFinite(v)) {
          low = Math.min(low, v);
          high = Math.max(high, v);
        }
      }
    }
    svg.append(
        "<text class=\"axis\" x=\"14\" y=\"0\" text-anchor=\"middle\" transform=\"translate(0 ");
    svg.append(top + PANEL / 2).append(") rotate(-90 14 0)\">").append(title).append("</text>");
    if (!(high > low)) {
      double middle = Double.isFinite(low) ? low : 0;
      low = middle - 0.5;
      high = middle + 0.5;
    }
    Ticks ticks = Ticks.between(low, high, 5);
    double step = ticks.step();
    double bottomValue = step * Math.floor(low / step + 1e-9);
    double topValue = step * Math.ceil(high / step - 1e-9);
    ticks = Ticks.between(bottomValue, topValue, 8);
    svg.append("<path class=\"rule\" d=\"");
    for (double v : ticks.values()) {
      double y = y(v, top, bottomValue, topValue);
      svg.append('M').append(LEFT).append(' ').append(n(y)).append('H').append(WIDTH - RIGHT);
    }
    svg.append("\"/>");
    for (double v : ticks.values()) {
      text(LEFT - 6, y(v, top, bottomValue, topValue) + 4, "end", ticks.text(v));
    }
    for (Curve c : curves) {
      svg.append("<path class=\"").append(c.css).append("\" d=\"");
      curve(c.value, top, bottomValue, topValue);
      svg.append("\"/>");
    }
    svg.append("<path class=\"box\" d=\"M").append(LEFT).append(' ').append(top).append('V');
    svg.append(top + PANEL).append('H').append(WIDTH - RIGHT).append("\"/>");
  }

  /**
   * Draws one curve. On long lines only the minimum and the maximum of each pixel column are drawn,
   * in order.
   */
  private void curve(ToDoubleFunction<ProfilePoint> value, int top, double low, double high) {
    int columns = WIDTH - LEFT - RIGHT;
    boolean pen = false;
    int i = 0;
    while (i < points.size()) {
      int column = (int) Math.floor(x(points.get(i).distanceM()));
      int least = -1;
      int greatest = -1;
      int end = i;
      while (end < points.size()
          && (end == i
              || (points.size() > 2 * columns
                  && (int) Math.floor(x(points.get(end).distanceM())) == column))) {
        double v = value.applyAsDouble(points.get(end));
        if (Double.isFinite(v)) {
          least = least < 0 || v < value.applyAsDouble(points.get(least)) ? end : least;
          greatest = greatest < 0 || v > value.applyAsDouble(points.get(greatest)) ? end : greatest;
        }
        end++;
      }
      i = end;
      if (least < 0) {
        pen = false;
        continue;
      }
      pen = point(value, Math.min(least, greatest), pen, top, low, high);
      if (least != greatest) {
        pen = point(value, Math.max(least, greatest), pen, top, low, high);
      }
    }
  }

  private boolean point(
      ToDoubleFunction<ProfilePoint> value, int i, boolean pen, int top, double low, double high) {
    ProfilePoint p = points.get(i);
    svg.append(pen ? 'L' : 'M').append(n(x(p.distanceM()))).append(' ');
    svg.append(n(y(value.applyAsDouble(p), top, low, high)));
    return true;
  }

  private void key() {
    int y = TOP + PANEL + GAP - 9;
    svg.append("<path class=\"c1\" d=\"M")
        .append(WIDTH - 330)
        .append(' ')
        .append(y)
        .append("h28\"/>");
    text(WIDTH - 296, y + 4, "start", "pitch, nose up +");
    svg.append("<path class=\"c2\" d=\"M")
        .append(WIDTH - 172)
        .append(' ')
        .append(y)
        .append("h28\"/>");
    text(WIDTH - 138, y + 4, "start", "roll, right down +");
  }

  private void text(double x, double y, String anchor, String text) {
    svg.append("<text x=\"").append(n(x)).append("\" y=\"").append(n(y));
    svg.append("\" text-anchor=\"").append(anchor).append("\">").append(text).append("</text>");
  }

  private double x(double distanceM) {
    return LEFT + (WIDTH - LEFT - RIGHT) * distanceM / lengthM;
  }

  private static double y(double v, int top, double low, double high) {
    return top + PANEL * (high - v) / (high - low);
  }

  private static String n(double v) {
    return Figures.fixed(v, 1);
  }
}

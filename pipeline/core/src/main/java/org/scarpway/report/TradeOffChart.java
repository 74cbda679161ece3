package org.scarpway.report;

import java.util.List;
import java.util.function.ToDoubleFunction;
import org.scarpway.reach.question.CorridorResult.TradeOff;

/**
 * Draws the Pareto front of alternative routes that trade time, energy and hazard, as points over
 * their time: energy above, hazard below. The SVG contains numbers and fixed words only.
 */
final class TradeOffChart {
  private static final int WIDTH = 860;
  private static final int LEFT = 74;
  private static final int RIGHT = 24;
  private static final int TOP = 26;
  private static final int PANEL = 120;
  private static final int GAP = 26;
  private static final int BOTTOM = 40;

  private final List<TradeOff> ways;
  private final double fromMin;
  private final double toMin;
  private final StringBuilder svg = new StringBuilder();

  private TradeOffChart(List<TradeOff> ways) {
    this.ways = ways;
    double low = ways.get(0).timeS() / 60;
    double high = ways.get(ways.size() - 1).timeS() / 60;
    double room = Math.max(0.05 * (high - low), 0.01 * high);
    this.fromMin = low - room;
    this.toMin = high + room;
  }

  /** Returns the chart, or an empty text if there are no alternatives. */
  static String svg(List<TradeOff> ways) {
    return ways.size() < 2 ? "" : new TradeOffChart(ways).draw();
  }

  private String draw() {
    int height = TOP + 2 * PANEL + GAP + BOTTOM;
    svg.append("<svg class=\"chart\" viewBox=\"0 0 ").append(WIDTH).append(' ').append(height);
    svg.append("\" role=\"img\" aria-label=\"Ways that trade time, energy and hazard: energy and ");
    svg.append("hazard over time.\">");
    panel(0, "energy (kWh)", t -> t.energyJ() / 3.6e6);
    panel(1, "hazard (m)", TradeOff::hazardM);
    int foot = TOP + 2 * PANEL + GAP;
    Ticks minutes = Ticks.between(fromMin, toMin, 9);
    for (double v : minutes.values()) {
      text(x(v), foot + 16, "middle", minutes.text(v));
    }
    text((LEFT + WIDTH - RIGHT) / 2.0, foot + 34, "middle", "time (min)");
    return svg.append("</svg>").toString();
  }

  private void panel(int index, String title, ToDoubleFunction<TradeOff> value) {
    int top = TOP + index * (PANEL + GAP);
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (TradeOff t : ways) {
      double v = value.applyAsDouble(t);
      low = Double.isFinite(v) ? Math.min(low, v) : low;
      high = Double.isFinite(v) ? Math.max(high, v) : high;
    }
    text(
        LEFT,
        top - 8,
        "start",
        index == 0 ? "ways none of which is better in all: " + title : title);
    if (!(high >= low)) {
      return;
    }
    double room = Math.max(0.05 * (high - low), 0.01 * Math.abs(high) + 1e-9);
    Ticks ticks = Ticks.between(low - room, high + room, 4);
    double bottom = low - room;
    double scale = PANEL / (high - low + 2 * room);
    for (double v : ticks.values()) {
      double y = top + PANEL - (v - bottom) * scale;
      svg.append("<path class=\"rule\" d=\"M").append(LEFT).append(' ').append(n(y));
      svg.append('H').append(WIDTH - RIGHT).append("\"/>");
      text(LEFT - 6, y + 4, "end", ticks.text(v));
    }
    svg.append("<path class=\"box\" d=\"M").append(LEFT).append(' ').append(top).append('V');
    svg.append(top + PANEL).append('H').append(WIDTH - RIGHT).append("\"/>");
    for (int i = 0; i < ways.size(); i++) {
      double v = value.applyAsDouble(ways.get(i));
      if (Double.isFinite(v)) {
        double px = x(ways.get(i).timeS() / 60);
        double py = top + PANEL - (v - bottom) * scale;
        svg.append("<circle class=\"dot\" r=\"4\" cx=\"").append(n(px));
        svg.append("\" cy=\"").append(n(py)).append("\"/>");
        text(px + 7, py - 5, "start", "T" + (i + 1));
      }
    }
  }

  private double x(double min) {
    return LEFT + (min - fromMin) / (toMin - fromMin) * (WIDTH - RIGHT - LEFT);
  }

  private void text(double x, double y, String anchor, String words) {
    svg.append("<text x=\"").append(n(x)).append("\" y=\"").append(n(y));
    svg.append("\" text-anchor=\"").append(anchor).append("\">").append(words).append("</text>");
  }

  private static String n(double v) {
    return Figures.fixed(v, 1);
  }
}

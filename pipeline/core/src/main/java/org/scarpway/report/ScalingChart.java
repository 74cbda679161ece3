package org.scarpway.report;

import org.scarpway.terrain.Scaling;
import org.scarpway.terrain.SelfAffine;

/**
 * Draws RMS deviation over lag on logarithmic axes as SVG, with the fitted power law as a line. The
 * SVG contains numbers and fixed words only.
 */
final class ScalingChart {
  private static final int WIDTH = 620;
  private static final int HEIGHT = 300;
  private static final int LEFT = 74;
  private static final int RIGHT = 14;
  private static final int TOP = 12;
  private static final int BOTTOM = 44;

  private final int lowX;
  private final int highX;
  private final int lowY;
  private final int highY;
  private final StringBuilder svg = new StringBuilder();

  private ScalingChart(Scaling s) {
    double leastM = Double.POSITIVE_INFINITY;
    double mostM = 0;
    double leastDeviationM = Double.POSITIVE_INFINITY;
    double mostDeviationM = 0;
    for (Scaling.Lag lag : s.lags()) {
      if (lag.deviationM() > 0) {
        leastM = Math.min(leastM, lag.lagM());
        mostM = Math.max(mostM, lag.lagM());
        leastDeviationM = Math.min(leastDeviationM, lag.deviationM());
        mostDeviationM = Math.max(mostDeviationM, lag.deviationM());
      }
    }
    lowX = (int) Math.floor(Math.log10(leastM) + 1e-9);
    highX = (int) Math.ceil(Math.log10(mostM) - 1e-9);
    lowY = (int) Math.floor(Math.log10(leastDeviationM) + 1e-9);
    highY = (int) Math.ceil(Math.log10(mostDeviationM) - 1e-9);
  }

  /** Returns the chart; empty if it was not asked for or no law could be fitted. */
  static String svg(Scaling scaling) {
    return scaling == null || scaling.law() == null ? "" : new ScalingChart(scaling).draw(scaling);
  }

  private String draw(Scaling s) {
    svg.append("<svg class=\"chart scaling\" viewBox=\"0 0 ").append(WIDTH).append(' ');
    svg.append(HEIGHT).append("\" role=\"img\" aria-label=\"RMS deviation over lag on ");
    svg.append("logarithmic axes: measured points and the fitted law.\">");
    for (int e = lowX; e <= highX; e++) {
      double x = x(Math.pow(10, e));
      rule(x, TOP, x, HEIGHT - BOTTOM);
      text(x, HEIGHT - BOTTOM + 16, "middle", Figures.plain(Math.pow(10, e)));
    }
    for (int e = lowY; e <= highY; e++) {
      double y = y(Math.pow(10, e));
      rule(LEFT, y, WIDTH - RIGHT, y);
      text(LEFT - 6, y + 4, "end", Figures.plain(Math.pow(10, e)));
    }
    text((LEFT + WIDTH - RIGHT) / 2.0, HEIGHT - 6, "middle", "lag (m)");
    svg.append("<text class=\"axis\" x=\"14\" y=\"0\" text-anchor=\"middle\" ");
    svg.append("transform=\"translate(0 ").append((TOP + HEIGHT - BOTTOM) / 2);
    svg.append(") rotate(-90 14 0)\">RMS deviation (m)</text>");
    SelfAffine law = s.law();
    double fromM = s.lags().stream().mapToDouble(Scaling.Lag::lagM).min().orElseThrow();
    double toM = s.lags().stream().mapToDouble(Scaling.Lag::lagM).max().orElseThrow();
    svg.append("<path class=\"c2\" d=\"M").append(n(x(fromM))).append(' ');
    svg.append(n(y(law.deviationM(fromM)))).append('L').append(n(x(toM))).append(' ');
    svg.append(n(y(law.deviationM(toM)))).append("\"/>");
    for (Scaling.Lag lag : s.lags()) {
      if (lag.deviationM() > 0) {
        point(x(lag.lagM()), y(lag.deviationM()), lag.along().equals("east"));
      }
    }
    point(LEFT + 14, TOP + 14, true);
    text(LEFT + 24, TOP + 18, "start", "along east");
    point(LEFT + 104, TOP + 14, false);
    text(LEFT + 114, TOP + 18, "start", "along north");
    return svg.append("</svg>").toString();
  }

  /** Draws a cross for lags along east, a diamond for lags along north. */
  private void point(double x, double y, boolean east) {
    svg.append("<path class=\"c1\" d=\"");
    if (east) {
      svg.append('M').append(n(x - 4)).append(' ').append(n(y)).append("h8");
      svg.append('M').append(n(x)).append(' ').append(n(y - 4)).append("v8");
    } else {
      svg.append('M').append(n(x - 4)).append(' ').append(n(y)).append("l4 4 4 -4 -4 -4z");
    }
    svg.append("\"/>");
  }

  private void rule(double x1, double y1, double x2, double y2) {
    svg.append("<path class=\"rule\" d=\"M").append(n(x1)).append(' ').append(n(y1));
    svg.append('L').append(n(x2)).append(' ').append(n(y2)).append("\"/>");
  }

  private void text(double x, double y, String anchor, String text) {
    svg.append("<text x=\"").append(n(x)).append("\" y=\"").append(n(y));
    svg.append("\" text-anchor=\"").append(anchor).append("\">").append(text).append("</text>");
  }

  private double x(double lagM) {
    return LEFT + (WIDTH - LEFT - RIGHT) * (Math.log10(lagM) - lowX) / Math.max(1, highX - lowX);
  }

  private double y(double deviationM) {
    double share = (highY - Math.log10(deviationM)) / Math.max(1, highY - lowY);
    return TOP + (HEIGHT - TOP - BOTTOM) * share;
  }

  private static String n(double v) {
    return Figures.fixed(v, 1);
  }
}

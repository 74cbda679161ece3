package org.scarpway.report;

import java.util.List;
import org.scarpway.vehicle.CellMobility;
import org.scarpway.vehicle.CellMobility.OnHeading;

/**
 * Draws one place's headings as a small SVG, grid north up: one petal per heading, with a length
 * proportional to its speed relative to the rated speed, and a bar across the rim where the heading
 * is closed. Open and closed headings differ by shape and colour. The SVG contains numbers only;
 * the place's name is printed beside it.
 */
final class HeadingRose {
  private static final double RIM = 60;
  private static final double CENTRE = 78;

  private HeadingRose() {}

  /**
   * @param ratedMs speed (m/s) whose petal reaches the rim
   */
  static String svg(CellMobility cell, double ratedMs) {
    List<OnHeading> headings = cell.headings();
    StringBuilder svg = new StringBuilder("<svg class=\"rose\" viewBox=\"0 0 156 156\" ");
    svg.append("aria-hidden=\"true\">");
    for (double share : new double[] {0.5, 1}) {
      svg.append("<circle class=\"ring\" cx=\"78\" cy=\"78\" r=\"");
      svg.append(n(RIM * share)).append("\"/>");
    }
    StringBuilder open = new StringBuilder();
    StringBuilder shut = new StringBuilder();
    for (int k = 0; k < headings.size(); k++) {
      OnHeading h = headings.get(k);
      double from = between(headings, k - 1, k);
      double to = between(headings, k, k + 1);
      if (h.allowed()) {
        double r = RIM * Math.max(0.06, Math.min(1, h.speedMs() / ratedMs));
        point(open, 'M', 0, 0);
        point(open, 'L', r, from + 0.1 * (to - from));
        point(open, 'L', r, to - 0.1 * (to - from));
        open.append('Z');
      } else {
        point(shut, 'M', RIM + 3, from + 0.15 * (to - from));
        point(shut, 'L', RIM + 3, to - 0.15 * (to - from));
      }
    }
    path(svg, "open", open);
    path(svg, "shut", shut);
    svg.append("<text x=\"78\" y=\"11\" text-anchor=\"middle\">grid N</text>");
    return svg.append("</svg>").toString();
  }

  /** Azimuth halfway between two neighbouring headings (deg). */
  private static double between(List<OnHeading> headings, int a, int b) {
    int n = headings.size();
    double from = headings.get((a + n) % n).azimuthDeg() - (a < 0 ? 360 : 0);
    double to = headings.get(b % n).azimuthDeg() + (b >= n ? 360 : 0);
    return 0.5 * (from + to);
  }

  private static void point(StringBuilder d, char command, double radius, double azimuthDeg) {
    double a = Math.toRadians(azimuthDeg);
    d.append(command).append(n(CENTRE + radius * Math.sin(a)));
    d.append(' ').append(n(CENTRE - radius * Math.cos(a)));
  }

  private static void path(StringBuilder svg, String css, StringBuilder d) {
    if (d.length() > 0) {
      svg.append("<path class=\"").append(css).append("\" d=\"").append(d).append("\"/>");
    }
  }

  private static String n(double v) {
    return Figures.fixed(v, 1);
  }
}

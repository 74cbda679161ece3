package org.scarpway.report;

import java.util.List;
import java.util.Locale;

/**
 * Draws the horizon of a place and the path of sun or Earth as a small SVG, grid north up: the
 * centre is high in the sky, the rim is low. Ground is filled, a dashed rim marks azimuths whose
 * horizon lies at the edge of the data. The SVG contains numbers and fixed words only.
 */
final class SkyPlot {
  private static final double RIM = 62;
  private static final double CENTRE = 78;

  private final LightData.At place;
  private final double topDeg;
  private final double bottomDeg;
  private final StringBuilder svg = new StringBuilder();

  private SkyPlot(LightData.At place) {
    this.place = place;
    double top = 5;
    double bottom = -2;
    for (double e : place.horizonDeg()) {
      top = Math.max(top, e);
      bottom = Math.min(bottom, e);
    }
    for (LightData.Point p : place.path()) {
      top = Math.max(top, p.elevationDeg());
    }
    double step = Ticks.step(top, 4);
    this.topDeg = Math.min(90, step * Math.ceil(1.1 * top / step));
    this.bottomDeg = Math.floor(bottom);
  }

  static String svg(LightData.At place) {
    return new SkyPlot(place).draw();
  }

  private String draw() {
    svg.append("<svg class=\"rose\" viewBox=\"0 0 156 156\" aria-hidden=\"true\">");
    ground();
    ring(bottomDeg);
    double step = Ticks.step(topDeg, 3);
    for (double e = 0; e < topDeg - step / 2; e += step) {
      ring(e);
      svg.append("<text x=\"80\" y=\"").append(n(CENTRE - radius(e) + 10)).append("\">");
      svg.append(Figures.brief(e)).append("</text>");
    }
    path();
    edges();
    svg.append("<text x=\"78\" y=\"11\" text-anchor=\"middle\">grid N</text>");
    return svg.append("</svg>").toString();
  }

  private void ring(double elevationDeg) {
    svg.append("<circle class=\"ring\" cx=\"78\" cy=\"78\" r=\"");
    svg.append(n(radius(elevationDeg))).append("\"/>");
  }

  /** The ground: between the horizon and the rim. */
  private void ground() {
    List<Double> horizon = place.horizonDeg();
    svg.append("<path fill=\"#8a7d6c\" fill-rule=\"evenodd\" d=\"");
    for (int a = 0; a < horizon.size(); a++) {
      point(a == 0 ? 'M' : 'L', 360.0 * a / horizon.size(), horizon.get(a));
    }
    svg.append('Z');
    for (int a = 0; a < 72; a++) {
      point(a == 0 ? 'M' : 'L', 5.0 * a, bottomDeg);
    }
    svg.append("Z\"/>");
  }

  private void path() {
    svg.append("<path fill=\"none\" stroke=\"").append(hex(Palette.BLUE));
    svg.append("\" stroke-width=\"1.2\" d=\"");
    boolean open = false;
    double before = 0;
    for (LightData.Point p : place.path()) {
      // A look that is far from the one before is not joined to it by a straight line.
      double turned = Math.abs(p.azimuthDeg() - before);
      boolean near = open && Math.min(turned, 360 - turned) < 40;
      open = p.elevationDeg() >= bottomDeg;
      before = p.azimuthDeg();
      if (open) {
        point(near ? 'L' : 'M', p.azimuthDeg(), p.elevationDeg());
      }
    }
    svg.append("\"/>");
  }

  private void edges() {
    int n = place.edge().size();
    StringBuilder d = new StringBuilder();
    for (int a = 0; a < n; a++) {
      if (place.edge().get(a)) {
        for (double turn : new double[] {-0.4, 0.4}) {
          double azimuth = Math.toRadians(360 * (a + turn) / n);
          d.append(turn < 0 ? 'M' : 'L').append(n(CENTRE + (RIM + 3) * Math.sin(azimuth)));
          d.append(' ').append(n(CENTRE - (RIM + 3) * Math.cos(azimuth)));
        }
      }
    }
    if (d.length() > 0) {
      svg.append("<path fill=\"none\" stroke=\"").append(hex(Palette.VERMILION));
      svg.append("\" stroke-width=\"2.5\" d=\"").append(d).append("\"/>");
    }
  }

  private void point(char command, double azimuthDeg, double elevationDeg) {
    double a = Math.toRadians(azimuthDeg);
    double r = radius(elevationDeg);
    svg.append(command).append(n(CENTRE + r * Math.sin(a)));
    svg.append(' ').append(n(CENTRE - r * Math.cos(a)));
  }

  private double radius(double elevationDeg) {
    double share = (topDeg - elevationDeg) / (topDeg - bottomDeg);
    return RIM * Math.max(0, Math.min(1, share));
  }

  private static String hex(int rgb) {
    return String.format(Locale.ROOT, "#%06x", rgb);
  }

  private static String n(double v) {
    return Figures.fixed(v, 1);
  }
}

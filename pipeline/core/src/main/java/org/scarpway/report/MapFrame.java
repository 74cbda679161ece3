package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.geodata.crs.TrueNorth;
import org.scarpway.grid.GridSpec;

/**
 * The parts that all maps of a report share: coordinate ticks, graticule, scale bar, north arrow
 * and corner positions.
 */
final class MapFrame {
  final String ratio;
  final String viewBox;
  final String graticule;
  final List<Layer.Mark> eastTicks = new ArrayList<>();
  final List<Layer.Mark> northTicks = new ArrayList<>();
  final ScaleBar scale;
  final String northNote;
  final String northTurn;
  final String northBack;
  final String corners;

  MapFrame(GridSpec spec, LonLat lonLat) {
    double widthM = spec.cols() * spec.cellXM();
    double heightM = spec.rows() * spec.cellYM();
    double h = SvgPath.height(spec);
    ratio = Figures.fixed(widthM / heightM, 5);
    viewBox = "0 0 " + Figures.plain(SvgPath.WIDTH) + " " + Figures.fixed(h, 2);
    StringBuilder lines = new StringBuilder();
    Ticks east = Ticks.between(spec.westM() / 1000, spec.eastM() / 1000, 7);
    for (double km : east.values()) {
      double share = (km * 1000 - spec.westM()) / widthM;
      eastTicks.add(new Layer.Mark(Figures.fixed(100 * share, 3), east.text(km)));
      lines.append('M').append(Figures.fixed(SvgPath.WIDTH * share, 1)).append(" 0V");
      lines.append(Figures.fixed(h, 1));
    }
    int most = Math.max(2, Math.min(12, (int) Math.round(7 * heightM / widthM)));
    Ticks north = Ticks.between(spec.southM() / 1000, spec.northM() / 1000, most);
    for (double km : north.values()) {
      double share = (spec.northM() - km * 1000) / heightM;
      northTicks.add(new Layer.Mark(Figures.fixed(100 * share, 3), north.text(km)));
      lines.append("M0 ").append(Figures.fixed(h * share, 1)).append('H');
      lines.append(Figures.plain(SvgPath.WIDTH));
    }
    graticule = lines.toString();
    scale = ScaleBar.of(widthM);
    double turnDeg =
        TrueNorth.azimuthDeg(
            lonLat, (spec.westM() + spec.eastM()) / 2, (spec.southM() + spec.northM()) / 2);
    northTurn = Figures.fixed(Double.isNaN(turnDeg) ? 0 : turnDeg, 1);
    northBack = Figures.fixed(Double.isNaN(turnDeg) ? 0 : -turnDeg, 1);
    northNote = northNote(turnDeg);
    corners = corners(spec, lonLat);
  }

  private static String northNote(double turnDeg) {
    if (Double.isNaN(turnDeg)) {
      return "Up is grid north.";
    }
    if (Math.abs(turnDeg) < 0.05) {
      return "Up is grid north and, at the centre, true north.";
    }
    return "Up is grid north; the arrow is true north at the centre, "
        + Figures.fixed(Math.abs(turnDeg), 1)
        + " deg "
        + (turnDeg > 0 ? "clockwise" : "anticlockwise")
        + " of it.";
  }

  private static String corners(GridSpec spec, LonLat lonLat) {
    String northWest = Figures.lonLat(lonLat.at(spec.westM(), spec.northM()));
    String southEast = Figures.lonLat(lonLat.at(spec.eastM(), spec.southM()));
    return northWest.isEmpty() || southEast.isEmpty()
        ? ""
        : "Corners: north-west " + northWest + "; south-east " + southEast + ".";
  }
}

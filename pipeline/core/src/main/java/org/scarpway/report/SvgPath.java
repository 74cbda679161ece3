package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.CorridorResult.Place;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;

/**
 * Converts lines to SVG path data in the drawing units of a map: 0 to {@value #WIDTH} from west to
 * east, and at the same scale downwards from north.
 */
final class SvgPath {
  static final double WIDTH = 1000;
  private static final double SHORTEST = 1.2;

  private final GridSpec spec;
  private final double perM;
  private final StringBuilder path = new StringBuilder();
  private double lastX;
  private double lastY;

  SvgPath(GridSpec spec) {
    this.spec = spec;
    this.perM = WIDTH / (spec.cols() * spec.cellXM());
  }

  static double height(GridSpec spec) {
    return WIDTH * (spec.rows() * spec.cellYM()) / (spec.cols() * spec.cellXM());
  }

  static String line(GridSpec spec, List<ProfilePoint> points) {
    SvgPath p = new SvgPath(spec);
    for (int i = 0; i < points.size(); i++) {
      p.add(points.get(i).xM(), points.get(i).yM(), i == 0, i == points.size() - 1);
    }
    return p.path.toString();
  }

  /** Returns the line through some places of the map. */
  static String through(GridSpec spec, List<SortieAnswer.Point> points) {
    SvgPath p = new SvgPath(spec);
    for (int i = 0; i < points.size(); i++) {
      p.add(points.get(i).xM(), points.get(i).yM(), i == 0, i == points.size() - 1);
    }
    return p.path.toString();
  }

  static String places(GridSpec spec, List<Place> points) {
    SvgPath p = new SvgPath(spec);
    for (int i = 0; i < points.size(); i++) {
      p.add(points.get(i).xM(), points.get(i).yM(), i == 0, i == points.size() - 1);
    }
    return p.path.toString();
  }

  /** Returns the outlines of every polygon with its holes; empty if there is none. */
  static String outline(GridSpec spec, Geometry area) {
    SvgPath p = new SvgPath(spec);
    for (int g = 0; area != null && g < area.getNumGeometries(); g++) {
      if (area.getGeometryN(g) instanceof Polygon polygon && !polygon.isEmpty()) {
        p.ring(polygon.getExteriorRing().getCoordinates());
        for (int h = 0; h < polygon.getNumInteriorRing(); h++) {
          p.ring(polygon.getInteriorRingN(h).getCoordinates());
        }
      }
    }
    return p.path.toString();
  }

  /** Returns the lines of path data that this class wrote, each x, y, x, y ... */
  static List<double[]> points(String path) {
    List<double[]> lines = new ArrayList<>();
    for (String line : path.split("M")) {
      if (!line.isEmpty()) {
        boolean closed = line.endsWith("Z");
        String[] at = line.replace("Z", "").split("[L ]");
        double[] xy = new double[at.length + (closed ? 2 : 0)];
        for (int i = 0; i < xy.length; i++) {
          xy[i] = Double.parseDouble(at[i % at.length]);
        }
        lines.add(xy);
      }
    }
    return lines;
  }

  private void ring(Coordinate[] ring) {
    for (int i = 0; i < ring.length - 1; i++) {
      add(ring[i].x, ring[i].y, i == 0, false);
    }
    path.append('Z');
  }

  // Vertices closer than a pixel are left out, except the first and the last.
  private void add(double xM, double yM, boolean first, boolean last) {
    double x = (xM - spec.westM()) * perM;
    double y = (spec.northM() - yM) * perM;
    if (!first && !last && Math.hypot(x - lastX, y - lastY) < SHORTEST) {
      return;
    }
    path.append(first ? 'M' : 'L').append(Figures.fixed(x, 1)).append(' ');
    path.append(Figures.fixed(y, 1));
    lastX = x;
    lastY = y;
  }
}

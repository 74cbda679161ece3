package org.scarpway.report;

import com.fasterxml.jackson.databind.node.ArrayNode;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;

/**
 * Writes lines for the map: metres east and south of the north-west corner, to a decimetre where
 * nothing else is said.
 */
final class MapLines {
  private final GridSpec spec;

  MapLines(GridSpec spec) {
    this.spec = spec;
  }

  /** Writes the first point and then each point less the one before. */
  static void steps(ArrayNode list, int[] points) {
    for (int i = 0; i < points.length; i++) {
      list.add(i < 2 ? points[i] : points[i] - points[i - 2]);
    }
  }

  static double number(double v, int decimals) {
    return Double.isFinite(v) ? Double.parseDouble(Figures.fixed(v, decimals)) : 0;
  }

  void line(ArrayNode list, List<ProfilePoint> line) {
    for (ProfilePoint p : line) {
      list.add(number(p.xM() - spec.westM(), 1)).add(number(spec.northM() - p.yM(), 1));
    }
  }

  /** Writes each ring of a polygon, to a millimetre: fine enough to tell what is inside. */
  void exactOutlines(ArrayNode list, Polygon polygon) {
    rings(list, polygon, 3);
  }

  void outlines(ArrayNode list, Geometry area) {
    for (int g = 0; area != null && g < area.getNumGeometries(); g++) {
      if (area.getGeometryN(g) instanceof Polygon polygon) {
        rings(list, polygon, 1);
      }
    }
  }

  private void rings(ArrayNode list, Polygon polygon, int decimals) {
    if (polygon.isEmpty()) {
      return;
    }
    ring(list.addArray(), polygon.getExteriorRing().getCoordinates(), decimals);
    for (int h = 0; h < polygon.getNumInteriorRing(); h++) {
      ring(list.addArray(), polygon.getInteriorRingN(h).getCoordinates(), decimals);
    }
  }

  private void ring(ArrayNode list, Coordinate[] ring, int decimals) {
    for (Coordinate c : ring) {
      list.add(number(c.x - spec.westM(), decimals));
      list.add(number(spec.northM() - c.y, decimals));
    }
  }
}

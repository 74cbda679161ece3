package org.scarpway.geodata.vector;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.util.AffineTransformation;
import org.locationtech.jts.geom.util.GeometryFixer;

/**
 * Cuts lon/lat geometry where it crosses the meridian of 180 degrees, as RFC 7946 section 3.1.9
 * requires. A ring around a pole becomes an area that extends to the pole.
 */
final class Antimeridian {
  private static final GeometryFactory GF = new GeometryFactory();

  private Antimeridian() {}

  /** Cuts a geometry; returns it unchanged if no edge spans more than 180 degrees of longitude. */
  static Geometry cut(Geometry g) {
    if (!crosses(g)) {
      return g;
    }
    List<Geometry> parts = new ArrayList<>();
    for (int i = 0; i < g.getNumGeometries(); i++) {
      Geometry part = g.getGeometryN(i);
      Geometry cut = part instanceof Polygon p ? cutPolygon(p) : inside(unwrapped(part));
      for (int j = 0; j < cut.getNumGeometries(); j++) {
        if (cut.getGeometryN(j).getDimension() == part.getDimension()) {
          parts.add(cut.getGeometryN(j));
        }
      }
    }
    return g.getDimension() == 2
        ? GF.createMultiPolygon(parts.toArray(Polygon[]::new))
        : GF.createMultiLineString(parts.toArray(LineString[]::new));
  }

  private static boolean crosses(Geometry g) {
    for (int i = 0; i < g.getNumGeometries(); i++) {
      Geometry part = g.getGeometryN(i);
      if (part instanceof Polygon p) {
        if (jumps(p.getExteriorRing())) {
          return true;
        }
        for (int k = 0; k < p.getNumInteriorRing(); k++) {
          if (jumps(p.getInteriorRingN(k))) {
            return true;
          }
        }
      } else if (jumps(part)) {
        return true;
      }
    }
    return false;
  }

  private static boolean jumps(Geometry line) {
    Coordinate[] c = line.getCoordinates();
    for (int i = 1; i < c.length; i++) {
      if (Math.abs(c[i].x - c[i - 1].x) > 180) {
        return true;
      }
    }
    return false;
  }

  /**
   * Cuts ring by ring, because a hole may cross the antimeridian or enclose a pole when its shell
   * does not.
   */
  private static Geometry cutPolygon(Polygon p) {
    Geometry area = cutRing(p.getExteriorRing());
    for (int i = 0; i < p.getNumInteriorRing(); i++) {
      area = area.difference(cutRing(p.getInteriorRingN(i)));
    }
    return area;
  }

  private static Geometry cutRing(LinearRing ring) {
    List<Coordinate> c = new ArrayList<>(List.of(unwrapped(ring).getCoordinates()));
    Coordinate first = c.get(0);
    Coordinate last = c.get(c.size() - 1);
    if (Math.abs(last.x - first.x) > 180) {
      // The ring spans 360 degrees: close it over the pole of its own hemisphere.
      double pole = first.y < 0 ? -90 : 90;
      c.add(new Coordinate(last.x, pole));
      c.add(new Coordinate(first.x, pole));
      c.add(first.copy());
    }
    return inside(GeometryFixer.fix(GF.createPolygon(c.toArray(Coordinate[]::new))));
  }

  /** Makes longitudes continuous along the line. */
  private static LineString unwrapped(Geometry line) {
    Coordinate[] c = line.getCoordinates();
    Coordinate[] out = new Coordinate[c.length];
    double turn = 0;
    for (int i = 0; i < c.length; i++) {
      if (i > 0 && c[i].x - c[i - 1].x > 180) {
        turn -= 360;
      } else if (i > 0 && c[i].x - c[i - 1].x < -180) {
        turn += 360;
      }
      out[i] = new Coordinate(c[i].x + turn, c[i].y);
    }
    return GF.createLineString(out);
  }

  /**
   * Shifts every part by multiples of 360 degrees into -180 to 180. Where an edge only touches the
   * meridian or lies on it, the strip beyond it meets the geometry in a point or line, which is
   * left out.
   */
  private static Geometry inside(Geometry g) {
    Envelope box = g.getEnvelopeInternal();
    int from = (int) Math.floor((box.getMinX() + 180) / 360);
    int to = (int) Math.floor((box.getMaxX() + 180) / 360);
    Geometry all = g.getFactory().createEmpty(g.getDimension());
    for (int k = from; k <= to; k++) {
      Geometry strip = GF.toGeometry(new Envelope(360.0 * k - 180, 360.0 * k + 180, -90, 90));
      Geometry part = ofDimension(g.intersection(strip), g.getDimension());
      all = all.union(AffineTransformation.translationInstance(-360.0 * k, 0).transform(part));
    }
    return all;
  }

  private static Geometry ofDimension(Geometry g, int dimension) {
    List<Geometry> parts = new ArrayList<>();
    for (int i = 0; i < g.getNumGeometries(); i++) {
      if (g.getGeometryN(i).getDimension() == dimension) {
        parts.add(g.getGeometryN(i));
      }
    }
    return parts.isEmpty() ? GF.createEmpty(dimension) : GF.buildGeometry(parts);
  }
}

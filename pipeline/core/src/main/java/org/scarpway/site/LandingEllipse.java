package org.scarpway.site;

import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.crs.TrueNorth;
import org.scarpway.grid.GridSpec;

/**
 * Where touchdowns at a site fall, but for 1 in 100. The azimuth of its long axis counts from true
 * north, which lies another way on the map at every place; where the map tells no true north, it
 * counts from grid north.
 *
 * @param longM full long axis
 * @param shortM full short axis
 * @param azimuthDeg of the long axis, clockwise from north; an axis has no sense of direction, so
 *     half a turn more is the same
 * @param northDeg of true north, clockwise from grid north; NaN where there is none
 */
public record LandingEllipse(
    double xM, double yM, double longM, double shortM, double azimuthDeg, double northDeg) {
  /** So many that no chord lies further inside than 1 part in 26 000 of half the long axis. */
  private static final int CORNERS = 360;

  /** The ellipse of the comparison at a place of the map. */
  public static LandingEllipse at(SiteParams params, GridSpec spec, double xM, double yM) {
    double northDeg = TrueNorth.azimuthDeg(CrsText.read(spec.crsWkt()), xM, yM);
    return new LandingEllipse(
        xM, yM, params.longM(), params.shortM(), params.azimuthDeg(), northDeg);
  }

  /** Whether the azimuth counts from true north. */
  public boolean fromTrueNorth() {
    return !Double.isNaN(northDeg);
  }

  /** Azimuth of the long axis on the map, clockwise from grid north, in [0, 180). */
  public double gridAzimuthDeg() {
    double a = (azimuthDeg + (fromTrueNorth() ? northDeg : 0)) % 180;
    double turned = a < 0 ? a + 180 : a;
    return turned == 180 ? 0 : turned;
  }

  /** Its outline on the map. */
  public Polygon outline() {
    double a = longM / 2;
    double b = shortM / 2;
    double sin = StrictMath.sin(StrictMath.toRadians(gridAzimuthDeg()));
    double cos = StrictMath.cos(StrictMath.toRadians(gridAzimuthDeg()));
    Coordinate[] ring = new Coordinate[CORNERS + 1];
    for (int i = 0; i < CORNERS; i++) {
      double t = 2 * Math.PI * i / CORNERS;
      double along = a * StrictMath.cos(t);
      double across = -b * StrictMath.sin(t);
      ring[i] = new Coordinate(xM + along * sin + across * cos, yM + along * cos - across * sin);
    }
    ring[CORNERS] = ring[0].copy();
    return new GeometryFactory().createPolygon(ring);
  }
}

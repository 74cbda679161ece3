package org.scarpway.site;

import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.crs.TrueNorth;
import org.scarpway.grid.GridSpec;

/**
 * Landing ellipse of a site, which contains 99 of 100 touchdowns. The azimuth of its long axis is
 * measured from true north, whose direction on the map depends on the place; if the map defines no
 * true north, it is measured from grid north.
 *
 * @param longM full long axis (m)
 * @param shortM full short axis (m)
 * @param azimuthDeg azimuth of the long axis, clockwise from north; adding 180 gives the same axis
 * @param northDeg direction of true north, clockwise from grid north; NaN if undefined
 */
public record LandingEllipse(
    double xM, double yM, double longM, double shortM, double azimuthDeg, double northDeg) {
  /**
   * Number of vertices, chosen so that no chord lies more than 1/26 000 of half the long axis
   * inside the ellipse.
   */
  private static final int CORNERS = 360;

  /** Creates the ellipse of the comparison at a place of the map. */
  public static LandingEllipse at(SiteParams params, GridSpec spec, double xM, double yM) {
    double northDeg = TrueNorth.azimuthDeg(CrsText.read(spec.crsWkt()), xM, yM);
    return new LandingEllipse(
        xM, yM, params.longM(), params.shortM(), params.azimuthDeg(), northDeg);
  }

  /** True if the azimuth is measured from true north. */
  public boolean fromTrueNorth() {
    return !Double.isNaN(northDeg);
  }

  /** Azimuth of the long axis on the map, clockwise from grid north, in [0, 180). */
  public double gridAzimuthDeg() {
    double a = (azimuthDeg + (fromTrueNorth() ? northDeg : 0)) % 180;
    double turned = a < 0 ? a + 180 : a;
    return turned == 180 ? 0 : turned;
  }

  /** Outline of the ellipse on the map. */
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

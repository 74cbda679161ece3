package org.scarpway.geodata.projection;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import net.sf.geographiclib.GeodesicMask;

/**
 * Azimuthal equidistant: distance and azimuth of the geodesic from the centre (Karney 2013,
 * <i>Algorithms for geodesics</i>, J. Geod. 87:43-55).
 */
final class AzimuthalEquidistant implements Projection {
  private final Geodesic geodesic;
  private final double lat0Deg;

  AzimuthalEquidistant(Ellipsoid body, double lat0Rad) {
    this.geodesic =
        new Geodesic(
            body.semiMajorM(), (body.semiMajorM() - body.semiMinorM()) / body.semiMajorM());
    this.lat0Deg = Math.toDegrees(lat0Rad);
  }

  @Override
  public void toPlane(double lam, double phi, double[] out) {
    GeodesicData g =
        geodesic.Inverse(
            lat0Deg,
            0,
            Math.toDegrees(phi),
            Math.toDegrees(lam),
            GeodesicMask.DISTANCE | GeodesicMask.AZIMUTH);
    double azimuth = Math.toRadians(g.azi1);
    out[0] = g.s12 * Math.sin(azimuth);
    out[1] = g.s12 * Math.cos(azimuth);
  }

  @Override
  public void toGround(double east, double north, double[] out) {
    GeodesicData g =
        geodesic.Direct(
            lat0Deg,
            0,
            Math.toDegrees(Math.atan2(east, north)),
            Math.sqrt(east * east + north * north));
    out[0] = Math.toRadians(g.lon2);
    out[1] = Math.toRadians(g.lat2);
  }
}

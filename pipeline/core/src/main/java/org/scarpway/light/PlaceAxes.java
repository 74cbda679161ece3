package org.scarpway.light;

import org.scarpway.geodata.crs.LonLat;

/**
 * Directions at a place of a map: up, and along growing x and y of the map, as vectors in the axes
 * of the body. They turn where sun or Earth stand over the body into an elevation and an azimuth of
 * the map, with the parallax of the place.
 */
public final class PlaceAxes {
  /** Step (m) to either side for the map's directions. */
  private static final double STEP_M = 10;

  private final double radiusKm;
  private final double[] up;
  private final double[] alongX;
  private final double[] alongY;

  private PlaceAxes(double radiusKm, double[] up, double[] alongX, double[] alongY) {
    this.radiusKm = radiusKm;
    this.up = up;
    this.alongX = alongX;
    this.alongY = alongY;
  }

  /**
   * Of a point of a map in metres.
   *
   * @param map longitudes and latitudes of the map
   * @param radiusKm distance of the place from the body's centre (km)
   * @return the axes, or null where the map gives no longitude and latitude
   */
  public static PlaceAxes of(LonLat map, double xM, double yM, double radiusKm) {
    double[] here = map.at(xM, yM);
    double[] east = map.at(xM + STEP_M, yM);
    double[] west = map.at(xM - STEP_M, yM);
    double[] north = map.at(xM, yM + STEP_M);
    double[] south = map.at(xM, yM - STEP_M);
    if (here == null || east == null || west == null || north == null || south == null) {
      return null;
    }
    // Differences of vectors in space: longitudes are discontinuous at 180 degrees and at poles.
    double[] up = unit(here);
    double[] alongX = acrossUp(Vectors.minus(unit(east), unit(west)), up);
    double[] alongY = acrossUp(Vectors.minus(unit(north), unit(south)), up);
    return new PlaceAxes(radiusKm, up, alongX, alongY);
  }

  /** Elevation and map azimuth of a body in the sky. */
  public static final class Direction {
    private final double[] values = new double[2];

    /** Elevation of the centre over the level plane (degrees), without refraction. */
    public double elevationDeg() {
      return values[0];
    }

    /** Azimuth clockwise from the map's y axis, in [0, 360). */
    public double azimuthDeg() {
      return values[1];
    }
  }

  /** Writes where the sun stands over the place. */
  public void sun(SkyPosition sky, Direction out) {
    direction(sky.sunLonDeg(), sky.sunLatDeg(), sky.sunKm(), out);
  }

  /** Writes where the Earth stands over the place. */
  public void earth(SkyPosition sky, Direction out) {
    direction(sky.earthLonDeg(), sky.earthLatDeg(), sky.earthKm(), out);
  }

  private void direction(double lonDeg, double latDeg, double km, Direction out) {
    double lat = StrictMath.toRadians(latDeg);
    double lon = StrictMath.toRadians(lonDeg);
    double cos = StrictMath.cos(lat);
    double x = km * cos * StrictMath.cos(lon) - radiusKm * up[0];
    double y = km * cos * StrictMath.sin(lon) - radiusKm * up[1];
    double z = km * StrictMath.sin(lat) - radiusKm * up[2];
    double length = StrictMath.sqrt(x * x + y * y + z * z);
    double rise = (x * up[0] + y * up[1] + z * up[2]) / length;
    // The horizontal part as a sum of the map's two directions, which need not be at right angles.
    double p = x * alongX[0] + y * alongX[1] + z * alongX[2];
    double q = x * alongY[0] + y * alongY[1] + z * alongY[2];
    double xx = Vectors.dot(alongX, alongX);
    double yy = Vectors.dot(alongY, alongY);
    double xy = Vectors.dot(alongX, alongY);
    double dx = p * yy - q * xy;
    double dy = q * xx - p * xy;
    double azimuth = StrictMath.toDegrees(StrictMath.atan2(dx, dy));
    out.values[0] = StrictMath.toDegrees(StrictMath.asin(Math.max(-1, Math.min(1, rise))));
    out.values[1] = azimuth < 0 ? azimuth + 360 : azimuth;
  }

  private static double[] unit(double[] lonLatDeg) {
    return Vectors.polar(StrictMath.toRadians(lonLatDeg[0]), StrictMath.toRadians(lonLatDeg[1]), 1);
  }

  private static double[] acrossUp(double[] v, double[] up) {
    return Vectors.plus(v, -Vectors.dot(v, up), up);
  }
}

package org.scarpway.geodata.crs;

/**
 * Which way true north lies at a place of a map: the direction of the meridian there. It differs
 * from grid north by the meridian convergence, on a polar map by up to half a turn.
 */
public final class TrueNorth {
  /** To either side: far above rounding, far below what a meridian bends. */
  private static final double STEP_M = 10;

  /** Closer to a pole than this (of the body's radius), no direction is north. */
  private static final double POLE = 1e-9;

  private TrueNorth() {}

  /**
   * Azimuth of true north, degrees clockwise from grid north, in (-180, 180].
   *
   * @param map its x and y in metres
   * @return NaN where the map is tied to no body and at a pole
   */
  public static double azimuthDeg(MapCrs map, double xM, double yM) {
    return map.isLocal() ? Double.NaN : azimuthDeg(map::toLonLat, xM, yM);
  }

  /** The same from longitudes and latitudes alone; NaN where they are not known. */
  public static double azimuthDeg(LonLat map, double xM, double yM) {
    double[] here = map.at(xM, yM);
    if (here == null) {
      return Double.NaN;
    }
    double lon = StrictMath.toRadians(here[0]);
    double lat = StrictMath.toRadians(here[1]);
    double cosLat = StrictMath.cos(lat);
    if (!(cosLat > POLE)) {
      return Double.NaN;
    }
    double sinLat = StrictMath.sin(lat);
    double[] east = {-StrictMath.sin(lon), StrictMath.cos(lon), 0};
    double[] north = {-sinLat * StrictMath.cos(lon), -sinLat * StrictMath.sin(lon), cosLat};
    // Differences of directions in space, since longitudes jump at the date line and at poles.
    double[] alongX = difference(map.at(xM + STEP_M, yM), map.at(xM - STEP_M, yM));
    double[] alongY = difference(map.at(xM, yM + STEP_M), map.at(xM, yM - STEP_M));
    double eastX = dot(alongX, east);
    double eastY = dot(alongY, east);
    double turn = eastX * dot(alongY, north) - eastY * dot(alongX, north);
    if (Double.isNaN(turn) || turn == 0) {
      return Double.NaN;
    }
    // The way on the map that leads neither east nor west, and to the north.
    double sign = Math.signum(turn);
    return StrictMath.toDegrees(StrictMath.atan2(-eastY * sign, eastX * sign));
  }

  private static double[] difference(double[] to, double[] from) {
    double[] d = direction(to);
    double[] b = direction(from);
    for (int i = 0; i < 3; i++) {
      d[i] -= b[i];
    }
    return d;
  }

  private static double[] direction(double[] lonLat) {
    if (lonLat == null) {
      return new double[] {Double.NaN, Double.NaN, Double.NaN};
    }
    double lon = StrictMath.toRadians(lonLat[0]);
    double lat = StrictMath.toRadians(lonLat[1]);
    double across = StrictMath.cos(lat);
    return new double[] {
      across * StrictMath.cos(lon), across * StrictMath.sin(lon), StrictMath.sin(lat)
    };
  }

  private static double dot(double[] a, double[] b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  }
}

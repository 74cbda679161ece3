package org.scarpway.geodata.crs;

/**
 * Direction of true north at a point of a map, that is, of the meridian. It differs from grid north
 * by the meridian convergence, on a polar map by up to 180 degrees.
 */
public final class TrueNorth {
  /**
   * Step (m) to either side for the differences: well above rounding, well below the scale on which
   * a meridian curves.
   */
  private static final double STEP_M = 10;

  /** Distance from a pole (in units of the body's radius) below which north is undefined. */
  private static final double POLE = 1e-9;

  private TrueNorth() {}

  /**
   * Azimuth of true north, degrees clockwise from grid north, in (-180, 180].
   *
   * @param map CRS whose x and y are in metres
   * @return the azimuth; NaN if the map is tied to no body, and at a pole
   */
  public static double azimuthDeg(MapCrs map, double xM, double yM) {
    return map.isLocal() ? Double.NaN : azimuthDeg(map::toLonLat, xM, yM);
  }

  /**
   * Like {@link #azimuthDeg(MapCrs, double, double)}, from longitudes and latitudes alone; NaN
   * where they are unknown.
   */
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
    // Differences of unit vectors in space, because longitudes are discontinuous at 180 degrees and
    // at poles.
    double[] alongX = difference(map.at(xM + STEP_M, yM), map.at(xM - STEP_M, yM));
    double[] alongY = difference(map.at(xM, yM + STEP_M), map.at(xM, yM - STEP_M));
    double eastX = dot(alongX, east);
    double eastY = dot(alongY, east);
    double turn = eastX * dot(alongY, north) - eastY * dot(alongX, north);
    if (Double.isNaN(turn) || turn == 0) {
      return Double.NaN;
    }
    // The direction on the map with no east component and a positive north component.
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

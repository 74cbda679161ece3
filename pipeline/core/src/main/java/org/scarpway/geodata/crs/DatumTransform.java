package org.scarpway.geodata.crs;

import org.scarpway.geodata.projection.Ellipsoid;

/**
 * One published transformation of longitude and latitude between a map's own datum and WGS 84, on
 * the surface of the ellipsoid: geocentric translations, position vector transformation and
 * Molodensky-Badekas of IOGP Publication 373-7-2, Geomatics Guidance Note 7 part 2, methods 9603,
 * 9606 and 1063. Immutable, safe for many threads.
 */
final class DatumTransform {
  static final Ellipsoid WGS84 = Ellipsoid.ofInverseFlattening(6_378_137, 298.257223563);

  private final Ellipsoid own;
  private final double[] p;

  private DatumTransform(Ellipsoid own, double[] p) {
    this.own = own;
    this.p = p;
  }

  /** The identity transformation. */
  static DatumTransform identity() {
    return new DatumTransform(WGS84, null);
  }

  /** The given published transformation, from a datum on the given ellipsoid. */
  static DatumTransform by(Ellipsoid own, Datums.Shift s) {
    boolean moves =
        s.moves()
            || Math.abs(own.semiMajorM() - WGS84.semiMajorM()) > 1e-3
            || Math.abs(own.semiMinorM() - WGS84.semiMinorM()) > 1e-3;
    return new DatumTransform(
        own, moves ? s.parameters().stream().mapToDouble(v -> v).toArray() : null);
  }

  boolean moves() {
    return p != null;
  }

  /** Transforms {longitude, latitude} (degrees) to WGS 84, in place. */
  void toWorld(double[] lonLat) {
    if (p != null && !Double.isNaN(lonLat[0])) {
      double turn = Math.rint(lonLat[0] / 360) * 360;
      shift(lonLat[0], lonLat[1], lonLat);
      lonLat[0] += turn;
    }
  }

  /** Inverse of {@link #toWorld} by fixed-point iteration, in place, degrees. */
  void fromWorld(double[] lonLat) {
    if (p == null || Double.isNaN(lonLat[0])) {
      return;
    }
    double lon = lonLat[0];
    double lat = lonLat[1];
    double[] there = new double[2];
    // A shift varies by about 1e-5 of itself over its own length, so a few iterations converge.
    for (int i = 0; i < 12; i++) {
      shift(lonLat[0], lonLat[1], there);
      double dLon = Math.IEEEremainder(lon - there[0], 360);
      double dLat = lat - there[1];
      lonLat[0] += dLon;
      lonLat[1] = Math.max(-90, Math.min(90, lonLat[1] + dLat));
      if (Math.abs(dLon) + Math.abs(dLat) < 1e-13) {
        break;
      }
    }
  }

  private void shift(double lonDeg, double latDeg, double[] out) {
    double lam = Math.toRadians(lonDeg);
    double phi = Math.toRadians(latDeg);
    double a = own.semiMajorM();
    double flat = own.semiMinorM() / a;
    double n = a / Math.sqrt(1 - (1 - flat * flat) * Math.sin(phi) * Math.sin(phi));
    double x = n * Math.cos(phi) * Math.cos(lam) - p[7];
    double y = n * Math.cos(phi) * Math.sin(lam) - p[8];
    double z = n * flat * flat * Math.sin(phi) - p[9];
    double rx = Math.toRadians(p[3] / 3600);
    double ry = Math.toRadians(p[4] / 3600);
    double rz = Math.toRadians(p[5] / 3600);
    double m = 1 + p[6] * 1e-6;
    ground(
        p[0] + p[7] + m * (x - rz * y + ry * z),
        p[1] + p[8] + m * (rz * x + y - rx * z),
        p[2] + p[9] + m * (-ry * x + rx * y + z),
        out);
  }

  /** Geodetic longitude and latitude on WGS 84 of a point near its surface. Bowring 1976. */
  private static void ground(double x, double y, double z, double[] out) {
    double a = WGS84.semiMajorM();
    double b = WGS84.semiMinorM();
    double e2 = (a - b) * (a + b) / (a * a);
    double q = Math.sqrt(x * x + y * y);
    double beta = Math.atan2(z * a, q * b);
    double phi = 0;
    for (int i = 0; i < 3; i++) {
      double sin = Math.sin(beta);
      double cos = Math.cos(beta);
      phi = Math.atan2(z + e2 / (1 - e2) * b * sin * sin * sin, q - e2 * a * cos * cos * cos);
      beta = Math.atan2(b * Math.sin(phi), a * Math.cos(phi));
    }
    out[0] = Math.toDegrees(Math.atan2(y, x));
    out[1] = Math.toDegrees(phi);
  }
}

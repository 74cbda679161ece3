package org.scarpway.geodata.projection;

/**
 * A projection with its parameters: degrees, metres, scale. Parameters that a method does not use
 * are 0 (scale 1).
 *
 * @param lat1Deg first standard parallel, or the latitude of true scale of an equirectangular map
 */
public record ProjectionSpec(
    Method method,
    double lat0Deg,
    double lon0Deg,
    double lat1Deg,
    double lat2Deg,
    double scale,
    double falseEastM,
    double falseNorthM) {

  public ProjectionSpec {
    requireLatitude(lat0Deg);
    requireLatitude(lat1Deg);
    requireLatitude(lat2Deg);
    if (!(scale > 0) || scale > 100) {
      throw new IllegalArgumentException("scale factor must be in (0, 100], got " + scale);
    }
    if (!Double.isFinite(lon0Deg) || Math.abs(lon0Deg) > 720) {
      throw new IllegalArgumentException("central meridian must be in degrees, got " + lon0Deg);
    }
    if (!Double.isFinite(falseEastM) || !Double.isFinite(falseNorthM)) {
      throw new IllegalArgumentException("false easting and northing must be finite");
    }
    if (isConic(method) && Math.abs(lat1Deg + lat2Deg) < 1e-9) {
      throw new IllegalArgumentException(
          "standard parallels " + lat1Deg + " and " + lat2Deg + " deg make no cone");
    }
    if (method == Method.EQUIRECTANGULAR && Math.abs(lat1Deg) > 89.999) {
      throw new IllegalArgumentException("an equirectangular map cannot be true at a pole");
    }
  }

  public static ProjectionSpec about(Method method, double lon0Deg, double lat0Deg) {
    return new ProjectionSpec(method, lat0Deg, lon0Deg, 0, 0, 1, 0, 0);
  }

  public boolean isPolar() {
    return method == Method.STEREOGRAPHIC && Math.abs(lat0Deg) > 90 - 1e-9;
  }

  /** Stereographic about a pole, true to scale at the given latitude. */
  public static ProjectionSpec polarTrueAt(
      Ellipsoid body, double trueLatDeg, double lon0Deg, double falseEastM, double falseNorthM) {
    requireLatitude(trueLatDeg);
    double scale = PolarStereographic.scaleAtPole(body, Math.toRadians(trueLatDeg));
    double pole = Math.copySign(90, trueLatDeg);
    return new ProjectionSpec(
        Method.STEREOGRAPHIC, pole, lon0Deg, 0, 0, scale, falseEastM, falseNorthM);
  }

  public Projection on(Ellipsoid body) {
    double lat0 = Math.toRadians(lat0Deg);
    double lat1 = Math.toRadians(lat1Deg);
    double lat2 = Math.toRadians(lat2Deg);
    return switch (method) {
      case STEREOGRAPHIC ->
          isPolar()
              ? new PolarStereographic(body, lat0Deg < 0, scale)
              : ObliqueStereographic.single(body, lat0, scale);
      case OBLIQUE_STEREOGRAPHIC -> ObliqueStereographic.twofold(body, lat0, scale);
      case TRANSVERSE_MERCATOR -> new TransverseMercator(body, lat0, scale);
      case EQUIRECTANGULAR -> new Equirectangular(body, lat0, lat1);
      case MERCATOR -> new Mercator(body, scale);
      // The spherical formula with the ellipsoid's geodetic latitude, as web maps use it.
      case PSEUDO_MERCATOR ->
          new Mercator(Ellipsoid.of(body.semiMajorM(), body.semiMajorM()), scale);
      case LAMBERT_CONFORMAL_1SP, LAMBERT_CONFORMAL_2SP ->
          new LambertConformalConic(body, lat0, lat1, lat2, scale);
      case ALBERS -> new Albers(body, lat0, lat1, lat2);
      case LAMBERT_AZIMUTHAL -> new LambertAzimuthal(body, lat0);
      case AZIMUTHAL_EQUIDISTANT -> new AzimuthalEquidistant(body, lat0);
      case SINUSOIDAL -> new Sinusoidal(body);
    };
  }

  /**
   * True if both define the same map to within rounding (1e-9 of a degree, 1e-6 m, 1e-12 of scale).
   */
  public boolean sameAs(ProjectionSpec o) {
    double turns = (lon0Deg - o.lon0Deg) / 360;
    return method == o.method
        && Math.abs(lat0Deg - o.lat0Deg) < 1e-9
        && Math.abs(turns - Math.rint(turns)) * 360 < 1e-9
        && Math.abs(lat1Deg - o.lat1Deg) < 1e-9
        && Math.abs(lat2Deg - o.lat2Deg) < 1e-9
        && Math.abs(scale - o.scale) < 1e-12
        && Math.abs(falseEastM - o.falseEastM) < 1e-6
        && Math.abs(falseNorthM - o.falseNorthM) < 1e-6;
  }

  private static boolean isConic(Method m) {
    return m == Method.LAMBERT_CONFORMAL_1SP
        || m == Method.LAMBERT_CONFORMAL_2SP
        || m == Method.ALBERS;
  }

  private static void requireLatitude(double latDeg) {
    if (!(Math.abs(latDeg) <= 90)) {
      throw new IllegalArgumentException("latitude must be in [-90, 90] deg, got " + latDeg);
    }
  }
}

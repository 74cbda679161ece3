package org.scarpway.geodata.crs;

import java.util.Locale;
import java.util.Optional;
import org.scarpway.geodata.projection.Ellipsoid;
import org.scarpway.geodata.projection.Method;
import org.scarpway.geodata.projection.Projection;
import org.scarpway.geodata.projection.ProjectionSpec;
import org.scarpway.grid.Body;

/**
 * A horizontal coordinate reference system on any body. Three kinds: geographic (x is longitude, y
 * is latitude, whatever order a registry lists the axes in), projected, and local (a plane that is
 * tied to no body). Immutable, safe for many threads.
 *
 * <p>Longitudes count to the east. Latitudes are geodetic (planetographic), except in a geographic
 * system whose axes are named planetocentric; {@link #toLonLat} always gives geodetic latitudes.
 * Coordinates stay on the file's own datum; {@link WorldMap} transforms them to WGS 84.
 */
public final class MapCrs {
  private final String name;
  private final GeographicPart geo;
  private final ProjectionSpec spec;
  private final Projection projection;
  private final double metresPerUnit;
  private final String authority;

  private MapCrs(
      String name,
      GeographicPart geo,
      ProjectionSpec spec,
      double metresPerUnit,
      String authority) {
    this.name = name;
    this.geo = geo;
    this.spec = spec;
    this.projection = spec == null ? null : spec.on(geo.body());
    this.metresPerUnit = metresPerUnit;
    this.authority = authority;
  }

  static MapCrs plane(String name, double metresPerUnit) {
    return new MapCrs(name, null, null, metresPerUnit, "");
  }

  static MapCrs geographic(String name, GeographicPart geo, String authority) {
    return new MapCrs(name, geo, null, Double.NaN, authority);
  }

  static MapCrs projected(
      String name, GeographicPart geo, ProjectionSpec spec, double metresPerUnit, String auth) {
    return new MapCrs(name, geo, spec, metresPerUnit, auth);
  }

  /**
   * A transverse Mercator CRS in metres whose central meridian, of scale 1, passes through the
   * point.
   */
  public static MapCrs local(
      String bodyName, double semiMajorM, double semiMinorM, double lonDeg, double latDeg) {
    String at = String.format(Locale.ROOT, "lon %.3f lat %.3f", lonDeg, latDeg);
    return new MapCrs(
        "Local transverse Mercator, " + bodyName + ", " + at,
        figure(bodyName, Ellipsoid.of(semiMajorM, semiMinorM)),
        ProjectionSpec.about(Method.TRANSVERSE_MERCATOR, lonDeg, latDeg),
        1,
        "");
  }

  /** A transverse Mercator CRS centred on a point, on the ellipsoid of this CRS. */
  public MapCrs localAbout(double lonDeg, double latDeg) {
    String bodyName = body().map(Body::name).orElse("custom body");
    MapCrs m = local(bodyName, semiMajorM(), semiMinorM(), lonDeg, latDeg);
    GeographicPart g =
        new GeographicPart(
            geo.name(),
            geo.datum(),
            geo.spheroid(),
            geo.body(),
            geo.meridianDeg() == 0 ? geo.meridian() : "Reference meridian",
            0,
            1,
            false,
            geo.meridianDeg() == 0 && !geo.planetocentric() ? geo.authority() : "");
    return new MapCrs(m.name, g, m.spec, 1, "");
  }

  /** The geographic CRS of a body, in degrees. */
  public static MapCrs lonLat(Body body) {
    Ellipsoid e = Ellipsoid.of(body.semiMajorM(), body.semiMinorM());
    if (body.equals(Body.EARTH)) {
      e = Ellipsoid.ofInverseFlattening(6_378_137, 298.257223563);
      GeographicPart wgs =
          new GeographicPart(
              "WGS 84", "WGS_1984", "WGS 84", e, "Greenwich", 0, 1, false, "EPSG:4326");
      return geographic("WGS 84", wgs, "EPSG:4326");
    }
    GeographicPart g = figure(body.name(), e);
    return geographic(g.name(), g, "");
  }

  private static GeographicPart figure(String bodyName, Ellipsoid e) {
    return new GeographicPart(
        "Longitude latitude, " + bodyName,
        "D_" + bodyName.replace(' ', '_'),
        bodyName,
        e,
        "Reference meridian",
        0,
        1,
        false,
        "");
  }

  /**
   * The same CRS with metres as its unit.
   *
   * @throws IllegalStateException if the system is geographic
   */
  public MapCrs inMetres() {
    if (isGeographic()) {
      throw new IllegalStateException("a geographic system has no metres: " + name);
    }
    return metresPerUnit == 1 ? this : new MapCrs(name + ", in metres", geo, spec, 1, "");
  }

  /** True if x and y are longitude and latitude. */
  public boolean isGeographic() {
    return geo != null && spec == null;
  }

  /** True if x and y are coordinates of a map projection. */
  public boolean isProjected() {
    return spec != null;
  }

  /** True for a plane that is tied to no body: longitude and latitude are unknown. */
  public boolean isLocal() {
    return geo == null;
  }

  /** Name as written in the file. */
  public String name() {
    return name;
  }

  /** Registry code such as EPSG:32633; empty if the written text carries none. */
  public String authority() {
    return authority;
  }

  /** Metres per unit of x and y; NaN for a geographic system. */
  public double metresPerUnit() {
    return metresPerUnit;
  }

  /** Semi-major axis of the ellipsoid (m); NaN for a local system. */
  public double semiMajorM() {
    return isLocal() ? Double.NaN : geo.body().semiMajorM();
  }

  /** Semi-minor axis of the ellipsoid (m); NaN for a local system. */
  public double semiMinorM() {
    return isLocal() ? Double.NaN : geo.body().semiMinorM();
  }

  /** The known body whose ellipsoid this CRS uses, if any. */
  public Optional<Body> body() {
    for (Body b : new Body[] {Body.MOON, Body.MARS, Body.EARTH}) {
      if (!isLocal() && fits(b)) {
        return Optional.of(b);
      }
    }
    return Optional.empty();
  }

  /**
   * True if the ellipsoid is one in use for the body: both semi-axes are within 0.1 % of the range
   * of its radii (a sphere of the equatorial or mean radius passes, another body does not).
   */
  public boolean fits(Body body) {
    double least = body.semiMinorM() * 0.999;
    double most = body.semiMajorM() * 1.001;
    return !isLocal() && semiMinorM() >= least && semiMajorM() <= most;
  }

  /**
   * True if every reader interprets {@link CrsWriter#wkt} alike. A web-map Mercator is not
   * portable: its formulas contradict its ellipsoid.
   */
  public boolean isPortable() {
    return (spec == null || spec.method() != Method.PSEUDO_MERCATOR)
        && (geo == null || !geo.planetocentric());
  }

  /**
   * True if a longitude and latitude denote the same point in both CRSs to a few metres: the datums
   * are the same, or both are related to WGS 84 by a published identity transformation. Unknown
   * datums are compared by their ellipsoids alone.
   */
  public boolean sameDatumAs(MapCrs other) {
    if (!near(semiMajorM(), other.semiMajorM()) || !near(semiMinorM(), other.semiMinorM())) {
      return false;
    }
    Datums.Datum a = fits(Body.EARTH) ? Datums.of(geo) : null;
    Datums.Datum b = a == null ? null : Datums.of(other.geo);
    return a == null
        || b == null
        || a.key().equals(b.key())
        || (a.isGeocentric() && b.isGeocentric());
  }

  /**
   * True if coordinates denote the same points in both CRSs, to within rounding and {@link
   * #sameDatumAs}.
   */
  public boolean sameAs(MapCrs other) {
    if (isLocal() || other.isLocal()) {
      return isLocal() && other.isLocal() && near(metresPerUnit, other.metresPerUnit);
    }
    boolean sameGround =
        sameDatumAs(other)
            && near(geo.meridianDeg(), other.geo.meridianDeg())
            && geo.planetocentric() == other.geo.planetocentric();
    if (!sameGround || (spec == null) != (other.spec == null)) {
      return false;
    }
    return spec == null
        ? near(geo.degreesPerUnit(), other.geo.degreesPerUnit())
        : near(metresPerUnit, other.metresPerUnit) && spec.sameAs(other.spec);
  }

  private static boolean near(double p, double q) {
    return Math.abs(p - q) <= 1e-9 * Math.max(1, Math.abs(p));
  }

  /**
   * Longitude in [-180, 180) and geodetic latitude, degrees; NaN outside the domain of the
   * projection.
   *
   * @param x x in the unit of this system
   * @param y y in the unit of this system
   * @return {longitude, latitude}
   * @throws IllegalStateException if the system is local
   */
  public double[] toLonLat(double x, double y) {
    double[] out = new double[2];
    toLonLat(x, y, out);
    return out;
  }

  /**
   * As {@link #toLonLat(double, double)}, into {@code out[0..1]}.
   *
   * @throws IllegalStateException if the system is local
   */
  public void toLonLat(double x, double y, double[] out) {
    requireBody();
    if (spec == null) {
      out[0] = wrap(x * geo.degreesPerUnit() + geo.meridianDeg());
      out[1] = geodetic(y * geo.degreesPerUnit());
    } else {
      projection.toGround(
          x * metresPerUnit - spec.falseEastM(), y * metresPerUnit - spec.falseNorthM(), out);
      double lam = Math.toDegrees(out[0]);
      out[0] = wrap(lam + spec.lon0Deg() + geo.meridianDeg());
      out[1] = Math.toDegrees(out[1]);
      if (!(Math.abs(out[1]) <= 90.0000001) || !(Math.abs(lam) <= 360)) {
        out[0] = Double.NaN;
        out[1] = Double.NaN;
      }
    }
  }

  /**
   * Map coordinates of a longitude (any multiple of 360 may be added) and geodetic latitude,
   * degrees.
   *
   * @param lonDeg longitude, positive to the east (degrees)
   * @param latDeg geodetic latitude (degrees)
   * @return {x, y} in the unit of this system
   * @throws IllegalStateException if the system is local
   */
  public double[] fromLonLat(double lonDeg, double latDeg) {
    double[] out = new double[2];
    fromLonLat(lonDeg, latDeg, out);
    return out;
  }

  /**
   * As {@link #fromLonLat(double, double)}, into {@code out[0..1]}.
   *
   * @throws IllegalStateException if the system is local
   */
  public void fromLonLat(double lonDeg, double latDeg, double[] out) {
    requireBody();
    if (spec == null) {
      out[0] = wrap(lonDeg - geo.meridianDeg()) / geo.degreesPerUnit();
      out[1] = ownLatitude(latDeg) / geo.degreesPerUnit();
    } else {
      double lam = wrap(lonDeg - geo.meridianDeg() - spec.lon0Deg());
      projection.toPlane(Math.toRadians(lam), Math.toRadians(latDeg), out);
      out[0] = (out[0] + spec.falseEastM()) / metresPerUnit;
      out[1] = (out[1] + spec.falseNorthM()) / metresPerUnit;
    }
  }

  /**
   * As {@link #fromLonLat(double, double)}; if x is periodic (geographic, equirectangular,
   * Mercator), the x nearest to {@code nearX} is returned, so that longitudes of 0 to 360 work like
   * those of -180 to 180.
   *
   * @throws IllegalStateException if the system is local
   */
  public double[] fromLonLatNear(double lonDeg, double latDeg, double nearX) {
    double[] out = fromLonLat(lonDeg, latDeg);
    double turn = turnX();
    if (turn > 0) {
      out[0] += turn * Math.rint((nearX - out[0]) / turn);
    }
    return out;
  }

  /** Period of x (360 degrees of longitude), in units of x; 0 if x is not periodic. */
  public double turnX() {
    if (isLocal()) {
      return 0;
    }
    if (spec == null) {
      return 360 / geo.degreesPerUnit();
    }
    double round = 2 * Math.PI * geo.body().semiMajorM() / metresPerUnit;
    return switch (spec.method()) {
      case EQUIRECTANGULAR -> round * Math.cos(Math.toRadians(spec.lat1Deg()));
      case MERCATOR, PSEUDO_MERCATOR -> round * spec.scale();
      default -> 0;
    };
  }

  /**
   * Length (m) of a degree of longitude at a geodetic latitude.
   *
   * @throws IllegalStateException if the system is local
   */
  public double metresPerDegreeEast(double latDeg) {
    requireBody();
    Ellipsoid e = geo.body();
    return Math.toRadians(e.semiMajorM() * e.parallelRatio(Math.toRadians(latDeg)));
  }

  /**
   * Length (m) of a degree of geodetic latitude.
   *
   * @throws IllegalStateException if the system is local
   */
  public double metresPerDegreeNorth(double latDeg) {
    requireBody();
    return Math.toRadians(geo.body().meridianRadiusM(Math.toRadians(latDeg)));
  }

  /** Datum, ellipsoid and angular unit; null for a local system. */
  public GeographicPart geographicPart() {
    return geo;
  }

  /** Projection and its parameters; null unless projected. */
  public ProjectionSpec spec() {
    return spec;
  }

  /** tan(geodetic) = (a/b)^2 tan(planetocentric), on the surface. Snyder 1987, eq. 3-28. */
  private double geodetic(double ownLatDeg) {
    if (!geo.planetocentric() || Math.abs(ownLatDeg) >= 90) {
      return ownLatDeg;
    }
    double ratio = semiMajorM() / semiMinorM();
    return Math.toDegrees(Math.atan(ratio * ratio * Math.tan(Math.toRadians(ownLatDeg))));
  }

  private double ownLatitude(double geodeticDeg) {
    if (!geo.planetocentric() || Math.abs(geodeticDeg) >= 90) {
      return geodeticDeg;
    }
    double ratio = semiMinorM() / semiMajorM();
    return Math.toDegrees(Math.atan(ratio * ratio * Math.tan(Math.toRadians(geodeticDeg))));
  }

  private static double wrap(double lonDeg) {
    return lonDeg >= -180 && lonDeg < 180
        ? lonDeg
        : lonDeg - 360 * Math.floor((lonDeg + 180) / 360);
  }

  private void requireBody() {
    if (isLocal()) {
      throw new IllegalStateException("'" + name + "' is tied to no body: no longitude, latitude");
    }
  }

  @Override
  public String toString() {
    return name;
  }
}

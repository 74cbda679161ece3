package org.scarpway.geodata;

import java.util.Locale;
import org.scarpway.geodata.CrsText.GeographicPart;
import org.scarpway.geodata.projection.Ellipsoid;
import org.scarpway.grid.Body;

/**
 * From longitude and latitude on a map's own datum to those that the world means, and back: WGS 84
 * on Earth, the body's own elsewhere. One transformation serves all ground of a job, the best that
 * is published for its middle ({@link ShiftChoice}). Where another one contradicts it, the accuracy
 * is no better than the distance between the two.
 *
 * <p>Geocentric translations, position vector transformation and Molodensky-Badekas on the surface
 * of the ellipsoid: IOGP Publication 373-7-2, Geomatics Guidance Note 7 part 2, methods 9603, 9606
 * and 1063. Both raster paths share it, so that positions agree whichever path reads them; grids of
 * local corrections, which one of them lacks, are not used, and the accuracy that is stated is that
 * of the transformation without them.
 */
public final class DatumShift {
  /**
   * Datums of another name on the figure of the geocentric ones agree with WGS 84 to about this.
   */
  private static final double MODERN_M = 2;

  /** Disagreement that could send people to the wrong ground; common practice, no source. */
  private static final double CHECK_BEYOND_M = 100;

  private static final Ellipsoid WGS84 = Ellipsoid.ofInverseFlattening(6_378_137, 298.257223563);

  private final Ellipsoid own;
  private final double[] p;
  private final double accuracyM;
  private final String told;

  private DatumShift(Ellipsoid own, double[] p, double accuracyM, String told) {
    this.own = own;
    this.p = p;
    this.accuracyM = accuracyM;
    this.told = told;
  }

  /**
   * @param lonDeg of the middle of the ground, on the map's own datum
   */
  public static DatumShift of(MapCrs crs, double lonDeg, double latDeg) {
    if (crs.isLocal()) {
      return unknown("'" + crs.name() + "' is tied to no body");
    }
    GeographicPart geo = crs.geographicPart();
    if (!crs.fits(Body.EARTH)) {
      return new DatumShift(geo.body(), null, 0, "");
    }
    Datums.Datum datum = Datums.of(geo);
    if (datum == null) {
      boolean modern =
          Math.abs(geo.body().semiMajorM() - WGS84.semiMajorM()) < MODERN_M
              && Math.abs(geo.body().semiMinorM() - WGS84.semiMinorM()) < MODERN_M;
      return modern
          ? new DatumShift(
              geo.body(),
              null,
              MODERN_M,
              "datum '"
                  + geo.datum()
                  + "' is in no table of transformations; by its figure it is taken as WGS 84,"
                  + " which is good to about 2 m if it is a geocentric one")
          : unknown("no transformation to WGS 84 is known for datum '" + geo.datum() + "'");
    }
    if (datum.isWgs84()) {
      return new DatumShift(geo.body(), null, 0, "");
    }
    ShiftChoice choice = ShiftChoice.at(crs, datum, lonDeg, latDeg);
    return choice == null
        ? unknown(
            String.format(
                Locale.ROOT,
                "no transformation of datum '%s' to WGS 84 is published for lon %.2f, lat %.2f",
                geo.datum(),
                lonDeg,
                latDeg))
        : by(crs, choice);
  }

  /** By a transformation taken at its word. */
  static DatumShift by(MapCrs crs, Datums.Shift s) {
    return by(crs, new ShiftChoice(s, null, 0));
  }

  private static DatumShift by(MapCrs crs, ShiftChoice choice) {
    Datums.Shift s = choice.chosen();
    double accuracyM = Math.max(s.accuracyM(), Math.ceil(choice.offM()));
    GeographicPart geo = crs.geographicPart();
    boolean moves =
        s.moves()
            || Math.abs(geo.body().semiMajorM() - WGS84.semiMajorM()) > 1e-3
            || Math.abs(geo.body().semiMinorM() - WGS84.semiMinorM()) > 1e-3;
    String told =
        String.format(
            Locale.ROOT,
            "longitude and latitude are WGS 84; datum '%s' is carried over by EPSG transformation"
                + " %d, accuracy %s",
            geo.datum(),
            s.operation(),
            s.statesAccuracy() ? text(accuracyM) + " m" : "not stated");
    boolean silent = !moves && accuracyM <= 1;
    return new DatumShift(
        geo.body(),
        moves ? s.parameters().stream().mapToDouble(v -> v).toArray() : null,
        accuracyM,
        silent ? "" : told + contradiction(choice));
  }

  private static String contradiction(ShiftChoice choice) {
    if (choice.worst() == null) {
      return "";
    }
    String other =
        String.format(
            Locale.ROOT,
            " (it states %s m, but transformation %d, which states %s m, puts this ground %.0f m"
                + " away)",
            text(choice.chosen().accuracyM()),
            choice.worst().operation(),
            text(choice.worst().accuracyM()),
            Math.ceil(choice.offM()));
    return choice.offM() <= CHECK_BEYOND_M
        ? other
        : other
            + "; check longitudes, latitudes and GeoJSON of this job against survey marks of the"
            + " map's publisher before use";
  }

  private static DatumShift unknown(String why) {
    return new DatumShift(
        WGS84,
        null,
        Double.NaN,
        why + ": places by longitude and latitude are refused and no" + " GeoJSON is written");
  }

  private static String text(double v) {
    return v == Math.rint(v) ? Integer.toString((int) v) : Double.toString(v);
  }

  /** Whether longitude and latitude can be told at all. */
  public boolean known() {
    return !Double.isNaN(accuracyM);
  }

  /** One-line truth for people about what is done and how good it is; empty if nothing is. */
  public String told() {
    return told;
  }

  /** Stated accuracy (m): 0 on the world's own datum, NaN if not {@link #known()}. */
  public double accuracyM() {
    return accuracyM;
  }

  /** In place, degrees. */
  public void toWorld(double[] lonLat) {
    if (p != null && !Double.isNaN(lonLat[0])) {
      double turn = Math.rint(lonLat[0] / 360) * 360;
      shift(lonLat[0], lonLat[1], lonLat);
      lonLat[0] += turn;
    }
  }

  /** In place, degrees: what {@link #toWorld} takes to the given place. */
  public void fromWorld(double[] lonLat) {
    if (p == null || Double.isNaN(lonLat[0])) {
      return;
    }
    double lon = lonLat[0];
    double lat = lonLat[1];
    double[] there = new double[2];
    // A shift changes by about 1e-5 of itself over its own length, so a few rounds are exact.
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

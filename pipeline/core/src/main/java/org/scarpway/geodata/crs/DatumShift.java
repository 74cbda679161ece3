package org.scarpway.geodata.crs;

import java.util.Locale;
import org.scarpway.geodata.projection.Ellipsoid;
import org.scarpway.grid.Body;

/**
 * Datum transformation of longitude and latitude between a map's own datum and the reference datum:
 * WGS 84 on Earth, the body's own elsewhere. One transformation is applied to the whole area of a
 * job, the best published for its centre ({@link ShiftChoice}). If another one contradicts it, the
 * stated accuracy is at least the distance between the two results.
 *
 * <p>Geocentric translations, position vector transformation and Molodensky-Badekas on the surface
 * of the ellipsoid: IOGP Publication 373-7-2, Geomatics Guidance Note 7 part 2, methods 9603, 9606
 * and 1063. Both raster implementations (GDAL and pure Java) share it, so that their positions
 * agree; correction grids, which one of them lacks, are not used, and the stated accuracy is that
 * of the transformation without them.
 */
public final class DatumShift {
  /**
   * Accuracy (m), relative to WGS 84, assumed for an unknown datum with the ellipsoid of a
   * geocentric one; also the tolerance (m) of its semi-axes.
   */
  private static final double MODERN_M = 2;

  /**
   * Disagreement (m) between transformations above which a warning is given, because it could lead
   * a crew to the wrong place. Common practice, no source.
   */
  private static final double CHECK_BEYOND_M = 100;

  private static final Ellipsoid WGS84 = DatumTransform.WGS84;

  private final DatumTransform transform;
  private final double accuracyM;
  private final String note;

  private DatumShift(DatumTransform transform, double accuracyM, String note) {
    this.transform = transform;
    this.accuracyM = accuracyM;
    this.note = note;
  }

  /**
   * Chooses the datum transformation from a map to the reference datum.
   *
   * @param lonDeg longitude of the centre of the area, on the map's own datum
   * @param latDeg its geodetic latitude, on the map's own datum
   */
  public static DatumShift of(MapCrs crs, double lonDeg, double latDeg) {
    if (crs.isLocal()) {
      return unknown("'" + crs.name() + "' is tied to no body");
    }
    GeographicPart geo = crs.geographicPart();
    if (!crs.fits(Body.EARTH)) {
      return new DatumShift(DatumTransform.identity(), 0, "");
    }
    Datums.Datum datum = Datums.of(geo);
    if (datum == null) {
      boolean modern =
          Math.abs(geo.body().semiMajorM() - WGS84.semiMajorM()) < MODERN_M
              && Math.abs(geo.body().semiMinorM() - WGS84.semiMinorM()) < MODERN_M;
      return modern
          ? new DatumShift(
              DatumTransform.identity(),
              MODERN_M,
              "datum '"
                  + geo.datum()
                  + "' is in no table of transformations; by its figure it is taken as WGS 84,"
                  + " which is good to about 2 m if it is a geocentric one")
          : unknown("no transformation to WGS 84 is known for datum '" + geo.datum() + "'");
    }
    if (datum.isWgs84()) {
      return new DatumShift(DatumTransform.identity(), 0, "");
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

  /** Applies the given transformation, with the accuracy it states. */
  public static DatumShift by(MapCrs crs, Datums.Shift s) {
    return by(crs, new ShiftChoice(s, null, 0));
  }

  private static DatumShift by(MapCrs crs, ShiftChoice choice) {
    Datums.Shift s = choice.chosen();
    double accuracyM = Math.max(s.accuracyM(), Math.ceil(choice.offM()));
    GeographicPart geo = crs.geographicPart();
    DatumTransform transform = DatumTransform.by(geo.body(), s);
    String note =
        String.format(
            Locale.ROOT,
            "longitude and latitude are WGS 84; datum '%s' is carried over by EPSG transformation"
                + " %d, accuracy %s",
            geo.datum(),
            s.operation(),
            s.statesAccuracy() ? text(accuracyM) + " m" : "not stated");
    boolean silent = !transform.moves() && accuracyM <= 1;
    return new DatumShift(transform, accuracyM, silent ? "" : note + contradiction(choice));
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
        DatumTransform.identity(),
        Double.NaN,
        why + ": places by longitude and latitude are refused and no" + " GeoJSON is written");
  }

  private static String text(double v) {
    return v == Math.rint(v) ? Integer.toString((int) v) : Double.toString(v);
  }

  /** True if longitude and latitude are known at all. */
  public boolean known() {
    return !Double.isNaN(accuracyM);
  }

  /**
   * One line for users that names the transformation and its accuracy; empty if none is applied.
   */
  public String note() {
    return note;
  }

  /** Stated accuracy (m): 0 if the map is on the reference datum, NaN if not {@link #known()}. */
  public double accuracyM() {
    return accuracyM;
  }

  /** Transforms {longitude, latitude} (degrees) to the reference datum, in place. */
  public void toWorld(double[] lonLat) {
    transform.toWorld(lonLat);
  }

  /** Inverse of {@link #toWorld}, in place, degrees. */
  public void fromWorld(double[] lonLat) {
    transform.fromWorld(lonLat);
  }
}

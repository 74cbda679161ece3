package org.scarpway.light;

/**
 * Where sun and Earth stand over a body at one time: the points that have them overhead, by the
 * direction from the body's centre (degrees, east and north positive; longitude in (-180, 180]),
 * and their distances from it. On Earth the three of the Earth are NaN.
 *
 * @param sunLonDeg longitude under the sun
 * @param sunLatDeg latitude under the sun: its declination
 * @param sunKm distance of the sun (km)
 * @param earthLonDeg longitude under the Earth
 * @param earthLatDeg latitude under the Earth
 * @param earthKm distance of the Earth (km)
 */
public record SkyPosition(
    double sunLonDeg,
    double sunLatDeg,
    double sunKm,
    double earthLonDeg,
    double earthLatDeg,
    double earthKm) {

  /** Radius of the sun (km): IAU 2015 resolution B3. */
  public static final double SUN_RADIUS_KM = 695_700;

  /** Radius of the Earth at its equator (km). */
  public static final double EARTH_RADIUS_KM = 6378.137;

  /** Of vectors (km) in the axes of the body; that to the Earth may be null. */
  static SkyPosition of(double[] sun, double[] earth) {
    double[] e = earth == null ? new double[] {Double.NaN, Double.NaN, Double.NaN} : earth;
    return new SkyPosition(
        lon(sun), lat(sun), Vectors.length(sun), lon(e), lat(e), Vectors.length(e));
  }

  /** Half the angle across the sun (degrees) from the body's centre. */
  public double sunRadiusDeg() {
    return StrictMath.toDegrees(StrictMath.asin(SUN_RADIUS_KM / sunKm));
  }

  /** Half the angle across the Earth (degrees) from the body's centre. */
  public double earthRadiusDeg() {
    return StrictMath.toDegrees(StrictMath.asin(EARTH_RADIUS_KM / earthKm));
  }

  private static double lon(double[] v) {
    return StrictMath.toDegrees(StrictMath.atan2(v[1], v[0]));
  }

  private static double lat(double[] v) {
    return StrictMath.toDegrees(StrictMath.atan2(v[2], StrictMath.hypot(v[0], v[1])));
  }
}

package org.scarpway.geodata.projection;

/**
 * One map projection, relative to its central meridian and without false origin: converts
 * (longitude from the central meridian, geodetic latitude) in radians to (east, north) in metres
 * and back. Safe for use by many threads. A point that cannot be mapped gives NaN or an infinity.
 */
public interface Projection {

  /** Writes east, north (m) to {@code out[0..1]}. */
  void toPlane(double lamRad, double phiRad, double[] out);

  /** Writes longitude from the central meridian, latitude (rad) to {@code out[0..1]}. */
  void toGround(double eastM, double northM, double[] out);
}

package org.scarpway.geodata.projection;

/**
 * One map projection about its own central meridian and without false origin: (longitude from the
 * central meridian, geodetic latitude) in radians to and from (east, north) in metres. Safe for use
 * by many threads. A point that cannot be mapped gives NaN or an infinity.
 */
public interface Projection {

  /** Writes east, north (m) to {@code out[0..1]}. */
  void toPlane(double lamRad, double phiRad, double[] out);

  /** Writes longitude from the central meridian, latitude (rad) to {@code out[0..1]}. */
  void toGround(double eastM, double northM, double[] out);
}

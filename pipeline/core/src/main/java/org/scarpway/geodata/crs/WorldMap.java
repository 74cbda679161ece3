package org.scarpway.geodata.crs;

import org.scarpway.grid.GridSpec;

/**
 * Transforms between metres on a grid and longitude and latitude on the reference datum: WGS 84 on
 * Earth (RFC 7946), the body's own elsewhere.
 */
public final class WorldMap {
  private final MapCrs map;
  private final DatumShift shift;

  private WorldMap(MapCrs map, DatumShift shift) {
    this.map = map;
    this.shift = shift;
  }

  /**
   * Returns the transformation for a grid.
   *
   * @param spec grid of the whole area of a job, so that the same datum transformation is applied
   *     to every part of it
   */
  public static WorldMap of(GridSpec spec) {
    double midX = (spec.westM() + spec.eastM()) / 2;
    double midY = (spec.southM() + spec.northM()) / 2;
    return of(CrsText.read(spec.crsWkt()), midX, midY);
  }

  /** With the datum transformation chosen for a point of the map. */
  public static WorldMap of(MapCrs map, double x, double y) {
    double[] mid = map.isLocal() ? new double[2] : map.toLonLat(x, y);
    return new WorldMap(map, DatumShift.of(map, mid[0], mid[1]));
  }

  /** Coordinate reference system of the grid. */
  public MapCrs map() {
    return map;
  }

  /** Datum transformation from the map to the reference datum. */
  public DatumShift shift() {
    return shift;
  }

  /** True if longitude and latitude are known. */
  public boolean known() {
    return shift.known();
  }

  /**
   * Transforms a point of the map to {longitude, latitude} on the reference datum (degrees); NaN
   * outside the domain of the projection.
   *
   * @param x east coordinate in the unit of the map
   * @param y north coordinate in the unit of the map
   * @throws IllegalStateException if the map is tied to no body
   */
  public double[] toLonLat(double x, double y) {
    double[] at = map.toLonLat(x, y);
    shift.toWorld(at);
    return at;
  }

  /**
   * Transforms a point of the reference datum to {x, y} of the map, in its unit.
   *
   * @param lonDeg longitude, positive to the east (degrees)
   * @param latDeg geodetic latitude (degrees)
   * @throws IllegalStateException if the map is tied to no body
   */
  public double[] fromLonLat(double lonDeg, double latDeg) {
    double[] at = {lonDeg, latDeg};
    shift.fromWorld(at);
    return map.fromLonLat(at[0], at[1]);
  }
}

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

  public MapCrs map() {
    return map;
  }

  public DatumShift shift() {
    return shift;
  }

  /** True if longitude and latitude are known. */
  public boolean known() {
    return shift.known();
  }

  public double[] toLonLat(double x, double y) {
    double[] at = map.toLonLat(x, y);
    shift.toWorld(at);
    return at;
  }

  public double[] fromLonLat(double lonDeg, double latDeg) {
    double[] at = {lonDeg, latDeg};
    shift.fromWorld(at);
    return map.fromLonLat(at[0], at[1]);
  }
}

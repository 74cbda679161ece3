package org.scarpway.geodata.crs;

/** Function from map coordinates to longitude and latitude (degrees), east and north positive. */
@FunctionalInterface
public interface LonLat {
  /** The function of a map that is tied to no body: always null. */
  LonLat NONE = (x, y) -> null;

  /** Returns {longitude, latitude}, or null if the point has none. */
  double[] at(double x, double y);
}

package org.scarpway.geodata.crs;

/** From map coordinates to longitude and latitude (degrees), east and north positive. */
@FunctionalInterface
public interface LonLat {
  /** No place has a longitude and latitude. */
  LonLat NONE = (x, y) -> null;

  /** {longitude, latitude}, or null where there is none. */
  double[] at(double x, double y);
}

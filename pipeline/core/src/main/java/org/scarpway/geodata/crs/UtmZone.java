package org.scarpway.geodata.crs;

/**
 * Zone of the Universal Transverse Mercator grid at a place on Earth: 60 zones of 6 degrees from
 * 180 degrees west, between 80 degrees south and 84 degrees north, with the exceptions about
 * Norway's west coast and Svalbard (NGA.SIG.0012_2.0.0_UTMUPS, 2014, <i>The Universal Grids and the
 * Transverse Mercator and Polar Stereographic Map Projections</i>).
 */
public final class UtmZone {
  private UtmZone() {}

  /** Returns the zone's number and hemisphere, such as 33N; empty where there is no zone. */
  public static String at(double lonDeg, double latDeg) {
    if (!(latDeg >= -80 && latDeg <= 84) || !Double.isFinite(lonDeg)) {
      return "";
    }
    double lon = lonDeg - 360 * Math.floor((lonDeg + 180) / 360);
    int zone = (int) ((lon + 180) / 6) + 1;
    if (latDeg >= 56 && latDeg < 64 && lon >= 3 && lon < 12) {
      zone = 32;
    } else if (latDeg >= 72 && lon >= 0 && lon < 42) {
      zone = lon < 9 ? 31 : lon < 21 ? 33 : lon < 33 ? 35 : 37;
    }
    return zone + (latDeg < 0 ? "S" : "N");
  }
}

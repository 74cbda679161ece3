package org.scarpway.config;

/** A place as a file writes it: metres of the DEM's reference system, or lon/lat degrees. */
record Point(double x, double y, boolean lonLat) {

  /**
   * @param entry sound: [x, y] or {lon, lat}
   */
  static Point of(Entry entry) {
    if (entry.isMapping()) {
      return new Point(entry.number("lon"), entry.number("lat"), true);
    }
    return new Point(entry.items().get(0).number(), entry.items().get(1).number(), false);
  }
}

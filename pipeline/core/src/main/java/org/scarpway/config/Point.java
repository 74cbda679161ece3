package org.scarpway.config;

/**
 * A place as a file writes it: in the raster's own reference system and unit, or lon/lat degrees.
 */
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

package org.scarpway.config;

/**
 * A position as written in a file: in the raster's own reference system and unit, or in lon/lat
 * degrees.
 */
record Point(double x, double y, boolean lonLat) {

  /**
   * @param entry a valid entry: [x, y] or {lon, lat}
   */
  static Point of(Entry entry) {
    if (entry.isMapping()) {
      return new Point(entry.number("lon"), entry.number("lat"), true);
    }
    return new Point(entry.items().get(0).number(), entry.items().get(1).number(), false);
  }
}

package org.scarpway.report;

import java.util.List;
import org.locationtech.jts.geom.Geometry;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.grid.GridSpec;

/**
 * The ground of a figure.
 *
 * @param shade relief of all ground
 * @param keepOut null or empty if there is none
 * @param ellipses outlines of landing ellipses
 * @param notes what the legend tells of the ground
 */
record PlateGround(
    GridSpec spec,
    LonLat lonLat,
    Layer.Image shade,
    Geometry keepOut,
    List<Geometry> ellipses,
    List<String> notes) {
  PlateGround {
    ellipses = List.copyOf(ellipses);
    notes = List.copyOf(notes);
  }

  boolean hasKeepOut() {
    return keepOut != null && !keepOut.isEmpty();
  }
}

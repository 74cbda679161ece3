package org.scarpway.report;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.util.PolygonExtracter;
import org.scarpway.vehicle.ShownMobility;

/** Keep-out areas with their names and reasons, for what the page tells of a picked place. */
final class MapKeepOut {
  /** Most vertices of all areas together: about 400 kB of the page. */
  static final int MOST_VERTICES = 20_000;

  private MapKeepOut() {}

  static void add(Ground ground, ObjectNode map) {
    KeepOutAreas all = ground.data.keepOuts();
    if (all.areas().isEmpty()) {
      return;
    }
    ObjectNode node = map.putObject("keepOutAreas");
    if (all.areas().stream().mapToLong(a -> a.area().getNumPoints()).sum() > MOST_VERTICES) {
      node.put("leftOut", true);
      return;
    }
    ArrayNode closes = node.putArray("closes");
    for (ShownMobility m : ground.data.mobility()) {
      double keepsM = all.marginM() + m.vehicle().body().widthM() / 2;
      closes.addObject().put("name", m.vehicle().name()).put("m", keepsM);
    }
    MapLines lines = new MapLines(ground.spec);
    ArrayNode areas = node.putArray("areas");
    for (KeepOutAreas.Area a : all.areas()) {
      ArrayNode polygons = areas.addObject().put("says", a.words()).putArray("polygons");
      for (Object p : PolygonExtracter.getPolygons(a.area())) {
        lines.exactOutlines(polygons.addArray(), (Polygon) p);
      }
    }
  }
}

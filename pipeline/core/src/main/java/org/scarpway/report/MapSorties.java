package org.scarpway.report;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import org.scarpway.report.SortieAnswer.Point;
import org.scarpway.report.SortieAnswer.Way;
import org.scarpway.report.TilePack.Halving;

/** What the map shows of sorties: the rings of their days, and the ways of each day. */
final class MapSorties {
  private MapSorties() {}

  static void add(Ground ground, MapParts parts, ArrayNode sorties) {
    for (int k = 0; k < ground.data.sorties().size(); k++) {
      int i = k;
      SortieData s = ground.data.sorties().get(i);
      String name = s.rings().request().name();
      ObjectNode n = sorties.addObject().put("name", name).put("vehicle", s.rings().vehicle());
      String stage = ground.data.keys().get("sortie/" + name);
      parts.add("sortie-" + i, stage, n, part -> add(ground, part, n, s, i));
    }
  }

  private static void add(Ground ground, MapParts.Part part, ObjectNode n, SortieData s, int i) {
    int days = s.rings().request().days();
    n.put("days", days).put("base", s.rings().request().baseName());
    n.put(
        "rings",
        part.add(
                MapLayer.classes(
                    "rings-" + i,
                    "day of arrival, and home by day " + days,
                    SortieRings.codes(s.rings()),
                    SortieRings.styles(days),
                    Halving.WORST_BAND,
                    8,
                    MapLayer.group("sortie " + i)))
            .id);
    ArrayNode ways = n.putArray("ways");
    for (Way w : s.plan() == null ? List.<Way>of() : s.plan().ways()) {
      ArrayNode line = ways.addObject().put("day", w.day()).putArray("line");
      for (Point p : w.line()) {
        line.add(MapLines.number(p.xM() - ground.spec.westM(), 1));
        line.add(MapLines.number(ground.spec.northM() - p.yM(), 1));
      }
    }
  }
}

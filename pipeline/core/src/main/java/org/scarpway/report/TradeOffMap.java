package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.CorridorResult.TradeOff;
import org.scarpway.report.Section.Line;
import org.scarpway.report.Section.MapView;

/**
 * The map of the alternative routes that trade time, energy and hazard; each line carries the name
 * used in the table.
 */
final class TradeOffMap {
  private TradeOffMap() {}

  /** Returns the map, or none if there are no alternatives. */
  static List<MapView> of(Ground ground, CorridorResult corridor, Layer layer) {
    List<TradeOff> ways = corridor.tradeOffs();
    if (ways.size() < 2) {
      return List.of();
    }
    MapLabels labels = new MapLabels(ground.spec);
    corridor.request().via().forEach(s -> labels.add(s.xM(), s.yM(), "stop", s.name()));
    List<Line> lines = new ArrayList<>();
    for (int i = 0; i < ways.size(); i++) {
      TradeOff way = ways.get(i);
      String name = "T" + (i + 1);
      lines.add(
          new Line(
              "alt trade trade" + (i % 4 + 1),
              SvgPath.line(ground.spec, way.line()),
              name
                  + ": "
                  + Figures.fixed(way.timeS() / 60, 1)
                  + " min"
                  + ", "
                  + Figures.energy(way.energyJ())
                  + ", hazard "
                  + Figures.sig(way.hazardM())
                  + " m"));
      // The labels are staggered along the routes, so that names of parallel routes do not overlap.
      ProfilePoint at = way.line().get((int) ((i + 1.0) / (ways.size() + 1) * way.line().size()));
      labels.add(at.xM(), at.yM(), MapLabels.ON_LINE, name);
    }
    return List.of(
        new MapView(
            "trade-" + layer.id(),
            layer,
            "Trade-offs: none of these ways is better than another in time, energy and hazard at"
                + " once.",
            labels,
            lines));
  }
}

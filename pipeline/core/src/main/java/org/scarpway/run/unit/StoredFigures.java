package org.scarpway.run.unit;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.scarpway.site.SiteFigure;
import org.scarpway.site.SiteFigures;

/**
 * The figures of a candidate as stored: in the order of {@link SiteFigure}, so that equal figures
 * are stored as equal bytes.
 */
record StoredFigures(
    String name,
    double xM,
    double yM,
    List<Double> values,
    List<SiteFigures.ReachedArea> areas,
    double voidPct) {

  static StoredFigures of(SiteFigures s) {
    List<Double> values = new ArrayList<>();
    for (SiteFigure f : SiteFigure.values()) {
      values.add(s.value(f));
    }
    return new StoredFigures(s.name(), s.xM(), s.yM(), values, s.areas(), s.voidPct());
  }

  SiteFigures figures() {
    Map<SiteFigure, Double> byFigure = new EnumMap<>(SiteFigure.class);
    for (SiteFigure f : SiteFigure.values()) {
      byFigure.put(f, values.get(f.ordinal()));
    }
    return new SiteFigures(name, xM, yM, byFigure, areas, voidPct);
  }
}

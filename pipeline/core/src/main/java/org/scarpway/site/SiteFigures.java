package org.scarpway.site;

import java.util.List;
import java.util.Map;

/**
 * The measured figures of one candidate, before any ranking.
 *
 * @param values one value per figure, NaN if it does not apply; a distance is infinite if there is
 *     no no-go ground
 * @param voidPct share (%) of the ellipse without elevation or outside the grid
 */
public record SiteFigures(
    String name,
    double xM,
    double yM,
    Map<SiteFigure, Double> values,
    List<ReachedArea> areas,
    double voidPct) {

  /** Plan area (m2) reached in the answer to one question. */
  public record ReachedArea(String question, double surelyM2, double possiblyM2) {}

  public SiteFigures {
    values = Map.copyOf(values);
    areas = List.copyOf(areas);
  }

  public double value(SiteFigure figure) {
    return values.get(figure);
  }
}
